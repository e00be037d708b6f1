"""Editing one line in place: a prescription on its card, or a title in a day's head.

What cannot be read stays as typed, with the reason and what is accepted under the field; the old
value is kept until a line can be read. Left for something else, such a line is given up with a
sentence that repeats it.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QRectF, QStringListModel, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QCompleter,
    QFrame,
    QGridLayout,
    QLabel,
    QLineEdit,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.findings import Weight
from app.domain.wording import mark, tr
from app.ui import theme
from app.ui.forms import Wrapped
from app.ui.signs import CARD_SIGN, weight_pixmap

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
        popup = self.popup()
        assert popup is not None
        popup.setObjectName("completions")

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
    """A field over the grid, with room for what is wrong under it.

    closed: it is done; went_on(1 or -1): Tab kept the line and asks for the next one, or the one
    before; given_up(sentence): it was left with a line that could not be read.
    """

    closed = Signal()
    went_on = Signal(int)
    given_up = Signal(str)

    def __init__(
        self,
        parent: QWidget,
        *,
        text: str,
        name: str,
        commit: Commit,
        complete: bool = True,
        hint: str = "",
    ) -> None:
        super().__init__(parent)
        self._over = parent
        self._commit = commit
        self._done = False
        self.field = QLineEdit(text, self)
        self.field.setAccessibleName(name)
        self.field.setFont(theme.font("body"))
        self.field.setPlaceholderText(hint)
        self.sign = QLabel(self)
        ratio = self.devicePixelRatioF()
        self.sign.setPixmap(weight_pixmap(Weight.CONFLICT, theme.current(), ratio=ratio))
        self.sign.setFixedSize(CARD_SIGN, CARD_SIGN)
        self.wrong = Wrapped(role="wrong")
        self.mend = Wrapped()
        if complete:
            self.field.setCompleter(PartCompleter(self.field))
        box = QGridLayout(self)
        box.setContentsMargins(2, 2, 2, 2)
        box.setHorizontalSpacing(6)
        box.setVerticalSpacing(4)
        box.setColumnMinimumWidth(0, 6)
        box.setColumnStretch(2, 1)
        box.addWidget(self.field, 0, 0, 1, 4)
        box.addWidget(self.sign, 1, 1, Qt.AlignmentFlag.AlignTop)
        box.addWidget(self.wrong, 1, 2)
        box.addWidget(self.mend, 2, 2)
        box.setColumnMinimumWidth(3, 4)
        self._show_wrong(None)
        self.field.installEventFilter(self)
        self.field.textEdited.connect(self._hide_wrong)
        self.field.returnPressed.connect(self._entered)

    def _show_wrong(self, error: CoachError | None) -> None:
        """Show under the field what is wrong and how to mend it; None takes it away."""
        parts = () if error is None else (error.what, error.mend)
        for label, text in zip((self.wrong, self.mend), parts or ("", ""), strict=True):
            label.setText(text)
            label.setVisible(bool(text))
        self.sign.setVisible(error is not None)
        colours = theme.current()
        edge = colours.accent if error is None else colours.conflict
        self.setStyleSheet(
            f"InlineEditor {{ background: {colours.card.name()};"
            f" border: 2px solid {edge.name()}; border-radius: 4px; }}"
            "InlineEditor QLineEdit, InlineEditor QLineEdit:focus"
            " { border: none; padding: 3px 6px; }"
        )

    def open_over(self, rect: QRectF, *, typed: str = "") -> None:
        """Show the field over the rectangle, as wide as a line needs and inside the parent.

        typed: what the coach typed to open it, which takes the place of the line.
        """
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
        if typed:
            self.field.insert(typed)

    def accept(self) -> bool:
        """Keep the line; stays open with the reason, and False, where it cannot be read."""
        error = self._commit(self.field.text())
        if error is None:
            self.close_now()
            return True
        self._show_wrong(error)
        self._fit()
        return False

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
        if not self.sign.isHidden():
            self._show_wrong(None)
            self._fit()

    def _fit(self) -> None:
        self.adjustSize()
        bottom = self._over.height() - 2
        if self.geometry().bottom() > bottom:
            self.move(self.x(), max(0, bottom - self.height()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter and Tab keep, Esc leaves; leaving the field keeps a line that can be read."""
        if watched is not self.field or self._done:
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return False
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._key(event)
        if event.type() == QEvent.Type.FocusOut and isinstance(event, QFocusEvent):
            self._left(event.reason())
        return False

    def _left(self, reason: Qt.FocusReason) -> None:
        """Keep what can be read; what cannot is given up, unless the coach will be back."""
        if self._completing() or self._has_menu():
            return
        error = self._commit(self.field.text())
        if error is None:
            self.close_now()
        elif reason is Qt.FocusReason.ActiveWindowFocusReason:
            self._show_wrong(error)
            self._fit()
        else:
            typed = self.field.text().strip()
            self.reject()
            self.given_up.emit(
                tr("'{typed}' was not kept: {error}", typed=typed, error=error.sentence)
            )

    def _has_menu(self) -> bool:
        """Whether a menu of the field itself is open: paste, select all."""
        popup = QApplication.activePopupWidget()
        return popup is not None and popup.parent() is self.field

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
        if event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            if self.accept():
                self.went_on.emit(1 if event.key() == Qt.Key.Key_Tab else -1)
            return True
        return False
