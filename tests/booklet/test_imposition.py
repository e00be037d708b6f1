from __future__ import annotations

from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from app.booklet.content import Paper
from app.booklet.imposition import fold, impose, sheet_size
from app.booklet.pen import PT
from app.domain.errors import CoachError


def unfolded(sides: tuple[tuple[int | None, int | None], ...]) -> list[int | None]:
    """The pages as a reader turns them, from a gathering that is folded in the hand."""
    fronts, backs = sides[::2], sides[1::2]
    first: list[int | None] = []
    last: list[int | None] = []
    for (outer_right, outer_left), (inner_left, inner_right) in zip(fronts, backs, strict=True):
        first += [outer_left, inner_left]
        last = [inner_right, outer_right, *last]
    return first + last


@given(st.integers(1, 400), st.integers(1, 20))
def test_folding_the_sheets_gives_the_pages_in_order(pages: int, thickest: int) -> None:
    folding = fold(pages, thickest=thickest)
    read: list[int | None] = []
    at = 0
    for size in folding.gatherings:
        read += unfolded(folding.sides[at : at + 2 * size])
        at += 2 * size
    assert [number for number in read if number is not None] == list(range(1, pages + 1))
    assert len(read) == 4 * folding.sheets < pages + 4


@given(st.integers(1, 400), st.integers(1, 20))
def test_gatherings_are_thin_and_alike(pages: int, thickest: int) -> None:
    sizes = fold(pages, thickest=thickest).gatherings
    assert max(sizes) <= thickest
    assert max(sizes) - min(sizes) <= 1


def test_eight_pages_lie_as_binders_lay_them() -> None:
    # a fold of two sheets: outer 8 1 | 2 7, inner 6 3 | 4 5 (common practice)
    assert fold(8).sides == ((8, 1), (2, 7), (6, 3), (4, 5))


def test_nothing_to_fold_is_refused() -> None:
    with pytest.raises(CoachError, match="no pages"):
        fold(0)


def numbered(paper: Paper, pages: int) -> bytes:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(paper.width_mm * PT, paper.height_mm * PT))
    for number in range(1, pages + 1):
        canvas.drawString(100, 100, f"page-{number}")
        canvas.showPage()
    canvas.save()
    return out.getvalue()


@pytest.mark.parametrize("paper", list(Paper))
def test_pages_stand_in_pairs_on_sheets_of_a_common_size(paper: Paper) -> None:
    made = PdfReader(BytesIO(impose(numbered(paper, 6), paper)))
    assert len(made.pages) == 4
    wide, tall, _ = sheet_size(paper)
    for page in made.pages:
        size = sorted(float(side) / PT for side in page.mediabox[2:])
        assert size == pytest.approx(sorted((wide, tall)), abs=0.1)
        assert page.mediabox.width > page.mediabox.height
    found = [sorted(page.extract_text().split()) for page in made.pages]
    assert found == [["page-1"], ["page-2"], ["page-3", "page-6"], ["page-4", "page-5"]]


@pytest.mark.parametrize("paper", list(Paper))
def test_a_page_keeps_its_shape_and_fits_its_half(paper: Paper) -> None:
    wide, tall, scale = sheet_size(paper)
    assert 0 < scale <= 1
    assert paper.width_mm * scale <= max(wide, tall) / 2 + 1e-9
    assert paper.height_mm * scale <= min(wide, tall) + 1e-9
