"""Edits by what was written on a card: only what differs is set, and it counts as set by hand."""

from __future__ import annotations

from app.domain.edits import fields
from app.domain.edits.parts import find_slot
from app.domain.prescription_text import Written, applied
from app.domain.program import Field, Program, Role, Slot, SlotId, Span

_NAMES: tuple[tuple[Field, str], ...] = (
    (Field.SETS, "sets"),
    (Field.REPS, "reps"),
    (Field.EFFORT, "effort"),
    (Field.REST, "rest_s"),
    (Field.TEMPO, "tempo"),
    (Field.LOAD, "load_kg"),
)


def differing(slot: Slot, written: Written) -> tuple[Field, ...]:
    """The fields that what was written would change. Raises CoachError for what cannot be."""
    wanted = applied(slot, written)
    return tuple(f for f, name in _NAMES if getattr(wanted, name) != getattr(slot, name))


def write(
    program: Program,
    *,
    slot_id: SlotId,
    written: Written,
    span: Span = Span.THIS_WEEK,
    note: str | None = None,
    role: Role | None = None,
) -> Program:
    """The program with what was written in the slot's strand; only what differs is set.

    note and role: None leaves them.
    """
    slot = find_slot(program, slot_id)
    wanted = applied(slot, written)
    for field, name in _NAMES:
        value = getattr(wanted, name)
        if value != getattr(slot, name):
            program = fields.set_field(program, slot_id, field, value=value, span=span)
    if note is not None and note.strip() != slot.note:
        program = fields.set_note(program, slot_id, note=note, span=span)
    if role is not None and role is not slot.role:
        program = fields.set_role(program, slot_id, role=role, span=span)
    return program


def unpin_all(
    program: Program, *, slot_ids: tuple[SlotId, ...], span: Span = Span.THIS_WEEK
) -> Program:
    """The program with every field of these slots left to progressions and tests again."""
    for slot_id in slot_ids:
        for field in Field:
            program = fields.unpin(program, slot_id, field, span=span)
    return program
