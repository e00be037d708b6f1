"""What a client may do in an exercise's place, with the reason in plain words.

Offered is only what the client can do and does not dislike, and what is no harder where there is
such a thing: nobody stands by when a client swaps.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.booklet.book import Book
from app.booklet.words import equipment_text
from app.domain.exercise import Equipment, Exercise
from app.domain.program import Slot
from app.domain.substitute import Demand, Substitute, rank

MOST = 3
"""So many stand side by side."""

_DEMAND = {
    Demand.SAME: "about as hard",
    Demand.EASIER: "easier",
    Demand.HARDER: "harder",
}


@dataclass(frozen=True, slots=True)
class Instead:
    """One exercise that may be done in another's place, and why."""

    exercise: Exercise
    reason: str


def instead_of(book: Book, slot: Slot, exercise: Exercise) -> tuple[Instead, ...]:
    """Up to three exercises that may be done in the slot's place, best first."""
    client, program = book.issue.client, book.issue.program
    fitting = [
        found
        for found in rank(slot, program, client, book.content.catalogue)
        if not found.blocked and found.exercise.key not in client.dislikes
    ]
    gentle = [found for found in fitting if found.demand is not Demand.HARDER]
    chosen = (gentle or fitting)[:MOST]
    return tuple(Instead(found.exercise, _reason(found, exercise)) for found in chosen)


def _reason(found: Substitute, old: Exercise) -> str:
    """'easier, and easier on the back; needs two dumbbells'."""
    new = found.exercise
    text = _DEMAND[found.demand]
    if new.spinal_load < old.spinal_load:
        text += (
            ", and easier on the back" if found.demand is Demand.EASIER else ", easier on the back"
        )
    if set(new.equipment) <= {Equipment.BODY}:
        return f"{text}; needs nothing"
    return f"{text}; needs {equipment_text(new)}"
