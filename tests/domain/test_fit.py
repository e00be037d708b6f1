"""Whether an exercise fits a client: equipment, limitations of the day, dislikes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import FreeTime, Limitation, Place
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion
from app.domain.fit import fits, misfit
from tests import builders

ON = date(2026, 11, 25)
SQUAT = builders.CATALOGUE[ExerciseKey("back_squat")]


def knee(**fields) -> Limitation:
    """No bending of the knee past 90 degrees; the squat asks for 120."""
    return Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90, **fields)


def test_everything_fits_who_has_everything() -> None:
    assert all(fits(exercise, builders.client(), ON) for exercise in builders.CATALOGUE)


@pytest.mark.parametrize(
    ("fields", "fit"),
    [
        ({"equipment": frozenset({Equipment.BODY, Equipment.BARBELL})}, False),
        ({"equipment": frozenset({Equipment.BARBELL, Equipment.RACK})}, True),
        ({"dislikes": frozenset({SQUAT.key})}, False),
        ({"limitations": (knee(),)}, False),
        ({"limitations": (knee(until=date(2026, 11, 24)),)}, True),
        ({"limitations": (knee(since=date(2026, 11, 26)),)}, True),
    ],
    ids=["no rack", "all there", "disliked", "ruled out", "no longer", "not yet"],
)
def test_a_squat_fits_or_not(fields: dict, fit: bool) -> None:
    assert fits(SQUAT, builders.client(**fields), ON) is fit


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({}, ""),
        ({"equipment": frozenset({Equipment.BODY})}, "needs barbell and rack"),
        ({"dislikes": frozenset({SQUAT.key})}, "is not liked"),
        ({"limitations": (knee(),)}, "bends the knee past 90°"),
        (
            {"limitations": (knee(),), "equipment": frozenset(), "dislikes": {SQUAT.key}},
            "bends the knee past 90°",
        ),
        ({"limitations": (knee(until=date(2026, 11, 24)),)}, ""),
    ],
)
def test_a_misfit_is_said_in_words_and_the_gravest_reason_first(fields: dict, why: str) -> None:
    client = builders.client(**fields)
    assert misfit(SQUAT, client, ON) == why
    assert fits(SQUAT, client, ON) is (not why)


HOME = Place("home", frozenset({Equipment.BODY, Equipment.BAND}))
TWO_PLACES = builders.client(
    equipment=frozenset({Equipment.BARBELL, Equipment.RACK}),
    places=(HOME,),
    free=(FreeTime(60), FreeTime(60, place="home"), *(FreeTime(),) * 5),
)


def test_the_place_of_the_weekday_decides() -> None:
    assert fits(SQUAT, TWO_PLACES, ON, day=0)
    assert not fits(SQUAT, TWO_PLACES, ON, day=1)
    assert misfit(SQUAT, TWO_PLACES, ON, day=1) == "needs barbell and rack"


def test_without_a_weekday_one_place_has_to_have_it_all() -> None:
    assert fits(SQUAT, TWO_PLACES, ON)
    split = replace(
        TWO_PLACES,
        equipment=frozenset({Equipment.BARBELL}),
        places=(replace(HOME, equipment=frozenset({Equipment.RACK})),),
    )
    assert not fits(SQUAT, split, ON)
