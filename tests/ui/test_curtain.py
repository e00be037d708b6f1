"""Behind the curtain neither the pixels nor the accessibility tree say anything of a client."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QVBoxLayout
from pytestqt.qtbot import QtBot
from shiboken6 import delete

from app.ui.curtain import KEY, MINUTES, Idle
from app.ui.titles import Named
from app.ui.window import Window
from tests.ui.desks import PROGRAM, RUNA

WORDS = (RUNA.name, RUNA.team, PROGRAM.name, "Back squat")


def spoken(interface: QAccessibleInterface) -> list[str]:
    """All texts that assistive technology can reach below this, hidden parts left out."""
    if not interface.isValid() or interface.state().invisible:
        return []
    texts = [
        interface.text(kind)
        for kind in (QAccessible.Text.Name, QAccessible.Text.Description, QAccessible.Text.Value)
    ]
    for index in range(interface.childCount()):
        child = interface.child(index)
        if child is not None:
            texts += spoken(child)
    return [text for text in texts if text]


def said_by(widget) -> str:
    return " | ".join(spoken(QAccessible.queryAccessibleInterface(widget)))


def test_before_the_curtain_the_client_is_everywhere(window: Window):
    said = said_by(window)
    assert all(word in said for word in WORDS[:1])
    window.name_clients(Named.WHOLE)
    assert RUNA.name in window.windowTitle()


def test_nothing_personal_is_said_or_seen_and_all_comes_back(window: Window, qtbot: QtBot):
    window.name_clients(Named.WHOLE)
    before = window.grab().toImage()
    title = window.windowTitle()
    window.curtain.drop()
    QApplication.processEvents()
    said = said_by(window)
    assert not [word for word in WORDS if word in said]
    assert window.windowTitle() == "Weekloom"
    covered = window.grab().toImage()
    window.bench.desk.keep_client("Note", replace(window.bench.desk.client, note="another"))
    assert window.grab().toImage() == covered  # what changes behind it is not seen
    window.curtain.lift()
    QApplication.processEvents()
    assert RUNA.name in window.windowTitle()
    assert title.partition(" ")[0] in window.windowTitle()
    assert window.grab().toImage().size() == before.size()
    assert RUNA.name in said_by(window)


def test_one_client_looks_like_any_other_behind_it(window: Window):
    window.curtain.drop()
    QApplication.processEvents()
    first = window.grab().toImage()
    window.curtain.lift()
    window.bench.desk.keep_client("Rename", replace(window.bench.desk.client, name="Oda Vik"))
    window.curtain.drop()
    QApplication.processEvents()
    assert window.grab().toImage() == first


@pytest.mark.parametrize("key", [Qt.Key.Key_F9, Qt.Key.Key_Return])
def test_the_key_lifts_it_again_and_enter_does_too(window: Window, qtbot: QtBot, key: Qt.Key):
    window.curtain.drop()
    assert window.curtain.is_down
    cloth = window.curtain._covered[0].cloth
    # a window of another test may take the focus for a moment
    qtbot.waitUntil(lambda: cloth.button.hasFocus() or not window.isActiveWindow())
    if key is Qt.Key.Key_Return:
        cloth.button.click()
    else:
        qtbot.keyClick(cloth, key)
    assert not window.curtain.is_down


def test_the_command_drops_it(window: Window):
    action = window.actions_by_id["curtain"]
    assert action.shortcut().toString() == KEY
    action.trigger()
    assert window.curtain.is_down
    window.curtain.drop()  # twice is once
    window.curtain.lift()


def test_a_dialog_is_covered_and_keeps_what_was_typed(window: Window, qtbot: QtBot):
    dialog = QDialog(window)
    qtbot.addWidget(dialog)
    column = QVBoxLayout(dialog)
    label = QLabel(f"Note on {RUNA.name}")
    column.addWidget(label)
    dialog.setWindowTitle(RUNA.name)
    dialog.show()
    window.curtain.drop()
    assert RUNA.name not in said_by(dialog)
    assert dialog.windowTitle() == "Weekloom"
    cloth = next(c.cloth for c in window.curtain._covered if c.window is dialog)
    qtbot.keyClick(cloth, Qt.Key.Key_Escape)
    assert dialog.isVisible()
    window.curtain.lift()
    assert label.isVisible()
    assert dialog.windowTitle() == RUNA.name


def test_a_change_of_size_shows_nothing(window: Window):
    window.curtain.drop()
    window.resize(1200, 900)
    QApplication.processEvents()
    assert not window.statusBar().isVisible()
    assert window.curtain._covered[0].cloth.size() == window.size()
    window.curtain.lift()


def test_it_drops_by_itself_after_a_while_without_use(window: Window, qtbot: QtBot):
    window.idle.set_minutes(5)
    assert window.idle.minutes == 5
    window.idle._timer.setInterval(30)
    window.idle._timer.start()
    qtbot.waitUntil(lambda: window.curtain.is_down, timeout=10_000)
    window.curtain.lift()
    window.idle.set_minutes(0)
    assert not window.idle._timer.isActive()


def test_use_starts_the_wait_again(window: Window, qtbot: QtBot):
    gone: list[int] = []
    idle = Idle(window, lambda: gone.append(1))
    idle.set_minutes(1)
    idle._watch(window.windowHandle())
    idle._timer.stop()
    qtbot.mouseMove(window.windowHandle())
    QApplication.processEvents()
    assert idle._timer.isActive() or not gone
    idle.set_minutes(0)


@pytest.mark.parametrize(("kept", "minutes"), [("7", 7), ("", 0), ("soon", 0)])
def test_the_file_remembers_the_minutes(window: Window, store, kept, minutes):
    store.set_setting(MINUTES, kept)
    window._wait_for_idle()
    assert window.idle.minutes == minutes
    window.idle.set_minutes(0)


def test_what_was_taken_away_behind_the_curtain_does_not_keep_it_down(window: Window, qtbot: QtBot):
    dialog = QDialog(window)
    part = QLabel("gone", window.centralWidget())
    part.setParent(window)
    part.show()
    dialog.show()
    window.curtain.drop()
    delete(part)
    delete(dialog)
    window.curtain.lift()
    assert not window.curtain.is_down
    assert window.centralWidget().isVisible()
