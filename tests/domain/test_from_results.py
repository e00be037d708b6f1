"""Hard sets of the last weeks can stand for tests, once the coach confirms them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import StrengthTest
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.from_results import candidates, with_tests
from app.domain.loads import one_rep_max_of
from app.domain.program import ProgramId, SlotId
from app.domain.results import Diary, SetDone, SlotResult
from tests import builders

SQUAT = ExerciseKey("back_squat")
DAY = date(2026, 11, 2)
RUNA = builders.client(tests=())


def result(*sets: tuple, on: date = DAY, exercise: ExerciseKey = SQUAT) -> SlotResult:
    done = tuple(SetDone(*values) for values in sets)
    return SlotResult(ProgramId("p"), SlotId(1), exercise, on, done)


def found(*results: SlotResult, client=RUNA, catalogue=builders.CATALOGUE):
    return candidates(Diary(results=results), client, catalogue)


def test_the_best_set_near_failure_is_offered_as_a_dated_test() -> None:
    (one,) = found(result((80.0, 5, 2.0), (82.5, 5, 1.0), (82.5, 4, 1.0)))
    assert one.test == StrengthTest(SQUAT, DAY, 82.5, 5, 1.0, note="From the results.")
    assert one.before is None
    assert one.change is None
    client = with_tests(RUNA, [one.test])
    assert one_rep_max_of(one.exercise, client) == one.estimate


@pytest.mark.parametrize(
    "sets",
    [(80.0, 5), (80.0, 5, 6.0), (80.0, 9, 2.0), (80.0, 0, 0.0)],
    ids=["reserve not noted", "far from failure", "over ten", "none done"],
)
def test_sets_that_say_too_little_are_left_out(sets: tuple) -> None:
    assert found(result(sets)) == ()


def test_a_newer_test_and_older_weeks_leave_nothing_to_offer() -> None:
    tested = replace(RUNA, tests=(StrengthTest(SQUAT, DAY, 90.0, 5),))
    assert found(result((80.0, 5, 1.0)), client=tested) == ()
    earlier = replace(RUNA, tests=(StrengthTest(SQUAT, DAY - timedelta(days=40), 75.0, 5),))
    (one,) = found(result((80.0, 5, 0.0)), client=earlier)
    # the same repetitions to failure: the estimate moves as the load does, whatever the equation
    assert one.change == pytest.approx(80 / 75 - 1)
    old = result((100.0, 5, 1.0), on=DAY - timedelta(weeks=7))
    (one,) = found(old, result((80.0, 5, 1.0)))
    assert one.test.load_kg == 80.0


def test_exercises_without_a_load_are_left_out() -> None:
    squat = replace(builders.CATALOGUE[SQUAT], load_kind=LoadKind.BAND)
    catalogue = replace(builders.CATALOGUE, exercises=(squat,))
    assert found(result((0.0, 8, 1.0)), catalogue=catalogue) == ()
    assert found() == ()


def test_a_test_takes_the_place_of_one_of_that_day_and_no_other() -> None:
    first = StrengthTest(SQUAT, DAY, 70.0, 5)
    other = StrengthTest(ExerciseKey("leg_press"), DAY, 100.0, 5)
    client = replace(RUNA, tests=(first, other))
    assert with_tests(client, [replace(first, load_kg=75.0)]).tests == (
        other,
        replace(first, load_kg=75.0),
    )
