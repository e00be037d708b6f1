"""What the fields of a fillable booklet are called, so that they can be read back years later.

A field is found by its place in the program: 'w03.s12.slot45.set1.load' is the load of the first
set of slot 45, in session 12 of week 3. Ids of sessions and slots never change within a program.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from app.domain.program import MAX_SETS, SessionId, SlotId

FORM_VERSION = 1
"""Raised when names change their meaning; a reader refuses what it does not know."""

ISSUE, UNITS, VERSION = "weekloom.issue", "weekloom.units", "weekloom.form"
"""Hidden fields: the issue that the form belongs to, its unit of mass, and the version."""


class What(StrEnum):
    """What a field of a set asks for."""

    LOAD = "load"
    REPS = "reps"
    RIR = "rir"
    NOTE = "note"


@dataclass(frozen=True, slots=True, order=True)
class SetPlace:
    """One set of an issue: week from 1, the session and slot by their ids, set from 1."""

    week: int
    session: SessionId
    slot: SlotId
    number: int

    def field(self, what: What) -> str:
        """The name of its field.

        >>> SetPlace(3, 12, 45, 1).field(What.LOAD)
        'w03.s12.slot45.set1.load'
        """
        return f"w{self.week:02d}.s{self.session}.slot{self.slot}.set{self.number}.{what.value}"


_SET = re.compile(
    r"w(\d{2})\.s(\d{1,9})\.slot(\d{1,9})\.set(\d{1,2})\.(load|reps|rir|note)", re.ASCII
)
_DAY = re.compile(r"w(\d{2})\.s(\d{1,9})\.day", re.ASCII)


def read_set_name(name: str) -> tuple[SetPlace, What] | None:
    """The set and what is asked of it; None for another kind of name."""
    found = _SET.fullmatch(name)
    if found is None:
        return None
    week, session, slot, number = map(int, found.groups()[:4])
    if not 1 <= number <= MAX_SETS:
        return None
    return SetPlace(week, SessionId(session), SlotId(slot), number), What(found[5])


def day_name(week: int, session: SessionId) -> str:
    """The name of the field for the day on which a session was done, if not on the planned one.

    >>> day_name(3, 12)
    'w03.s12.day'
    """
    return f"w{week:02d}.s{session}.day"


def read_day_name(name: str) -> tuple[int, SessionId] | None:
    """Week and session of a field for the day; None for another kind of name."""
    found = _DAY.fullmatch(name)
    return None if found is None else (int(found[1]), SessionId(int(found[2])))
