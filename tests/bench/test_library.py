"""The library on 10,000 exercises: typing a name, and scrolling through all of them.

The floor is a bare list of as many plain lines: what Qt itself takes to show another list, and to
scroll.
"""

from __future__ import annotations

import gc
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import islice, product

import pytest
from PySide6.QtCore import QStringListModel
from PySide6.QtWidgets import QAbstractItemView, QApplication, QListView

from app import resources
from app.desk import Desk
from app.domain.exercise import Catalogue, Equipment, Exercise, ExerciseKey, Muscle
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.library.pane import LibraryPane
from db.store import Store
from tests import builders
from tests.bench.budgets import hold

pytestmark = pytest.mark.bench

MANY = 10_000
ROUNDS = 3
FRAME_MS = 8.0
"""A 120 Hz frame."""

VARIANTS = tuple(
    product(
        ("", "paused", "slow", "fast"),
        ("", "wide", "narrow", "staggered"),
        ("", "kneeling", "short"),
    )
)
TYPED = (
    "romanian deadlift",
    "dumbbells chest",
    "romainian dedlift",
    "dumbell bnech press paused",
    "kneelign cabel chop",
    "b",
    "qzxqzx",
)


def many_exercises() -> Catalogue:
    """Every shipped exercise in some forty forms."""
    forms = [" ".join(word for word in words if word) for words in VARIANTS]

    def form(one: Exercise, number: int, words: str) -> Exercise:
        if not words:
            return one
        key = ExerciseKey(f"{one.key}_{number}")
        aliases = tuple(f"{words} {alias}" for alias in one.aliases)
        return replace(one, key=key, name=f"{one.name}, {words}", aliases=aliases)

    every = (form(e, n, w) for n, w in enumerate(forms) for e in resources.catalogue())
    return Catalogue(tuple(islice(every, MANY)))


@pytest.fixture
def pane(qtbot) -> LibraryPane:
    store = Store.in_memory()
    desk = Desk(store, many_exercises(), resources.range_book())
    program = replace(
        builders.program("Mon: back_squat 3x5"), emphasis=(Muscle.GLUTEALS, Muscle.CHEST)
    )
    client = builders.client(equipment=frozenset(Equipment))
    store.save(None, Work(client, program), label="Add client")
    desk.open(client.id, program.id)
    pane = LibraryPane(Bench(desk))
    qtbot.addWidget(pane)
    pane.resize(256, 900)
    pane.show()
    QApplication.processEvents()
    assert pane.model.rowCount() == MANY
    return pane


def bare_list(qtbot) -> QListView:
    """A list of as many lines that paints nothing of its own."""
    bare = QListView()
    bare.setUniformItemSizes(True)
    bare.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    bare.setModel(QStringListModel([f"exercise {n}" for n in range(MANY)], bare))
    qtbot.addWidget(bare)
    bare.resize(238, 750)
    bare.show()
    QApplication.processEvents()
    return bare


def timed(act: Callable[[], object]) -> float:
    """How long this thread works for it, ms; what other programs do meanwhile does not count."""
    start = time.thread_time()
    act()
    return 1000 * (time.thread_time() - start)


def late(times: list[float], part: float = 0.95) -> float:
    """The time that this part of them do not pass."""
    return sorted(times)[int(part * len(times))]


def fastest(rounds: list[list[float]]) -> list[float]:
    """The fastest of several rounds at each step: what the machine's other work does not slow."""
    return [min(times) for times in zip(*rounds, strict=True)]


def scroll(view: QListView, steps: int, step: int) -> list[float]:
    """The time of each repaint while scrolling, ms, the fastest of three rounds."""
    bar = view.verticalScrollBar()

    def go() -> list[float]:
        times = []
        for n in range(steps):
            bar.setValue((n * step) % bar.maximum())
            times.append(timed(view.viewport().repaint))
        return times

    return fastest([go() for _ in range(ROUNDS)])


def test_a_keystroke_over_ten_thousand_exercises_fits_a_fast_frame(qtbot, pane):
    typed = [text[:end] for text in TYPED for end in range(1, len(text) + 1)]
    gc.collect()
    gc.freeze()  # the heap of a test run is not the program's
    found: list[list[float]] = []
    shown: list[list[float]] = []
    for _ in range(ROUNDS):
        found.append([])
        shown.append([])
        for text in typed:
            pane.search.setText(text)
            found[-1].append(timed(pane.refresh))
            shown[-1].append(timed(pane.list.viewport().repaint))
    gc.unfreeze()
    times, painted = fastest(found), fastest(shown)
    bare = bare_list(qtbot)
    model = bare.model()
    assert isinstance(model, QStringListModel)
    lines = model.stringList()
    shorter = [lines[:n] for n in range(0, MANY, 250)]
    floor = late([timed(partial(model.setStringList, some)) for some in shorter])
    print(
        f"{len(times)} keystrokes over {MANY} exercises: p50 {late(times, 0.5):.2f}, "
        f"p95 {late(times):.2f}, max {max(times):.2f} ms at {typed[times.index(max(times))]!r}; "
        f"repaint p95 {late(painted):.2f} ms; bare list p95 {floor:.2f} ms, "
        f"ratio {late(times) / floor:.1f}"
    )
    hold(f"keystroke over {MANY} exercises, p95", late(times), FRAME_MS, unit="ms")
    hold("repaint after it, p95", late(painted), FRAME_MS, unit="ms")


def test_scrolling_through_ten_thousand_exercises_fits_a_fast_frame(qtbot, pane):
    scroll(pane.list, 60, 3001)
    pane.delegate.figures.finish()
    gc.collect()
    gc.freeze()
    by_pixels, by_pages = scroll(pane.list, 200, 37), scroll(pane.list, 200, 9973)
    gc.unfreeze()
    bare = bare_list(qtbot)
    floor = late(scroll(bare, 200, 37))
    print(
        f"scrolling {MANY} exercises: p95 {late(by_pixels):.2f} ms by a few pixels, "
        f"{late(by_pages):.2f} ms by jumps; bare list p95 {floor:.2f} ms, "
        f"ratio {late(by_pixels) / floor:.1f}"
    )
    hold(f"scrolling {MANY} exercises by pixels, p95", late(by_pixels), FRAME_MS, unit="ms")
    hold(f"scrolling {MANY} exercises by jumps, p95", late(by_pages), FRAME_MS, unit="ms")
