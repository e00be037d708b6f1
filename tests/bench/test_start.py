"""From the start of a fresh process to the painted week, against a bare window of Qt."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Sequence
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from statistics import median

import pytest

from app import resources
from app.demo import fill
from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from db.store import Store
from tests.bench.budgets import hold
from tests.bench.test_keep_edit import season
from tests.bench.test_open import TABLES, copy_for_others
from tests.db.samples import RUNA

pytestmark = pytest.mark.bench

ROOT = Path(__file__).resolve().parents[2]
AIM = 4.0
"""What the start is meant to come to, in first paints of a bare window."""

ROUNDS = 7

BARE = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow

class Bare(QMainWindow):
    def paintEvent(self, event):
        super().paintEvent(event)
        QTimer.singleShot(0, lambda: (print("painted", flush=True), os._exit(0)))

app = QApplication(sys.argv[:1])
window = Bare()
window.resize(1440, 900)
window.show()
app.exec()
"""

FULL = """
import os, sys
from pathlib import Path
import app.__main__ as program

import gc
gc.disable()  # as the program itself does before the next lines
program.bring_in_what_knows_no_qt()
from PySide6.QtCore import QEvent, QObject, QTimer

class Watch(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint:  # the rest of this turn paints all other panes
            QTimer.singleShot(0, lambda: (print("painted", flush=True), os._exit(0)))
        return False

from app.ui import start
window_on = start.window_on

def watched(store):
    window = window_on(store)
    assert window.bench.desk.has_program
    window.watch = Watch()
    window.grid.installEventFilter(window.watch)
    return window

start.window_on = watched
program.show(Path(sys.argv[1]))
"""


@pytest.fixture(scope="module")
def surroundings(tmp_path_factory) -> dict[str, str]:
    """Folders of their own for what a start keeps; compiled modules are kept, as for a coach."""
    folder = tmp_path_factory.mktemp("home")
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return env | {
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
        "PYTHONPATH": str(ROOT),
        **{f"XDG_{kind}_HOME": str(folder / kind) for kind in ("CACHE", "STATE", "CONFIG")},
    }


def painted_after_ms(code: str, env: dict[str, str], *arguments: str) -> float:
    """From starting a process to the end of its first painting, ms."""
    started = time.perf_counter()
    with subprocess.Popen(
        [sys.executable, "-c", code, *arguments], cwd=ROOT, env=env, stdout=subprocess.PIPE
    ) as process:
        said = process.stdout.readline()
        taken = (time.perf_counter() - started) * 1000
    assert said.strip() == b"painted"
    return taken


@pytest.fixture(scope="module")
def files(tmp_path_factory) -> Sequence[Path]:
    """The demo's file, left with its first program open, and a copy with 10,000 clients more."""
    few = tmp_path_factory.mktemp("files") / "few.weekloom"
    many = few.with_name("many.weekloom")
    store = Store.open(few)
    first = fill(store, resources.catalogue())
    other = replace(RUNA, id=ClientId("other-0"), name="Other 0")
    program = replace(season(weeks=2), id=ProgramId("season-0"))
    store.save(None, Work(other, program), label="Add")
    store.set_setting("open", f"{first} {store.programs(first)[0].id} 3")
    store.close()
    shutil.copy(few, many)
    with closing(sqlite3.connect(many)) as raw, raw:
        for table in TABLES:
            copy_for_others(raw, table, 10_000)
    return few, many


def test_a_window_with_a_week_in_it_is_there_soon_after_a_bare_one(files, surroundings):
    starts = ((BARE, ()), *((FULL, (str(path),)) for path in files))
    taken: list[list[float]] = [[], [], []]
    for number in range(ROUNDS + 1):
        for (code, arguments), into in zip(starts, taken, strict=True):
            found = painted_after_ms(code, surroundings, *arguments)
            if number:  # the first round fills the caches
                into.append(found)
    said("median", *(median(times) for times in taken))
    # the quickest of each is the least disturbed by whatever else the machine does
    bare, few, many = (min(times) for times in taken)
    said("quickest", bare, few, many)
    hold("start to the painted week", few / bare, AIM, unit="bare windows")
    hold("start with 10,000 clients", many / bare, AIM, unit="bare windows")


def said(name: str, bare: float, few: float, many: float) -> None:
    print(
        f"first paint, {name} of {ROUNDS}: bare window {bare:.0f} ms; demo {few:.0f} ms "
        f"({few / bare:.2f} times that), 10,000 clients more {many:.0f} ms "
        f"({many / bare:.2f} times); aim {AIM:g} times"
    )
