"""Edits of a prescription: set a field, add sets, pin and unpin, notes, effort of core work."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from app.domain.edits.parts import (
    find_slot,
    locate,
    locate_session,
    map_slots,
    map_weeks,
    require_day,
    require_week,
    session_in,
    slot_at,
    with_day,
    with_session,
)
from app.domain.edits.prescribe import Prescription
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError, EditError
from app.domain.exercise import ExerciseKey
from app.domain.program import (
    MAX_SETS,
    Acceptance,
    Field,
    Program,
    Reps,
    Role,
    SessionId,
    Slot,
    SlotId,
    Span,
    Week,
    require_prepared,
)
from app.domain.ramp import Ramp
from app.domain.wording import tr

Value = int | float | str | Reps | Effort | None

_ATTRIBUTE = {
    Field.SETS: "sets",
    Field.REPS: "reps",
    Field.EFFORT: "effort",
    Field.REST: "rest_s",
    Field.TEMPO: "tempo",
    Field.LOAD: "load_kg",
}

_KINDS: dict[Field, tuple[type, ...]] = {
    Field.SETS: (int,),
    Field.REPS: (Reps,),
    Field.EFFORT: (Rir, PercentOneRm, PercentRepMax),
    Field.REST: (int,),
    Field.TEMPO: (str,),
    Field.LOAD: (int, float, type(None)),
}


def map_strand(
    program: Program, slot_id: SlotId, *, change: Callable[[Slot], Slot], span: Span
) -> Program:
    """The program with `change` applied to the slot's strand in every week reached."""
    at = locate(program, slot_id)
    strand = slot_at(program, at).strand

    def change_one(slot: Slot) -> Slot:
        if slot.strand != strand:
            return slot
        changed = change(slot)
        return slot if changed == slot else changed

    return map_weeks(
        program, program.reach(at.week, span), lambda week: map_slots(week, change_one)
    )


