"""How much of a drill is done, and which lifts have ramp sets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.client import Increments
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.lead_up import FULL_RAMP, dose_of, leading_up, usual_sets, zone_dose
from app.domain.program import Drill, DrillDose, Reps
from app.domain.strength import ramp_sets
from tests.builders import CATALOGUE, session

WALK = CATALOGUE[ExerciseKey("band_walk")]


def counts(text: str) -> list[int]:
    slots = session(text).slots
    exercises = [CATALOGUE[slot.exercise] for slot in slots]
    return [len(sets) for sets in leading_up(slots, exercises, sets_of=usual_sets)]


@pytest.mark.parametrize(
    ("low", "high", "timed", "reps"),
    [
        (8, 12, False, Reps(8, 10)),
        (5, 8, False, Reps(5, 8)),
        (12, 15, False, Reps(12, 12)),
        (30, 60, True, Reps(30, 30)),
    ],
)
def test_a_drill_without_a_dose_is_done_once_as_its_zone_says(low, high, timed, reps) -> None:
    drill = replace(WALK, rep_low=low, rep_high=high, timed=timed)
    assert zone_dose(drill) == dose_of(Drill(drill.key), drill) == DrillDose(1, reps)


def test_a_dose_of_the_coach_stands() -> None:
    dose = DrillDose(3, Reps(6, 8))
    assert dose_of(Drill(WALK.key, dose), WALK) == dose


@pytest.mark.parametrize("kind", LoadKind)
def test_a_full_ramp_is_as_long_as_the_one_worked_out_for_a_heavy_load(kind: LoadKind) -> None:
    heavy = ramp_sets(38.0 if "dumbbell" in kind.value else 140.0, 20.0, Increments(), kind=kind)
    assert FULL_RAMP.get(kind, 0) == len(heavy)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("curl 3x8, back_squat 3x5 core, deadlift 3x5 core", [0, 4, 0]),
        ("back_squat 3x5, bench_press 3x5 core", [0, 4]),
        ("push_up 3x10 core", [0]),
        ("back_squat 3x5 core ramp off, front_squat 3x5 core", [0, 0]),
        ("back_squat 3x5 core, front_squat 3x5 core ramp 60%x3", [4, 1]),
        ("curl 3x8 ramp 50%x5/70%x3", [2]),
    ],
)
def test_cold_core_lifts_have_ramp_sets_and_what_the_coach_set_stands(text, expected) -> None:
    assert counts(text) == expected
