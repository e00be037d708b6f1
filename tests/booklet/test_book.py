"""Frames, notes and names that fit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Options, Paper
from app.booklet.bind import open_book
from app.booklet.book import cut_short, frame_of, left_edge_mm, margins_mm, note_in_lines
from app.booklet.fonts import CELL, LABEL
from app.domain.exercise import Muscle
from tests.booklet.sample import content, issue
from tests.builders import program

BOOK = open_book(issue(program("Mon: curl 3x8")), content(), Options())


def test_the_spine_is_on_the_left_of_odd_pages_and_on_the_right_of_even_ones():
    for paper in Paper:
        spine, outer = margins_mm(paper)
        frame = frame_of(paper)
        assert left_edge_mm(1, paper) == spine >= outer == left_edge_mm(2, paper)
        assert paper.width_mm - left_edge_mm(2, paper) - frame.width == pytest.approx(spine)
    assert margins_mm(Paper.A4) == margins_mm(Paper.LETTER) == (16, 12)
    assert frame_of(Paper.A4).width == 182


@given(st.text("abc dé", max_size=80), st.floats(5, 60))
def test_a_name_on_a_foot_line_fits_or_ends_in_an_ellipsis(text, width):
    cut = cut_short(BOOK, text, width)
    assert BOOK.faces.width_mm(cut, LABEL) <= width
    assert cut.endswith("…") or cut == " ".join(text.split())


def test_a_note_keeps_its_own_lines():
    assert note_in_lines(BOOK, "one\n\ntwo", style=CELL, width=80) == ("one", "two")


def test_a_plain_name_comes_from_the_caller_first():
    book = open_book(BOOK.issue, content(muscles={Muscle.CHEST: "breast"}), Options())
    assert book.muscle(Muscle.CHEST) == "breast"
    assert book.muscle(Muscle.BICEPS) == "front of the upper arm"
