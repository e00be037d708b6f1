"""How much a load may rise once the target is passed."""

from __future__ import annotations

import re
from datetime import date

import pytest

from app.domain.client import Increments
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.program import ProgramId, Reps, Slot, SlotId, StrandId
from app.domain.progress import Move, next_load, rises_in_reach
from app.domain.progress.next_load import RAISE_BY
from app.domain.results import SetDone, SlotResult
from tests.literature.table import Answer, Row, all_close, check, close, numbers, rows, says


def progression(row: Row) -> Answer:
    load_kg = row.number("load")
    if "dumbbell" in row.inputs:
        return says(_after_passing(load_kg, row.number("step")), row.expected)
    if "step" in row.inputs:
        step_kg = row.number("step")
        pair = Increments(plates_kg=(20.0, 10.0, 5.0, step_kg / 2))
        rises = rises_in_reach(load_kg, pair)
        expected = numbers(row.expected.split("(")[0])
        unreachable = numbers(row.expected.split("(")[1])[0]
        right = list(rises) == expected and unreachable not in rises
        return Answer(" or ".join(f"{kg:.1f}" for kg in rises), right)
    low, high = numbers(row.expected.replace("..", " "))
    tolerance = float(row.tolerance)
    return all_close(
        close(load_kg * (1 + RAISE_BY[0]), low, tolerance),
        close(load_kg * (1 + RAISE_BY[1]), high, tolerance),
    )


def _after_passing(load_kg: float, step_kg: float) -> str:
    """What is suggested after every set was two repetitions over the target."""
    rack = Increments(dumbbells_kg=(step_kg, step_kg, 40.0))
    slot = Slot(SlotId(1), StrandId(1), ExerciseKey("curl"), 3, Reps(8, 8))
    done = SlotResult(
        ProgramId("p"), slot.id, slot.exercise, date(2026, 10, 2), (SetDone(load_kg, 10, 2),) * 3
    )
    found = next_load(slot, [done], rack, kind=LoadKind.DUMBBELL_ONE)
    assert rises_in_reach(load_kg, rack, kind=LoadKind.DUMBBELL_ONE) == ()
    jump = f"{step_kg / load_kg:.0%}".replace("%", " %")
    reps_first = found.move is Move.ADD_REPS and re.search("repetitions first", found.text)
    return f"no loadable step ({jump} jump) -> {'add reps first' if reps_first else found.text}"


ANSWERS = {"progression": progression}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_progress_agrees_with_the_literature(row):
    check(row, ANSWERS)
