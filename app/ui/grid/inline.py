"""Editing one line in place: a prescription on its card, or a title in a day's head.

What cannot be read stays as typed, with the reason and what is accepted under the field; the old
value is kept until a line can be read.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QRectF, QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QFrame, QLabel, QLineEdit, QVBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.wording import mark
from app.ui import theme

Commit = Callable[[str], CoachError | None]

LEAST_WIDTH = 300
ENDINGS = (
    "RIR 0",
    "RIR 1",
    "RIR 2",
    "RIR 3",
    "75 % 1RM",
    mark("95 % of RM"),
    "failure",
    mark("rest 60 s"),
    mark("rest 90 s"),
    mark("rest 120 s"),
    mark("rest 150 s"),
    mark("rest 180 s"),
    mark("tempo 2-0-2-0"),
    mark("tempo 3-0-1-0"),
    mark("load from tests"),
)
"""What a part of a line may be completed to."""


class PartCompleter(QCompleter):
    """Completes the last part of a line whose parts are parted by commas."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.setModel(QStringListModel(list(ENDINGS), self))
        self.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)

    def splitPath(self, path: str) -> list[str]:
        """The part that is being typed."""
        return [path.rsplit(",", 1)[-1].strip()]

    def pathFromIndex(self, index) -> str:  # type: ignore[no-untyped-def]
        """The line with its last part completed."""
        edit = self.widget()
        typed = edit.text() if isinstance(edit, QLineEdit) else ""
        ending = str(index.data())
        before, comma, _ = typed.rpartition(",")
        return f"{before}{comma} {ending}" if comma else ending


class InlineEditor(QFrame):
    """A field over the grid, with room for what is wrong under it. closed: it is done."""

    closed = Signal()

    def __init__(
        self, parent: QWidget, *, text: str, name: str, commit: Commit, complete: bool = True
    ) -> None:
        super().__init__(parent)
        self._over = parent
        self._commit = commit
        self._done = False
        self.field = QLineEdit(text, self)
        self.field.setAccessibleName(name)
        self.field.setFont(theme.font("body"))
        self.wrong = QLabel(self)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.setWordWrap(True)
        self.wrong.setProperty("role", "wrong")
        self.wrong.hide()
        if complete:
            self.field.setCompleter(PartCompleter(self.field))
        box = QVBoxLayout(self)
        box.setContentsMargins(2, 2, 2, 2)
        box.setSpacing(4)
        box.addWidget(self.field)
        box.addWidget(self.wrong)
        colours = theme.current()
        self.setAutoFillBackground(True)
        self.setStyleSheet(
            f"InlineEditor {{ background: {colours.card.name()};"
            f" border: 1px solid {colours.accent.name()}; border-radius: 4px; }}"
        )
        self.field.installEventFilter(self)
        self.field.textEdited.connect(self._hide_wrong)
        self.field.returnPressed.connect(self._entered)

    def open_over(self, rect: QRectF) -> None:
        """Show the field over the rectangle, as wide as a line needs and inside the parent."""
        width = max(LEAST_WIDTH, round(rect.width()) + 8)
        width = min(width, self._over.width() - 4)
        left = min(max(2, round(rect.left()) - 4), self._over.width() - width - 2)
        self.setFixedWidth(width)
        self.adjustSize()
        top = min(round(rect.top()), self._over.height() - self.height() - 2)
        self.move(left, max(0, top))
        self.show()
        self.raise_()
        self.field.setFocus()
        self.field.selectAll()

    def accept(self) -> None:
        """Keep the line; stays open with the reason where it cannot be read."""
        error = self._commit(self.field.text())
        if error is None:
            self.close_now()
            return
        self.wrong.setText(error.sentence)
        self.wrong.show()
        self.field.setProperty("wrong", True)
        self._restyle()

    def reject(self) -> None:
        """Leave the old value."""
        self.close_now()

    def close_now(self) -> None:
        """Go away."""
        if not self._done:
            self._done = True
            self.hide()
            self.closed.emit()
            self.deleteLater()

    def _hide_wrong(self) -> None:
        if self.wrong.isVisible():
            self.wrong.hide()
            self.field.setProperty("wrong", False)
            self._restyle()

    def _restyle(self) -> None:
        self.field.style().unpolish(self.field)
        self.field.style().polish(self.field)
        self.adjustSize()
        bottom = self._over.height() - 2
        if self.geometry().bottom() > bottom:
            self.move(self.x(), max(0, bottom - self.height()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter keeps, Esc leaves; leaving the field keeps a line that can be read."""
        if watched is not self.field or self._done:
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return False
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._key(event)
        if event.type() == QEvent.Type.FocusOut and not self._completing():
            if self._commit(self.field.text()) is None:
                self.close_now()
            else:
                self.reject()
        return False

    def _entered(self) -> None:
        """Enter while completions show: keep the line, unless one of them is marked."""
        completer: QCompleter | None = self.field.completer()
        popup = None if completer is None else completer.popup()
        if popup is not None and popup.isVisible() and not popup.currentIndex().isValid():
            popup.hide()
            self.accept()

    def _completing(self) -> bool:
        completer: QCompleter | None = self.field.completer()
        popup = None if completer is None else completer.popup()
        return popup is not None and popup.isVisible()

    def _key(self, event: QKeyEvent) -> bool:
        if self._completing():
            return False
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.accept()
            return True
        if event.key() == Qt.Key.Key_Escape:
            self.reject()
            return True
        return False
