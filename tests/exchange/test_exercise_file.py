"""Exercises as text that the shared rules read back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import resources
from app.domain.exercise import Exercise, ExerciseKey, Fault
from app.exchange.exercise_file import values_of, with_relatives, write_exercises

EVERY = tuple(resources.catalogue())
LINE = st.text(
    st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp"), exclude_characters="<>\x7f"),
    min_size=1,
    max_size=60,
)


def again(*exercises: Exercise) -> tuple[Exercise, ...]:
    """The exercises after writing and reading."""
    return resources.exercises_from_toml(write_exercises(exercises), source="mine.toml")


def test_every_shipped_exercise_comes_back_as_it_was() -> None:
    assert again(*EVERY) == EVERY


@pytest.mark.parametrize("one", EVERY[::20], ids=[one.key for one in EVERY[::20]])
def test_the_values_of_an_exercise_make_it_again(one: Exercise) -> None:
    assert resources.exercise_from_values(one.key, values_of(one)) == one


@given(
    name=LINE.map(str.strip).filter(bool),
    cues=st.lists(LINE, max_size=4).map(tuple),
    faults=st.lists(st.builds(Fault, LINE, LINE), max_size=3).map(tuple),
)
def test_whatever_a_coach_types_comes_back_as_typed(
    name: str, cues: tuple[str, ...], faults: tuple[Fault, ...]
) -> None:
    one = replace(EVERY[0], name=name, cues=cues, faults=faults)
    assert again(one) == (one,)


def test_what_has_its_usual_value_is_left_out() -> None:
    text = write_exercises([replace(EVERY[0], skill=1, spinal_load=0)])
    assert "skill" not in text
    assert "spinal_load" not in text
    assert 'name = "' in text


def test_own_relatives_come_along_and_theirs_too() -> None:
    own = replace(EVERY[0], key=ExerciseKey("mine"), name="Mine", own=True, easier=(), harder=())
    first = replace(own, harder=(ExerciseKey("second"), EVERY[1].key))
    second = replace(own, key=ExerciseKey("second"), name="Second", harder=(ExerciseKey("third"),))
    third = replace(own, key=ExerciseKey("third"), name="Third", easier=(ExerciseKey("second"),))
    catalogue = resources.catalogue().with_own((first, second, third))
    assert [one.key for one in with_relatives([first], catalogue)] == ["mine", "second", "third"]
