"""Rows of a column: a box for each set, or a line of fields."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Kind, Options, Paper
from app.booklet.bind import open_book
from app.booklet.slim_row import cell_mm, how_text, lay_out, set_columns
from tests.booklet.sample import TAUGHT, content, issue
from tests.builders import program

A5, LARGE = Options(paper=Paper.A5), Options(large=True)
FORM, PHONE = Options(kind=Kind.FORM), Options(kind=Kind.FORM, paper=Paper.PHONE)


def rows_of(text: str, options: Options):
    whole = program(text)
    book = open_book(issue(whole), content(), options)
    return book, lay_out(book, whole.weeks[0].days[0].sessions[0].slots)


@given(st.integers(1, 20), st.sampled_from([A5, LARGE, FORM, PHONE]))
def test_every_set_has_its_boxes_inside_the_frame_and_none_lies_on_another(sets, options):
    book, rows = rows_of(f"Mon: back_squat {sets}x5", options)
    assert sum(len(row.cells) for row in rows) == sets
    assert [number for row in rows for number in row.sets] == list(range(sets))
    for row in rows:
        boxes = [box for pair in row.cells for box in pair]
        assert all(box.x >= 0 and box.right <= book.frame.width + 0.01 for box in boxes)
        assert all(box.y >= 0 and box.bottom <= row.height for box in boxes)
        assert row.height <= book.frame.room - 30
        for at, one in enumerate(boxes):
            for other in boxes[:at]:
                apart = one.x >= other.right - 0.01 or other.x >= one.right - 0.01
                assert apart or one.y >= other.bottom - 0.01 or other.y >= one.bottom - 0.01


def test_boxes_are_large_enough_to_write_in():
    book, _ = rows_of("Mon: curl 3x8", A5)
    wide, tall = cell_mm(book)
    assert wide >= 15
    assert tall >= 8.5
    book, _ = rows_of("Mon: curl 3x8", LARGE)
    wide, tall = cell_mm(book)
    assert (wide * book.zoom, tall * book.zoom) == pytest.approx((18, 12))


def test_large_print_has_the_sizes_it_promises():
    book, _ = rows_of("Mon: curl 3x8", LARGE)
    assert 11 * book.zoom == pytest.approx(16)
    assert book.label.size * book.zoom == pytest.approx(14)
    assert book.figure.size * book.zoom == pytest.approx(18)


def test_a_form_has_four_fields_a_set_that_a_finger_can_hit():
    for options in (FORM, PHONE):
        book, (row,) = rows_of("Mon: curl 3x8", options)
        for boxes in row.cells:
            assert len(boxes) == 4
            assert all(box.height >= 8 for box in boxes)
            assert all(box.width >= 12 for box in boxes)
        assert sum(wide for _, wide in set_columns(book.frame.width)) < book.frame.width


def test_pairs_are_marked_in_turn():
    _, rows = rows_of("Mon: curl 3x8 pair A, plank 2x30 pair A, back_squat 3x5", A5)
    assert [row.mark for row in rows] == ["A1", "A2", ""]


def test_effort_rest_and_tempo_stand_on_one_line():
    _, (row,) = rows_of("Mon: back_squat 3x5 RIR 2 rest 150 tempo 3-0-1-0", A5)
    said = how_text(row.slot, TAUGHT[row.slot.exercise]).replace("\u00a0", " ")
    assert said.split("  ·  ") == ["RIR 2", "rest 2:30", "tempo 3-0-1-0"]
