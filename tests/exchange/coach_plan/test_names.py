"""Names of exercises as coaches spell them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.exercise import ExerciseKey
from app.exchange.coach_plan.names import Names, names_of
from tests.exchange.coach_plan.shipped import WORDS
from tests.exchange.coach_plan.tables import CATALOGUE, NAMES


def test_every_name_and_other_name_finds_its_exercise() -> None:
    for exercise in CATALOGUE:
        assert NAMES.find(exercise.name).meant == exercise.key
        assert NAMES.find(exercise.name.upper()).meant == exercise.key


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Back squats", "back_squat"),
        ("squat, back", "back_squat"),
        ("Bakc squat", "back_squat"),
        ("BB Row", "barbell_row"),
        ("leg extensions", "leg_extension"),
        ("RDL", "romanian_deadlift"),
        ("Romanian dead-lift", "romanian_deadlift"),
        ("push ups", "push_up"),
    ],
)
def test_slips_plurals_and_short_forms_are_forgiven(text: str, key: str) -> None:
    assert NAMES.find(text).meant == key


@pytest.mark.parametrize("text", ["press", "lunge row", "Dead stop lift", "decline leg press"])
def test_what_could_be_several_is_asked(text: str) -> None:
    found = NAMES.find(text)
    assert found.meant is None


def test_the_likeliest_are_offered_first() -> None:
    assert "back_squat" in NAMES.find("barbell squat on the back").offered
    assert NAMES.find("flying carpet ride").meant is None


@pytest.mark.parametrize("text", ["", "  ", "---", "12"])
def test_what_is_no_name_finds_nothing(text: str) -> None:
    assert NAMES.find(text).meant is None


def test_what_was_said_before_is_remembered_while_it_is_there() -> None:
    known = {"my special": ExerciseKey("back_squat"), "gone": ExerciseKey("no_such")}
    names = Names(CATALOGUE, WORDS.short, known)
    assert names.find("My SPECIAL").meant == "back_squat"
    assert names.find("gone").meant is None


def test_names_are_counted_in_their_order() -> None:
    assert names_of(["b", "a", "b"]) == {"b": 2, "a": 1}


@given(st.text(max_size=60))
def test_any_text_is_looked_up(text: str) -> None:
    found = NAMES.find(text)
    assert found.meant is None or found.meant in CATALOGUE
    assert all(key in CATALOGUE for key in found.offered)
