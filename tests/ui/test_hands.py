"""Ten thousand random acts on the real window: nothing is raised, the laws hold, the file agrees.

WEEKLOOM_ACTS and WEEKLOOM_SEED choose more acts and another run of them.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot

from app import resources
from app.demo import fill
from app.desk import Desk
from app.domain.program import broken_laws
from app.ui.bench import Bench
from app.ui.window import Window
from db.store import Store
from tests.ui.hands import Hands

ACTS = int(os.environ.get("WEEKLOOM_ACTS", "10000"))
SEED = int(os.environ.get("WEEKLOOM_SEED", "1"))


@pytest.fixture
def store() -> Iterator[Store]:
    """The demo's team in a store."""
    made = Store.in_memory()
    fill(made, resources.catalogue())
    yield made
    made.close()


@pytest.fixture
def hands(
    qtbot: QtBot,
    dressed: QApplication,
    store: Store,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Hands:
    """Somebody at a window on that file, whose dialogs are answered at once."""
    window = Window(Bench(Desk(store, resources.catalogue(), resources.range_book())), store)
    qtbot.addWidget(window)
    window.resize(1600, 1000)
    window.show()
    qtbot.waitExposed(window)
    window.choose_client(store.clients()[0].id)
    out = tmp_path / "out"
    out.mkdir()
    made = Hands(window, SEED, out)
    for kind in (QDialog, QMessageBox):
        monkeypatch.setattr(kind, "exec", lambda dialog: Hands.answer(made, dialog))
    monkeypatch.setattr(QPrintDialog, "exec", lambda _: QDialog.DialogCode.Rejected)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", made.file_to_write)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", made.file_to_read)
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", made.files_to_read)
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", made.folder_to_use)
    return made


@pytest.mark.timeout(600)
def test_whatever_is_done_nothing_breaks_and_the_file_agrees(hands, store, qtlog, monkeypatch):
    raised: list[BaseException] = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, error, _trace: raised.append(error))
    window, desk = hands.window, hands.bench.desk
    checked = None
    while hands.count < ACTS:
        hands.act()
        story = "\n".join(hands.said)
        if raised:
            raise AssertionError(story) from raised[0]
        assert not [r for r in qtlog.records if r.log_type_name != "DEBUG" and not r.ignored], story
        if desk.has_program and desk.program is not checked:
            checked = desk.program
            assert broken_laws(checked) == (), story
        if hands.count % 10 == 0:
            QApplication.processEvents()
    hands.settle()
    window.grid.carrier.put_back()
    assert hands.bench.preview is None
    assert len(hands.done) > 20 or ACTS < 2000, hands.done  # of many kinds
    assert desk.work is not None
    assert store.check_integrity() == ()
    assert store.load_client(desk.client.id) == desk.client
    if desk.has_program:
        assert store.load_program(desk.program.id) == desk.program
    for line in store.clients():
        for program in store.programs(line.id):
            assert broken_laws(store.load_program(program.id)) == ()
