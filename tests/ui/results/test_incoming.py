"""What a table comes to: new, there already, in the future, or without a place; and its memory."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.exercise import ExerciseKey
from app.domain.results import Diary, SetDone, SlotResult
from app.domain.units import KG_PER_LB
from app.exchange.coach_plan.columns import Part
from app.exchange.result_table import DayOrder, with_part
from app.exchange.sheets.reading import read_book
from app.exchange.sheets.sheet import Book
from app.ui.bench import Bench
from app.ui.results.incoming import SETTING, Incoming
from tests.ui.desks import slot

TODAY = date(2026, 11, 29)
TABLE = """Date,Exercise,Weight kg,Reps,RIR
23/11/2026,Back squat,60,10,2
23/11/2026,Back squat,60,9,1
23/11/2026,Thrusts of the hip,80,10,2
26/11/2026,Romanian deadlift,70,10,2
30/11/2026,Back squat,60,10,2
24/11/2025,Back squat,55,10,2
"""


def book(text: str = TABLE) -> Book:
    return read_book(text.encode(), source="log.csv")


def incoming(bench: Bench, text: str = TABLE) -> Incoming:
    made = Incoming(bench.desk, book(text).sheets[0], TODAY)
    made.begin()
    return made


def test_rows_become_results_of_the_slots_they_are_for(bench: Bench) -> None:
    made = incoming(bench)
    assert made.reading.order is DayOrder.DMY
    assert [(r.exercise, len(r.sets)) for r in made.new] == [
        ("back_squat", 2),
        ("romanian_deadlift", 1),
    ]
    assert [fault.line for fault in made.faults] == [6]
    assert "in the future" in made.faults[0].error.sentence
    assert [entry.day.year for entry in made.placed.homeless] == [2025]


def test_a_doubtful_name_is_asked_about_and_left_out_until_then(bench: Bench) -> None:
    made = incoming(bench)
    assert [named.text for named in made.doubtful] == ["Thrusts of the hip"]
    assert made.left_out == 1
    assert "hip_thrust" in made.doubtful[0].offered
    made.chosen["Thrusts of the hip"] = ExerciseKey("hip_thrust")
    made.read()
    assert "hip_thrust" in {result.exercise for result in made.new}
    assert made.left_out == 0


def test_what_is_there_already_stays_unless_it_is_to_be_replaced(bench: Bench) -> None:
    squat = slot(bench)
    mine = SlotResult(
        bench.desk.program.id, squat.id, squat.exercise, date(2026, 11, 23), (SetDone(62.5, 8),)
    )
    bench.desk.keep_diary("Results", Diary(results=(mine,)))
    made = incoming(bench)
    assert len(made.there) == 1
    assert mine in made.applied().results
    made.replace = True
    assert mine not in made.applied().results
    assert len(made.applied().results) == 2


def test_the_same_table_twice_brings_nothing_new(bench: Bench) -> None:
    made = incoming(bench)
    bench.desk.keep_diary("Results", made.applied())
    again = incoming(bench)
    assert again.new == ()
    assert again.there == ()


def test_loads_in_the_other_unit_are_counted(bench: Bench) -> None:
    bench.desk.keep_diary("Results", incoming(bench).applied())
    in_lb = "Date,Exercise,Weight,Reps,RIR\n24/11/2026,Back squat,132,10,2\n"
    (known,) = incoming(bench, in_lb).slips.values()
    assert known == 60
    assert not incoming(bench, in_lb.replace("Weight", "Weight lb")).slips


def test_the_first_results_are_held_against_what_was_planned(bench: Bench) -> None:
    planned = bench.desk.load(slot(bench))
    assert planned is not None
    table = "Date,Exercise,Weight,Reps\n24/11/2026,Back squat,{kg:.0f},10\n"
    in_lb = incoming(bench, table.format(kg=planned.load_kg / KG_PER_LB))
    assert list(in_lb.slips.values()) == [planned.load_kg]
    assert not incoming(bench, table.format(kg=planned.load_kg)).slips


def test_a_loaded_exercise_without_a_load_is_noticed(bench: Bench) -> None:
    table = "Date,Exercise,Weight,Reps\n24/11/2026,Back squat,{load},10\n"
    for load, lacks in (("", True), ("60", False)):
        made = incoming(bench, table.format(load=load))
        assert [made.lacks_load(result) for result in made.new] == [lacks]


def test_how_a_table_was_read_is_remembered_by_its_headings(bench: Bench) -> None:
    made = incoming(bench)
    made.reading = with_part(made.reading, Part.RIR, None)
    made.chosen["Thrusts of the hip"] = ExerciseKey("hip_thrust")
    made.read()
    made.remember()
    again = incoming(bench)
    assert Part.RIR not in again.reading.columns
    assert again.doubtful == ()
    assert "hip_thrust" in {result.exercise for result in again.new}


@pytest.mark.parametrize("kept", ["{", "[]", '{"columns": {"date": 99}}', '{"columns": 3}'])
def test_a_memory_that_makes_no_sense_is_no_hindrance(bench: Bench, kept: str) -> None:
    from app.exchange.result_table import header_mark

    sheet = book().sheets[0]
    bench.desk.store.set_setting(SETTING + header_mark(sheet, 0), kept)
    assert len(incoming(bench).new) == 2


def test_without_its_columns_it_is_empty_and_says_what_is_lacking(bench: Bench) -> None:
    made = incoming(bench, "What,Ever\n1,2\n")
    assert made.new == ()
    assert Part.DATE in made.reading.lacks
