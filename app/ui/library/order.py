"""In what order the library lists exercises."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from app.domain.activation import highest_amplitude
from app.domain.exercise import Activation, Exercise, Muscle, Pattern
from app.ui.library.search import Entry


class Order(Enum):
    """The three orders, with what the pane calls them."""

    EMPHASIS = "Closest to the emphasis first"
    ACTIVATION = "By reported activation"
    NAME = "By name"


def ordered(
    some: Sequence[Entry], order: Order, *, emphasis: tuple[Muscle, ...], muscle: Muscle | None
) -> tuple[int, ...]:
    """The numbers of the entries in that order: all of them, or by activation those that train it.

    muscle: whose activation is meant; without one, the first of the emphasis.
    """
    match order:
        case Order.EMPHASIS if emphasis:
            return _numbers(some, [_by_emphasis(e.exercise, emphasis) for e in some])
        case Order.ACTIVATION if about := activation_of(muscle, emphasis):
            trained = [e for e in some if _concerns(e.exercise, about)]
            return _numbers(trained, [_by_activation(e.exercise, about) for e in trained])
        case _:
            return _numbers(some, [(e.exercise.pattern is Pattern.DRILL, 0.0) for e in some])


def activation_of(muscle: Muscle | None, emphasis: tuple[Muscle, ...]) -> Muscle | None:
    """The muscle whose activation the list is ordered by."""
    return muscle or (emphasis[0] if emphasis else None)


def _numbers(some: Sequence[Entry], ranks: Sequence[tuple[bool, float]]) -> tuple[int, ...]:
    keys = [
        (*rank, entry.exercise.name.casefold()) for rank, entry in zip(ranks, some, strict=True)
    ]
    return tuple(some[at].number for at in sorted(range(len(some)), key=keys.__getitem__))


def _by_emphasis(exercise: Exercise, emphasis: tuple[Muscle, ...]) -> tuple[bool, float]:
    """Drills last; else those first that train the muscles named first."""
    score = sum(exercise.fraction(muscle) / (place + 1) for place, muscle in enumerate(emphasis))
    return (exercise.pattern is Pattern.DRILL, -score)


def _concerns(exercise: Exercise, muscle: Muscle) -> bool:
    """True if the exercise trains the muscle, or a study measured the muscle in it."""
    return exercise.fraction(muscle) > 0 or any(a.muscle is muscle for a in exercise.activation)


def _by_activation(exercise: Exercise, muscle: Muscle) -> tuple[bool, float]:
    """The highest reported amplitude first; what nobody reported comes last."""
    amplitude = highest_amplitude(exercise, muscle)
    return (amplitude is None, -(amplitude or 0.0))


def reported(exercise: Exercise, muscle: Muscle) -> Activation | None:
    """The figure that the exercise is ordered by; None if nobody reported one."""
    rows = [row for row in exercise.activation if row.muscle is muscle]
    return max(rows, key=lambda row: row.high, default=None)
