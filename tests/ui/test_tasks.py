"""The main tasks of a coach, by the keyboard alone, and by clicks alone.

A keyboard run presses keys on whatever has the focus; a modal dialog takes the keys that come next
in the list. A clicks run uses the left button without holding it while moving.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from PySide6.QtCore import QEvent, QKeyCombination, QPoint, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QMenu, QPushButton, QWidget

from app.domain.program import Program, Span
from app.ui.guide import Guide
from app.ui.window import Window
from app.ui.working_popup import WorkingPopup

LEFT = Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier


def combination(key: str) -> QKeyCombination:
    """'Ctrl+G' as Qt presses it."""
    found: list[QKeyCombination] = list(QKeySequence(key))  # type: ignore[call-overload]
    return found[0]


class Keyboard:
    """Presses keys on what has the focus; `run` takes names of keys, and texts after a colon."""

    def __init__(self, window: Window, monkeypatch: pytest.MonkeyPatch) -> None:
        self.window = window
        self.left: Iterator[str] = iter(())
        self.dialogs: list[str] = []
        monkeypatch.setattr(QDialog, "exec", lambda dialog: Keyboard.answer(self, dialog))

    def answer(self, dialog: QDialog) -> int:
        """Press what comes next until the dialog is gone."""
        self.dialogs.append(type(dialog).__name__)
        dialog.show()
        dialog.activateWindow()
        QApplication.processEvents()
        for key in self.left:
            self.press(key, QApplication.focusWidget() or dialog)
            if not dialog.isVisible():
                break
        assert not dialog.isVisible(), f"{type(dialog).__name__} cannot be left by these keys"
        return dialog.result()

    def run(self, *keys: str) -> None:
        """Press them one after the other."""
        self.left = iter(keys)
        for key in self.left:
            self.press(key, QApplication.focusWidget() or self.window)

    def press(self, key: str, target: QWidget) -> None:
        """One key, or the letters of a text."""
        if key.startswith(":"):
            for letter in key[1:]:
                event = QKeyEvent(QEvent.Type.KeyPress, 0, NONE, letter)
                QApplication.sendEvent(QApplication.focusWidget() or target, event)
            return
        if key.startswith("menu "):
            self.from_menu(key[5:])
            return
        combined = combination(key)
        QTest.keyClick(target, combined.key(), combined.keyboardModifiers())
        QApplication.processEvents()

    def from_menu(self, wanted: str) -> None:
        """Walk down a menu with the arrow keys and take what it stands on."""
        action = self.window.actions_by_id[wanted]
        (menu,) = (m for m in self.window.findChildren(QMenu) if action in m.actions())
        menu.popup(self.window.pos())
        for _ in menu.actions():
            QTest.keyClick(menu, Qt.Key.Key_Down)
            if menu.activeAction() is action:
                break
        assert menu.activeAction() is action
        QTest.keyClick(menu, Qt.Key.Key_Return)


@pytest.fixture
def keyboard(window: Window, monkeypatch: pytest.MonkeyPatch) -> Keyboard:
    window.activateWindow()
    window.grid.setFocus()
    window.grid.go_to(next(window.bench.open_week.slots()).id)
    window.bench.select((next(window.bench.open_week.slots()).id,))
    QApplication.processEvents()
    return Keyboard(window, monkeypatch)


@dataclass(frozen=True)
class Task:
    """Keys, and what must be true of the window before and after (given the program before)."""

    name: str
    keys: tuple[str, ...]
    done: Callable[[Window, Program], bool]


def day(window: Window, number: int) -> int:
    """How many cards stand on a day of the open week."""
    return sum(len(s.slots) for s in window.bench.open_week.days[number].sessions)


def label(window: Window) -> str:
    """The newest step of the history."""
    step = window.bench.desk.history.undoable
    return "" if step is None else step.label


def popups(window: Window) -> list[WorkingPopup]:
    return [p for p in window.findChildren(WorkingPopup) if p.isVisible()]


TASKS = (
    Task(
        "new client",
        ("Ctrl+Shift+N", ":Tove Lind", "Return"),
        lambda w, _: w.bench.desk.client.name == "Tove Lind",
    ),
    Task("new program", ("Ctrl+N", "Return"), lambda w, p: w.bench.desk.program.id != p.id),
    Task(
        "place from the library",
        ("Ctrl+F", ":leg press", "Down", "Return"),
        lambda w, _: "Leg press" in label(w),
    ),
    Task(
        "move to another day",
        ("Space", "Right", "Return"),
        lambda w, _: label(w).startswith("Move"),
    ),
    Task("carry and put back", ("Space", "Right", "Esc"), lambda w, p: w.bench.desk.program is p),
    Task("change the order", ("Alt+Down",), lambda w, p: w.bench.desk.program is not p),
    Task(
        "copy to another week",
        ("Ctrl+C", "PgDown", "Ctrl+V"),
        lambda w, _: w.bench.week == 1 and bool(label(w)),
    ),
    Task(
        "edit a line",
        ("F2", "Ctrl+A", ":5 x 5, RIR 1", "Return"),
        lambda w, _: next(w.bench.open_week.slots()).sets == 5,
    ),
    Task(
        "a set more",
        ("+",),
        lambda w, p: next(w.bench.open_week.slots()).sets == next(p.weeks[0].slots()).sets + 1,
    ),
    Task(
        "take away",
        ("Del",),
        lambda w, p: len(list(w.bench.open_week.slots())) < len(list(p.weeks[0].slots())),
    ),
    Task("undo", ("Del", "Ctrl+Z"), lambda w, p: w.bench.desk.program == p),
    Task("redo", ("Del", "Ctrl+Z", "Ctrl+Y"), lambda w, p: w.bench.desk.program != p),
    Task("pair", ("Shift+Down", "P"), lambda w, _: bool(next(w.bench.open_week.slots()).pair)),
    Task(
        "substitute",
        ("Ctrl+R", "Return"),
        lambda w, p: next(w.bench.open_week.slots()).exercise != next(p.weeks[0].slots()).exercise,
    ),
    Task(
        "all fields",
        ("Alt+Return", "Ctrl+A", ":6", "Return"),
        lambda w, _: next(w.bench.open_week.slots()).sets == 6,
    ),
    Task(
        "note",
        ("N", ":slowly", "Return"),
        lambda w, _: next(w.bench.open_week.slots()).note == "slowly",
    ),
    Task("choose the span", ("Alt+1",), lambda w, _: w.bench.span is Span.THIS_WEEK),
    Task("light week", ("Ctrl+L",), lambda w, _: w.bench.open_week.light),
    Task("another week", ("Ctrl+PgDown",), lambda w, _: w.bench.week == 1),
    Task("progression", ("Ctrl+G", "Return"), lambda w, _: "progression" in label(w)),
    Task("split", ("Ctrl+Shift+D", "Return"), lambda w, p: w.bench.desk.program is not p),
    Task("history", ("Del", "Ctrl+H", "Esc"), lambda w, p: w.bench.desk.program != p),
    Task("how a number came about", ("F3",), lambda w, _: bool(popups(w))),
    Task("guide", ("F1",), lambda w, _: bool(w.findChildren(Guide))),
    Task("heat strip", ("Ctrl+Shift+H",), lambda w, _: w.season.heat),
    Task(
        "a week more",
        ("menu add_week",),
        lambda w, p: len(w.bench.desk.program.weeks) == len(p.weeks) + 1,
    ),
    Task(
        "rename",
        ("menu rename_program", "Ctrl+A", ":Ascent", "Return"),
        lambda w, _: w.bench.desk.program.name == "Ascent",
    ),
)


@pytest.mark.parametrize("task", TASKS, ids=[task.name for task in TASKS])
def test_a_task_is_done_by_the_keyboard_alone(keyboard: Keyboard, task: Task) -> None:
    window = keyboard.window
    before = window.bench.desk.program
    keyboard.run(*task.keys)
    assert task.done(window, before), (label(window), keyboard.dialogs)
    for popup in popups(window):
        popup.close()


def test_weeks_are_chosen_moved_and_cleared_by_keys(keyboard: Keyboard) -> None:
    window = keyboard.window
    window.season.setFocus()
    keyboard.run("Right", "Shift+Right")
    assert window.bench.chosen == range(1, 3)
    keyboard.run("menu clear_chosen")
    assert "Clear weeks 2 to 3" in label(window)
    keyboard.run("Esc", "Alt+Right")
    assert "week" in label(window).casefold()


def test_a_finding_is_gone_to_mended_and_accepted_by_keys(keyboard: Keyboard) -> None:
    window = keyboard.window
    rows = window.findings.list
    rows.setFocus()
    keyboard.run("Down", "Return")
    count = len(window.bench.desk.program.accepted)
    keyboard.run("A", ":seen and wanted", "Return")
    assert len(window.bench.desk.program.accepted) == count + 1


def test_tab_goes_round_the_whole_window_and_never_stays(keyboard: Keyboard) -> None:
    window = keyboard.window
    reached = set()
    for _ in range(150):
        focus = QApplication.focusWidget()
        assert focus is not None
        reached.add(focus)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    for pane in (
        window.grid,
        window.season,
        window.tally.bars,
        window.findings.list,
        window.library.search,
        window.library.list,
        window.top.clients,
    ):
        assert pane in reached or pane.focusProxy() in reached, type(pane).__name__


# -- by clicks alone -------------------------------------------------------------------------------


def click(widget: QWidget, at: QPointF | QPoint | None = None) -> None:
    """A click without any movement in between."""
    where = widget.rect().center() if at is None else QPointF(at).toPoint()
    QTest.mouseClick(widget, LEFT, NONE, where)


def hover(widget: QWidget, at: QPointF) -> None:
    """The pointer passes with no button held."""
    move = QMouseEvent(
        QEvent.Type.MouseMove,
        at,
        widget.mapToGlobal(at),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.NoButton,
        NONE,
    )
    QApplication.sendEvent(widget, move)


def test_a_card_is_moved_by_two_clicks(window: Window) -> None:
    grid = window.grid
    slot = next(window.bench.open_week.slots()).id
    click(grid, grid.card_rect(*grid.layout_now.card(slot)).center())
    window.actions_by_id["pick_up"].trigger()  # in the card's menu, one click
    target = grid.layout_now.days[4]
    hover(grid, target.column.center())
    click(grid, target.column.center())
    assert label(window).startswith("Move")
    assert day(window, 4) == 1


def test_weeks_spans_findings_and_numbers_answer_to_a_click(window: Window) -> None:
    season = window.season
    click(season, season.frame().column(2).center())
    assert window.bench.week == 2
    click(window.head.buttons[Span.THIS_WEEK])
    assert window.bench.span is Span.THIS_WEEK
    click(season, season.frame().column(0).center())
    click(window.tally.bars, window.tally.bars._place(0).center())
    (popup,) = popups(window)
    popup.close()
    grid = window.grid
    busy = next(d for d in grid.layout_now.days if d.cards)
    click(grid, busy.foot.center())
    (popup,) = popups(window)
    assert "min on" in popup.accessibleName()
    popup.close()


def test_the_empty_page_leads_to_the_demo_or_a_first_client_in_one_click(
    qtbot, dressed, empty_bench, monkeypatch
) -> None:
    store = empty_bench.desk.store
    window = Window(empty_bench, store)
    qtbot.addWidget(window)
    window.show()
    asked: list[str] = []

    def note(dialog: QDialog) -> int:
        asked.append(type(dialog).__name__)
        return 0

    monkeypatch.setattr(QDialog, "exec", note)
    buttons = [b for b in window.welcome.findChildren(QPushButton) if b.isVisible()]
    first, demo = buttons
    click(first)
    assert asked == ["ProfileSheet"]
    click(demo)
    assert window.bench.desk.has_program
    assert len(store.clients()) == 6
