from __future__ import annotations

from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from app import resources
from app.booklet.content import Paper
from app.booklet.flow import Block, Ground, Heading, on_pages, print_flow
from app.booklet.fonts import BookletError, open_faces
from app.booklet.pen import Pen


def nothing(_pen: Pen, _y: float) -> None:
    pass


blocks = st.lists(
    st.builds(Block, height=st.floats(0.5, 60), draw=st.just(nothing), leads=st.booleans()),
    max_size=40,
)


@given(blocks)
def test_every_block_stands_once_and_in_order(made: list[Block]) -> None:
    pages = on_pages(made, 100.0)
    assert [block for page in pages for block in page] == made


@given(blocks)
def test_no_page_but_one_of_a_single_run_is_fuller_than_its_room(made: list[Block]) -> None:
    for page in on_pages(made, 100.0):
        runs = sum(not block.leads for block in page)
        assert sum(block.height for block in page) <= 100.0 + 1e-6 or runs <= 1


@given(blocks)
def test_what_leads_never_stands_last_on_a_page_that_is_followed(made: list[Block]) -> None:
    for page in on_pages(made, 100.0)[:-1]:
        assert not page[-1].leads


@pytest.fixture(scope="module")
def ground() -> Ground:
    return Ground(open_faces(resources.path_of("fonts")))


def printed(ground: Ground, heading: Heading, blocks: list[Block]) -> PdfReader:
    return PdfReader(BytesIO(print_flow(ground, heading, blocks)))


def test_pages_are_counted_and_carry_head_and_foot(ground: Ground) -> None:
    parts = [ground.paragraph(f"Line {number}") for number in range(60)]
    found = printed(ground, Heading("A paper", "today", "for nobody"), parts)
    assert len(found.pages) > 1
    for number, page in enumerate(found.pages, start=1):
        text = page.extract_text()
        for part in ("A paper", "today", "for nobody", f"page {number} of {len(found.pages)}"):
            assert part in text


def test_a_wide_paper_lies_on_its_long_edge(ground: Ground) -> None:
    wide = Ground(ground.faces, Paper.LETTER, wide=True)
    page = printed(wide, Heading("A paper"), [wide.paragraph("text")]).pages[0]
    assert page.mediabox.width > page.mediabox.height
    assert wide.width > wide.room


def test_letters_without_a_font_stop_the_print(ground: Ground) -> None:
    with pytest.raises(BookletError, match="CJK"):
        print_flow(ground, Heading("A paper"), [ground.paragraph("漢")])
