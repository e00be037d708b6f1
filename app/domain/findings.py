"""Findings: one thing a check has to say, with its place, measure, range, source and mend."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum
from typing import Any

from app.domain.program import Program, SessionId, SlotId, StrandId, WeekId
from app.domain.ranges import Range
from app.domain.wording import tr, trn


class Weight(IntEnum):
    """The three weights of a finding, heaviest first."""

    CONFLICT = 0  # screening, limitation or equipment forbids it
    OUTSIDE = 1  # a published range is left
    REMARK = 2  # worth a look

    @property
    def word(self) -> str:
        """The word that stands beside the sign."""
        return (tr("Conflict"), tr("Outside"), tr("Remark"))[self]

    def counted(self, count: int) -> str:
        """So many findings of this weight: '2 conflicts', '5 outside', '1 remark'."""
        match self:
            case Weight.CONFLICT:
                return trn("{n} conflict", "{n} conflicts", count)
            case Weight.OUTSIDE:
                return tr("{count} outside", count=count)
            case Weight.REMARK:
                return trn("{n} remark", "{n} remarks", count)


@dataclass(frozen=True, slots=True)
class Place:
    """Where in the program: as narrow as it can be said.

    week is None for the whole program. day counts from 0 for Monday. strand names the slot's
    strand, so that a finding keeps its id when an edit elsewhere renumbers things.
    """

    week: WeekId | None = None
    day: int | None = None
    session: SessionId | None = None
    slot: SlotId | None = None
    strand: StrandId | None = None


@dataclass(frozen=True, slots=True)
class Edit:
    """An edit as a value: a pure function Program -> Program with its arguments and its name.

    label: as the undo menu says it, 'Move Back squat to Thursday'. Calling it may raise
    EditError. Two edits are equal if they do the same thing with the same arguments.
    """

    label: str
    function: Callable[..., Program]
    arguments: tuple[tuple[str, Any], ...] = ()

    def __call__(self, program: Program) -> Program:
        """The program with the edit applied."""
        return self.function(program, **dict(self.arguments))


def edit(label: str, function: Callable[..., Program], **arguments: Any) -> Edit:
    """The edit `function` with keyword `arguments` (hashable values), named `label`."""
    return Edit(label, function, tuple(arguments.items()))


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing a check has to say.

    rule: the check's name; about: the muscle, exercise or other key it speaks of; text: the
    sentence, measured value first; measured and range as numbers where there are any; below is
    True, False or None (not a matter of more or less); place_text: 'Thursday', 'week 7';
    reason: in plain words; source: a key of the references, 'common practice', or whose own word it
    is ('limitation of 2 Oct 2026'); mend: an edit that would
    settle it, where there is an obvious one, labelled by what it does ('Add 2 sets').
    """

    rule: str
    weight: Weight
    place: Place
    about: str
    text: str
    measured: float | None = None
    range: Range | None = None
    below: bool | None = None
    place_text: str = ""
    reason: str = ""
    source: str = ""
    mend: Edit | None = None

    @property
    def id(self) -> str:
        """A key that stays the same while the cause does."""
        p = self.place
        where = f"s{p.strand}" if p.strand is not None else "" if p.day is None else f"d{p.day}"
        week = "program" if p.week is None else f"w{p.week}"
        return f"{self.rule}/{week}/{where}/{self.about}"
