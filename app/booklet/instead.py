"""What a client may do in an exercise's place, with the reason in plain words.

What the coach prepared comes first, and alone. Where nothing is prepared, what is ranked best is
offered: only what the client can do and does not dislike, and what is no harder where there is
such a thing, for nobody stands by when a client swaps. What the client lacks equipment for or must
not do on that day is never printed, prepared or not.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from app.booklet.book import Book
from app.booklet.words import equipment_text
from app.domain.checks.context import breaches, missing_equipment
from app.domain.edits.parts import locate
from app.domain.exercise import Equipment, Exercise, ExerciseKey
from app.domain.program import MAX_PREPARED, Slot
from app.domain.substitute import Demand, Substitute, rank
from app.domain.wording import mark, tr

BESIDE = 3
"""So many stand side by side."""

MOST = BESIDE
"""So many are offered where none are prepared."""

_DEMAND = {
    Demand.SAME: mark("about as hard"),
    Demand.EASIER: mark("easier"),
    Demand.HARDER: mark("harder"),
}


@dataclass(frozen=True, slots=True)
class Instead:
    """One exercise that may be done in another's place, and why; prepared: by the coach."""

    exercise: Exercise
    reason: str
    prepared: bool = False


def instead_of(book: Book, slot: Slot, exercise: Exercise) -> tuple[Instead, ...]:
    """What may be done in the slot's place: up to five prepared ones, else the three best."""
    client, program = book.issue.client, book.issue.program
    ranked = rank(slot, program, client, book.content.catalogue)
    if prepared := _prepared(book, slot, exercise, ranked=ranked):
        return prepared
    fitting = [
        found for found in ranked if not found.blocked and found.exercise.key not in client.dislikes
    ]
    gentle = [found for found in fitting if found.demand is not Demand.HARDER]
    chosen = (gentle or fitting)[:MOST]
    return tuple(Instead(found.exercise, _reason(found, exercise)) for found in chosen)


def _prepared(
    book: Book, slot: Slot, exercise: Exercise, *, ranked: tuple[Substitute, ...]
) -> tuple[Instead, ...]:
    """What was prepared for any slot of the exercise in the printed weeks and can be done."""
    keys = _prepared_keys(book, slot)
    if not keys:
        return ()
    by_key = {found.exercise.key: found for found in ranked}
    on = _day_of(book, slot)
    chosen = []
    for key in keys:
        found = by_key.get(key)
        new = book.exercise(key)
        if _can_do(book, new, on):
            reason = (
                _reason(found, exercise)
                if found
                else tr("for other muscles; {needs}", needs=_needs(new))
            )
            chosen.append(Instead(new, reason, prepared=True))
    return tuple(chosen[:MAX_PREPARED])


def _prepared_keys(book: Book, slot: Slot) -> tuple[ExerciseKey, ...]:
    """Keys prepared for the slot, then those for other slots of its exercise, each once."""
    weeks = book.issue.program.weeks
    alike = [
        other
        for index in book.week_range
        for other in weeks[index].slots()
        if other.exercise == slot.exercise and other.prepared
    ]
    return tuple(dict.fromkeys(key for one in (slot, *alike) for key in one.prepared))


def _day_of(book: Book, slot: Slot) -> date:
    at = locate(book.issue.program, slot.id)
    return book.issue.program.start + timedelta(weeks=at.week, days=at.day)


def _can_do(book: Book, exercise: Exercise, on: date) -> bool:
    """True if the client has what it needs and no limitation rules it out on that day."""
    client = book.issue.client
    ruled_out = any(b.limitation.applies_on(on) for b in breaches(exercise, client))
    return not ruled_out and not missing_equipment(exercise, client, on.weekday())


def _reason(found: Substitute, old: Exercise) -> str:
    """'easier, and easier on the back; needs two dumbbells'."""
    new = found.exercise
    text = tr(_DEMAND[found.demand])
    if new.spinal_load < old.spinal_load:
        text += (
            tr(", and easier on the back")
            if found.demand is Demand.EASIER
            else tr(", easier on the back")
        )
    return f"{text}; {_needs(new)}"


def _needs(exercise: Exercise) -> str:
    """'needs two dumbbells'."""
    if set(exercise.equipment) <= {Equipment.BODY}:
        return tr("needs nothing")
    return tr("needs {equipment_text}", equipment_text=equipment_text(exercise))
