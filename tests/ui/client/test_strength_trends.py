"""Trends of strength: robust, with their interval, from real tests alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from scipy.stats import theilslopes

from app.domain.client import StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, SlotId
from app.domain.results import SetDone, SlotResult
from app.ui.client.strength_trends import trend_text, trends
from tests import builders
from tests.builders import CATALOGUE

SQUAT = ExerciseKey("back_squat")
START = date(2026, 9, 1)


def test(week: int, load: float) -> StrengthTest:
    return StrengthTest(SQUAT, START + timedelta(weeks=week), load, 1)


test.__test__ = False  # type: ignore[attr-defined]


def test_the_slope_is_that_of_the_tests() -> None:
    who = builders.client(tests=tuple(test(week, 80 + 2 * week) for week in range(5)))
    found = trends(who, (), CATALOGUE, theilslopes)
    per_week = found[SQUAT].per_week
    one = 2.0 * 80 / 80  # 2 kg a week of a load for one repetition
    assert per_week == pytest.approx(one, rel=0.05)
    assert trend_text(found[SQUAT], "kg").startswith("+2 kg")
    assert trend_text(found[SQUAT], "lb").startswith("+4.4 lb")


def test_one_bad_day_does_not_turn_it() -> None:
    loads = [80, 82, 84, 40, 88, 90, 92]
    who = builders.client(tests=tuple(test(week, kg) for week, kg in enumerate(loads)))
    assert trends(who, (), CATALOGUE, theilslopes)[SQUAT].per_week == pytest.approx(2, rel=0.1)


def test_two_days_and_guesses_make_none() -> None:
    two = builders.client(tests=(test(0, 80), test(1, 82)))
    assert trends(two, (), CATALOGUE, theilslopes) == {}
    guesses = tuple(replace(test(w, 80), guessed_from=ExerciseKey("leg_press")) for w in range(4))
    assert trends(replace(two, tests=guesses), (), CATALOGUE, theilslopes) == {}


def test_what_was_done_counts_beside_tests() -> None:
    two = builders.client(tests=(test(0, 80), test(1, 82)))
    done = SlotResult(
        ProgramId("p"), SlotId(1), SQUAT, START + timedelta(weeks=2), (SetDone(84, 1, 0),)
    )
    assert trends(two, (done,), CATALOGUE, theilslopes)[SQUAT].points == 3
