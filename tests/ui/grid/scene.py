"""A window's state for tests of the grid: a real desk on a store in memory, a small range book."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any

from PySide6.QtCore import QPointF, QRectF

from app.desk import Desk
from app.domain.client import FreeTime, StrengthTest
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import SlotId
from app.domain.ranges import Range, RangeBook, Who
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.grid import WeekGrid
from db.store import Store
from tests import builders

TODAY = date(2026, 11, 25)
"""The Wednesday of the first week of every program built for tests."""

WEEK = (
    "Mon: back_squat 4x10 rest 150 core, romanian_deadlift 3x10 core, leg_curl 3x12 RIR 1"
    " | Thu: leg_press 3x10 core, split_squat 3x10 rest 90, calf_raise 3x12 RIR 1"
    " | Sat: bench_press 4x10 core, barbell_row 3x10"
)

FREE = (
    FreeTime(60),
    FreeTime(0, "team evening"),
    FreeTime(30),
    FreeTime(60),
    FreeTime(45),
    FreeTime(60),
    FreeTime(0, "on call"),
)

TESTS = (
    StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5),
    StrengthTest(ExerciseKey("curl"), date(2026, 10, 2), 14, 10),
)

RANGES = RangeBook(
    MappingProxyType(
        {
            "weekly_sets": (
                Range(
                    "weekly_sets", 12, 20, "sets", "common practice", who=Who(kind=("emphasised",))
                ),
                Range("weekly_sets", 4, None, "sets", "common practice", who=Who(kind=("other",))),
            ),
            "session_minutes": (Range("session_minutes", None, 60, "min", "common practice"),),
            "spacing": (Range("spacing", 48, None, "hours", "common practice"),),
        }
    )
)
"""Ranges made up for the tests: their figures are not those that Weekloom ships."""


def bench(*weeks: str, **client_fields: Any) -> Bench:
    """A window's state on a program of these weeks, three times WEEK without any."""
    program = builders.program(*(weeks or (WEEK,) * 3))
    program = replace(program, emphasis=(Muscle.QUADRICEPS,))
    client = builders.client(**{"free": FREE, "tests": TESTS, **client_fields})
    store = Store.in_memory()
    desk = Desk(store, builders.CATALOGUE, RANGES)
    work = Work(client, program)
    store.save(None, work, label="Add client")
    desk.open(client.id, program.id)
    return Bench(desk)


def grid(qtbot: Any, on: Bench | None = None, *, width: int = 1066, height: int = 500) -> WeekGrid:
    """A grid on screen, with the first week open."""
    made = WeekGrid(on or bench(), today=lambda: TODAY)
    qtbot.addWidget(made)
    made.resize(width, height)
    made.show()
    qtbot.waitExposed(made)
    return made


def names(on: Bench, day: int, week: int = 0) -> list[str]:
    """Exercise keys of a day, in order."""
    sessions = on.desk.program.weeks[week].days[day].sessions
    return [str(slot.exercise) for session in sessions for slot in session.slots]


def slot_id(on: Bench, day: int, at: int, week: int = 0) -> SlotId:
    """The id of the n-th exercise of a day."""
    sessions = on.desk.program.weeks[week].days[day].sessions
    return [slot.id for session in sessions for slot in session.slots][at]


def card(grid: WeekGrid, day: int, at: int) -> QRectF:
    """Where the n-th card of a day shows."""
    box = grid.layout_now.days[day]
    return grid.card_rect(box, box.cards[at])


def between(grid: WeekGrid, day: int, at: int) -> QPointF:
    """A point at the upper edge of the n-th card of a day: before it."""
    rect = card(grid, day, at)
    return QPointF(rect.center().x(), rect.top() + 2)


def ground(grid: WeekGrid, day: int) -> QPointF:
    """A point on a day's empty ground, above its foot."""
    box = grid.layout_now.days[day]
    return QPointF(box.body.center().x(), box.body.bottom() - 3)
