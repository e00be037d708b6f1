from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import theilslopes

from app.domain.client import EnergyGoal, StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, SlotId
from app.domain.progress import (
    Days,
    Origin,
    band_at,
    mass_corridor,
    mass_series,
    monday,
    strength_series,
    weeks_without,
)
from app.domain.results import CheckIn, SetDone, SlotResult
from app.domain.strength import estimate_one_rep_max
from app.domain.trend import Point, trend
from tests.builders import CATALOGUE, START, client, program

SQUAT = ExerciseKey("back_squat")
PLAN = program("Mon: back_squat 3x5", times=8)


def result(week, load, reps=5, rir=1.0, exercise=SQUAT):
    return SlotResult(
        ProgramId("ridge"),
        SlotId(1),
        exercise,
        START + timedelta(weeks=week),
        (SetDone(load, reps, rir),),
    )


def test_tests_and_sets_stand_side_by_side_with_what_they_rest_on():
    runa = client(tests=(StrengthTest(SQUAT, START - timedelta(days=3), 80, 5),))
    found = strength_series(
        CATALOGUE[SQUAT], runa, [result(0, 75), result(1, 77.5)], regression=theilslopes
    )
    assert [point.origin for point in found.points] == [Origin.TEST, Origin.SETS, Origin.SETS]
    first = estimate_one_rep_max(80, 5, 0)
    shown = found.points[0]
    assert (shown.low_kg, shown.kg, shown.high_kg) == (first.low, first.median, first.high)
    assert not found.own_weight


def test_the_trend_of_strength_is_scipys():
    loads = [70, 72.5, 72.5, 77.5, 80, 79]
    results = [result(week, load) for week, load in enumerate(loads)]
    found = strength_series(CATALOGUE[SQUAT], client(), results, regression=theilslopes)
    medians = [estimate_one_rep_max(load, 5, 1).median for load in loads]
    slope, _, low, high = theilslopes(medians, np.arange(6) * 7.0)
    assert found.trend.per_week == pytest.approx(slope * 7)
    assert found.trend.low_per_week == pytest.approx(low * 7)
    assert found.trend.high_per_week == pytest.approx(high * 7)


def test_guesses_and_other_days_are_left_out():
    runa = client(
        tests=(
            StrengthTest(SQUAT, START, 80, 5, guessed_from=ExerciseKey("leg_press")),
            StrengthTest(SQUAT, START - timedelta(days=90), 80, 5),
        )
    )
    recent = Days(START - timedelta(days=7), None)
    found = strength_series(
        CATALOGUE[SQUAT], runa, [result(0, 75)], regression=theilslopes, days=recent
    )
    assert [point.on for point in found.points] == [START]
    assert found.trend is None


def test_a_timed_exercise_has_no_estimate():
    timed = next(e for e in CATALOGUE if e.timed)
    found = strength_series(
        timed, client(), [result(0, 10, exercise=timed.key)], regression=theilslopes
    )
    assert found.points == ()


def masses(*values, first=START):
    return [CheckIn(first + timedelta(days=7 * n), mass_kg=kg) for n, kg in enumerate(values)]


def test_the_trend_of_mass_is_scipys():
    values = [66.0, 66.3, 66.1, 66.8, 66.9]
    found = mass_series(client(), masses(*values), regression=theilslopes)
    slope, start, low, high = theilslopes(values, np.arange(5) * 7.0)
    assert found.trend.per_week == pytest.approx(slope * 7)
    assert found.trend.at_first == pytest.approx(start)
    assert (found.trend.low_per_week, found.trend.high_per_week) == pytest.approx(
        (low * 7, high * 7)
    )


def test_two_weighings_make_no_trend_and_none_make_no_points():
    assert mass_series(client(), masses(66, 67), regression=theilslopes).trend is None
    none = mass_series(client(), [CheckIn(START, sleep=4)], regression=theilslopes)
    assert (none.points, none.trend, none.missing) == ((), None, ())


def test_the_corridor_begins_where_the_weighings_of_the_first_week_lie():
    gaining = client(energy_goal=EnergyGoal.GAIN)
    checks = [CheckIn(START - timedelta(days=2), mass_kg=70), CheckIn(START, mass_kg=71)]
    found = mass_series(gaining, checks, regression=theilslopes, program=PLAN)
    first, last = found.corridor[0], found.corridor[-1]
    assert (first.low_kg, first.high_kg) == (70.5, 70.5)
    # a quarter to half a per cent a week (iraki2019), eight weeks
    assert last.low_kg == pytest.approx(70.5 * 1.0025**8)
    assert last.high_kg == pytest.approx(70.5 * 1.005**8)
    assert last.on == START + timedelta(weeks=8)


def test_without_weighings_it_begins_at_the_clients_mass():
    found = mass_corridor(client(), EnergyGoal.LOSE, (), PLAN)
    assert found[0].low_kg == 66.4
    assert found[1].low_kg == pytest.approx(66.4 * 0.99)


def test_there_is_no_corridor_without_a_goal_or_for_who_is_referred():
    check = masses(66, 66, 66)
    assert mass_series(client(), check, regression=theilslopes, program=PLAN).corridor == ()
    referred = client(energy_goal=EnergyGoal.LOSE, refer=("kidney disease",))
    assert mass_series(referred, check, regression=theilslopes, program=PLAN).corridor == ()


def test_weeks_without_a_weighing_are_named():
    checks = [*masses(66, 66), *masses(67, first=START + timedelta(weeks=4))]
    found = mass_series(client(), checks, regression=theilslopes)
    assert found.missing == (START + timedelta(weeks=2), START + timedelta(weeks=3))


@given(st.sets(st.integers(0, 120), max_size=20))
def test_every_week_between_first_and_last_is_there_or_missing(offsets):
    days = sorted(START + timedelta(days=n) for n in offsets)
    missing = weeks_without(days)
    have = {monday(day) for day in days}
    assert not have & set(missing)
    if days:
        weeks = (monday(days[-1]) - monday(days[0])).days // 7 + 1
        assert len(have) + len(missing) == weeks


def test_the_band_turns_about_the_middle_of_the_days():
    line = trend([Point(c.on, c.mass_kg) for c in masses(66, 67, 66.5, 68, 67)], theilslopes)
    middle = START + timedelta(days=14)
    assert band_at(line, middle) == pytest.approx((line.at(middle), line.at(middle)))
    low, high = band_at(line, START + timedelta(days=28))
    assert high - low == pytest.approx((line.high_per_week - line.low_per_week) * 2)
    assert low <= line.at(START + timedelta(days=28)) <= high


def test_days_may_be_open_at_either_end():
    assert date(2000, 1, 1) in Days()
    assert START not in Days(first=START + timedelta(days=1))
    assert START not in Days(last=START - timedelta(days=1))


def test_an_unfinished_client_has_no_corridor():
    assert mass_corridor(replace(client(), mass_kg=None), EnergyGoal.HOLD, (), PLAN) == ()
