"""Filling in results: from a key to the painted cell, and a session kept and the next one shown.

Beside a bare table of Qt with as many cells, and beside one raw transaction.
"""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from datetime import timedelta
from functools import partial
from pathlib import Path
from statistics import quantiles

import pytest
from PySide6.QtCore import QEventLoop, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QTableView, QTableWidget, QTableWidgetItem
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.results.dialog import ResultsDialog
from app.ui.window import Window
from db.engine import SWITCHES
from db.store import Store
from tests.bench.budgets import hold
from tests.bench.test_diary import FULL_DIARY, PROGRAM, raw_session
from tests.bench.test_keep_edit import seconds
from tests.db.samples import RUNA

pytestmark = pytest.mark.bench

KEY_BUDGET = 6.0
"""A key in a cell until it is painted, in keys of a bare table of Qt."""
SESSION_BUDGET = 6.0
"""A session as planned, kept, and the next one painted with the whole window behind it, in raw
transactions: 200 sessions are a sitting, and each has to be there at once."""
TURNS = 40


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "runa.weekloom"
    store = Store.open(made)
    store.save(None, Work(RUNA, PROGRAM, FULL_DIARY), label="Add")
    store.close()
    return made


def settle() -> None:
    QApplication.processEvents(QEventLoop.ProcessEventsFlag.AllEvents)


def slow_ms(taken: list[float]) -> float:
    """The slow end, ms."""
    return quantiles(taken, n=20)[-1] * 1000


def keys_ms(table: QTableView) -> float:
    """From a key to the painted cell, at the slow end, ms."""
    taken = []
    for turn in range(TURNS):
        table.setCurrentIndex(table.model().index(turn % 4, 3))
        settle()
        start = time.perf_counter()
        QTest.keyClick(table, Qt.Key.Key_7)
        settle()
        taken.append(time.perf_counter() - start)
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
        settle()
    return slow_ms(taken)


def opened(qtbot: QtBot, path: Path) -> tuple[Store, Window, ResultsDialog]:
    """The whole window with the sheet of results before it."""
    store = Store.open(path)
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id, PROGRAM.id)
    window = Window(Bench(desk), store)
    window.resize(1600, 1000)
    window.show()
    qtbot.waitExposed(window)
    today = PROGRAM.week_start(len(PROGRAM.weeks) - 1) + timedelta(days=30)
    dialog = ResultsDialog(window.bench, window, today=today)
    dialog.show()
    qtbot.waitExposed(dialog)
    return store, window, dialog


def bare_key_ms(qtbot: QtBot, dialog: ResultsDialog) -> float:
    """What a key costs in a table of Qt as large, ms."""
    bare = QTableWidget(32, 7)
    for row in range(32):
        for column in range(7):
            bare.setItem(row, column, QTableWidgetItem("62.5"))
    qtbot.addWidget(bare)
    bare.resize(dialog.table.size())
    bare.show()
    qtbot.waitExposed(bare)
    bare.activateWindow()
    bare.setFocus()
    taken = keys_ms(bare)
    bare.hide()
    return taken


def session_ms(dialog: ResultsDialog, raw: sqlite3.Connection) -> tuple[float, float]:
    """From leaving a session that was typed into to the next one painted, and the floor, ms.

    In turn, so that a moment in which the machine is busy with something else counts for both.
    """
    taken, floor = [], []
    for turn in range(1, TURNS):
        dialog.open_session(turn)
        dialog.model.put_many({(0, 3): str(60 + turn), (0, 4): "9"})
        settle()
        start = time.perf_counter()
        dialog.go(1)
        settle()
        taken.append(time.perf_counter() - start)
        floor.append(seconds(partial(raw_session, raw, turn)))
    return slow_ms(taken), slow_ms(floor)


def test_a_key_is_painted_and_a_session_kept_at_once(qtbot: QtBot, path: Path) -> None:
    store, window, dialog = opened(qtbot, path)
    dialog.open_session(0)
    floor_key = bare_key_ms(qtbot, dialog)
    dialog.activateWindow()
    dialog.table.setFocus()
    key = keys_ms(dialog.table)
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        for switch in SWITCHES:
            raw.execute(switch)
        session, floor = session_ms(dialog, raw)
    print(
        f"key to painted cell, p95: {key:.1f} ms, bare table {floor_key:.1f} ms; session kept and "
        f"the next painted, p95: {session:.1f} ms, raw transaction {floor:.1f} ms"
    )
    dialog.close()
    window.close()
    store.close()
    hold("a key in the results", key / floor_key, KEY_BUDGET, unit="keys of a bare table")
    hold("a session of results", session / floor, SESSION_BUDGET, unit="raw transactions")
