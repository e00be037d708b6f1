"""Somebody who does anything anywhere in the window, the same for the same seed.

Keys, clicks, wheels, drags, menus, dialogs that are filled in and kept or left, other clients,
programs, weeks and spans. Every act counts one; what a modal dialog asks is answered at once.
"""

from __future__ import annotations

import random
from collections import Counter, deque
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent, QMimeData, QPoint, QPointF, Qt, QThreadPool
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeyEvent,
    QWheelEvent,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QTabWidget,
    QWidget,
)

from app.domain.program import Span
from app.ui.action import Action
from app.ui.actions import ACTIONS
from app.ui.carry import Carried, to_mime
from app.ui.window import Window

Key = Qt.Key
NONE = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
ALT = Qt.KeyboardModifier.AltModifier
LEFT, RIGHT = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton
BOTH = Qt.DropAction.CopyAction | Qt.DropAction.MoveAction

KEYS = (
    *((key, NONE) for key in (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right)),
    *((key, NONE) for key in (Key.Key_Home, Key.Key_End, Key.Key_Space, Key.Key_Return)),
    *((key, NONE) for key in (Key.Key_Escape, Key.Key_Delete, Key.Key_P, Key.Key_C, Key.Key_N)),
    *((key, NONE) for key in (Key.Key_PageUp, Key.Key_PageDown, Key.Key_Plus, Key.Key_Minus)),
    *((key, NONE) for key in (Key.Key_Tab, Key.Key_F2, Key.Key_F3, Key.Key_Insert, Key.Key_M)),
    *((key, SHIFT) for key in (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right)),
    *((key, CTRL) for key in (Key.Key_C, Key.Key_X, Key.Key_V, Key.Key_D, Key.Key_A)),
    *((key, ALT) for key in (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right)),
    (Key.Key_Backtab, SHIFT),
)
TEXTS = (
    "4 x 8-10, RIR 2",
    "12",
    "-3",
    "squat",
    "nonsense",
    "2026-11-29",
    "7,5",
    "",
    "Łukasz & co <b>",
)
SLOW = {"booklet", "booklets", "papers", "report", "layout", "give", "charts", "progress_report"}
"""Menu commands that draw papers or plan for everybody: done, but seldom."""

NEVER = {"quit"}


def type_in(field: QWidget, text: str) -> None:
    """Type any letters; QTest knows those of ASCII alone."""
    for letter in text:
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            QApplication.sendEvent(field, QKeyEvent(kind, Key.Key_unknown, NONE, letter))


