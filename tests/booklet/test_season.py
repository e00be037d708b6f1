"""The program in figures."""

from __future__ import annotations

from datetime import date

from app.booklet.season import sum_up
from app.domain.exercise import Muscle
from tests.builders import CATALOGUE, program


def test_sets_are_those_of_the_first_emphasised_muscle():
    whole = program(
        "Mon: hip_thrust 4x8 core, romanian_deadlift 3x8 core", emphasis=(Muscle.GLUTEALS,)
    )
    (week,) = sum_up(whole, CATALOGUE).weeks
    assert week.sets == 4 + 3 * 0.5


def test_without_emphasis_all_sets_count():
    whole = program("Mon: hip_thrust 4x8, curl 3x8", emphasis=())
    season = sum_up(whole, CATALOGUE)
    assert season.emphasis is None
    assert season.weeks[0].sets == 7


def test_reps_are_those_of_the_core_lifts_and_timed_sets_are_left_out():
    whole = program("Mon: back_squat 3x5 core, bench_press 3x8-10 core, curl 3x15, plank 2x60")
    (week,) = sum_up(whole, CATALOGUE).weeks
    assert week.reps == (5, 7.0, 10)


def test_where_nothing_is_core_all_lifts_count():
    whole = program("Mon: curl 3x12, plank 2x60")
    assert sum_up(whole, CATALOGUE).weeks[0].reps == (12, 12, 12)


def test_light_and_empty_weeks_are_known():
    season = sum_up(program("Mon: curl 3x12", "light | Mon: curl 2x12", ""), CATALOGUE)
    assert season.light == (2,)
    assert [week.empty for week in season.weeks] == [False, False, True]
    assert season.weeks[2].reps is None
    assert season.weeks[1].start == date(2026, 11, 30)
    assert season.most_sets == max(week.sets for week in season.weeks)
