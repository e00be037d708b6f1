"""What tests of the window share: a desk on a store in memory, filled as a coach would fill it.

No test may wait for somebody to close a dialog: every modal loop fails.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QLocale
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMenu, QMessageBox
from pytestqt.qtbot import QtBot

from app import demo, resources
from app.desk import Desk
from app.domain.client import ClientId
from app.domain.work import Work
from app.ui import theme
from app.ui.bench import Bench
from app.ui.window import Window
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA


@pytest.fixture(autouse=True)
def no_modal_loops(monkeypatch: pytest.MonkeyPatch) -> None:
    """A test that opens a modal loop would wait for ever; it fails instead."""

    def refuse(self: object, *_: object) -> int:
        raise AssertionError(f"{type(self).__name__} was opened to wait for somebody")

    for kind in (QDialog, QMessageBox, QMenu):
        monkeypatch.setattr(kind, "exec", refuse)

    def refuse_file(*_: object, **__: object) -> None:
        raise AssertionError("a file was asked for, and nobody is there to choose one")

    for name in ("getOpenFileName", "getOpenFileNames", "getSaveFileName", "getExistingDirectory"):
        monkeypatch.setattr(QFileDialog, name, refuse_file)


def sweep() -> None:
    """Delete the closed widgets of a test, which Qt would keep until its loop runs again."""
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture(autouse=True)
def swept() -> Iterator[None]:
    """Nothing of one test's windows is left in the next."""
    yield
    sweep()
    left = [w for w in QApplication.topLevelWidgets() if w.isVisible()]
    for window in left:
        window.close()
        window.deleteLater()
    sweep()
    assert [type(w).__name__ for w in left] == [], "windows are left open by this test"


@pytest.fixture(autouse=True)
def plain_numbers() -> Iterator[None]:
    """Numbers and months as in English, whatever the machine says."""
    before = QLocale()
    QLocale.setDefault(QLocale.c())
    yield
    QLocale.setDefault(before)


@pytest.fixture
def dressed(qapp: QApplication) -> Iterator[QApplication]:
    """The application in the light theme, and undressed afterwards."""
    theme.force(theme.LIGHT)
    theme.apply(qapp)
    yield qapp
    sweep()
    theme.force(None)
    qapp.setStyleSheet("")
    qapp.setPalette(QPalette())


@pytest.fixture
def store() -> Iterator[Store]:
    """A store in memory with one client and one program."""
    made = Store.in_memory()
    made.save(None, Work(RUNA, PROGRAM), label="Add client")
    yield made
    made.close()


@pytest.fixture
def desk(store: Store) -> Desk:
    """A desk with Runa's program open, on the shipped exercises and ranges."""
    made = Desk(store, resources.catalogue(), resources.range_book())
    made.open(RUNA.id, PROGRAM.id)
    return made


@pytest.fixture
def bench(qapp: QApplication, desk: Desk) -> Bench:
    """The state of a window on that desk."""
    return Bench(desk)


@pytest.fixture
def empty_bench(qapp: QApplication) -> Iterator[Bench]:
    """The state of a window on a file with nobody in it."""
    made = Store.in_memory()
    yield Bench(Desk(made, resources.catalogue(), resources.range_book()))
    made.close()


@pytest.fixture
def window(qtbot: QtBot, dressed: QApplication, bench: Bench, store: Store) -> Window:
    """The whole window on screen, 1600 by 1000."""
    made = Window(bench, store)
    qtbot.addWidget(made)
    made.resize(1600, 1000)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def full(qtbot: QtBot, dressed: QApplication) -> Iterator[Window]:
    """The window on a demo client with results, check-ins and tests, and a plan with findings."""
    store = Store.in_memory()
    catalogue = resources.catalogue()
    demo.fill(store, catalogue)
    who = ClientId("jorunn-aske")
    bench = Bench(Desk(store, catalogue, resources.range_book()))
    window = Window(bench, store)
    qtbot.addWidget(window)
    window.open(who, store.programs(who)[0].id)
    window.resize(1600, 1000)
    window.show()
    qtbot.waitExposed(window)
    window.activateWindow()
    window.client_pane.fold(False)
    yield window
    store.close()
