from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import theilslopes

from app.domain.client import StrengthTest
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.program import (
    Day,
    ProgramId,
    Reps,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.progress import adherence, mass_trend, maxima, strength_trend
from app.domain.results import CheckIn, SetDone, SlotResult
from app.domain.strength import estimate_one_rep_max

SQUAT, ROW = ExerciseKey("squat"), ExerciseKey("row")
START = date(2026, 9, 7)


def result(slot, *sets, exercise=SQUAT, week=0):
    return SlotResult(
        ProgramId("p"),
        SlotId(slot),
        exercise,
        START + timedelta(weeks=week),
        tuple(SetDone(*s) for s in sets),
    )


def test_tests_and_clear_sets_make_one_estimate_a_day():
    found = maxima(
        SQUAT,
        [StrengthTest(SQUAT, START, 100, 5)],
        [result(1, (80, 5, 2), (100, 6, 0)), result(1, (102.5, 5, 1), week=1)],
    )
    assert [one.on for one in found] == [START, START + timedelta(weeks=1)]
    # the best of the first day is the set of six
    assert found[0].one_rm == estimate_one_rep_max(100, 6, 0)


def test_sets_that_say_little_are_left_out():
    unclear = [
        result(1, (60, 8, None)),  # reserve not noted
        result(1, (60, 5, 6)),  # reserve too large to judge
        result(1, (60, 15, 0)),  # past where the equations hold
        result(1, (0, 8, 0)),  # no load
        result(2, (60, 8, 0), exercise=ROW),
    ]
    assert maxima(SQUAT, [], unclear) == ()


def test_own_weight_counts_only_where_the_bodys_part_is_known():
    tests = [StrengthTest(SQUAT, START, 0, 8)]
    sets = [result(1, (-10, 8, 0), week=1)]
    assert maxima(SQUAT, tests, sets) == ()
    found = maxima(SQUAT, tests, sets, body_kg=60)
    assert [one.one_rm for one in found] == [
        estimate_one_rep_max(60, 8, 0),
        estimate_one_rep_max(50, 8, 0),
    ]


def test_rising_sets_give_a_rising_trend():
    results = [result(1, (100 + 2.5 * week, 5, 0), week=week) for week in range(6)]
    found = strength_trend(maxima(SQUAT, [], results), theilslopes)
    # 5 to failure: the median of the seven is 1.166 times the load
    assert found.per_week == pytest.approx(2.5 * 1.1658, abs=0.01)
    assert found.is_clear


def test_body_mass_has_a_trend_too():
    check_ins = [CheckIn(START + timedelta(days=d), mass_kg=80 + d / 35) for d in range(15)]
    assert mass_trend(check_ins, theilslopes).per_week == pytest.approx(0.2)
    with pytest.raises(CoachError, match="make no trend"):
        mass_trend([CheckIn(START)], theilslopes)


def week():
    def slot(n, sets):
        return Slot(SlotId(n), StrandId(n), SQUAT, sets, Reps(5, 5))

    def session(n, *slots):
        return Session(SessionId(n), StrandId(n), f"Session {n}", slots)

    days = [Day()] * 7
    days[0] = Day((session(10, slot(1, 4), slot(2, 3)),))
    days[3] = Day((session(11, slot(3, 3)), session(12)))
    return Week(WeekId(1), tuple(days))


def test_adherence_counts_planned_sets_that_were_done():
    found = adherence(week(), [result(1, *[(60, 5, 2)] * 6), result(2, (60, 5, 2))])
    assert (found.planned_sets, found.done_sets) == (10, 5)
    assert (found.planned_sessions, found.done_sessions) == (2, 1)
    assert found.share == 0.5


def test_nothing_planned_is_fully_kept():
    empty = replace(week(), days=(Day(),) * 7)
    assert adherence(empty, []).share == 1.0


def test_sets_of_other_weeks_do_not_count():
    assert adherence(week(), [result(77, (60, 5, 2))]).done_sets == 0
