"""Guesses from related exercises: ranges, marked, confirmed, and never before a test."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import StrengthTest
from app.domain.errors import CoachError, ResourceError
from app.domain.exercise import ExerciseKey
from app.domain.loads import GUESS_REMARK, load_for, newest_test, one_rep_max_of
from app.domain.transfer import Related, confirmed, guesses, related_from_mappings
from tests import builders
from tests.builders import CATALOGUE

SQUAT, PRESS = ExerciseKey("back_squat"), ExerciseKey("leg_press")
TODAY = date(2026, 11, 25)
TEST = StrengthTest(SQUAT, date(2026, 10, 2), 90, 5)
RELATION = Related(PRESS, SQUAT, 1.5, 2.5, "common practice")
RUNA = builders.client(tests=(TEST,))


def test_a_guess_is_the_low_end_of_the_relation() -> None:
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    one_rm = one_rep_max_of(CATALOGUE[SQUAT], RUNA)
    assert one_rm is not None
    assert guess.low_kg == pytest.approx(1.5 * one_rm.median)
    assert guess.high_kg == pytest.approx(2.5 * one_rm.median)
    held = replace(RUNA, tests=confirmed(RUNA, guess, TODAY))
    found = one_rep_max_of(CATALOGUE[PRESS], held)
    assert found is not None
    assert guess.low_kg - 1 <= found.median <= guess.low_kg, "never above the low end"


def test_the_working_says_range_source_and_that_it_is_a_guess() -> None:
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    account = guess.working()
    assert account.title.startswith("Guess: ")
    assert any(line.value == "150–250 %" for line in account.lines)
    assert account.sources[0] == "common practice"


def test_every_load_from_a_guess_says_so() -> None:
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    held = replace(RUNA, tests=confirmed(RUNA, guess, TODAY))
    load = load_for(builders.slot("leg_press 3x10 RIR 2"), CATALOGUE[PRESS], held)
    assert load is not None
    assert load.rests_on is not None
    assert load.rests_on.guessed_from == SQUAT
    assert GUESS_REMARK in load.remark
    assert any(line.label.startswith("Guess, 25 Nov 2026") for line in load.working().lines)


def test_a_test_of_the_exercise_itself_counts_before_any_guess() -> None:
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    old = StrengthTest(PRESS, date(2025, 1, 1), 100, 5)
    held = replace(RUNA, tests=(*confirmed(RUNA, guess, TODAY), old))
    assert newest_test(CATALOGUE[PRESS], held) is old
    with pytest.raises(CoachError, match="The exercise itself was tested"):
        confirmed(held, guess, TODAY)


def test_a_newer_guess_takes_the_place_of_the_older() -> None:
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    once = replace(RUNA, tests=confirmed(RUNA, guess, date(2026, 11, 1)))
    twice = replace(once, tests=confirmed(once, guess, TODAY))
    assert [t.on for t in twice.tests if t.exercise == PRESS] == [TODAY]


def test_nothing_is_guessed_from_a_guess_or_without_a_test() -> None:
    chain = Related(SQUAT, PRESS, 0.3, 0.5, "common practice")
    (guess,) = guesses(CATALOGUE[PRESS], RUNA, catalogue=CATALOGUE, related=[RELATION])
    only_guess = replace(RUNA, tests=(guess.test(TODAY),))
    assert guesses(CATALOGUE[SQUAT], only_guess, catalogue=CATALOGUE, related=[chain]) == ()
    untested = replace(RUNA, tests=())
    assert guesses(CATALOGUE[PRESS], untested, catalogue=CATALOGUE, related=[RELATION]) == ()


GOOD = {"exercise": "leg_press", "from": "back_squat", "low": 1.5, "high": 2.5, "source": "x"}


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"exercise": "burpee"}, "no exercise 'burpee'"),
        ({"from": "burpee"}, "no exercise 'burpee'"),
        ({"source": ""}, "A source is missing"),
        ({"low": 2.6}, "make no range"),
        ({"high": "2"}, "make no range"),
        ({"ratio": 1}, "'ratio' is unknown"),
    ],
)
def test_a_broken_entry_is_named(change: dict[str, object], told: str) -> None:
    with pytest.raises(ResourceError, match=told):
        related_from_mappings([GOOD | change], known=CATALOGUE, source="related")


def test_one_relation_stands_once() -> None:
    with pytest.raises(ResourceError, match="stands twice"):
        related_from_mappings([GOOD, GOOD], known=CATALOGUE, source="related")


@pytest.mark.parametrize("entries", [GOOD, "leg_press", ["leg_press"], None])
def test_what_is_no_list_of_tables_is_refused(entries: object) -> None:
    with pytest.raises(ResourceError):
        related_from_mappings(entries, known=CATALOGUE, source="related")
