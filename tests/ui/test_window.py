"""The whole window: what it shows, its menus, its shape, and what anybody may do to it."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDialog,
    QFileDialog,
    QMenu,
    QMessageBox,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId
from app.domain.edits.whole import rename
from app.domain.findings import edit
from app.domain.program import broken_laws
from app.domain.work import Work
from app.ui import start, theme
from app.ui import window as module
from app.ui.actions import ACTIONS, MENUS
from app.ui.bench import Bench
from app.ui.window import NARROW, Window
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, slot_ids, without_program

LEFT = Qt.MouseButton.LeftButton

# ---------------------------------------------------------------------------- what is shown


def test_an_open_program_is_shown(window: Window) -> None:
    assert window.centre.currentWidget() is window.plan
    assert window.windowTitle() == "Weekloom"
    assert window.kept.text() == "All edits kept"


def test_the_title_says_what_was_kept_last(window: Window) -> None:
    window.bench.keep(edit("Rename Ridge season", rename, name="Winter"))
    assert ": Rename Ridge season · Weekloom" in window.windowTitle()
    assert window.windowTitle().startswith("kept ")


def test_without_a_program_the_first_page_leads_on(window: Window) -> None:
    without_program(window.bench)
    assert window.centre.currentWidget() is window.welcome
    window.bench.desk.close()
    assert window.windowTitle().endswith("Weekloom")
    assert window.centre.currentWidget() is window.home


def test_an_empty_file_shows_the_first_page(qtbot: QtBot, dressed, empty_bench: Bench) -> None:
    store = empty_bench.desk.store
    assert isinstance(store, Store)
    window = Window(empty_bench, store)
    qtbot.addWidget(window)
    window.show()
    assert window.welcome.title.text() == "Your first client"
    assert window.windowTitle() == "Weekloom"


def test_sentences_of_every_pane_stand_in_the_status_line(window: Window) -> None:
    window.bench.said.emit("Week 3 chosen")
    assert window.statusBar().currentMessage() == "Week 3 chosen"
    window.bench.refused.emit("No.")
    assert window.statusBar().currentMessage() == "No."


def test_archived_clients_and_programs_are_not_offered(window: Window, store: Store) -> None:
    gone = replace(RUNA, id=ClientId("gone"), name="Gone", archived=True)
    store.save(None, Work(gone), label="x")
    window.refresh_lists()
    names = [window.top.clients.itemText(k) for k in range(window.top.clients.count())]
    assert names == ["Runa Estvik", "New client…"]


def test_of_very_many_clients_the_open_one_comes_first_and_the_others_soon(
    qtbot: QtBot, bench: Bench, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    store.save(None, Work(replace(RUNA, id=ClientId("ask"), name="Ask")), label="x")
    monkeypatch.setattr(module, "MOST_AT_ONCE", 1)
    window = Window(bench, store)
    qtbot.addWidget(window)
    box = window.top.clients

    def names() -> list[str]:
        return [box.itemText(row) for row in range(box.count())]

    assert names() == ["Runa Estvik", "New client…"]
    assert box.currentText() == "Runa Estvik"
    qtbot.waitUntil(lambda: names() == ["Ask", "Runa Estvik", "New client…"])
    assert box.currentText() == "Runa Estvik"


# ---------------------------------------------------------------------------- menus and keys


def test_every_command_stands_in_its_menu_with_its_shortcut(window: Window) -> None:
    bar = window.top.menus
    menus: dict[str, Any] = {action.text(): action.menu() for action in bar.actions()}
    assert tuple(menus) == MENUS
    for action in ACTIONS:
        made = window.actions_by_id[action.id]
        assert made in menus[action.menu].actions()
        assert made.shortcuts() == [QKeySequence(keys) for keys in action.shortcuts]


def test_the_menu_names_what_undo_would_take_back(window: Window) -> None:
    window.bench.keep(edit("Rename R&D", rename, name="Winter"))
    assert window.actions_by_id["undo"].text() == "Undo: Rename R&&D"
    window.bench.undo()
    assert window.actions_by_id["undo"].text() == "Undo"
    assert window.actions_by_id["redo"].text() == "Redo: Rename R&&D"


def test_commands_go_off_with_what_they_need(window: Window) -> None:
    assert window.actions_by_id["light"].isEnabled()
    without_program(window.bench)
    assert not window.actions_by_id["light"].isEnabled()
    window.actions_by_id["light"].trigger()
    assert window.bench.desk.history.undoable is None


@pytest.mark.parametrize(
    ("key", "modifiers", "week"),
    [
        (Qt.Key.Key_PageDown, Qt.KeyboardModifier.ControlModifier, 3),
        (Qt.Key.Key_PageUp, Qt.KeyboardModifier.ControlModifier, 1),
    ],
)
def test_shortcuts_work_wherever_the_focus_is(qtbot: QtBot, window, key, modifiers, week) -> None:
    window.activateWindow()
    window.bench.show_week(2)
    for pane in (window.grid, window.season, window.findings.list, window.library.search):
        pane.setFocus()
        qtbot.keyClick(pane, key, modifiers)
        assert window.bench.week == week
        window.bench.show_week(2)


def test_ctrl_z_takes_back_and_ctrl_y_does_again(qtbot: QtBot, window: Window) -> None:
    window.activateWindow()
    window.toggle_light()
    light = window.bench.desk.program
    qtbot.keyClick(window.grid, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.bench.desk.program == PROGRAM
    qtbot.keyClick(window.grid, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    assert window.bench.desk.program == light


def test_the_menu_of_a_card_offers_what_acts_on_it(qtbot: QtBot, window: Window) -> None:
    window.bench.select((slot_ids(window.bench)[0],))
    window._context_menu(window.bench.selection, QPoint(10, 10))
    menu = next(m for m in window.findChildren(QMenu) if m.parent() is window)
    shown = [a for a in menu.actions() if not a.isSeparator()]
    assert shown == [window.actions_by_id[a.id] for a in ACTIONS if a.card]
    with qtbot.waitSignal(menu.destroyed, timeout=1000):
        menu.close()


# ---------------------------------------------------------------------------- shape


def test_a_narrow_window_folds_the_client_pane_until_it_is_opened_by_hand(qtbot, window) -> None:
    window.resize(NARROW - 100, 720)
    assert window.client_pane.folded
    qtbot.mouseClick(window.client_pane.rail, LEFT)
    assert not window.client_pane.folded
    window.resize(NARROW - 120, 720)
    assert not window.client_pane.folded, "what was opened by hand stays open"
    window.toggle_client_pane()
    window.resize(1600, 1000)
    assert window.client_pane.folded, "and what was folded by hand stays folded"


def test_a_wide_window_opens_the_pane_again_by_itself(window: Window) -> None:
    window.resize(NARROW - 100, 720)
    window.resize(1600, 1000)
    assert not window.client_pane.folded


@pytest.mark.parametrize("size", [(1000, 640), (1280, 720), (1600, 1000)])
def test_every_pane_is_inside_the_window(window: Window, size: tuple[int, int]) -> None:
    window.resize(*size)
    for pane in (
        window.library,
        window.season,
        window.grid,
        window.tally,
        window.findings,
        window.client_pane,
    ):
        corner = pane.mapTo(window, QPoint(0, 0))
        assert corner.x() >= 0
        assert corner.x() + pane.width() <= window.width()
        assert corner.y() + pane.height() <= window.height()
        assert pane.width() > 24
        assert pane.height() > 24


def test_it_takes_on_the_platforms_colours_when_they_change(window: Window) -> None:
    theme.force(theme.DARK)
    window.dress()
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    assert theme.DARK.paper.name() in app.styleSheet()
    assert window.grab().toImage().pixelColor(3, 500).lightness() < 128


# ---------------------------------------------------------------------------- closing, opening


def reopened(store: Store, qtbot: QtBot) -> Window:
    window = start.window_on(store)
    qtbot.addWidget(window)
    return window


def test_what_was_open_is_open_again(qtbot: QtBot, window: Window, store: Store) -> None:
    window.bench.show_week(4)
    window.close()
    again = reopened(store, qtbot)
    assert (again.bench.desk.client, again.bench.desk.program) == (RUNA, PROGRAM)
    qtbot.waitUntil(lambda: again.bench.week == 4)


def test_a_client_alone_is_open_again(qtbot: QtBot, window: Window, store: Store) -> None:
    without_program(window.bench)
    window.close()
    again = reopened(store, qtbot).bench.desk
    assert (again.client, again.has_program) == (RUNA, False)


@pytest.mark.parametrize("kept", ["", "nobody ridge 3", "runa nothing 3", "runa", "  "])
def test_what_is_gone_is_not_opened(qtbot: QtBot, store: Store, dressed, kept: str) -> None:
    store.set_setting("open", kept)
    window = reopened(store, qtbot)
    assert not window.bench.desk.has_program
    assert (window.bench.desk.work is None) == (not kept.startswith("runa"))


def test_closing_never_fails_for_want_of_room(window: Window, store: Store, monkeypatch) -> None:
    def full(*_: object) -> None:
        raise StoreFailure(Cause.FULL, where="plans.weekloom")

    monkeypatch.setattr(store, "set_setting", full)
    assert window.close()
    assert "every edit is" in window.statusBar().currentMessage()


# ---------------------------------------------------------------------------- for everybody


@pytest.mark.parametrize("size", [(1600, 1000), (1280, 720)])
def test_every_control_is_named_and_can_be_hit_and_text_is_text(window: Window, size) -> None:
    window.resize(*size)
    window.client_pane.fold(False)
    assert unnamed(window) == []
    assert too_small(window) == []
    assert marked_up(window) == []


def test_the_first_page_too(window: Window) -> None:
    without_program(window.bench)
    assert unnamed(window) == []
    assert too_small(window) == []


def test_tab_reaches_every_pane_and_comes_back(qtbot: QtBot, window: Window) -> None:
    window.activateWindow()
    window.grid.setFocus()
    seen: set[QWidget] = set()
    for _ in range(200):
        widget = QApplication.focusWidget()
        if widget is None or (widget in seen and widget is window.grid):
            break
        seen.add(widget)
        qtbot.keyClick(widget, Qt.Key.Key_Tab)
    for pane in (
        window.library,
        window.season,
        window.head,
        window.tally,
        window.findings,
        window.client_pane,
        window.top,
    ):
        assert any(pane is w or pane.isAncestorOf(w) for w in seen), pane


# ---------------------------------------------------------------------------- at random

KEYS = (
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Space,
    Qt.Key.Key_Return,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Delete,
    Qt.Key.Key_Tab,
    Qt.Key.Key_Home,
    Qt.Key.Key_End,
    Qt.Key.Key_A,
    Qt.Key.Key_F2,
    Qt.Key.Key_Insert,
    Qt.Key.Key_PageDown,
)
MODIFIERS = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
)
LEFT_OUT = {"quit", "guide", "clear_week"}
"""What ends the window, opens another, or leaves nothing to act on."""


class Hand:
    """Somebody who does anything at all to a window."""

    def __init__(self, qtbot: QtBot, window: Window, dice: random.Random) -> None:
        self.qtbot, self.window, self.dice = qtbot, window, dice
        self.panes = (
            window.grid,
            window.season,
            window.tally.bars,
            window.findings.list.viewport(),
            window.library,
            window.client_pane,
            window.head,
        )

    def act(self) -> None:
        often = (self._command, self._carry) * 3
        self.dice.choice((self._key, self._click, self._click, self._drag, self._week, *often))()
        popup = QApplication.activePopupWidget()
        while popup is not None:
            popup.close()
            popup = QApplication.activePopupWidget()

    def _key(self) -> None:
        if self.dice.random() < 0.4:
            self.window.grid.setFocus()
        widget = QApplication.focusWidget() or self.window.grid
        self.qtbot.keyClick(widget, self.dice.choice(KEYS), self.dice.choice(MODIFIERS))

    def _point(self, pane: QWidget) -> QPoint:
        return QPoint(
            self.dice.randrange(max(1, pane.width())), self.dice.randrange(max(1, pane.height()))
        )

    def _click(self) -> None:
        pane = self.dice.choice(self.panes)
        at = self._point(pane)
        target = pane.childAt(at) or pane
        if isinstance(target, QAbstractButton) and not target.isEnabled():
            return
        where = target.mapFrom(pane, at)
        if self.dice.random() < 0.15:
            self.qtbot.mouseDClick(target, LEFT, pos=where)
        else:
            self.qtbot.mouseClick(target, LEFT, self.dice.choice(MODIFIERS), where)

    def _drag(self) -> None:
        pane = self.dice.choice((self.window.season, self.window.grid))
        self.qtbot.mousePress(pane, LEFT, pos=self._point(pane))
        self.qtbot.mouseMove(pane, self._point(pane))
        self.qtbot.mouseRelease(pane, LEFT, pos=self._point(pane))

    def _carry(self) -> None:
        """A card is picked up by keys, moved about and put down."""
        self._week()
        grid = self.window.grid
        grid.setFocus()
        self.qtbot.keyClick(grid, Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
        for _ in range(self.dice.randrange(4)):
            self.qtbot.keyClick(grid, self.dice.choice(KEYS[:4]))
        self.qtbot.keyClick(grid, Qt.Key.Key_Return)

    def _command(self) -> None:
        action = self.dice.choice([a for a in ACTIONS if a.id not in LEFT_OUT])
        self.window.actions_by_id[action.id].trigger()

    def _week(self) -> None:
        bench = self.window.bench
        bench.show_week(self.dice.randrange(8))
        ids = slot_ids(bench, bench.week)
        count = min(len(ids), self.dice.randrange(4))
        bench.select(tuple(self.dice.sample(ids, count)))


@pytest.mark.parametrize("seed", range(2))
def test_nothing_that_anybody_does_breaks_it(qtbot, window, store, monkeypatch, seed: int) -> None:
    """250 acts at random each; what asks is cancelled, as a modal loop cannot be left alone."""
    for kind in (QDialog, QMessageBox):
        monkeypatch.setattr(kind, "exec", lambda dialog: dialog.reject() or 0)
    for name in ("getSaveFileName", "getOpenFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_, **__: ("", ""))
    window.activateWindow()
    hand = Hand(qtbot, window, random.Random(seed))
    for _ in range(250):
        hand.act()
        program = window.bench.desk.program
        assert broken_laws(program) == ()
    assert store.load_program(program.id) == program
    assert store.load_client(RUNA.id) == window.bench.desk.client
    kept = [line.label for line in store.log(program.id, limit=1000)]
    assert len(kept) > 12, "plenty was done"
    assert len(set(kept)) > 5, "and of many kinds"
    while window.bench.desk.history.undoable is not None:
        window.bench.desk.undo()
    assert store.load_program(program.id) == window.bench.desk.program


def test_buttons_of_commands_tell_their_keys(window: Window) -> None:
    assert "(Ctrl+P)" in window.top.booklet.toolTip()
    for number, button in enumerate(window.head.buttons.values(), start=1):
        assert f"(Alt+{number})" in button.toolTip()


def test_a_small_window_shows_what_is_said_for_as_long_as_it_is_said(
    window: Window, qtbot: QtBot
) -> None:
    window.resize(1280, 720)
    bar = window.statusBar()
    qtbot.waitUntil(lambda: not bar.isVisible())
    window.say("There is no such day.")
    assert bar.isVisible()
    assert bar.currentMessage() == "There is no such day."
    bar.clearMessage()
    assert not bar.isVisible()
    window.resize(1600, 1000)
    qtbot.waitUntil(bar.isVisible)
