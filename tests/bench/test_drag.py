"""A scripted drag of 500 steps over the week grid, beside a bare drag over an empty target.

A step is the drag's move event, what would become of the day, and the repaint. The floor is the
same events on a widget that accepts them and paints nothing of its own.
"""

from __future__ import annotations

import gc
import time
from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication, QWidget

from app import resources
from app.desk import Desk
from app.domain.exercise import Muscle
from app.domain.program import Span
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.grid import WeekGrid
from db.store import Store
from tests import builders
from tests.bench.budgets import hold
from tests.bench.small_steps import CARRIED, STEPS, Bare, path
from tests.ui.grid import scene
from tests.ui.grid.gestures import Drag

pytestmark = pytest.mark.bench

FRAME_MS = 8.0
"""A 120 Hz frame."""

DAY = (
    "back_squat 4x8 core, romanian_deadlift 3x10, leg_press 3x10, leg_curl 3x12 pair A, "
    "calf_raise 3x12 pair A, bench_press 3x8, barbell_row 3x10, curl 2x12"
)
WEEK = " | ".join(f"{day}: {DAY}" for day in ("Mon", "Tue", "Thu", "Sat"))


def grid_of(weeks: int) -> WeekGrid:
    """A grid on a full program, with the ranges that are shipped."""
    program = replace(
        builders.program(WEEK, times=weeks), emphasis=(Muscle.QUADRICEPS, Muscle.GLUTEALS)
    )
    client = builders.client(free=scene.FREE, tests=scene.TESTS)
    store = Store.in_memory()
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    store.save(None, Work(client, program), label="Add client")
    desk.open(client.id, program.id)
    bench = Bench(desk)
    bench.choose_span(Span.FROM_HERE)
    return WeekGrid(bench, today=lambda: scene.TODAY)


def drag_ms(target: QWidget) -> tuple[list[float], float]:
    """The time of each step of one drag over the target, and the longest piece between, ms."""
    target.resize(1066, 500)
    target.show()
    QApplication.processEvents()
    drag, points = Drag(target, CARRIED), path(target)
    assert drag.enter(points[0])
    times, longest = [], 0.0
    for point in points:
        start = time.perf_counter()
        drag.move(point)
        target.repaint()
        times.append(1000 * (time.perf_counter() - start))
        start = time.perf_counter()
        QApplication.processEvents()
        longest = max(longest, 1000 * (time.perf_counter() - start))
    target.hide()
    return times, longest


def share(times: list[float], part: float) -> float:
    """The time that `part` of the steps do not pass."""
    return sorted(times)[min(len(times) - 1, int(part * len(times)))]


@pytest.mark.parametrize("weeks", [21, 52])
def test_a_step_of_a_drag_fits_a_fast_frame(qtbot, weeks: int):
    bare, grid = Bare(), grid_of(weeks)
    for target in (bare, grid):
        qtbot.addWidget(target)
    gc.collect()
    gc.freeze()  # the heap of a test run is not the program's
    (floor, _), (ours, longest) = drag_ms(bare), drag_ms(grid)
    gc.unfreeze()
    middle, late = share(ours, 0.5), share(ours, 0.95)
    print(
        f"drag step, {weeks} weeks, {STEPS} steps: p50 {middle:.2f} ms, p95 {late:.2f} ms, "
        f"max {max(ours):.2f} ms at step {ours.index(max(ours))}; longest piece between steps "
        f"{longest:.2f} ms; bare p50 {share(floor, 0.5):.3f} ms, "
        f"ratio {middle / share(floor, 0.5):.1f}"
    )
    hold(f"drag step, {weeks} weeks, p95", late, FRAME_MS, unit="ms")
