"""What a mend is asked for, and where in the program that is."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.domain.checks.context import Context
from app.domain.edits.parts import At, locate, slot_at
from app.domain.exercise import Exercise
from app.domain.findings import Finding
from app.domain.program import Program, Session, Slot


@dataclass(frozen=True, slots=True)
class Ask:
    """A finding of a program to mend.

    choices: exercises chosen before for a strand, so that they need not be ranked anew.
    """

    finding: Finding
    program: Program
    context: Context
    choices: dict[object, Exercise | None] = field(default_factory=dict)

    @property
    def at(self) -> At:
        """Where the finding's slot stands. Raises EditError if it is gone."""
        if self.finding.place.slot is None:
            raise ValueError(f"{self.finding.rule} is not about a slot")
        return locate(self.program, self.finding.place.slot)

    @property
    def slot(self) -> Slot:
        """The slot that the finding is about."""
        return slot_at(self.program, self.at)

    @property
    def session(self) -> tuple[int, int, Session] | None:
        """Week index, day and session that the finding is about; None if it is about neither."""
        place = self.finding.place
        if place.week is None or place.day is None:
            return None
        index = self.program.week_index(place.week)
        for session in self.program.weeks[index].days[place.day].sessions:
            if session.id == place.session:
                return index, place.day, session
        return None
