"""Opening a client's charts with 2,500 result rows: the window is there before they are drawn."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.domain.edits.weeks import duplicate_week
from app.domain.program import Program
from app.domain.results import CheckIn, Diary, SetDone, SlotResult
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.charts.canvas import Canvas
from app.ui.charts.window import ChartsWindow
from db.store import Store
from tests.bench.budgets import hold
from tests.ui.desks import PROGRAM, RUNA

pytestmark = pytest.mark.bench

ROWS = 2500
FIRST_PAINT_MS = 150.0


def season() -> Program:
    """The program of the tests, a year long."""
    made = PROGRAM
    while len(made.weeks) < 52:
        made = duplicate_week(made, len(made.weeks) - 1)
    return made


def results(program: Program) -> Iterator[SlotResult]:
    """What was done of every slot, in this year and in years before, without end."""
    for years in range(100):
        for index, week in enumerate(program.weeks):
            monday = program.week_start(index) - timedelta(weeks=60 * years)
            for day, session in week.sessions():
                for slot in session.slots:
                    done = (SetDone(60 + index * 0.5, 8, 2.0),) * slot.sets
                    on = monday + timedelta(days=day)
                    yield SlotResult(program.id, slot.id, slot.exercise, on, done)


@pytest.fixture
def bench(qtbot: QtBot, tmp_path: Path) -> Iterator[Bench]:
    program = season()
    rows = tuple(row for row, _ in zip(results(program), range(ROWS), strict=False))
    checks = tuple(
        CheckIn(program.start + timedelta(days=n), mass_kg=66 + n * 0.01) for n in range(300)
    )
    store = Store.open(tmp_path / "coach.weekloom")
    store.save(None, Work(RUNA, program, Diary(checks, rows)), label="Add")
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id, program.id)
    yield Bench(desk)
    store.close()


def test_the_window_of_charts_is_there_before_they_are_drawn(
    qtbot: QtBot, bench: Bench, monkeypatch: pytest.MonkeyPatch
):
    start = time.perf_counter()
    assert len(bench.desk.diary.results) == ROWS
    read_ms = (time.perf_counter() - start) * 1000
    painted: list[float] = []
    paint = Canvas.paintEvent

    def noted(canvas, event):
        paint(canvas, event)
        painted.append((time.perf_counter() - start) * 1000)

    monkeypatch.setattr(Canvas, "paintEvent", noted)
    start = time.perf_counter()
    window = ChartsWindow(bench, None)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: window.chart is not None and window._job is None, timeout=60_000)
    drawn_ms = (time.perf_counter() - start) * 1000
    print(f"diary of {ROWS} rows read in {read_ms:.0f} ms, first chart drawn after {drawn_ms:.0f}")
    hold("charts with 2,500 results, first paint", painted[0], FIRST_PAINT_MS, unit="ms")
    assert replace(window.chart, rows=()).empty == ""
    window.close()