def set_field(
    program: Program, slot_id: SlotId, field: Field, *, value: Value, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with one field of the strand set and pinned in every week reached.

    A load of None takes the pin off again, so that the load follows from the tests.
    Raises EditError for a value of the wrong kind and QuantityError for one outside its range.
    """
    if not isinstance(value, _KINDS[field]) or isinstance(value, bool):
        raise EditError(
            tr("{value!r} is no value for {field}.", value=value, field=field.value),
            mend=tr("Enter a number."),
        )

    def change(slot: Slot) -> Slot:
        pinned = slot.pinned - {field} if value is None else slot.pinned | {field}
        # mypy cannot follow a field chosen at run time; the kinds are checked above
        return replace(slot, pinned=pinned, **{_ATTRIBUTE[field]: value})  # type: ignore[arg-type]

    return map_strand(program, slot_id, change=change, span=span)


def prescribe(
    program: Program,
    slot_id: SlotId,
    *,
    prescription: Prescription,
    span: Span = Span.THIS_WEEK,
) -> Program:
    """The program with the slot prescribed anew; only the fields that differ are set and pinned.

    What differs is told by the slot itself, so that an unchanged field of other weeks stays.
    """
    slot = find_slot(program, slot_id)
    wanted: dict[Field, Value] = {
        Field.SETS: prescription.sets,
        Field.REPS: prescription.reps,
        Field.EFFORT: prescription.effort,
        Field.REST: prescription.rest_s,
        Field.TEMPO: prescription.tempo,
    }
    for field, value in wanted.items():
        if getattr(slot, _ATTRIBUTE[field]) != value:
            program = set_field(program, slot_id, field, value=value, span=span)
    if prescription.note != slot.note:
        program = set_note(program, slot_id, note=prescription.note, span=span)
    if prescription.role is not slot.role:
        program = set_role(program, slot_id, role=prescription.role, span=span)
    return program


def add_sets(program: Program, slot_id: SlotId, *, by: int, span: Span = Span.THIS_WEEK) -> Program:
    """The program with `by` sets more (or fewer) for the strand, each week from its own number.

    Light weeks are left alone unless the edit is made in one.
    """
    at = locate(program, slot_id)
    slot = slot_at(program, at)
    if not 1 <= slot.sets + by <= MAX_SETS:
        raise EditError(
            tr("{sets} sets cannot be written.", sets=slot.sets + by),
            mend=tr("Keep between 1 and {max_sets}, or remove the exercise.", max_sets=MAX_SETS),
        )

    def change(week: Week) -> Week:
        if week.light and not program.weeks[at.week].light:
            return week
        return map_slots(
            week,
            lambda s: (
                replace(s, sets=min(max(1, s.sets + by), MAX_SETS), pinned=s.pinned | {Field.SETS})
                if s.strand == slot.strand
                else s
            ),
        )

    return map_weeks(program, program.reach(at.week, span), change)


def set_note(
    program: Program, slot_id: SlotId, *, note: str, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with a note for the client on the strand in every week reached."""
    return map_strand(
        program, slot_id, change=lambda slot: replace(slot, note=note.strip()), span=span
    )


def set_role(
    program: Program, slot_id: SlotId, *, role: Role, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with the strand made core or assistance in every week reached."""
    return map_strand(program, slot_id, change=lambda slot: replace(slot, role=role), span=span)


def set_prepared(
    program: Program,
    slot_id: SlotId,
    *,
    prepared: tuple[ExerciseKey, ...],
    span: Span = Span.THIS_WEEK,
) -> Program:
    """The program with these substitutes prepared wherever the strand holds the same exercise.

    Raises EditError for more than five, one twice, or the exercise itself.
    """
    exercise = find_slot(program, slot_id).exercise
    try:
        require_prepared(prepared, exercise)
    except CoachError as error:
        raise EditError(error.what, mend=error.mend) from error

    def change(slot: Slot) -> Slot:
        return replace(slot, prepared=prepared) if slot.exercise == exercise else slot

    return map_strand(program, slot_id, change=change, span=span)


def set_ramp(
    program: Program, slot_id: SlotId, *, ramp: Ramp | None, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with these ramp sets wherever the strand holds the same exercise.

    ramp: None for those that are worked out from the load.
    """
    exercise = find_slot(program, slot_id).exercise

    def change(slot: Slot) -> Slot:
        return replace(slot, ramp=ramp) if slot.exercise == exercise else slot

    return map_strand(program, slot_id, change=change, span=span)


def unpin(
    program: Program, slot_id: SlotId, field: Field, *, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with the field left to progressions and tests again."""

    def change(slot: Slot) -> Slot:
        load_kg = None if field is Field.LOAD else slot.load_kg
        return replace(slot, pinned=slot.pinned - {field}, load_kg=load_kg)

    return map_strand(program, slot_id, change=change, span=span)


def set_session_note(
    program: Program, session_id: SessionId, *, note: str, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with a note on the session in every week reached."""
    index, _, session = locate_session(program, session_id)

    def change(week: Week) -> Week:
        found = session_in(week, session.strand)
        if found is None or found[1].note == note.strip():
            return week
        return with_session(week, replace(found[1], note=note.strip()))

    return map_weeks(program, program.reach(index, span), change)


def set_day_note(
    program: Program, week: int, *, day: int, note: str, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with a note on the day in every week reached."""
    require_week(program, week)
    require_day(day)

    def change(old: Week) -> Week:
        if old.days[day].note == note.strip():
            return old
        return with_day(old, day, replace(old.days[day], note=note.strip()))

    return map_weeks(program, program.reach(week, span), change)


def accept(program: Program, finding: str, *, reason: str) -> Program:
    """The program with a finding accepted for a reason. Raises EditError without one."""
    reason = " ".join(reason.split())
    if not reason:
        raise EditError(
            tr("A finding is accepted with a reason."), mend=tr("Say in a few words why.")
        )
    kept = tuple(a for a in program.accepted if a.finding != finding)
    return replace(program, accepted=(*kept, Acceptance(finding, reason)))


def take_back(program: Program, finding: str) -> Program:
    """The program with an accepted finding speaking up again."""
    kept = tuple(a for a in program.accepted if a.finding != finding)
    return program if len(kept) == len(program.accepted) else replace(program, accepted=kept)
