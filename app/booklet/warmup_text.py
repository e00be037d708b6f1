"""The warm-up line of a session: easy movement, drills, and the sets that lead up to the load."""

from __future__ import annotations

from app.booklet.book import Book
from app.booklet.fonts import NBSP
from app.booklet.words import mass_number
from app.domain.exercise import Exercise, LoadKind
from app.domain.program import Role, Session, Slot
from app.domain.session_time import LOWER_BODY
from app.domain.strength import RampSet, ramp_sets

EASY = f"5{NBSP}minutes easy movement"
_RAMPED = (
    LoadKind.BARBELL,
    LoadKind.DUMBBELL_EACH,
    LoadKind.DUMBBELL_ONE,
    LoadKind.MACHINE,
    LoadKind.CABLE,
)


def ramped_slots(book: Book, session: Session) -> tuple[Slot, ...]:
    """The slots that ramp sets lead up to: the first loaded core lift of each half of the body.

    Where no lift is core, the first loaded one of the session.
    """
    loaded = [
        slot
        for slot in session.slots
        if book.loads.get(slot.id) and book.exercise(slot.exercise).load_kind in _RAMPED
    ]
    core = [slot for slot in loaded if slot.role is Role.CORE]
    if not core:
        return tuple(loaded[:1])
    halves: dict[bool, Slot] = {}
    for slot in core:
        halves.setdefault(book.exercise(slot.exercise).pattern in LOWER_BODY, slot)
    return tuple(halves.values())


def ramp_of(book: Book, slot: Slot, exercise: Exercise) -> tuple[RampSet, ...]:
    """The ramp sets that lead up to a slot's printed load."""
    load_kg = book.loads.get(slot.id)
    if not load_kg:
        return ()
    increments = book.issue.client.increments
    return ramp_sets(load_kg, increments.bar_kg, increments, kind=exercise.load_kind)


def ramp_text(book: Book, ramp: tuple[RampSet, ...]) -> str:
    """'20 kg × 8, 40 × 5, 55 × 3'."""
    units = book.issue.client.units
    return ", ".join(
        f"{mass_number(step.load_kg, units)}{f'{NBSP}{units}' if not at else ''}"
        f"{NBSP}×{NBSP}{step.reps}"
        for at, step in enumerate(ramp)
    )


def warmup_text(book: Book, session: Session) -> str:
    """The whole line: '5 minutes easy movement; band walk; ramp sets 20 kg × 8, 40 × 5'."""
    parts = [EASY, *(book.exercise(key).name for key in session.warmup)]
    ramps = [
        (book.exercise(slot.exercise).name, ramp_text(book, ramp))
        for slot in ramped_slots(book, session)
        if (ramp := ramp_of(book, slot, book.exercise(slot.exercise)))
    ]
    if len(ramps) == 1:
        parts.append(f"ramp sets {ramps[0][1]}")
    else:
        parts += [f"ramp sets {name}: {text}" for name, text in ramps]
    return "; ".join(parts)
