"""What the watchdog notes: stretches of work, never waiting, and what was at work in them."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.ui.watchdog import HELD_MS, MOST_KEPT, Spread, Stretch, Watchdog, spread

ROOT = Path(__file__).resolve().parents[2]


class Scene:
    """A watchdog with a clock and a loop depth that the test sets; times in ms."""

    def __init__(self) -> None:
        self.now_ms = 0.0
        self.level = 1
        self.dog = Watchdog(
            lambda: self.level, clock=lambda: self.now_ms / 1000, work=lambda: self.now_ms / 2000
        )

    def enter(self, what: str) -> None:
        self.dog.enter(lambda: what)

    def pass_ms(self, ms: float) -> None:
        self.now_ms += ms

    def told(self) -> list[tuple[str, float]]:
        return [(s.what, round(s.held_ms, 6)) for s in self.dog.stretches]


def test_a_stretch_lasts_from_the_event_until_it_is_dealt_with():
    scene = Scene()
    scene.enter("button")
    scene.pass_ms(5)
    scene.dog.leave()
    assert scene.told() == [("button", 5)]
    assert scene.dog.stretches[0].worked_ms == pytest.approx(2.5)


def test_events_sent_while_one_is_dealt_with_belong_to_its_stretch():
    scene = Scene()
    scene.enter("button")
    scene.pass_ms(1)
    scene.enter("label")
    scene.pass_ms(2)
    scene.dog.leave()
    scene.pass_ms(1)
    scene.dog.leave()
    assert scene.told() == [("button", 4)]


def test_waiting_in_a_dialog_is_no_stretch():
    scene = Scene()
    scene.enter("menu")
    scene.pass_ms(30)
    scene.level = 2  # the dialog's own loop
    scene.enter("show")
    scene.pass_ms(4)
    scene.dog.leave()
    scene.pass_ms(9000)  # somebody reads
    scene.enter("key")
    scene.pass_ms(3)
    scene.dog.leave()
    scene.level = 1
    scene.pass_ms(7)
    scene.dog.leave()
    assert scene.told() == [("menu", 30), ("show", 4), ("key", 3), ("menu", 7)]


def test_only_what_is_not_a_drag_is_held_to_the_longer_limit():
    scene = Scene()
    for carrying, ms in ((True, 500), (False, HELD_MS), (False, HELD_MS + 50), (False, 900)):
        scene.dog.is_carrying = partial(bool, carrying)
        scene.enter("work")
        scene.pass_ms(ms)
        scene.dog.leave()
    assert [round(s.held_ms) for s in scene.dog.too_long()] == [900, 150]
    assert "carrying: 1 stretches" in scene.dog.report()
    assert scene.dog.report().count("work") == 2 + 2  # each with what it spent at work


def test_a_place_that_was_seen_is_told_with_its_stretch_alone():
    scene = Scene()
    scene.enter("work")
    scene.pass_ms(80)
    assert scene.dog.held_s == pytest.approx(0.08)
    scene.dog.saw("check:40")
    scene.dog.leave()
    scene.enter("work")
    scene.dog.leave()
    assert [s.where for s in scene.dog.stretches] == ["check:40", ""]
    assert scene.dog.held_s == 0


def test_a_long_session_does_not_fill_the_memory():
    scene = Scene()
    scene.dog.stretches = [Stretch("old", 1, 1)] * MOST_KEPT
    scene.enter("one more")
    scene.dog.leave()
    assert len(scene.dog.stretches) == MOST_KEPT


def test_nothing_was_seen():
    assert spread(()) == Spread(0, 0, 0, 0)


@given(st.lists(st.floats(0, 1e6), min_size=1))
def test_the_spread_is_of_the_times(times: list[float]):
    found = spread(reversed(times))
    assert found.count == len(times)
    assert min(times) <= found.p50 <= found.p95 <= found.longest == max(times)


WATCHED = """
import json, sys, time
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QDialog
from app.ui import start
app = start.application()
def busy():
    until = time.perf_counter() + 0.2
    while time.perf_counter() < until:
        pass
def ask():
    dialog = QDialog()
    QTimer.singleShot(150, dialog.reject)
    dialog.exec()
QTimer.singleShot(0, busy)
QTimer.singleShot(1, ask)
QTimer.singleShot(500, app.quit)
app.exec()
print(json.dumps([[s.held_ms, s.line] for s in app.watchdog.too_long()]))
"""


def test_the_real_application_tells_of_work_and_not_of_waiting():
    env = os.environ | {"WEEKLOOM_WATCHDOG": "1", "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", WATCHED],
        cwd=ROOT,
        env=env | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    found = json.loads(done.stdout)
    assert [held for held, _ in found if held >= 200]
    assert len(found) < 3, found  # the dialog only waited
