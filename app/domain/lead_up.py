"""What comes before the first working set: how much of each drill, and which lifts have ramp sets.

One rule for the booklet, the warm-up dialog and the minutes of a session.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from app.domain.exercise import Exercise, LoadKind, Muscle
from app.domain.program import Drill, DrillDose, Reps, Role, Slot

Sets = TypeVar("Sets", bound=Sequence[object])


def zone_dose(exercise: Exercise) -> DrillDose:
    """One round of a drill: repetitions, up to 10 where its zone goes on; seconds if timed.

    A timed drill takes the least of its zone. Common practice.
    """
    low = exercise.rep_low
    return DrillDose(1, Reps(low, low if exercise.timed else min(exercise.rep_high, max(low, 10))))


def dose_of(drill: Drill, exercise: Exercise) -> DrillDose:
    """How much of the drill is done: what the coach set, else what the drill's zone says."""
    return zone_dose(exercise) if drill.dose is None else drill.dose


FULL_RAMP = {
    LoadKind.BARBELL: 4,
    LoadKind.DUMBBELL_EACH: 3,
    LoadKind.DUMBBELL_ONE: 3,
    LoadKind.MACHINE: 3,
    LoadKind.CABLE: 3,
}
"""Ramp sets that are worked out for a load that leaves room for all of them: the empty bar, where
there is one, and three more. Common practice."""


def usual_sets(slot: Slot, exercise: Exercise) -> range:
    """As many as the slot has ramp sets, where its load need not be known.

    Those that the coach set; else as many as a full ramp of its kind of load has.
    """
    if slot.ramp is not None:
        return range(len(slot.ramp.steps))
    return range(FULL_RAMP.get(exercise.load_kind, 0))


def leading_up(
    slots: Sequence[Slot],
    exercises: Sequence[Exercise],
    *,
    sets_of: Callable[[Slot, Exercise], Sets],
) -> tuple[Sets | tuple[()], ...]:
    """The ramp sets before each slot, in order; empty where there are none.

    The first loaded core lift has them, and later ones whose prime movers are cold. What the
    coach set for a lift stands, none included, and leaves its prime movers warm. exercises: those
    of the slots; sets_of: the ramp sets of a slot, empty where its load leaves no room for any.
    """
    found: list[Sets | tuple[()]] = []
    core, warm = Role.CORE, set[Muscle]()
    for slot, exercise in zip(slots, exercises, strict=True):
        by_coach = slot.ramp is not None
        if not by_coach and slot.role is not core:
            found.append(())
            continue
        primes = exercise.primes
        if not by_coach and not warm.isdisjoint(primes):
            found.append(())
            continue
        sets = sets_of(slot, exercise)
        if sets or by_coach:
            warm.update(primes)
        found.append(sets)
    return tuple(found)
