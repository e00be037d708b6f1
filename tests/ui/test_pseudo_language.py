"""The window in the pseudo-language: every text that can be read is translated, and none is cut.

The language is English with accents and two fifths longer. A word without an accent is either data
(names, exercises, studies, units, keys of the keyboard) or a text that went past the translation.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import (
    QCoreApplication,
    Qt,
    QThreadPool,
    QTimer,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QFileDialog,
    QMenu,
    QMessageBox,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.domain.wording import ENGLISH, use
from app.resources.languages import PSEUDO, find_language
from app.ui.actions import ACTIONS
from app.ui.bench import Bench
from app.ui.finding_delegate import ROW
from app.ui.window import Window
from db.store import Store
from tests.ui.desks import slot_ids
from tests.ui.painted import Painted, watched
from tests.ui.pseudo import cut, faults, lost, plain_words, said_in, unspoken, untold


@pytest.fixture(autouse=True)
def spoken() -> Iterator[None]:
    """Everything is said in the pseudo-language."""
    use(find_language(PSEUDO))
    yield
    use(ENGLISH)


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[QWidget]:
    """Every dialog that a command opens, as it would wait for somebody."""
    seen: list[QWidget] = []

    def look(self: QDialog, *_: object) -> int:
        seen.append(self)
        self.show()
        QApplication.processEvents()
        return 0

    for kind in (QDialog, QMessageBox, QMenu):
        monkeypatch.setattr(kind, "exec", look)
    for name in ("getOpenFileName", "getSaveFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_a, **_k: ("", ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_a, **_k: ([], ""))
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_a, **_k: "")
    return seen


@pytest.fixture
def spoken_window(qtbot: QtBot, dressed: QApplication, bench: Bench, store: Store) -> Window:
    """The whole window, built while the pseudo-language is spoken."""
    made = Window(bench, store)
    qtbot.addWidget(made)
    made.resize(1600, 1000)
    made.show()
    qtbot.waitExposed(made)
    return made


def shown() -> set[QWidget]:
    """The windows on the screen."""
    return {window for window in QApplication.topLevelWidgets() if window.isVisible()}


def run(window: Window, run_: Callable[[Window], object]) -> str:
    """What a command refuses with, if it does."""
    try:
        run_(window)
    except CoachError as error:
        return error.sentence
    finally:
        QThreadPool.globalInstance().waitForDone(10_000)
        QCoreApplication.processEvents()
    return ""


def test_nothing_in_the_window_is_untranslated(spoken_window: Window) -> None:
    assert untold(spoken_window) == set()
    assert cut(spoken_window) == set()


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> Iterator[Painted]:
    """What is painted during the test."""
    with watched(monkeypatch) as seen:
        yield seen


def test_nothing_painted_in_the_window_is_untranslated(
    painted: Painted, spoken_window: Window
) -> None:
    spoken_window.grab()
    assert painted.texts
    assert unspoken(painted) == set()
    assert lost(painted, said_in([spoken_window])) == set()


@pytest.mark.parametrize("action", ACTIONS, ids=lambda action: action.id)
def test_nothing_that_a_command_opens_is_untranslated(
    action, spoken_window: Window, opened: list[QWidget], painted: Painted
) -> None:
    if action.id == "quit":
        return
    spoken_window.bench.select(tuple(slot_ids(spoken_window.bench)[:1]))
    said = said_in([spoken_window])
    before = shown()
    refused = run(spoken_window, action.run)
    assert plain_words(refused) == [], refused
    tops = shown() - before
    found = faults(painted, {*opened, *tops}, said + said_in([spoken_window]))
    for top in {*opened, *tops}:
        top.close()
        top.deleteLater()
    assert found == set()


def test_nothing_is_untranslated_while_an_exercise_is_carried(
    qtbot: QtBot, spoken_window: Window, painted: Painted
) -> None:
    bench, carrier = spoken_window.bench, spoken_window.grid.carrier
    bench.select(tuple(slot_ids(bench)[:1]))
    run(spoken_window, next(one.run for one in ACTIONS if one.id == "pick_up"))
    shortened = set()
    for _ in range(7):
        QTest.keyClick(spoken_window.grid, Qt.Key.Key_Right)
        # what is painted on the way is gone before anybody could ask for the whole of it
        qtbot.waitUntil(lambda: not any(one.isActive() for one in carrier.findChildren(QTimer)))
        painted.cut.clear()
        spoken_window.grab()
        shortened |= lost(painted, said_in([spoken_window]))
    assert bench.preview is not None
    # names wrap in the feet, so that their parts are looked at word by word
    found = {text for text in painted.texts if plain_words(text)}
    QTest.keyClick(spoken_window.grid, Qt.Key.Key_Escape)
    assert found == set()
    assert shortened == set()


def test_nothing_in_the_menus_of_a_finding_is_untranslated(
    spoken_window: Window, opened: list[QWidget]
) -> None:
    pane = spoken_window.findings
    pane.list.setCurrentRow(0)
    pane._menu(pane.list.visualItemRect(pane.list.item(0)).center())
    menus = [menu for menu in pane.findChildren(QMenu) if menu.isVisible()]
    found = set().union(*map(untold, menus))
    for menu in menus:
        menu.close()
    pane.accept(pane.list.item(0).data(ROW).finding)
    found = found.union(*map(untold, opened))
    for one in opened:
        one.close()
    assert opened
    assert menus
    assert found == set()
