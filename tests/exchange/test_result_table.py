"""Tables of results are read by their headings, row by row, and what cannot be read is named."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import resources
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.results import SetDone, SlotResult
from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.words import words_from_table
from app.exchange.result_table import (
    DayOrder,
    Reading,
    day_order,
    guess_reading,
    header_mark,
    place,
    read_day,
    read_rows,
    with_part,
)
from app.exchange.sheets.reading import read_book
from app.exchange.sheets.sheet import Cell, Sheet
from app.exchange.tables.csv_file import write_csv
from app.exchange.tables.results_table import results_table
from tests import builders

WORDS = words_from_table(resources.read_toml("table_words.toml"))
SQUAT = ExerciseKey("back_squat")
PLAN = builders.program("Mon: back_squat 3x8 | Thu: back_squat 3x5, leg_curl 3x12", times=2)
PLAN = replace(PLAN, start=date(2026, 10, 12))
MONDAY = PLAN.start


def sheet_of(text: str, encoding: str = "utf-8") -> Sheet:
    return read_book(text.encode(encoding), source="log.csv").sheets[0]


ENGLISH = """Date,Exercise,Weight (kg),Reps,RIR,Notes
2026-10-12,Back squat,60,8,2,easy
2026-10-12,Back squat,62.5,8,1,
,,62.5,7,1,
2026-10-15,Leg curl,30,12,,
"""

GERMAN = """Datum;Übung;Gewicht kg;Wdh;RIR
12.10.2026;Kniebeuge;62,5;8;2
15.10.2026;Kniebeuge;70;5;1,5
"""


def test_headings_tell_what_the_columns_hold() -> None:
    reading = guess_reading(sheet_of(ENGLISH), WORDS)
    assert reading.head == 0
    assert reading.columns == {
        Part.DATE: 0,
        Part.EXERCISE: 1,
        Part.LOAD: 2,
        Part.REPS: 3,
        Part.RIR: 4,
        Part.NOTE: 5,
    }
    assert (reading.order, reading.unit) == (DayOrder.YMD, "kg")
    assert reading.lacks == ()


def test_rows_are_sets_and_what_is_left_empty_is_that_of_the_row_above() -> None:
    sheet = sheet_of(ENGLISH)
    entries, faults = read_rows(sheet, guess_reading(sheet, WORDS))
    assert faults == ()
    assert [(e.line, e.day, e.name) for e in entries] == [
        (2, date(2026, 10, 12), "Back squat"),
        (3, date(2026, 10, 12), "Back squat"),
        (4, date(2026, 10, 12), "Back squat"),
        (5, date(2026, 10, 15), "Leg curl"),
    ]
    assert entries[0].sets == (SetDone(60.0, 8, 2.0),)
    assert entries[0].note == "easy"


@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "utf-16"])
def test_decimal_commas_semicolons_and_encodings_are_read(encoding: str) -> None:
    sheet = sheet_of(GERMAN, encoding)
    reading = guess_reading(sheet, WORDS)
    assert reading.order is DayOrder.DMY
    entries, faults = read_rows(sheet, reading)
    assert faults == ()
    assert [e.sets[0] for e in entries] == [SetDone(62.5, 8, 2.0), SetDone(70.0, 5, 1.5)]


def test_dates_under_the_heading_day_are_the_date() -> None:
    for days in ((date(2026, 11, 24), date(2026, 11, 26)), ("24.11.2026", "26.11.2026")):
        rows: tuple[tuple[Cell, ...], ...] = (
            ("Day", "Exercise", "Reps"),
            *((day, "Squat", 5) for day in days),
        )
        reading = guess_reading(Sheet("a", rows), WORDS)
        assert reading.columns[Part.DATE] == 0
        assert not reading.lacks
    rows = (("Day", "Exercise", "Reps"), ("Mon", "Squat", 5), ("Thu", "Squat", 5))
    assert Part.DATE not in guess_reading(Sheet("a", rows), WORDS).columns


def test_pounds_in_the_heading_count() -> None:
    sheet = sheet_of("Date,Exercise,Weight (lb),Reps\n2026-10-12,Squat,100,5\n")
    entries, _ = read_rows(sheet, guess_reading(sheet, WORDS))
    assert entries[0].sets[0].load_kg == pytest.approx(45.359237)


def test_a_row_of_several_sets_is_as_many_sets() -> None:
    sheet = sheet_of("Date,Exercise,Sets,Weight,Reps\n2026-10-12,Squat,3,60,8\n")
    entries, _ = read_rows(sheet, guess_reading(sheet, WORDS))
    assert entries[0].sets == (SetDone(60.0, 8),) * 3


def test_a_row_without_figures_says_that_it_was_left_out() -> None:
    sheet = sheet_of("Date,Exercise,Weight,Reps,Notes\n2026-10-12,Squat,,,knee\n")
    entries, faults = read_rows(sheet, guess_reading(sheet, WORDS))
    assert (entries[0].sets, entries[0].note) == ((), "knee")
    assert faults == ()


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("2026-10-12,Squat,heavy,8,2", "'heavy' is not a number"),
        ("2026-10-12,Squat,60,eight,2", "'eight' is not a number"),
        ("2026-10-12,Squat,60,,2", "repetitions are missing"),
        ("soon,Squat,60,8,2", "'soon' is no day"),
        ("2026-10-12,Squat,60,8,30", "reserve"),
        ("2026-13-40,Squat,60,8,2", "is no day"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_by_its_line(row: str, said: str) -> None:
    sheet = sheet_of(f"Date,Exercise,Weight,Reps,RIR\n{row}\n2026-10-13,Squat,60,8,2\n")
    entries, faults = read_rows(sheet, guess_reading(sheet, WORDS))
    assert [e.line for e in entries] == [3]
    (fault,) = faults
    assert fault.line == 2
    assert said in fault.error.sentence


def test_without_the_columns_it_needs_nothing_is_read() -> None:
    sheet = sheet_of("Date,Exercise,Weight\n2026-10-12,Squat,60\n")
    reading = guess_reading(sheet, WORDS)
    assert reading.lacks == (Part.REPS,)
    with pytest.raises(CoachError, match="Not every column"):
        read_rows(sheet, reading)
    assert with_part(reading, Part.REPS, 2).lacks == ()
    assert Part.LOAD not in with_part(reading, Part.REPS, 2).columns
    assert with_part(reading, Part.DATE, None).lacks == (Part.DATE, Part.REPS)


@pytest.mark.parametrize(
    ("cell", "order", "day"),
    [
        ("2026-10-12", DayOrder.YMD, date(2026, 10, 12)),
        ("2026-10-12 18:30", DayOrder.YMD, date(2026, 10, 12)),
        ("12.10.26", DayOrder.DMY, date(2026, 10, 12)),
        ("10/12/2026", DayOrder.MDY, date(2026, 10, 12)),
        ("12 Oct 2026", DayOrder.MDY, date(2026, 10, 12)),
        (date(2026, 10, 12), DayOrder.DMY, date(2026, 10, 12)),
    ],
)
def test_days_are_read_in_their_order(cell, order: DayOrder, day: date) -> None:
    assert read_day(cell, order) == day


def test_the_order_of_days_is_found_where_figures_tell_it() -> None:
    assert day_order(["13/10/2026", "1/2/2026"]) == (DayOrder.DMY, True)
    assert day_order(["10/13/2026"]) == (DayOrder.MDY, True)
    assert day_order(["3/4/2026"]) == (DayOrder.DMY, False)
    assert day_order([date(2026, 1, 1)]) == (DayOrder.YMD, True)


@given(st.dates(date(2000, 1, 1), date(2099, 12, 31)), st.sampled_from(DayOrder))
def test_every_day_is_read_as_it_was_written(day: date, order: DayOrder) -> None:
    parts = {"y": f"{day.year}", "m": f"{day.month}", "d": f"{day.day}"}
    assert read_day("/".join(parts[sign] for sign in order.value), order) == day


def test_results_go_to_the_slot_of_their_week_planned_nearest() -> None:
    sheet = sheet_of(
        "Date,Exercise,Weight,Reps\n"
        "2026-10-12,Squat,60,8\n"
        "2026-10-12,Squat,60,8\n"
        "2026-10-16,Squat,70,5\n"
        "2026-10-12,Leg curl,30,12\n"
        "2026-12-01,Squat,80,5\n"
        "2026-10-12,Moon walk,1,5\n"
    )
    assert date(2026, 10, 12) == MONDAY
    entries, _ = read_rows(sheet, guess_reading(sheet, WORDS))
    names = {"Squat": SQUAT, "Leg curl": ExerciseKey("leg_curl")}
    placed = place(entries, names, PLAN)
    slots = list(PLAN.weeks[0].slots())
    assert [(r.slot, len(r.sets), r.on) for r in placed.results] == [
        (slots[0].id, 2, MONDAY),
        (slots[2].id, 1, MONDAY),
        (slots[1].id, 1, date(2026, 10, 16)),
    ]
    assert [e.day for e in placed.homeless] == [date(2026, 12, 1)]


def test_a_table_that_weekloom_wrote_is_read_back() -> None:
    slots = list(PLAN.weeks[0].slots())
    results = (
        SlotResult(PLAN.id, slots[0].id, SQUAT, MONDAY, (SetDone(60.0, 8, 2.0), SetDone(62.5, 7))),
        SlotResult(PLAN.id, slots[2].id, slots[2].exercise, date(2026, 10, 15), ()),
    )
    text = write_csv(results_table(results, PLAN, builders.client(), builders.CATALOGUE))
    sheet = read_book(text, source="r.csv").sheets[0]
    entries, faults = read_rows(sheet, guess_reading(sheet, WORDS))
    assert faults == ()
    names = {e.name: key for e in builders.CATALOGUE for key in [e.key]}
    placed = place(entries, names, PLAN)
    assert placed.results == results


def test_cells_of_a_workbook_are_read_as_what_they_are() -> None:
    rows = (
        ("Date", "Exercise", "Weight", "Reps", "RIR"),
        (datetime(2026, 10, 12, 18, 30), "Squat", 62.5, 8.0, 1.5),  # noqa: DTZ001 - as cells are
        (date(2026, 10, 13), "Squat", 65, 7, None),
    )
    sheet = Sheet("Log", rows)
    entries, faults = read_rows(sheet, guess_reading(sheet, WORDS))
    assert faults == ()
    assert [(e.day.day, e.sets[0]) for e in entries] == [
        (12, SetDone(62.5, 8, 1.5)),
        (13, SetDone(65.0, 7)),
    ]


def test_a_reading_is_remembered_by_its_headings() -> None:
    sheet, same = sheet_of(ENGLISH), sheet_of(ENGLISH.replace("60", "65"))
    other = sheet_of(ENGLISH.replace("Notes", "Felt"))
    assert header_mark(sheet, 0) == header_mark(same, 0)
    assert header_mark(sheet, 0) != header_mark(other, 0)
    assert Reading(0, {}).lacks == (Part.DATE, Part.EXERCISE, Part.REPS)
