"""The prescription that a newly placed or swapped exercise begins with.

It follows the week it lands in: the same repetitions as the other exercises of its role, inside
its own usable zone. Three sets and two repetitions in reserve are common practice.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.domain.effort import Effort, Rir
from app.domain.exercise import Exercise
from app.domain.program import Field, Reps, Role, Slot, SlotId, StrandId, Week

START_SETS = 3
START_RIR = {Role.CORE: 2, Role.ASSISTANCE: 1}
START_REPS = {Role.CORE: 8, Role.ASSISTANCE: 12}
START_SECONDS = 30


@dataclass(frozen=True, slots=True)
class Prescription:
    """What the coach asks of one exercise, without its place."""

    sets: int
    reps: Reps
    effort: Effort
    rest_s: int
    tempo: str = ""
    note: str = ""
    role: Role = Role.ASSISTANCE


def role_for(exercise: Exercise) -> Role:
    """Core for loaded multi-joint lifts on both legs or arms, assistance for the rest."""
    is_core = exercise.multi_joint and not exercise.unilateral and exercise.rest_s >= 120
    return Role.CORE if is_core else Role.ASSISTANCE


def start_for(exercise: Exercise, week: Week, role: Role | None = None) -> Prescription:
    """The prescription to begin with for `exercise` in `week`."""
    role = role or role_for(exercise)
    return Prescription(
        sets=max(1, START_SETS // 2) if week.light else START_SETS,
        reps=reps_for(exercise, week, role),
        effort=Rir(START_RIR[role]),
        rest_s=exercise.rest_s,
        role=role,
    )


def reps_for(exercise: Exercise, week: Week, role: Role) -> Reps:
    """The week's usual repetitions for that role, brought into the exercise's zone."""
    if exercise.timed:
        seconds = min(max(START_SECONDS, exercise.rep_low), exercise.rep_high)
        return Reps(seconds, seconds)
    usual = [s.reps for s in week.slots() if s.role is role and s.reps.high <= 30]
    from statistics import median_low

    low = median_low([r.low for r in usual]) if usual else START_REPS[role]
    high = median_low([r.high for r in usual]) if usual else START_REPS[role]
    return within(Reps(low, max(low, high)), exercise)


def within(reps: Reps, exercise: Exercise) -> Reps:
    """The repetitions, moved as little as needed to lie in the exercise's usable zone."""
    low = min(max(reps.low, exercise.rep_low), exercise.rep_high)
    high = min(max(reps.high, low), exercise.rep_high)
    return reps if (low, high) == (reps.low, reps.high) else Reps(low, high)


def make_slot(
    exercise: Exercise, prescription: Prescription, *, slot_id: SlotId, strand: StrandId
) -> Slot:
    """A slot of that exercise with that prescription."""
    return Slot(
        id=slot_id,
        strand=strand,
        exercise=exercise.key,
        sets=prescription.sets,
        reps=prescription.reps,
        effort=prescription.effort,
        rest_s=prescription.rest_s,
        tempo=prescription.tempo,
        note=prescription.note,
        role=prescription.role,
    )


def swapped(slot: Slot, old: Exercise | None, new: Exercise) -> Slot:
    """The slot with `new` in the place of its exercise.

    Sets and effort stay; repetitions move into the new zone; a rest that was the old exercise's
    usual one becomes the new one's; a load set by hand belonged to the old exercise and goes, and
    so do ramp sets in kilograms.
    Of the prepared substitutes the new exercise leaves the list. The old one does not enter it:
    a swap may have been made because the client must not do it.
    """
    changed_kind = old is not None and old.timed != new.timed
    if changed_kind:
        amount = START_SECONDS if new.timed else START_REPS[slot.role]
        reps = within(Reps(amount, amount), new)
    else:
        reps = within(slot.reps, new)
    keeps_rest = Field.REST in slot.pinned or (old is not None and slot.rest_s != old.rest_s)
    return replace(
        slot,
        exercise=new.key,
        reps=reps,
        rest_s=slot.rest_s if keeps_rest else new.rest_s,
        load_kg=None,
        pinned=slot.pinned - {Field.LOAD},
        prepared=tuple(key for key in slot.prepared if key != new.key),
        ramp=None if slot.ramp is not None and slot.ramp.has_kg else slot.ramp,
    )
