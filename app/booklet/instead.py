"""What a client may do in an exercise's place, with the reason in plain words."""

from __future__ import annotations

from dataclasses import dataclass

from app.booklet.book import Book
from app.domain.exercise import Exercise
from app.domain.program import Slot

MOST = 3
"""So many stand side by side."""


@dataclass(frozen=True, slots=True)
class Instead:
    """One exercise that may be done in another's place, and when."""

    exercise: Exercise
    reason: str


def instead_of(book: Book, slot: Slot, exercise: Exercise) -> tuple[Instead, ...]:
    """Up to three exercises that may be done in the place of `exercise`."""
    catalogue = book.content.catalogue
    near = [(key, "easier") for key in exercise.easier] + [
        (key, "harder, once this one is easy") for key in exercise.harder
    ]
    return tuple(Instead(catalogue[key], why) for key, why in near if key in catalogue)[:MOST]
