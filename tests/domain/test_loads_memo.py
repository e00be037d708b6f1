"""Loads that are remembered: as worked out anew, for the place of the day, until forgotten."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import Client, FreeTime, Increments, Place, StrengthTest
from app.domain.exercise import Equipment, ExerciseKey
from app.domain.loads import load_for
from app.domain.loads_memo import LoadsMemo
from app.domain.program import Program, Slot
from tests import builders

PLAN = builders.program("Mon: back_squat 4x10, curl 3x12 | Thu: back_squat 3x8", times=2)
ROUGH = Increments(bar_kg=20, plates_kg=(10.0,))
RUNA = builders.client(
    tests=(StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5),),
    places=(Place("hut", frozenset(Equipment), ROUGH),),
    free=(*(FreeTime(60),) * 3, FreeTime(60, place="hut"), *(FreeTime(60),) * 3),
)


def slots(program: Program = PLAN) -> list[Slot]:
    return list(program.weeks[0].slots())


def load_kg(memo: LoadsMemo, slot: Slot, program: Program = PLAN, who: Client = RUNA) -> float:
    found = memo.load(slot, program, client=who, catalogue=builders.CATALOGUE)
    assert found is not None
    return found.load_kg


def test_it_is_what_is_worked_out_anew_and_the_same_object_again() -> None:
    memo, (squat, curl, _) = LoadsMemo(), slots()
    first = memo.load(squat, PLAN, client=RUNA, catalogue=builders.CATALOGUE)
    assert first == load_for(squat, builders.CATALOGUE[squat.exercise], RUNA, PLAN.curve)
    assert memo.load(squat, PLAN, client=RUNA, catalogue=builders.CATALOGUE) is first
    assert memo.load(curl, PLAN, client=RUNA, catalogue=builders.CATALOGUE) is None


def test_a_day_at_another_place_goes_by_what_there_is() -> None:
    memo, (_, _, squat) = LoadsMemo(), slots()
    assert (load_kg(memo, squat) - 20) % 20 == pytest.approx(0), "plates of 10 kg on both sides"
    at_home = replace(RUNA, free=(FreeTime(60),) * 7)
    usual = LoadsMemo()
    assert load_kg(usual, squat, who=at_home) != load_kg(memo, squat)


def test_another_client_is_worked_out_once_the_memo_is_cleared() -> None:
    memo, squat = LoadsMemo(), slots()[0]
    before = load_kg(memo, squat)
    stronger = replace(RUNA, tests=(replace(RUNA.tests[0], load_kg=120),))
    memo.clear()
    assert load_kg(memo, squat, who=stronger) > before
