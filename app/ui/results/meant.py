"""What each week of a program was meant to be: as it was handed out, or as it stands in the plan.

A week counts as handed out by the newest issue with it that the client could hold by its end.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from app.desk import Desk
from app.domain.program import Session, Slot, SlotId, Week


@dataclass(frozen=True, slots=True)
class MeantWeek:
    """One week as it was meant.

    index: its place in the program, from 0; first: its Monday; issued: the day it was handed out,
    None where the plan itself counts; loads: what was printed, or follows from the tests.
    """

    index: int
    first: date
    week: Week
    loads: Mapping[SlotId, float | None]
    issued: date | None = None

    def sessions(self) -> tuple[MeantSession, ...]:
        """Its sessions with something in them, in order."""
        return tuple(
            MeantSession(self, day, session)
            for day, session in self.week.sessions()
            if session.slots
        )


@dataclass(frozen=True, slots=True)
class MeantSession:
    """One session as it was meant; day: 0 for Monday."""

    week: MeantWeek
    day: int
    session: Session

    @property
    def planned(self) -> date:
        """The day it stands on."""
        return self.week.first + timedelta(days=self.day)

    def load_kg(self, slot: Slot) -> float | None:
        """The load that was meant for a slot of it."""
        return self.week.loads.get(slot.id)


def meant_weeks(desk: Desk) -> tuple[MeantWeek, ...]:
    """Every week of the open program as it was meant. Raises StoreError."""
    program, handed_out = desk.program, desk.handed_out()
    found = []
    for index, week in enumerate(program.weeks):
        first = program.week_start(index)
        printed = handed_out.newest_by(week.id, first + timedelta(days=6))
        if printed is None:
            loads = {slot.id: _load_kg(desk, slot) for slot in week.slots()}
            found.append(MeantWeek(index, first, week, loads))
        else:
            found.append(MeantWeek(index, first, printed.week, printed.loads, issued=printed.on))
    return tuple(found)


def _load_kg(desk: Desk, slot: Slot) -> float | None:
    if slot.exercise not in desk.catalogue:
        return slot.load_kg
    load = desk.load(slot)
    return None if load is None else load.load_kg
