"""Slots from elsewhere made fit for the session that they are pasted into."""

from __future__ import annotations

from dataclasses import replace
from string import ascii_uppercase

from app.domain.edits.parts import drop_lone_pairs
from app.domain.exercise import Catalogue
from app.domain.program import Session, Slot


def relettered(slots: tuple[Slot, ...], session: Session | None) -> tuple[Slot, ...]:
    """The slots with pairing letters that the session does not use; lone ones have none."""
    taken = {slot.pair for slot in session.slots} if session else set()
    free = iter([letter for letter in ascii_uppercase if letter not in taken])
    letters: dict[str, str] = {"": ""}
    for slot in slots:
        if slot.pair not in letters:
            letters[slot.pair] = next(free, "")
    return drop_lone_pairs(tuple(replace(slot, pair=letters[slot.pair]) for slot in slots))


def with_known_prepared(slot: Slot, catalogue: Catalogue) -> Slot:
    """The slot with those prepared substitutes that the library has: others stay behind."""
    known = tuple(key for key in slot.prepared if key in catalogue)
    return slot if known == slot.prepared else replace(slot, prepared=known)
