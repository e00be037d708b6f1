"""What was done as a table, set by set."""

from __future__ import annotations

import inspect
from datetime import date
from typing import Any

from app.domain.exercise import ExerciseKey
from app.domain.program import SlotId
from app.domain.results import SetDone, SlotResult
from app.exchange.tables.results_table import results_table
from tests.builders import CATALOGUE, client, program

PLAN = program("Mon: back_squat 3x5, leg_extension 3x12")
SQUAT, EXTENSION = (slot for slot in PLAN.weeks[0].slots())
DAY = date(2026, 11, 23)


def result(slot: SlotId, key: str, *sets: SetDone, note: str = "", on: date = DAY) -> SlotResult:
    fields: dict[str, Any] = {"slot": slot, "exercise": ExerciseKey(key), "on": on, "sets": sets}
    if "program" in inspect.signature(SlotResult).parameters:
        fields["program"] = PLAN.id
    return SlotResult(**fields, note=note)


def test_a_set_is_a_row_and_the_note_is_said_once() -> None:
    done = result(SQUAT.id, "back_squat", SetDone(100, 5, 2), SetDone(102.5, 4), note="=felt heavy")
    table = results_table([done], PLAN, client(), CATALOGUE)
    name = CATALOGUE[SQUAT.exercise].name
    title = next(session.title for _, session in PLAN.weeks[0].sessions())
    assert table.rows == (
        (DAY, 1, title, name, 1, 100, 5, "repetitions", 2, "=felt heavy"),
        (DAY, 1, title, name, 2, 102.5, 4, "repetitions", None, None),
    )
    assert len(table.heads) == len(table.rows[0])


def test_what_was_left_out_is_a_row_without_a_set() -> None:
    (row,) = results_table(
        [result(SQUAT.id, "back_squat", note="knee")], PLAN, client(), CATALOGUE
    ).rows
    assert row[3:] == (CATALOGUE[SQUAT.exercise].name, None, None, None, None, None, "knee")


def test_what_is_no_longer_in_plan_or_library_keeps_its_row() -> None:
    old = result(SlotId(999), "gone_press", SetDone(-20, 8), on=date(2026, 11, 20))
    new = result(SQUAT.id, "back_squat", SetDone(100, 5))
    rows = results_table([new, old], PLAN, client(), CATALOGUE).rows
    assert rows[0][:7] == (date(2026, 11, 20), None, None, "gone_press", 1, -20, 8)


def test_loads_are_in_the_client_s_unit() -> None:
    done = result(SQUAT.id, "back_squat", SetDone(45.359237, 5))
    table = results_table([done], PLAN, client(units="lb"), CATALOGUE)
    assert table.heads[5] == "Load, lb"
    assert table.rows[0][5] == 100
