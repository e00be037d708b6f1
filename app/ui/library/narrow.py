"""Narrowing the library: which exercises each choice leaves, and how many, as sets of bits.

Every choice is a number whose bit n stands for exercise n of the catalogue, so that counts beside
all choices cost a few microseconds, however many exercises there are.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum

from app.domain.client import Client
from app.domain.exercise import Equipment, Exercise, Muscle, Pattern
from app.domain.fit import fits
from app.domain.wording import mark
from app.ui.library.search import Entry, set_of


class Facet(Enum):
    """What the list can be narrowed by."""

    MUSCLE = "muscle"
    PATTERN = "pattern"
    EQUIPMENT = "equipment"
    DEMAND = "demand"
    FITS = "fits"
    AT_HAND = "at_hand"
    OWN = "own"


SKILLS = {1: mark("Learned in a set"), 2: mark("Learned in weeks"), 3: mark("Needs coaching")}
"""Demand on skill, as the exercise files grade it."""

Value = Muscle | Pattern | Equipment | int | bool


@dataclass(frozen=True, slots=True)
class Wish:
    """What the coach narrows the list to; None and False leave it open."""

    text: str = ""
    muscle: Muscle | None = None
    pattern: Pattern | None = None
    equipment: Equipment | None = None
    demand: int | None = None
    fits: bool = False
    at_hand: bool = False
    own: bool = False

    @property
    def chosen(self) -> tuple[tuple[Facet, Value], ...]:
        """The choices that are made."""
        every: tuple[tuple[Facet, Value | None], ...] = (
            (Facet.MUSCLE, self.muscle),
            (Facet.PATTERN, self.pattern),
            (Facet.EQUIPMENT, self.equipment),
            (Facet.DEMAND, self.demand),
            (Facet.FITS, self.fits),
            (Facet.AT_HAND, self.at_hand),
            (Facet.OWN, self.own),
        )
        return tuple((facet, value) for facet, value in every if value)


class Shelves:
    """The exercises of one catalogue, sorted by every choice."""

    def __init__(self, all_entries: Sequence[Entry]) -> None:
        self.entries = all_entries
        self.all = (1 << len(all_entries)) - 1
        places: defaultdict[tuple[Facet, Value], list[int]] = defaultdict(list)
        for entry in all_entries:
            for choice in _choices_of(entry.exercise):
                places[choice].append(entry.number)
        self._sets = {
            choice: set_of(numbers, len(all_entries)) for choice, numbers in places.items()
        }

    def _those(self, claim: Callable[[Exercise], bool]) -> int:
        return set_of((e.number for e in self.entries if claim(e.exercise)), len(self.entries))

    def show_client(self, client: Client | None, on: date, weekday: int | None = None) -> None:
        """Sort out what fits a client on a day; without one everything does.

        weekday: whose place is to be gone by; any place of the client's without one.
        """
        if client is None:
            self._sets[Facet.FITS, True] = self.all
        else:
            self._sets[Facet.FITS, True] = self._those(
                lambda one: fits(one, client, on, day=weekday)
            )

    def show_at_hand(self, keys: Collection[str]) -> None:
        """Sort out what is kept at hand."""
        self._sets[Facet.AT_HAND, True] = self._those(lambda one: one.key in keys)

    def left(self, wish: Wish, *, but: Facet | None = None) -> int:
        """The set that the wish's choices leave, its text and the facet `but` not looked at."""
        left = self.all
        for choice in wish.chosen:
            if choice[0] is not but:
                left &= self._sets.get(choice, 0)
        return left

    def counts(self, wish: Wish, facet: Facet) -> Mapping[Value, int]:
        """How many exercises each choice of a facet would leave beside the wish's other ones."""
        left = self.left(wish, but=facet)
        return {
            value: (left & numbers).bit_count()
            for (kind, value), numbers in self._sets.items()
            if kind is facet
        }

    def entries_in(self, numbers: int, order: Sequence[int]) -> list[Entry]:
        """The entries of a set in an order of all numbers."""
        digits = f"{numbers:0{len(self.entries)}b}"[::-1]
        several = self.entries
        return [several[n] for n in order if digits[n] == "1"]


def _choices_of(exercise: Exercise) -> Iterable[tuple[Facet, Value]]:
    for work in exercise.work:
        yield Facet.MUSCLE, work.muscle
    yield Facet.PATTERN, exercise.pattern
    for thing in exercise.equipment:
        yield Facet.EQUIPMENT, thing
    yield Facet.DEMAND, exercise.skill
    if exercise.own:
        yield Facet.OWN, True
