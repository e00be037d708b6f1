"""Exercises and the catalogue that holds them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, ExerciseKey, Muscle, Pattern
from tests import builders

SQUAT = builders.CATALOGUE[ExerciseKey("back_squat")]
CURL = builders.CATALOGUE[ExerciseKey("curl")]


def test_a_muscle_has_its_part_in_an_exercise_or_none() -> None:
    assert SQUAT.fraction(Muscle.QUADRICEPS) == 1
    assert SQUAT.fraction(Muscle.ADDUCTORS) == 0.5
    assert SQUAT.fraction(Muscle.CHEST) == 0


def test_prime_movers_count_whole() -> None:
    assert [w.muscle for w in SQUAT.work if w.is_prime] == [Muscle.QUADRICEPS, Muscle.GLUTEALS]


def test_a_catalogue_is_looked_up_gone_through_and_counted() -> None:
    small = Catalogue((SQUAT, CURL))
    assert small[CURL.key] is CURL
    assert CURL.key in small
    assert "deadlift" not in small
    assert list(small) == [SQUAT, CURL]
    assert len(small) == 2


def test_an_unknown_exercise_is_named_with_a_way_on() -> None:
    with pytest.raises(CoachError, match=r"no exercise 'sled' in the library\. Add it to your own"):
        builders.CATALOGUE[ExerciseKey("sled")]


def test_two_exercises_of_one_key_are_refused() -> None:
    with pytest.raises(CoachError, match=r"share the key 'curl'\. Rename one"):
        Catalogue((CURL, SQUAT, replace(CURL, name="Other curl")))


def test_own_exercises_are_added_or_take_the_place_of_shipped_ones() -> None:
    mine = replace(CURL, name="Curl with a rope", own=True)
    new = builders.exercise("sled_push", Pattern.SQUAT, "quadriceps", own=True)
    both = Catalogue((SQUAT, CURL)).with_own((mine, new))
    assert [e.name for e in both] == ["Back squat", "Curl with a rope", "Sled push"]
    assert len(both) == 3


def test_a_retired_exercise_is_found_but_no_longer_offered() -> None:
    mine = replace(CURL, own=True)
    book = Catalogue((SQUAT,)).with_own((mine,), frozenset({CURL.key}))
    assert book[CURL.key] is mine
    assert CURL.key in book
    assert list(book) == [SQUAT]
    assert len(book) == 1
    assert list(book.with_own((mine,))) == [SQUAT, mine], "offered again"
