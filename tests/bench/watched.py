"""A working session under the watchdog, as a process of its own; answers with one line of JSON.

The whole window on a season of so many weeks: a drag of 500 steps over it, the same drag over an
empty target, and then what a coach does in an evening: other weeks, clients and spans, edits, and
every dialog opened and left again.
"""

from __future__ import annotations

import gc
import json
import os
import sys
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from functools import partial
from time import sleep

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["WEEKLOOM_WATCHDOG"] = "1"

from PySide6.QtCore import QThreadPool, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget

from app import resources
from app.demo import fill
from app.desk import Desk
from app.domain.fit import fits
from app.domain.layout import lay_out
from app.domain.program import Program, ProgramId, Span, empty_program
from app.domain.work import Work
from app.resources.layouts import layouts
from app.ui import start, theme
from app.ui.actions import ACTIONS
from app.ui.bench import Bench
from app.ui.carry import Carried
from app.ui.watchdog import Stretch, WatchedApplication, spread
from app.ui.window import Window
from db.store import Store
from tests.bench.small_steps import CARRIED, Bare, path
from tests.ui.desks import RUNA
from tests.ui.grid.gestures import Drag

START = date(2026, 11, 23)


def season(weeks: int) -> Program:
    """The shipped layout with most to do, for so many weeks."""
    fullest = max(layouts(), key=lambda it: sum(len(s.slots) for s in it.sessions))
    return lay_out(
        empty_program(ProgramId("season"), "Season", start=START, weeks=weeks),
        fullest,
        client=RUNA,
        catalogue=resources.catalogue(),
        fits=lambda exercise, day: fits(exercise, RUNA, START, day=day),
    )


def window_on(weeks: int) -> Window:
    """The window with that season open, and the demo's team in the same file."""
    store = Store.in_memory()
    fill(store, resources.catalogue())
    store.save(None, Work(RUNA, season(weeks)), label="Add client")
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id, ProgramId("season"))
    window = Window(Bench(desk), store)
    window.bench.choose_span(Span.FROM_HERE)
    window.resize(1600, 1000)
    return window


def drag_over(app: WatchedApplication, target: QWidget, carried: Carried) -> list[list[Stretch]]:
    """The stretches of every step of one drag over the target; the first holds the picking up."""
    drag = Drag(target, carried)
    steps = []
    seen = app.watchdog.stretches
    for number, point in enumerate(path(target)):
        before = len(seen)
        if number == 0:
            assert drag.enter(point)
        drag.move(point)
        app.processEvents()
        steps.append(seen[before:])
    drag.leave()
    app.processEvents()
    return steps


def told(steps: list[list[Stretch]]) -> dict[str, object]:
    """A drag as numbers: single stretches, whole steps, and the longest stretch in words."""
    flat = [stretch for step in steps for stretch in step]
    longest = max(flat, key=lambda stretch: stretch.held_ms)
    return {
        "stretch": asdict(spread(s.held_ms for s in flat)),
        "work": asdict(spread(s.worked_ms for s in flat)),
        "step": asdict(spread(sum(s.held_ms for s in step) for step in steps)),
        "longest": longest.line,
        "over": sum(s.held_ms > 8 for s in flat),
    }


def settle(app: QApplication) -> None:
    """Let everything that waits its turn have it, as somebody does who looks on."""
    pool = QThreadPool.globalInstance()
    for _ in range(3):
        app.processEvents()
    while pool.activeThreadCount():
        sleep(0.002)
        app.processEvents()
    app.processEvents()


def opened(open_it: Callable[[], object]) -> None:
    """Open a dialog, let it show itself, and leave it; a window beside the plan stays open."""
    waits = True

    def leave() -> None:
        modal = QApplication.activeModalWidget()
        if not waits:
            return
        if QThreadPool.globalInstance().activeThreadCount() or modal is None:
            QTimer.singleShot(20, leave)  # still at work off the thread
        elif isinstance(modal, QDialog):
            modal.reject()

    QTimer.singleShot(50, leave)
    open_it()
    waits = False  # what it left to do comes as events of their own


def evening(app: WatchedApplication, window: Window) -> None:
    """What a coach does in an evening, short of anything that asks for a file name."""
    for ask in ("getOpenFileName", "getSaveFileName"):
        setattr(QFileDialog, ask, lambda *_, **__: ("", ""))
    QFileDialog.getExistingDirectory = lambda *_, **__: ""  # type: ignore[method-assign]
    bench, grid = window.bench, window.grid
    count = len(bench.desk.program.weeks)
    acts: list[Callable[[], object]] = [
        *(partial(bench.show_week, week) for week in range(count)),
        *(partial(bench.choose_span, span) for span in Span),
        partial(grid.walk, 0, 1),
        partial(grid.acts.add_sets, 1),
        *(bench.undo, bench.redo),
        partial(grid.acts.move_to_day, 1),
        *(grid.acts.remove, bench.undo, bench.undo),
        *(window.toggle_light, window.insert_light, window.duplicate_week, window.fill_on),
        *(partial(window.season.show_heat, on) for on in (True, False)),
        *(partial(window.resize, *size) for size in ((1280, 720), (1600, 1000))),
        *(partial(window.library.search.setText, text) for text in ("sq", "squat", "")),
        window.show_guide,
    ]
    for run in acts:
        run_as_event(app, run)
    for action in DIALOGS:
        grid.walk(0, 1)  # some are about the marked card
        if action.enabled(bench):
            run_as_event(app, partial(opened, partial(action.run, window)))
            for beside in QApplication.topLevelWidgets():
                if isinstance(beside, QDialog) and beside.isVisible():
                    beside.close()
    for line in window.store.clients():
        run_as_event(app, partial(window.choose_client, line.id))
    run_as_event(app, gc.collect)  # as a timer of the window does from time to time


def run_as_event(app: WatchedApplication, run: Callable[[], object]) -> None:
    """Run it from the event loop, as a click or a key would, and let what follows happen."""
    QTimer.singleShot(0, run)
    settle(app)


DIALOGS = tuple(action for action in ACTIONS if action.text.endswith("…"))


def main(weeks: int) -> int:
    theme.force(theme.LIGHT)
    app = start.application()
    assert isinstance(app, WatchedApplication)
    window = window_on(weeks)
    window.show()
    settle(app)
    bare = Bare()
    bare.resize(window.grid.size())
    bare.show()
    settle(app)
    window.library.finish_figures()  # else they are painted during the first drag
    start.prepare()  # as the program does beside the window
    gc.collect()
    gc.freeze()  # as the window does once it has settled
    gc.set_threshold(*start.PASSES)
    watchdog = app.watchdog
    watchdog.is_carrying = lambda: window.grid.carrier.is_carrying
    answer: dict[str, object] = {"bare": told(drag_over(app, bare, CARRIED))}
    bare.close()
    answer["drag"] = told(drag_over(app, window.grid, CARRIED))
    card = next(window.bench.open_week.slots()).id
    own = Carried(slots=(card,), source=window.bench.source)
    answer["card"] = told(drag_over(app, window.grid, own))
    settle(app)
    watchdog.stretches.clear()
    evening(app, window)
    watchdog.is_carrying = bool
    answer["evening"] = asdict(spread(s.held_ms for s in watchdog.stretches))
    answer["too_long"] = [[s.held_ms, s.worked_ms, s.line] for s in watchdog.too_long()]
    window.close()
    sys.stdout.write(json.dumps(answer) + "\n")
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    main(int(sys.argv[1]))
