"""Muscles as the tally shows them: a few groups that a week is judged by.

A set counts for a group by the muscle in it that it trains most, so that one set of rows is one
set for the back and not two.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.exercise import Muscle


@dataclass(frozen=True, slots=True)
class Group:
    """Muscles shown as one; `main` groups have a range of their own in every plan."""

    key: str
    name: str
    muscles: tuple[Muscle, ...]
    main: bool = True


def _alone(muscle: Muscle, *, main: bool = True) -> Group:
    return Group(muscle.value, muscle_name(muscle), (muscle,), main)


def muscle_name(muscle: Muscle) -> str:
    """The muscle in plain words, capital first: 'Spinal erectors'."""
    return muscle.value.replace("_", " ").capitalize()


GROUPS: tuple[Group, ...] = (
    _alone(Muscle.QUADRICEPS),
    _alone(Muscle.GLUTEALS),
    _alone(Muscle.HAMSTRINGS),
    _alone(Muscle.CALVES),
    _alone(Muscle.SPINAL_ERECTORS),
    Group("trunk", "Abdominals", (Muscle.ABDOMINALS, Muscle.OBLIQUES)),
    Group("back", "Back", (Muscle.LATISSIMUS, Muscle.UPPER_BACK)),
    _alone(Muscle.CHEST),
    Group(
        "shoulders",
        "Shoulders",
        (Muscle.FRONT_DELTOID, Muscle.SIDE_DELTOID, Muscle.REAR_DELTOID),
    ),
    _alone(Muscle.BICEPS),
    _alone(Muscle.TRICEPS),
    _alone(Muscle.HIP_ABDUCTORS, main=False),
    _alone(Muscle.ADDUCTORS, main=False),
    _alone(Muscle.HIP_FLEXORS, main=False),
    _alone(Muscle.SHIN, main=False),
    _alone(Muscle.FOREARMS, main=False),
)
"""In the order of the tally, legs first."""

GROUP_OF: dict[Muscle, int] = {
    muscle: number for number, group in enumerate(GROUPS) for muscle in group.muscles
}
"""The number of the group that each muscle belongs to."""
