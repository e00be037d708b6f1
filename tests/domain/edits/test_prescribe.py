"""What a newly placed or swapped exercise begins with."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import prescribe
from app.domain.effort import Rir
from app.domain.exercise import ExerciseKey
from app.domain.program import EMPTY_WEEK, Field, Reps, Role, SlotId, StrandId, Week, WeekId
from tests import builders

SQUAT, CURL, PLANK, SPLIT = (
    builders.CATALOGUE[ExerciseKey(key)] for key in ("back_squat", "curl", "plank", "split_squat")
)
EMPTY = Week(WeekId(1), EMPTY_WEEK)


def test_a_loaded_lift_of_many_joints_on_both_legs_is_core() -> None:
    assert prescribe.role_for(SQUAT) is Role.CORE
    assert prescribe.role_for(CURL) is Role.ASSISTANCE
    assert prescribe.role_for(SPLIT) is Role.ASSISTANCE


def test_an_empty_week_gives_the_usual_start() -> None:
    core = prescribe.start_for(SQUAT, EMPTY)
    assert (core.sets, core.reps, core.effort) == (3, Reps(8, 8), Rir(2))
    assert core.rest_s == SQUAT.rest_s
    rest = prescribe.start_for(CURL, EMPTY)
    assert (rest.sets, rest.reps, rest.effort) == (3, Reps(12, 12), Rir(1))


def test_a_light_week_starts_with_half_the_sets() -> None:
    assert prescribe.start_for(SQUAT, replace(EMPTY, light=True)).sets == 1


def test_repetitions_follow_those_of_the_same_role_in_the_week() -> None:
    week = builders.week("Mon: back_squat 4x5 core, deadlift 3x5 core, leg_curl 3x15")
    assert prescribe.start_for(SQUAT, week).reps == Reps(5, 5)
    assert prescribe.start_for(CURL, week).reps == Reps(15, 15)


def test_repetitions_stay_in_the_exercises_own_zone() -> None:
    week = builders.week("Mon: back_squat 4x3 core")
    assert prescribe.start_for(CURL, week, Role.CORE).reps == Reps(CURL.rep_low, CURL.rep_low)


def test_a_timed_exercise_starts_with_seconds_whatever_the_week_does() -> None:
    week = builders.week("Mon: leg_curl 3x12")
    assert prescribe.start_for(PLANK, week).reps == Reps(30, 30)
    brief = replace(PLANK, rep_low=5, rep_high=20)
    assert prescribe.start_for(brief, week).reps == Reps(20, 20)


@pytest.mark.parametrize(
    ("ramp", "kept"), [("50%x5", True), ("off", True), ("50%x5/60kgx3", False)]
)
def test_ramp_sets_in_kilograms_go_with_their_exercise(ramp: str, kept: bool) -> None:
    slot = builders.slot(f"back_squat 3x5 core ramp {ramp}")
    after = prescribe.swapped(slot, SQUAT, builders.CATALOGUE[ExerciseKey("leg_press")])
    assert after.ramp == (slot.ramp if kept else None)


@given(st.integers(1, 60), st.integers(0, 30))
def test_moved_repetitions_lie_in_the_zone_and_those_inside_are_untouched(low, more) -> None:
    reps = Reps(low, low + more)
    moved = prescribe.within(reps, CURL)
    assert CURL.rep_low <= moved.low <= moved.high <= CURL.rep_high
    if CURL.rep_low <= reps.low and reps.high <= CURL.rep_high:
        assert moved is reps


def test_a_slot_says_what_the_prescription_does() -> None:
    asked = prescribe.Prescription(4, Reps(6, 8), Rir(1), 150, "3-0-1-0", "slowly", Role.CORE)
    slot = prescribe.make_slot(SQUAT, asked, slot_id=SlotId(7), strand=StrandId(8))
    assert (slot.id, slot.strand, slot.exercise) == (7, 8, "back_squat")
    assert (slot.sets, slot.reps, slot.effort, slot.rest_s) == (4, Reps(6, 8), Rir(1), 150)
    assert (slot.tempo, slot.note, slot.role) == ("3-0-1-0", "slowly", Role.CORE)


def test_a_swap_keeps_sets_effort_and_place_and_drops_the_load_set_by_hand() -> None:
    old = builders.slot("back_squat 4x5 RIR 1 80kg pin load pin sets core")
    new = prescribe.swapped(old, SQUAT, builders.CATALOGUE[ExerciseKey("leg_press")])
    assert (new.id, new.strand, new.sets, new.effort) == (old.id, old.strand, 4, Rir(1))
    assert new.exercise == "leg_press"
    assert new.load_kg is None
    assert new.pinned == {Field.SETS}


def test_a_swap_takes_the_new_exercise_off_the_prepared_ones_and_keeps_the_rest() -> None:
    press, goblet = builders.CATALOGUE[ExerciseKey("leg_press")], ExerciseKey("goblet_squat")
    old = replace(builders.slot("back_squat 4x5"), prepared=(press.key, goblet))
    new = prescribe.swapped(old, SQUAT, press)
    assert new.prepared == (goblet,)
    assert prescribe.swapped(new, press, SQUAT).prepared == (goblet,)


@pytest.mark.parametrize(
    ("words", "rest_s"),
    [
        (f"rest {SQUAT.rest_s}", CURL.rest_s),
        ("rest 200", 200),
        (f"rest {SQUAT.rest_s} pin rest", SQUAT.rest_s),
    ],
    ids=["the usual rest follows the exercise", "a chosen rest stays", "a pinned rest stays"],
)
def test_rest_after_a_swap(words: str, rest_s: int) -> None:
    slot = builders.slot(f"back_squat 3x10 {words}")
    assert prescribe.swapped(slot, SQUAT, CURL).rest_s == rest_s


def test_between_repetitions_and_seconds_the_amount_starts_anew() -> None:
    slot = builders.slot("curl 3x12")
    held = prescribe.swapped(slot, CURL, PLANK)
    assert held.reps == Reps(30, 30)
    assert prescribe.swapped(held, PLANK, CURL).reps == Reps(12, 12)
