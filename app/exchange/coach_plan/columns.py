"""What the columns of a coach's table are for, as the coach says or as it was guessed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from app.domain.wording import mark


class Part(StrEnum):
    """What a column holds."""

    IGNORED = "ignored"
    EXERCISE = "exercise"
    WEEK = "week"
    DATE = "date"
    DAY = "day"
    SESSION = "session"
    SCHEME = "scheme"
    SETS = "sets"
    SET_NUMBER = "set_number"
    REPS = "reps"
    REPS_FROM = "reps_from"
    REPS_TO = "reps_to"
    COUNTED = "counted"
    RIR = "rir"
    RATING = "rating"
    PERCENT = "percent"
    PERCENT_RM = "percent_rm"
    EFFORT = "effort"
    REST = "rest"
    TEMPO = "tempo"
    LOAD = "load"
    PAIR = "pair"
    NOTE = "note"
    LIGHT = "light"


LABELS = {
    Part.IGNORED: mark("Left out"),
    Part.EXERCISE: mark("Exercise"),
    Part.WEEK: mark("Week"),
    Part.DATE: mark("Date"),
    Part.DAY: mark("Day"),
    Part.SESSION: mark("Session"),
    Part.SCHEME: mark("Sets and reps in one cell"),
    Part.SETS: mark("Sets"),
    Part.SET_NUMBER: mark("Number of the set"),
    Part.REPS: mark("Reps"),
    Part.REPS_FROM: mark("Reps, least"),
    Part.REPS_TO: mark("Reps, most"),
    Part.COUNTED: mark("Reps or seconds"),
    Part.RIR: mark("Reps in reserve"),
    Part.RATING: mark("Exertion, 1 to 10"),
    Part.PERCENT: mark("% of 1RM"),
    Part.PERCENT_RM: mark("% of the rep-max load"),
    Part.EFFORT: mark("Effort in words"),
    Part.REST: mark("Rest"),
    Part.TEMPO: mark("Tempo"),
    Part.LOAD: mark("Load"),
    Part.PAIR: mark("Pair"),
    Part.NOTE: mark("Note"),
    Part.LIGHT: mark("Light week"),
}
"""What the coach reads for each part, in the order in which they are offered."""

PLACES = frozenset({Part.WEEK, Part.DATE, Part.DAY, Part.SESSION, Part.LIGHT, Part.EXERCISE})
"""Parts that say where a line stands; the others say what is asked."""


@dataclass(frozen=True, slots=True)
class Column:
    """What a column is for. week: the week it speaks of where weeks stand side by side, else 0;
    unit: of its numbers where the heading tells it ('min', 's', 'kg', 'lb').
    """

    part: Part = Part.IGNORED
    week: int = 0
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Mapping:
    """How a table is read.

    head: the row of the headings, counted from 0, -1 where there is none; set_rows: each row is
    one set; sheet_weeks: each sheet is a week; unit: of loads that do not say theirs.
    """

    columns: tuple[Column, ...]
    head: int = -1
    set_rows: bool = False
    sheet_weeks: bool = False
    unit: str = "kg"

    def holds(self, *parts: Part) -> bool:
        """True if some column is for one of the parts."""
        return any(column.part in parts for column in self.columns)

    def with_part(self, number: int, part: Part) -> Mapping:
        """The mapping with another part for a column; its week stays."""
        columns = list(self.columns)
        columns[number] = replace(columns[number], part=part, unit="")
        return replace(self, columns=tuple(columns))

    def with_week(self, number: int, week: int) -> Mapping:
        """The mapping with a column that speaks of that week alone; 0 for every week."""
        columns = list(self.columns)
        columns[number] = replace(columns[number], week=week)
        return replace(self, columns=tuple(columns))

    @property
    def side_by_side(self) -> bool:
        """True if weeks stand side by side."""
        return any(column.week for column in self.columns)

    def record(self) -> dict[str, Any]:
        """The mapping as a record that JSON takes."""
        return {
            "columns": [[c.part.value, c.week, c.unit] for c in self.columns],
            "head": self.head,
            "set_rows": self.set_rows,
            "sheet_weeks": self.sheet_weeks,
            "unit": self.unit,
        }


def mapping_of(record: Any, *, width: int) -> Mapping | None:
    """The mapping of a record that was kept; None if it is none or for another width."""
    try:
        columns = tuple(
            Column(Part(part), int(week), str(unit)) for part, week, unit in record["columns"]
        )
        made = Mapping(
            columns,
            head=int(record["head"]),
            set_rows=bool(record["set_rows"]),
            sheet_weeks=bool(record["sheet_weeks"]),
            unit="lb" if record["unit"] == "lb" else "kg",
        )
    except (KeyError, TypeError, ValueError):
        return None
    return made if len(columns) == width else None
