"""The orders of the list."""

from __future__ import annotations

from app import resources
from app.domain.exercise import Exercise, Muscle, Pattern
from app.ui.library.order import Order, activation_of, ordered, reported
from app.ui.library.search import entries

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
ENTRIES = entries(resources.catalogue(), NAMES)
LEGS = (Muscle.QUADRICEPS, Muscle.GLUTEALS)


def listed(order: Order, *, muscle: Muscle | None = None, emphasis=LEGS) -> list[Exercise]:
    numbers = ordered(ENTRIES, order, emphasis=emphasis, muscle=muscle)
    assert len(set(numbers)) == len(numbers)
    return [ENTRIES[n].exercise for n in numbers]


def test_by_emphasis_the_first_muscle_counts_most_and_drills_come_last() -> None:
    rows = listed(Order.EMPHASIS)
    scores = [e.fraction(LEGS[0]) + e.fraction(LEGS[1]) / 2 for e in rows]
    drills = [e.pattern is Pattern.DRILL for e in rows]
    assert drills == sorted(drills)
    exercises = scores[: drills.index(True)]
    assert exercises == sorted(exercises, reverse=True)


def test_by_emphasis_and_by_name_every_exercise_is_listed() -> None:
    assert len(listed(Order.EMPHASIS)) == len(listed(Order.NAME)) == len(ENTRIES)


def test_by_activation_only_what_trains_the_muscle_or_was_measured_is_listed() -> None:
    rows = listed(Order.ACTIVATION, muscle=Muscle.CALVES)
    keys = {exercise.key for exercise in rows}
    assert "standing_calf_raise_machine" in keys
    assert "bench_press" not in keys
    for one in resources.catalogue():
        measured = any(row.muscle is Muscle.CALVES for row in one.activation)
        assert (one.key in keys) == (measured or one.fraction(Muscle.CALVES) > 0)


def test_without_an_emphasis_the_list_goes_by_name() -> None:
    assert listed(Order.EMPHASIS, emphasis=()) == listed(Order.NAME)


def test_by_name_takes_no_notice_of_capitals() -> None:
    names = [e.name.casefold() for e in listed(Order.NAME) if e.pattern is not Pattern.DRILL]
    assert names == sorted(names)


def test_by_activation_the_highest_reported_figure_comes_first_and_unknown_last() -> None:
    rows = listed(Order.ACTIVATION, muscle=Muscle.GLUTEALS)
    figures = [reported(e, Muscle.GLUTEALS) for e in rows]
    known = [row.high for row in figures if row is not None]
    assert known == sorted(known, reverse=True)
    assert figures[len(known) :] == [None] * (len(rows) - len(known))
    assert known


def test_activation_is_that_of_the_chosen_muscle_or_else_of_the_first_emphasised() -> None:
    assert activation_of(Muscle.CALVES, LEGS) is Muscle.CALVES
    assert activation_of(None, LEGS) is Muscle.QUADRICEPS
    assert activation_of(None, ()) is None
    assert listed(Order.ACTIVATION, emphasis=()) == listed(Order.NAME)
