from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from scipy.stats import theilslopes

from app.domain.dose import weekly_sets
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.handed_out import PrintedWeek
from app.domain.progress import Days, maxima
from app.ui.charts.data import chart_of, exercises_to_show, muscles_to_show
from app.ui.charts.kinds import Choice, Kind
from tests.builders import CATALOGUE, START
from tests.ui.charts.sample import ASKED, CHECKS, MISSING, NOTHING, PLAN, RUNA, SQUAT


def chart(kind, asked=ASKED, **choice):
    return chart_of(asked, Choice(kind, **choice), theilslopes)


@pytest.mark.parametrize("kind", Kind)
def test_every_chart_says_what_to_do_where_there_is_nothing(kind):
    empty = chart(kind, NOTHING)
    assert empty.empty
    assert empty.rows == ()


@pytest.mark.parametrize("kind", Kind)
def test_every_chart_has_a_sentence_and_a_table_of_its_points(kind):
    made = chart(kind)
    assert not made.empty
    assert made.text.endswith(".")
    assert made.rows
    assert {len(row) for row in made.rows} == {len(made.head)}


def test_the_table_of_strength_holds_every_estimate():
    made = chart(Kind.STRENGTH)
    points = maxima(SQUAT, RUNA.tests, ASKED.diary.results)
    assert len(made.rows) == len(points)
    assert made.rows[0] == ("19 Nov 2026", *_three(points[0]), "test")
    assert made.rows[1][-1] == "sets done"


def _three(point):
    values = (point.one_rm.median, point.one_rm.low, point.one_rm.high)
    return tuple(f"{value:.1f}".removesuffix(".0") for value in values)


def test_weeks_stand_as_planned_and_as_done():
    made = chart(Kind.SETS)
    assert len(made.rows) == len(PLAN.weeks)
    assert made.rows[0] == ("1", "23 Nov 2026", "11", "11")
    assert made.rows[1][3] == "8"  # one set left out of each slot
    assert made.rows[4][0] == "5, light"
    for index in MISSING:
        assert made.rows[index][3] == "no entry"


def test_muscles_are_those_of_the_emphasis_until_others_are_chosen():
    made = chart(Kind.MUSCLES)
    assert made.muscles == (Muscle.QUADRICEPS, Muscle.GLUTEALS)
    planned = weekly_sets(PLAN.weeks[0], CATALOGUE)[Muscle.QUADRICEPS]
    assert made.rows[0][2] == f"{planned:g}"
    chosen = chart(Kind.MUSCLES, muscles=(Muscle.ADDUCTORS,))
    assert chosen.muscles == (Muscle.ADDUCTORS,)
    plain = replace(ASKED, program=replace(PLAN, emphasis=()), client=replace(RUNA, emphasis=()))
    assert chart(Kind.MUSCLES, plain).muscles[0] is Muscle.QUADRICEPS
    assert len(muscles_to_show(ASKED, tuple(Muscle))) == 6


def test_the_tonnage_of_a_week_that_was_handed_out_is_that_of_its_booklet():
    plain = chart(Kind.TONNAGE)
    week = PLAN.weeks[0]
    loads = {slot.id: 10.0 for slot in week.slots()}
    printed = {week.id: PrintedWeek(START - timedelta(days=2), week, loads)}
    made = chart(Kind.TONNAGE, replace(ASKED, printed=printed))
    # 4 x 5 squats, 3 x 10 goblet squats and 4 x 3 squats with 10 kg
    assert made.rows[0][2] == "620"
    assert made.rows[0][-1] == "booklet of 21 Nov 2026"
    assert made.rows[1:] == plain.rows[1:]
    assert {row[-1] for row in plain.rows} == {"today's"}
    assert "for 1 week, else with today's" in made.text


def test_the_days_bound_weeks_and_weighings_alike():
    days = Days(START + timedelta(weeks=2), START + timedelta(weeks=4, days=-1))
    assert [row[0] for row in chart(Kind.ADHERENCE, days=days).rows] == ["3", "4"]
    shown = [c for c in CHECKS if c.on in days]
    assert len(chart(Kind.MASS, days=days).rows) == len(shown)


def test_exercises_with_most_days_come_first():
    assert exercises_to_show(ASKED) == (SQUAT, ExerciseKey("goblet_squat"))
    other = chart(Kind.STRENGTH, exercise=ExerciseKey("goblet_squat"))
    assert other.title.startswith("Goblet squat")


def test_pounds_stand_in_the_table_of_who_uses_them():
    asked = replace(ASKED, client=replace(RUNA, units="lb"))
    row = chart(Kind.MASS, asked).rows[0]
    assert float(row[1]) == pytest.approx(CHECKS[0].mass_kg / 0.45359237, abs=0.06)
    assert chart(Kind.MASS, asked).head[1] == "lb"


def test_no_results_ask_for_results_but_show_what_is_planned():
    asked = replace(ASKED, diary=replace(ASKED.diary, results=()))
    assert not chart(Kind.SETS, asked).empty
    assert "Enter what was done" in chart(Kind.ADHERENCE, asked).empty
