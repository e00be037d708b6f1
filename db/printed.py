"""The weeks of an issue as they were printed, each made when it is first asked for.

Whoever compares what was done with what was meant needs one week of each issue, and making all the
weeks of all issues takes seconds.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from app.domain.handed_out import PrintedWeek
from app.domain.program import SlotId, Week, WeekId
from app.domain.work import IssueId
from db.canonical import value_of
from db.errors import missing
from db.reading import rows_of


class PrintedWeeks(Mapping[WeekId, PrintedWeek]):
    """The weeks of one issue; plain: the issue as JSON gives it."""

    def __init__(self, plain: dict[str, Any]) -> None:
        self._on = value_of(date, plain["on"])
        self._plain: dict[WeekId, Any] = {
            WeekId(week["id"]): week for week in plain["program"]["weeks"]
        }
        self._loads: dict[int, float | None] = {
            one["slot"]: one["load_kg"] for one in plain["loads"]
        }
        self._made: dict[WeekId, PrintedWeek] = {}

    def __getitem__(self, key: WeekId) -> PrintedWeek:
        made = self._made.get(key)
        if made is None:
            week: Week = value_of(Week, self._plain[key])
            loads = {
                SlotId(slot.id): self._loads[slot.id]
                for slot in week.slots()
                if slot.id in self._loads
            }
            made = self._made[key] = PrintedWeek(self._on, week, loads)
        return made

    def __iter__(self) -> Iterator[WeekId]:
        return iter(self._plain)

    def __len__(self) -> int:
        return len(self._plain)


def read_printed(raw: sqlite3.Connection, issue_id: IssueId) -> PrintedWeeks:
    """The weeks of the issue. Raises StoreFailure if there is none of that id."""
    for row in rows_of(raw, "SELECT value FROM issues WHERE id = ?", issue_id):
        return PrintedWeeks(json.loads(row["value"]))
    raise missing("issue", issue_id)