class Hands:
    """Somebody at the window. `said`: the latest acts in words; `done`: how often each."""

    def __init__(self, window: Window, seed: int, folder: Path) -> None:
        self.window = window
        self.bench = window.bench
        self.any = random.Random(seed)
        self.folder = folder
        self.said: deque[str] = deque(maxlen=30)
        self.done: Counter[str] = Counter()
        self.count = 0
        self.depth = 0

    # -- one act ---------------------------------------------------------------------------

    def act(self) -> None:
        """Do something."""
        acts: tuple[tuple[Callable[[], object], int], ...] = (
            (self.key_on_grid, 36),
            (self.key_anywhere, 10),
            (self.click, 24),
            (self.drag, 10),
            (self.menu, 6),
            (self.wheel, 3),
            (self.undo_or_redo, 5),
            (self.switch, 4),
            (self.resize, 1),
            (self.rest, 2),
        )
        chosen = self.any.choices([one for one, _ in acts], [often for _, often in acts])[0]
        chosen()
        self.answer_popups()
        # what a closed dialog asked for, which a running loop would do at once
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)

    def _tell(self, kind: str, what: object = "") -> None:
        self.count += 1
        self.done[kind] += 1
        self.said.append(f"{self.count}: {kind} {what}".strip())

    def pick_point(self, widget: QWidget) -> QPoint:
        """Any point of the widget."""
        return QPoint(
            self.any.randrange(max(1, widget.width())), self.any.randrange(max(1, widget.height()))
        )

    def key_on_grid(self) -> None:
        """A key of the week grid, or of the line that is open in it."""
        key, held = self.any.choice(KEYS)
        self._tell("key on grid", f"{key.name} {held.name}")
        self.window.grid.setFocus()
        QTest.keyClick(QApplication.focusWidget() or self.window.grid, key, held)
        self.fill_line()

    def fill_line(self) -> None:
        """Write sense or nonsense in an editor that opened over the grid."""
        editor = self.window.grid._editor
        if editor is not None:
            editor.field.setText(self.any.choice(TEXTS))
            QTest.keyClick(editor.field, self.any.choice((Key.Key_Return, Key.Key_Escape)))
            if self.window.grid._editor is not None:
                QTest.keyClick(editor.field, Key.Key_Escape)

    def key_anywhere(self) -> None:
        """A key where the focus is."""
        key, held = self.any.choice(KEYS)
        focus = QApplication.focusWidget() or self.window
        self._tell("key", f"{key.name} {held.name} on {type(focus).__name__}")
        QTest.keyClick(focus, key, held)
        self.fill_line()

    def click(self) -> None:
        """A click on anything that shows."""
        widgets = [w for w in self.window.findChildren(QWidget) if w.isVisible() and w.isEnabled()]
        panes = [self.window.grid, self.window.season, self.window.tally.bars]
        widget = self.any.choice(widgets if self.any.random() < 0.5 else panes)
        button = RIGHT if self.any.random() < 0.15 else LEFT
        held = self.any.choice((NONE, NONE, NONE, SHIFT, CTRL))
        at = self.pick_point(widget)
        self._tell("click", f"{type(widget).__name__} {button.name} {held.name}")
        if self.any.random() < 0.1:
            QTest.mouseDClick(widget, button, held, at)
        else:
            QTest.mouseClick(widget, button, held, at)
        self.fill_line()

    def wheel(self) -> None:
        """A turn of the wheel over anything."""
        widget = self.any.choice([self.window.grid, self.window.season, self.window.client_pane])
        at = QPointF(self.pick_point(widget))
        turn = QPoint(0, self.any.choice((-240, -120, 120, 240)))
        self._tell("wheel", type(widget).__name__)
        event = QWheelEvent(
            at,
            widget.mapToGlobal(at),
            QPoint(),
            turn,
            Qt.MouseButton.NoButton,
            NONE,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(widget, event)

    def drag(self) -> None:
        """A drag of cards or of an exercise, over days and weeks, let go somewhere or left."""
        week = self.bench.open_week
        ids = [] if week is None else [slot.id for slot in week.slots()]
        if ids and self.any.random() < 0.6:
            chosen = tuple(self.any.sample(ids, k=min(len(ids), self.any.randint(1, 3))))
            carried = Carried(slots=chosen, source=self.bench.source)
        else:
            exercise = self.any.choice(self.bench.desk.catalogue.exercises)
            carried = Carried(exercise=exercise.key, source="library")
        self._tell("drag", f"{len(carried.slots)} cards" if carried.slots else carried.exercise)
        mime = to_mime(carried)
        for _ in range(self.any.randint(1, 3)):
            target = self.window.season if self.any.random() < 0.15 else self.window.grid
            enter = QDragEnterEvent(self.pick_point(target), BOTH, mime, LEFT, NONE)
            QApplication.sendEvent(target, enter)
            if not enter.isAccepted():
                continue
            for _ in range(self.any.randint(0, 4)):
                self._move(target, mime, NONE)
            held = CTRL if self.any.random() < 0.3 else NONE
            move = self._move(target, mime, held)
            if move.isAccepted() and self.any.random() < 0.7:
                where = QPointF(move.position())
                QApplication.sendEvent(target, QDropEvent(where, BOTH, mime, LEFT, held))
                return
            QApplication.sendEvent(target, QDragLeaveEvent())

    def _move(self, target: QWidget, mime: QMimeData, held: Qt.KeyboardModifier) -> QDragMoveEvent:
        move = QDragMoveEvent(self.pick_point(target), BOTH, mime, LEFT, held)
        QApplication.sendEvent(target, move)
        return move

    def menu(self) -> None:
        """A command from the menus that is on offer now."""
        window = self.window
        window._enable_actions()
        offered = [
            action
            for action in ACTIONS
            if action.id not in NEVER and window.actions_by_id[action.id].isEnabled()
        ]
        weights = [0.06 if action.id in SLOW else 1.0 for action in offered]
        action: Action = self.any.choices(offered, weights)[0]
        self._tell("menu", action.id)
        window.actions_by_id[action.id].trigger()
        self.fill_line()

    def undo_or_redo(self) -> None:
        """One to four steps back or on."""
        step = self.any.choice((self.bench.undo, self.bench.undo, self.bench.redo))
        for _ in range(self.any.randint(1, 4)):
            self._tell(step.__name__)
            step()

    def switch(self) -> None:
        """Another client, program, week or span."""
        window, bench = self.window, self.bench
        match self.any.choice(("client", "program", "week", "week", "span", "chosen")):
            case "client":
                line = self.any.choice(window.store.clients())
                self._tell("client")
                window.choose_client(line.id)
            case "program" if bench.desk.work is not None:
                programs = window.store.programs(bench.desk.client.id)
                self._tell("program")
                if programs:
                    window.choose_program(self.any.choice(programs).id)
            case "week":
                week = self.any.randrange(60)
                self._tell("week", week)
                bench.show_week(week)
            case "chosen" if bench.desk.has_program:
                count = len(bench.desk.program.weeks)
                first = self.any.randrange(count)
                self._tell("choose weeks")
                window.season.choose(range(first, self.any.randint(first, count)))
            case _:
                self._tell("span")
                bench.choose_span(self.any.choice(tuple(Span)))

    def resize(self) -> None:
        """Another size of the window."""
        size = self.any.choice(((1000, 640), (1280, 720), (1600, 1000), (1366, 768)))
        self._tell("resize", size)
        self.window.resize(*size)

    def rest(self) -> None:
        """Nothing, so that all that waits is done and painted."""
        self._tell("rest")
        self.settle()

    def settle(self) -> None:
        """Let workers end and events come through."""
        QThreadPool.globalInstance().waitForDone()
        QApplication.processEvents()

    # -- what opens ------------------------------------------------------------------------

    def answer_popups(self) -> None:
        """Choose from, or close, whatever popped up; close windows that stay open."""
        for _ in range(6):
            popup = QApplication.activePopupWidget()
            if popup is None:
                break
            if isinstance(popup, QMenu) and self.any.random() < 0.5 and self.depth == 0:
                self.from_menu(popup)
            if popup.isVisible():
                popup.close()
        for other in QApplication.topLevelWidgets():
            if other.isVisible() and isinstance(other, QDialog) and self.depth == 0:
                self.inside(other)

    def from_menu(self, menu: QMenu) -> None:
        """Trigger one of its entries."""
        entries = [a for a in menu.actions() if a.isEnabled() and not a.isSeparator()]
        entries = [a for a in entries if a not in self._never()]
        if entries:
            entry = self.any.choice(entries)
            self._tell("from menu", entry.text())
            menu.close()
            entry.trigger()
            self.fill_line()

    def _never(self) -> list[object]:
        return [
            self.window.actions_by_id[one]
            for one in (*NEVER, *SLOW)
            if one in self.window.actions_by_id
        ]

    def answer(self, dialog: QDialog) -> int:
        """Stands for `exec`: fill in a modal dialog and leave it one way or another."""
        dialog.setResult(QDialog.DialogCode.Rejected)
        self.inside(dialog)
        return dialog.result()

    def inside(self, dialog: QDialog) -> None:
        """Some acts inside a dialog, then away with it."""
        self._tell("dialog", type(dialog).__name__)
        self.depth += 1
        try:
            dialog.show()
            for _ in range(self.any.randint(0, 5 if self.depth < 3 else 0)):
                if dialog.isVisible():
                    self.act_in(dialog)
            QThreadPool.globalInstance().waitForDone()
            QApplication.sendPostedEvents(None, QEvent.Type.MetaCall)
            if dialog.isVisible():
                QTest.keyClick(dialog, Key.Key_Escape)
            if dialog.isVisible():
                dialog.reject()
        finally:
            self.depth -= 1

    def act_in(self, dialog: QDialog) -> None:
        """One act inside a dialog."""
        kinds = (QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QAbstractItemView)
        found = [w for kind in (*kinds, QTabWidget) for w in dialog.findChildren(kind)]
        found = [w for w in found if w.isVisible() and w.isEnabled()]
        if not found:
            return
        widget = self.any.choice(found)
        name = widget.text() if isinstance(widget, QAbstractButton) else widget.accessibleName()
        self._tell(f"in {type(dialog).__name__}", f"{type(widget).__name__} {name}")
        if isinstance(widget, QAbstractButton):
            widget.click()
        elif isinstance(widget, QComboBox) and widget.count():
            widget.setCurrentIndex(self.any.randrange(widget.count()))
        elif isinstance(widget, QLineEdit):
            widget.setFocus()
            widget.selectAll()
            type_in(widget, self.any.choice(TEXTS))
        elif isinstance(widget, QPlainTextEdit):
            widget.setPlainText(self.any.choice(TEXTS))
        elif isinstance(widget, QTabWidget):
            widget.setCurrentIndex(self.any.randrange(max(1, widget.count())))
        else:
            QTest.keyClick(widget, *self.any.choice(KEYS[:12]))
        popup = QApplication.activePopupWidget()
        if popup is not None:
            popup.close()

    # -- files -----------------------------------------------------------------------------

    def file_to_write(self, *_: object, **__: object) -> tuple[str, str]:
        """Stands for the system's dialog: a file in the folder, or none."""
        return (
            (str(self.folder / f"out-{self.any.randrange(5)}"), "")
            if self.any.random() < 0.5
            else ("", "")
        )

    def file_to_read(self, *_: object, **__: object) -> tuple[str, str]:
        """Stands for the system's dialog: one of the files written, or none."""
        files = sorted(self.folder.glob("out-*"))
        return (str(self.any.choice(files)), "") if files and self.any.random() < 0.7 else ("", "")

    def files_to_read(self, *_: object, **__: object) -> tuple[list[str], str]:
        """Stands for the system's dialog for several files: some of those written, or none."""
        files = sorted(map(str, self.folder.glob("out-*")))
        return self.any.sample(files, self.any.randint(0, min(3, len(files)))), ""

    def folder_to_use(self, *_: object, **__: object) -> str:
        """Stands for the system's dialog: the folder, or none."""
        return str(self.folder) if self.any.random() < 0.5 else ""
