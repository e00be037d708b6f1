"""Muscles as the tally shows them: a few groups that a week is judged by.

A set counts for a group by the muscle in it that it trains most, so that one set of rows is one
set for the back and not two.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.exercise import Muscle
from app.domain.wording import mark, tr


@dataclass(frozen=True, slots=True)
class Group:
    """Muscles shown as one; `main` groups have a range of their own in every plan."""

    key: str
    name: str
    muscles: tuple[Muscle, ...]
    main: bool = True


_NAMES = {
    Muscle.QUADRICEPS: mark("Quadriceps"),
    Muscle.GLUTEALS: mark("Gluteals"),
    Muscle.HIP_ABDUCTORS: mark("Hip abductors"),
    Muscle.HAMSTRINGS: mark("Hamstrings"),
    Muscle.ADDUCTORS: mark("Adductors"),
    Muscle.HIP_FLEXORS: mark("Hip flexors"),
    Muscle.CALVES: mark("Calves"),
    Muscle.SHIN: mark("Shin"),
    Muscle.SPINAL_ERECTORS: mark("Spinal erectors"),
    Muscle.ABDOMINALS: mark("Abdominals"),
    Muscle.OBLIQUES: mark("Obliques"),
    Muscle.LATISSIMUS: mark("Latissimus"),
    Muscle.UPPER_BACK: mark("Upper back"),
    Muscle.CHEST: mark("Chest"),
    Muscle.FRONT_DELTOID: mark("Front deltoid"),
    Muscle.SIDE_DELTOID: mark("Side deltoid"),
    Muscle.REAR_DELTOID: mark("Rear deltoid"),
    Muscle.BICEPS: mark("Biceps"),
    Muscle.TRICEPS: mark("Triceps"),
    Muscle.FOREARMS: mark("Forearms"),
}


def _alone(muscle: Muscle, *, main: bool = True) -> Group:
    return Group(muscle.value, _NAMES[muscle], (muscle,), main)


def muscle_name(muscle: Muscle) -> str:
    """The muscle in plain words, capital first: 'Spinal erectors'."""
    return tr(_NAMES[muscle])


GROUPS: tuple[Group, ...] = (
    _alone(Muscle.QUADRICEPS),
    _alone(Muscle.GLUTEALS),
    _alone(Muscle.HAMSTRINGS),
    _alone(Muscle.CALVES),
    _alone(Muscle.SPINAL_ERECTORS),
    Group("trunk", mark("Abdominals"), (Muscle.ABDOMINALS, Muscle.OBLIQUES)),
    Group("back", mark("Back"), (Muscle.LATISSIMUS, Muscle.UPPER_BACK)),
    _alone(Muscle.CHEST),
    Group(
        "shoulders",
        mark("Shoulders"),
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
