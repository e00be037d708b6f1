"""Rows: boxes large enough to write in, one for every set."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Options, Paper
from app.booklet.bind import open_book
from app.booklet.row import (
    ROOMY_MM,
    TIGHT_MM,
    cell_boxes,
    columns,
    lay_out_rows,
    load_cell,
)
from app.booklet.warmup_text import ramp_of
from app.domain.client import Client, ClientId
from app.domain.exercise import Catalogue
from app.domain.program import MAX_SETS
from tests.booklet.sample import TAUGHT, WIDE, content, issue, lifter
from tests.builders import program

LEAST_WIDE_MM, LEAST_TALL_MM = 15.0, 8.5  # three letters by hand at three lines to the inch


@given(st.integers(1, MAX_SETS), st.sampled_from([ROOMY_MM, TIGHT_MM]))
def test_every_set_has_a_box_for_load_and_one_for_reps_large_enough_for_a_hand(sets, row_mm):
    cells = cell_boxes(sets, 122.0, row_mm=row_mm)
    assert len(cells) == sets
    for upper, lower in cells:
        for box in (upper, lower):
            assert box.width >= LEAST_WIDE_MM
            assert box.height >= LEAST_TALL_MM - 1e-9
            assert box.right <= 182.0
        assert lower.y == pytest.approx(upper.bottom)
        assert lower.x == upper.x


@given(st.integers(1, MAX_SETS))
def test_no_two_boxes_overlap(sets):
    boxes = [box for pair in cell_boxes(sets, 0.0, row_mm=TIGHT_MM) for box in pair]
    for number, one in enumerate(boxes):
        for other in boxes[:number]:
            apart = one.x >= other.right - 1e-9 or other.x >= one.right - 1e-9
            apart = apart or one.y >= other.bottom - 1e-9 or other.y >= one.bottom - 1e-9
            assert apart


def rows_of(text: str, paper: Paper = Paper.A4, row_mm: float = TIGHT_MM, **client):
    whole = program(text)
    book = open_book(issue(whole, lifter(**client)), content(), Options(paper=paper))
    session = next(session for _, session in whole.weeks[0].sessions())
    return book, lay_out_rows(book, session.slots, row_mm=row_mm)


@pytest.mark.parametrize("paper", WIDE)
def test_the_boxes_end_at_the_right_edge_of_the_frame(paper: Paper):
    book, (row,) = rows_of("Mon: back_squat 4x5", paper)
    assert row.cells[3][0].right == pytest.approx(book.frame.width)
    assert row.height == TIGHT_MM


def test_six_sets_go_on_in_a_second_row_of_the_same_height():
    _, (four, six) = rows_of("Mon: back_squat 4x5, leg_press 6x10")
    assert six.height > four.height + 2 * LEAST_TALL_MM
    assert six.cells[4][0].x == six.cells[0][0].x
    assert six.cells[5][0].height == four.cells[0][0].height


def test_exercises_of_a_pair_are_joined_and_marked_in_turn():
    _, rows = rows_of(
        "Mon: back_squat 3x5, curl 3x10 pair A, plank 2x30 pair A, crunch 2x12 pair B"
    )
    assert [row.mark for row in rows] == ["", "A1", "A2", ""]
    assert [row.joins for row in rows] == [False, False, True, False]


def test_a_long_name_makes_its_row_taller_and_stays_whole():
    name = "Rear foot raised split squat with two kettlebells held at the shoulders and a pause"
    catalogue = Catalogue(
        tuple(replace(e, name=name) if e.key == "split_squat" else e for e in TAUGHT)
    )
    whole = program("Mon: split_squat 2x8")
    book = open_book(issue(whole, catalogue=catalogue), content(catalogue=catalogue), Options())
    (row,) = lay_out_rows(book, tuple(whole.weeks[0].slots()), row_mm=TIGHT_MM)
    assert " ".join(row.name) == name
    assert row.height > TIGHT_MM
    assert row.first + len(row.name) * 4.5 < row.height


@pytest.mark.parametrize(
    ("text", "number", "words"),
    [
        ("back_squat 3x8", "62.5", "kg"),
        ("step_up 3x8", None, "kg\u00a0each\u00a0hand"),
        ("calf_raise 3x8", None, "kg\u00a0on\u00a0the\u00a0stack"),
        ("leg_press 3x8", "", "find it"),
        ("leg_press 3x8 80kg", "80", "kg\u00a0on\u00a0the\u00a0sledge"),
        ("plank 2x30", "–", "body\u00a0only"),
        ("push_up 3x12", "–", "body\u00a0only"),
        ("band_walk 2x12", "", "band"),
        ("chin_up 3x5 10kg", "10", "kg\u00a0added"),
        ("curl 3x10", "", "find it"),
    ],
)
def test_the_load_is_printed_in_the_exercises_own_terms(text, number, words):
    book, (row,) = rows_of(f"Mon: {text}")
    cell = load_cell(book, row.slot, row.exercise)
    assert cell.words == words
    if number is None:
        assert float(cell.number) == book.loads[row.slot.id]
    elif text == "back_squat 3x8":
        assert float(cell.number) == book.loads[row.slot.id] > 20
    else:
        assert cell.number == number
    assert (cell.leads_to == "loads") == (words == "find it")


@pytest.mark.parametrize(
    ("load_kg", "number", "words"),
    [
        (0.0, "–", "body\u00a0only"),
        (-10.0, "10", "kg\u00a0of\u00a0help"),
        (7.5, "7.5", "kg\u00a0added"),
    ],
)
def test_own_weight_and_help_are_printed_as_such(load_kg, number, words):
    book, (row,) = rows_of("Mon: chin_up 3x8 core")
    helped = replace(book, loads={row.slot.id: load_kg})
    cell = load_cell(helped, row.slot, row.exercise)
    assert (cell.number, cell.words) == (number, words)
    assert ramp_of(helped, row.slot, row.exercise) == ()


def test_a_load_in_pounds_is_converted():
    book, (row,) = rows_of("Mon: back_squat 3x8 100kg", units="lb")
    assert load_cell(book, row.slot, row.exercise).number == "220.5"  # 100 / 0.45359237


def test_columns_give_what_letter_has_more_to_the_name():
    a4, letter = columns(182.0), columns(187.9)
    assert letter.dose - letter.name == pytest.approx(a4.dose - a4.name + 5.9)
    assert letter.cells - letter.dose == pytest.approx(a4.cells - a4.dose)


def test_a_client_without_tests_finds_a_line_to_write_on():
    whole = program("Mon: back_squat 3x5")
    book = open_book(issue(whole, Client(ClientId("x"), "Bo")), content(), Options())
    (row,) = lay_out_rows(book, tuple(whole.weeks[0].slots()), row_mm=TIGHT_MM)
    assert load_cell(book, row.slot, row.exercise).number == ""
