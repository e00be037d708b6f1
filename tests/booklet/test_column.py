"""Pieces below each other: what stays together, what begins a page."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Options, Paper
from app.booklet.bind import open_book
from app.booklet.column import Piece, column_pages, packed, point, section, text
from tests.booklet.sample import content, issue, season

BOOK = open_book(issue(season(1)), content(), Options(paper=Paper.A5))


def nothing(_sheet, _y) -> None:
    """Draws nothing."""


PIECES = st.lists(
    st.builds(Piece, st.floats(1, 60), st.just(nothing), st.floats(0, 8), st.booleans()),
    max_size=30,
)


@given(PIECES)
def test_every_piece_stands_once_in_its_order_and_no_page_is_too_full(pieces):
    room = 100.0
    pages = packed(pieces, room)
    assert [one.height for page in pages for one in page] == [one.height for one in pieces]
    for page in pages:
        runs = sum(not one.leads for one in page)
        if runs > 1:
            assert sum(one.gap + one.height for one in page) <= room + 1e-6


@given(PIECES)
def test_what_leads_stands_beside_what_it_leads_to(pieces):
    pages = packed(pieces, 100.0)
    for page in pages[:-1]:
        assert not page or not page[-1].leads


def test_the_room_above_a_piece_is_dropped_at_the_top_of_a_page():
    pages = packed([Piece(90.0, nothing, 5.0), Piece(50.0, nothing, 5.0)], 100.0)
    assert [page[0].gap for page in pages] == [0.0, 0.0]


def test_longer_texts_are_taller_and_a_source_number_has_room():
    short, long = text(BOOK, "word"), text(BOOK, "word " * 60)
    assert long.height > short.height
    assert point(BOOK, "word " * 40, cites=("a", "b")).height >= point(BOOK, "word " * 40).height
    assert section(BOOK, "Title", "rest " * 40).height > section(BOOK, "Title", "rest").height


def test_the_first_page_has_the_title_in_the_outline_and_the_others_go_on():
    pages = list(column_pages(BOOK, "key", "Title", [Piece(100.0, nothing)] * 3))
    assert [page.key for page in pages] == ["key", "key-1", "key-2"]
    assert [page.title for page in pages] == ["Title", "", ""]
