"""Which of the booklets that were handed out tells what a week of a program was meant to be.

One place for everything that compares done with planned: tests move on and change every load that
rests on them, so the loads a client really trained with stand in the booklet alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from app.domain.program import Program, Slot, SlotId, Week, WeekId
from app.domain.work import Issue, IssueId


class Listed(Protocol):
    """An issue in a list: which one, and when it was handed out."""

    @property
    def id(self) -> IssueId:
        """The issue's id."""

    @property
    def on(self) -> date:
        """The day it was handed out."""


@dataclass(frozen=True, slots=True)
class PrintedWeek:
    """One week as it was printed. on: the day it was handed out; loads: kg, None where none was."""

    on: date
    week: Week
    loads: Mapping[SlotId, float | None]

    def has(self, slot: Slot) -> bool:
        """True if the slot was printed, with the exercise it has now."""
        return any(s.id == slot.id and s.exercise == slot.exercise for s in self.week.slots())


class HandedOut:
    """The issues of one program. One is opened when the first week asks for it, and then known."""

    def __init__(
        self,
        lines: Iterable[Listed],
        weeks_of: Callable[[IssueId], Mapping[WeekId, PrintedWeek]],
    ) -> None:
        """lines: the newest first; weeks_of: may raise, and is then asked again next time."""
        self.lines: Sequence[Listed] = tuple(lines)
        self._weeks_of = weeks_of
        self._known: dict[IssueId, Mapping[WeekId, PrintedWeek]] = {}

    def newest_by(self, week: WeekId, day: date) -> PrintedWeek | None:
        """The week in the newest booklet that has it and was handed out by that day."""
        return self._first_with(week, (line for line in self.lines if line.on <= day))

    def at_start(self, week: WeekId, first: date) -> PrintedWeek | None:
        """The week as the client had it when it began on `first`.

        By the newest booklet until then, else by the first one that has it; None where none does.
        """
        known = self.newest_by(week, first)
        return known or self._first_with(week, reversed(self.lines))

    def begun(self, program: Program, today: date) -> dict[WeekId, PrintedWeek]:
        """Every week of the program that has begun and was printed; others are not in it."""
        starts = ((week.id, program.week_start(at)) for at, week in enumerate(program.weeks))
        found = {week: self.at_start(week, first) for week, first in starts if first <= today}
        return {week: printed for week, printed in found.items() if printed is not None}

    def _first_with(self, week: WeekId, lines: Iterable[Listed]) -> PrintedWeek | None:
        found = (self._weeks(line).get(week) for line in lines)
        return next((printed for printed in found if printed is not None), None)

    def _weeks(self, line: Listed) -> Mapping[WeekId, PrintedWeek]:
        if line.id not in self._known:
            self._known[line.id] = self._weeks_of(line.id)
        return self._known[line.id]


def printed_weeks(issue: Issue) -> dict[WeekId, PrintedWeek]:
    """The weeks of an issue, each with the loads that were printed in it."""
    loads = {one.slot: one.load_kg for one in issue.loads}
    return {
        week.id: PrintedWeek(
            issue.on, week, {slot.id: loads[slot.id] for slot in week.slots() if slot.id in loads}
        )
        for week in issue.program.weeks
    }
