"""The coach's own exercises and ranges are kept, replaced and retired."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given

from app.domain.exercise import ExerciseKey
from app.domain.ranges import Who
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.samples import OVERRIDE, STEP_OVER
from tests.strategies import exercises


@pytest.fixture
def store() -> Iterator[Store]:
    store = Store.in_memory()
    yield store
    store.close()


@given(exercises)
def test_any_exercise_comes_back_equal(exercise):
    store = Store.in_memory()
    store.save_exercise(exercise)
    assert store.own_exercises() == (exercise,)
    store.close()


def test_saving_again_replaces_the_exercise_of_that_key(store):
    store.save_exercise(STEP_OVER)
    changed = replace(STEP_OVER, cues=("Heel down.",), version=2)
    store.save_exercise(changed)
    assert store.own_exercises() == (changed,)


def test_a_retired_exercise_is_kept_but_not_offered(store):
    store.save_exercise(STEP_OVER)
    store.retire_exercise(STEP_OVER.key)
    assert store.own_exercises() == ()
    assert store.own_exercises(retired=True) == (STEP_OVER,)
    store.save_exercise(STEP_OVER)
    assert store.own_exercises() == (STEP_OVER,)


def test_retiring_what_is_not_there_is_refused(store):
    with pytest.raises(StoreFailure, match="'burpee'") as refused:
        store.retire_exercise(ExerciseKey("burpee"))
    assert refused.value.cause is Cause.MISSING


def test_ranges_come_back_in_the_order_they_were_made(store):
    earlier = replace(OVERRIDE, on=date(2020, 1, 1), why="an older reason")
    store.add_range_override(OVERRIDE)
    store.add_range_override(earlier)
    assert store.range_overrides() == (OVERRIDE, earlier)


def test_taking_ranges_back_leaves_those_of_other_people_and_rules(store):
    others = replace(OVERRIDE, range=replace(OVERRIDE.range, who=Who(age_low=65)))
    rule = replace(OVERRIDE, range=replace(OVERRIDE.range, rule="spacing"))
    for one in (OVERRIDE, others, replace(OVERRIDE, why="seen again"), rule):
        store.add_range_override(one)
    store.remove_range_overrides(OVERRIDE.range.rule, OVERRIDE.range.who)
    assert store.range_overrides() == (others, rule)
    store.remove_range_overrides("no_such_rule", Who())
    assert store.range_overrides() == (others, rule)
