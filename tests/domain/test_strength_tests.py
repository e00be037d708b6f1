"""What loads rest on, how old it is, and which tests a plan asks for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import Client, Limitation, Screening, Status, StrengthTest
from app.domain.exercise import ExerciseKey, Joint, Motion
from app.domain.strength_tests import (
    OLD_DAYS,
    Basis,
    basis,
    how_to_test,
    is_old,
    proposals,
    why_no_tests,
)
from tests import builders
from tests.builders import CATALOGUE, START

SQUAT = CATALOGUE[ExerciseKey("back_squat")]
TEST = StrengthTest(SQUAT.key, START, 90, 5)
RUNA = builders.client(tests=(TEST,))
PLAN = builders.program(
    "Mon: back_squat 4x10, leg_curl 3x12, leg_press 3x10 | Thu: leg_press 3x10", times=3
)


def test_a_test_is_old_past_twelve_weeks() -> None:
    assert not is_old(TEST, START + timedelta(days=OLD_DAYS))
    assert is_old(TEST, START + timedelta(days=OLD_DAYS + 1))


@pytest.mark.parametrize(
    ("text", "client", "days", "what"),
    [
        ("back_squat 3x5 60kg", RUNA, 0, Basis.BY_HAND),
        ("back_squat 3x5", RUNA, 0, Basis.TEST),
        ("back_squat 3x5", RUNA, OLD_DAYS + 1, Basis.OLD_TEST),
        ("back_squat 3x5", replace(RUNA, tests=()), 0, Basis.NOTHING),
        (
            "back_squat 3x5",
            replace(RUNA, tests=(replace(TEST, guessed_from=ExerciseKey("leg_press")),)),
            0,
            Basis.GUESS,
        ),
    ],
)
def test_what_a_load_rests_on(text: str, client: Client, days: int, what: Basis) -> None:
    slot = builders.slot(text)
    assert basis(slot, CATALOGUE[slot.exercise], client, START + timedelta(days=days)) is what


def test_drills_bands_and_seconds_have_no_load() -> None:
    for exercise in CATALOGUE:
        if exercise.timed or exercise.load_kind in ("band", "none"):
            slot = replace(builders.slot("back_squat 3x5"), exercise=exercise.key)
            assert basis(slot, exercise, RUNA, START) is Basis.NO_LOAD


def test_the_exercise_that_most_cards_wait_for_comes_first() -> None:
    found = proposals(PLAN, RUNA, catalogue=CATALOGUE, on=START)
    assert [(p.exercise, p.slots) for p in found] == [("leg_press", 6), ("leg_curl", 3)]
    assert found[0].text == "6 cards rest on nothing yet"
    later = proposals(PLAN, RUNA, catalogue=CATALOGUE, on=START + timedelta(weeks=2))
    assert [(p.exercise, p.slots) for p in later] == [("leg_press", 2), ("leg_curl", 1)]


def test_an_old_test_is_proposed_again_with_the_last_one() -> None:
    old = replace(RUNA, tests=(replace(TEST, on=START - timedelta(days=200)),))
    found = {p.exercise: p for p in proposals(PLAN, old, catalogue=CATALOGUE, on=START)}
    assert found[SQUAT.key].basis is Basis.OLD_TEST
    assert found[SQUAT.key].last is old.tests[0]
    assert found[SQUAT.key].text == "3 cards rest on an old test"


def test_nobody_is_tested_who_should_not_be() -> None:
    unscreened = replace(RUNA, screenings=())
    assert proposals(PLAN, unscreened, catalogue=CATALOGUE, on=START) == ()
    assert "Screen the client" in why_no_tests(unscreened, START)
    ill = Screening(START, active=False, known_disease=False, symptoms=True)
    waiting = replace(RUNA, screenings=(ill,))
    assert proposals(PLAN, waiting, catalogue=CATALOGUE, on=START) == ()
    assert "practitioner" in why_no_tests(waiting, START)


def test_what_is_ruled_out_is_not_proposed() -> None:
    broken = [r for r in CATALOGUE[ExerciseKey("leg_press")].reaches if r.joint is Joint.KNEE]
    assert broken
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=10)
    found = proposals(PLAN, replace(RUNA, limitations=(knee,)), catalogue=CATALOGUE, on=START)
    assert "leg_press" not in [p.exercise for p in found]


@pytest.mark.parametrize(
    ("client", "low", "high", "reserve"),
    [
        (replace(RUNA, status=Status.NOVICE), 8, 10, 2),
        (RUNA, 5, 8, 1),
        (replace(RUNA, status=Status.ADVANCED), 3, 6, 1),
        (replace(RUNA, status=Status.ADVANCED, born=date(2010, 1, 1)), 8, 10, 2),
        (
            replace(
                RUNA,
                screenings=(Screening(START, active=True, known_disease=True, symptoms=False),),
            ),
            6,
            8,
            3,
        ),
    ],
)
def test_the_test_suits_the_client(client: Client, low: int, high: int, reserve: int) -> None:
    how = how_to_test(SQUAT, client, START)
    assert (how.reps_low, how.reps_high, how.reserve) == (low, high, reserve)
    assert how.reserve >= 1, "nobody is sent to failure"
    assert how.source == "common practice"
