from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.dose import weekly_sets
from app.domain.edits.parts import map_slots
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.handed_out import PrintedWeek
from app.domain.program import ProgramId, SlotId
from app.domain.progress import weeks_done
from app.domain.results import SetDone, SlotResult
from tests.builders import CATALOGUE, START, program

PLAN = program("Mon: back_squat 3x5, goblet_squat 2x10 | Thu: back_squat 4x3", times=3)
LOADS = {"back_squat": 60.0, "goblet_squat": 20.0}


def load(slot):
    return LOADS.get(slot.exercise)


def done(slot, *sets, exercise=None, on=START):
    return SlotResult(
        ProgramId("ridge"),
        slot.id,
        ExerciseKey(exercise or slot.exercise),
        on,
        tuple(SetDone(*each) for each in sets),
    )


def slots(week=0):
    return tuple(PLAN.weeks[week].slots())


def test_a_week_is_told_as_planned_and_as_done():
    squat, goblet, heavy = slots()
    results = [
        done(squat, (60, 5), (60, 5), (60, 4)),
        done(goblet, (20, 10)),
        done(heavy),
    ]
    week = weeks_done(PLAN, results, CATALOGUE, load_kg=load)[0]
    assert (week.planned_sets, week.done_sets) == (9, 4)
    assert week.planned_kg == 3 * 5 * 60 + 2 * 10 * 20 + 4 * 3 * 60
    assert week.done_kg == 60 * 14 + 20 * 10
    assert (week.done.done_sets, week.done.done_sessions) == (4, 1)
    assert week.done_muscles[Muscle.QUADRICEPS] == 4
    assert week.planned_muscles == weekly_sets(PLAN.weeks[0], CATALOGUE)


def test_a_week_without_entries_is_not_a_week_of_nothing():
    first, second, _ = weeks_done(PLAN, [done(slots()[0], (60, 5))], CATALOGUE, load_kg=load)
    assert first.entered
    assert not second.entered
    assert (second.done, second.done_sets, second.done_kg) == (None, None, None)


def test_a_week_left_out_on_purpose_was_entered():
    week = weeks_done(PLAN, [done(slots()[0])], CATALOGUE, load_kg=load)[0]
    assert (week.done_sets, week.done.share) == (0, 0.0)


def test_both_hands_and_both_sides_are_lifted():
    one = next(e for e in CATALOGUE if e.unilateral and e.load_kind.value == "dumbbell_each")
    result = done(slots()[0], (10, 8), exercise=one.key)
    assert weeks_done(PLAN, [result], CATALOGUE, load_kg=load)[0].done_kg == 10 * 8 * 4


def test_a_result_of_a_removed_slot_counts_for_the_week_of_its_day():
    lost = replace(done(slots()[0], (60, 5)), slot=SlotId(9999), on=START + timedelta(days=9))
    counted = weeks_done(PLAN, [lost], CATALOGUE, load_kg=load)
    assert [week.done_sets for week in counted] == [None, 1, None]


def test_a_late_session_counts_for_the_week_it_was_meant_for():
    late = done(slots()[0], (60, 5), on=START + timedelta(days=8))
    assert [w.done_sets for w in weeks_done(PLAN, [late], CATALOGUE, load_kg=load)][:2] == [1, None]


def handed(squat_kg, *, exercise="back_squat", week=0):
    """The first week as a booklet has it, with that load for its first slot."""
    printed = PLAN.weeks[week]
    loads = {slot.id: None for slot in printed.slots()}
    loads[slots(week)[0].id] = squat_kg
    if exercise != "back_squat":
        old = map_slots(printed, lambda s: replace(s, exercise=ExerciseKey(exercise)))
        return {printed.id: PrintedWeek(START, old, loads)}
    return {printed.id: PrintedWeek(START, printed, loads)}


def test_the_loads_of_the_booklet_count_before_those_that_follow_from_todays_tests():
    first, second, _ = weeks_done(PLAN, [], CATALOGUE, load_kg=load, printed=handed(50.0))
    assert first.planned_kg == 3 * 5 * 50  # the others were printed without a load
    assert first.without_load == 2 + 4
    assert first.printed_on == START
    assert second.planned_kg == 3 * 5 * 60 + 2 * 10 * 20 + 4 * 3 * 60
    assert second.printed_on is None


def test_a_printed_load_of_another_exercise_says_nothing_of_todays():
    printed = handed(50.0, exercise="hip_thrust")
    first = weeks_done(PLAN, [], CATALOGUE, load_kg=load, printed=printed)[0]
    assert first.planned_kg == 3 * 5 * 60 + 2 * 10 * 20 + 4 * 3 * 60


def test_where_the_plan_has_no_load_it_counts_with_what_was_lifted():
    squat, goblet, heavy = slots()
    results = [done(squat, (60, 5), (62, 5)), done(goblet, (20, 10), exercise="back_squat")]
    week = weeks_done(PLAN, results, CATALOGUE, load_kg=lambda _: None)[0]
    assert week.planned_kg == 3 * 5 * 61  # a substitute's load says nothing of the goblet squat
    assert (week.as_lifted, week.without_load) == (3, 6)
    known = weeks_done(PLAN, results, CATALOGUE, load_kg=load)[0]
    assert (known.as_lifted, known.without_load) == (0, 0)
    assert heavy.sets == 4


def test_exercises_that_are_gone_and_sets_without_load_are_told_apart():
    gone = done(slots()[0], (60, 5), exercise="no_longer_there")
    week = weeks_done(PLAN, [gone], CATALOGUE, load_kg=lambda _: None)[0]
    assert (week.done_sets, week.done_kg, week.planned_kg) == (0, 0.0, 0.0)
    assert week.without_load == 9


@given(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 4)), max_size=12))
def test_no_set_is_lost_or_counted_twice(entries):
    results = [
        done(slots(week)[0], *[(60.0, 5)] * sets, on=START + timedelta(weeks=week))
        for week, sets in entries
    ]
    counted = weeks_done(PLAN, results, CATALOGUE, load_kg=load)
    assert sum(week.done_sets or 0 for week in counted) == sum(sets for _, sets in entries)
    assert sum(week.done_kg or 0 for week in counted) == pytest.approx(
        sum(sets for _, sets in entries) * 300
    )
