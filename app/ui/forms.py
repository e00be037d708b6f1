"""Small parts that dialogs are made of: labels, number fields, errors under fields, buttons.

Number fields are plain text fields with parsing: the wheel never changes them, decimal comma and
point are both read, and what was typed stays until it is right.
"""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import (
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QShowEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.program import require_text
from app.domain.wording import tr
from app.ui import theme
from app.ui.titles import frame_title
from app.ui.words import number, tip, typed_number

ROW = 32
"""The height of a field of one line, px."""


def plain(text: str = "", *, step: theme.Step = "body", role: str = "") -> QLabel:
    """A label that never takes its text for markup."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setFont(theme.font(step))
    if role:
        label.setProperty("role", role)
    return label


class Wrapped(QLabel):
    """A label of several lines that is never cut: it asks for the height its width needs."""

    def __init__(self, text: str = "", *, step: theme.Step = "body", role: str = "") -> None:
        super().__init__(text)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setFont(theme.font(step))
        self.setWordWrap(True)
        if role:
            self.setProperty("role", role)

    def setText(self, text: str) -> None:
        super().setText(text)
        self._take_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._take_height()

    def _take_height(self) -> None:
        self.setMinimumHeight(0)  # else the label would never ask for less than before
        self.setMinimumHeight(max(0, self.heightForWidth(self.width())))


class Title(Wrapped):
    """The title of a dialog: on one line while that is no wider than most dialogs, else on more."""

    WIDEST = 600

    def __init__(self, text: str) -> None:
        super().__init__(text, step="title")

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint()

    def minimumSizeHint(self) -> QSize:
        wide = min(self.WIDEST, self.fontMetrics().horizontalAdvance(self.text()) + 1)
        return QSize(wide, self.heightForWidth(wide))


class Elided(QLabel):
    """A label of one line that is cut with an ellipsis where room is short; whole in its tip."""

    def __init__(self, text: str = "", *, step: theme.Step = "body", role: str = "") -> None:
        super().__init__(text)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setFont(theme.font(step))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        if role:
            self.setProperty("role", role)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        shown = self.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, self.width()
        )
        self.setToolTip(tip(self.text()) if shown != self.text() else "")
        self.style().drawItemText(
            painter,
            self.rect(),
            int(self.alignment() | Qt.AlignmentFlag.AlignVCenter),
            self.palette(),
            self.isEnabled(),
            shown,
            self.foregroundRole(),
        )


def button(text: str, run: Callable[[], object], *, primary: bool = False) -> QPushButton:
    """A push button at least 32 px high that runs `run` when clicked."""
    made = QPushButton(text)
    made.setMinimumHeight(32)
    made.setAutoDefault(primary)
    made.setDefault(primary)
    if primary:
        made.setProperty("primary", True)
    made.clicked.connect(lambda _checked: run())
    return made


class NumberField(QWidget):
    """A field for a number with its unit, and a place for an error under it.

    low and high are the accepted range; `optional` lets it stay empty.
    """

    def __init__(
        self,
        name: str,
        *,
        low: float,
        high: float,
        unit: str = "",
        whole: bool = False,
        optional: bool = False,
    ) -> None:
        super().__init__()
        self.name, self.low, self.high = name, low, high
        self.whole, self.optional = whole, optional
        self._shown: tuple[str, float | None] = ("", None)
        self.edit = QLineEdit()
        self.edit.setAccessibleName(f"{name}, {unit}" if unit else name)
        self.edit.setMinimumHeight(32)
        self.edit.setMaximumWidth(120)
        self.wrong = Wrapped(role="wrong", step="small")
        self.wrong.hide()
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self.edit)
        row.addWidget(plain(unit, role="small"))
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addLayout(row)
        column.addWidget(self.wrong)
        self.setFocusProxy(self.edit)
        self.edit.textEdited.connect(lambda _: self.show_error(""))

    def set_value(self, value: float | None) -> None:
        """Show a value to two places; None empties the field.

        A value that nobody types over comes back from `value` as it was, every place of it.
        """
        text = "" if value is None else typed_number(value)
        self._shown = (text, value)
        self.edit.setText(text)
        self.show_error("")

    def show_error(self, sentence: str) -> None:
        """Show a sentence under the field; an empty one takes it away."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        self.edit.setProperty("wrong", bool(sentence))
        self.edit.style().unpolish(self.edit)
        self.edit.style().polish(self.edit)

    def value(self) -> float | None:
        """The number typed; None for an empty optional field.

        Raises CoachError, and shows it under the field, for anything else.
        """
        try:
            return self._parsed()
        except CoachError as error:
            self.show_error(error.sentence)
            raise

    @property
    def is_wrong(self) -> bool:
        """True while an error stands under the field."""
        return bool(self.wrong.text())

    def whole_value(self) -> int:
        """The number typed as a whole number. Raises CoachError as `value` does."""
        value = self.value()
        if value is None:
            raise self._error(tr("is missing"))
        return int(value)

    def _parsed(self) -> float | None:
        shown, kept = self._shown
        if kept is not None and self.edit.text() == shown:
            return kept
        text = self.edit.text().strip().replace(",", ".").replace("\N{MINUS SIGN}", "-")
        if not text:
            if self.optional:
                return None
            raise self._error(tr("is missing"))
        try:
            value = float(text)
            if not isfinite(value):
                raise ValueError
        except ValueError:
            raise self._error(
                tr("'{text}' is not a number", text=self.edit.text().strip())
            ) from None
        if self.whole and value != int(value):
            raise self._error(tr("{value} is not a whole number", value=number(value, places=2)))
        if not self.low <= value <= self.high:
            raise self._error(tr("{value} is out of range", value=number(value, places=2)))
        return value

    def _error(self, what: str) -> CoachError:
        return CoachError(
            f"{self.name}: {what}.",
            mend=tr(
                "Enter {low} to {high}.",
                low=number(self.low, places=2),
                high=number(self.high, places=2),
            ),
        )


class Sheet(QDialog):
    """A dialog with a title, a form, an error line and verbs at the foot.

    `keep` runs on the primary verb; a CoachError it raises is shown and the dialog stays open.
    """

    def __init__(self, parent: QWidget | None, title: str, *, verb: str, about: str = "") -> None:
        super().__init__(parent)
        self.setWindowTitle(frame_title(self, title))
        self.setModal(True)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(20, 16, 20, 16)
        self.column.setSpacing(10)
        self.column.addWidget(Title(title))
        if about:
            self.column.addWidget(Wrapped(about, role="small"))
        self.form = QFormLayout()
        self.form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        self.form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        self.form.setHorizontalSpacing(16)
        self.form.setVerticalSpacing(10)
        self.column.addLayout(self.form)
        self.body = QVBoxLayout()
        self.column.addLayout(self.body, 1)
        self.wrong = Wrapped(role="wrong")
        self.wrong.hide()
        self.column.addWidget(self.wrong)
        self.foot = QHBoxLayout()
        self.help_button = QToolButton()
        self.help_button.setText("?")
        self.help_button.setMinimumSize(ROW, ROW)
        self.help_button.setToolTip(tr("The guide's page on this form (F1)"))
        self.help_button.setAccessibleName(tr("The guide's page on this form"))
        self.help_button.clicked.connect(lambda _checked: self.show_help())
        self.foot.addWidget(self.help_button)
        self.foot.addStretch(1)
        self.cancel_button = button(tr("Cancel"), self.reject)
        self.keep_button = button(verb, self.try_keep, primary=True)
        self.foot.addWidget(self.cancel_button)
        self.foot.addWidget(self.keep_button)
        self.column.addLayout(self.foot)

    def row(self, name: str, field: QWidget) -> None:
        """Add a field with its label; the label is its buddy."""
        label = plain(name)
        label.setBuddy(field)
        # the label stands in the middle of the field's first line, however tall the field is
        label.setMinimumHeight(min(ROW, field.sizeHint().height()))
        if not field.accessibleName():
            field.setAccessibleName(name)
        self.form.addRow(label, field)

    def showEvent(self, event: QShowEvent) -> None:
        from app.ui.field_help import explain, inputs  # its texts wait for the first form

        explain(self)
        # a width of its own would let the window be narrower than longer words in it need
        needs, screen = self.column.minimumSize().width(), self.screen().availableSize().width()
        self.setMinimumWidth(max(self.minimumWidth(), min(needs, screen)))
        self.help_button.setVisible(self.isWindow())  # a form inside another has that one's
        if self.focusWidget() in (None, self.help_button, self.cancel_button, self.keep_button):
            first = next((f for f, _ in inputs(self) if f.isEnabled() and not f.isHidden()), None)
            lists = (one for one in self.findChildren(QAbstractItemView) if one.isVisibleTo(self))
            first = first or next(lists, None)
            if first is not None:
                first.setFocus(Qt.FocusReason.TabFocusReason)
        super().showEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.HelpContents):
            self.show_help()
        else:
            super().keyPressEvent(event)

    def show_help(self) -> None:
        """Open the guide at this form's page; the window that the form belongs to knows how."""
        at = self.parentWidget()
        while at is not None and not hasattr(at, "show_help_on"):
            at = at.parentWidget()
        if at is not None:
            at.show_help_on(self)

    def show_error(self, sentence: str) -> None:
        """Show a sentence above the verbs; an empty one takes it away."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    def try_keep(self) -> None:
        """Keep, and close; on a CoachError show it and stay."""
        self.show_error("")
        try:
            self.keep()
        except CoachError as error:
            self.show_error(error.sentence)
            wrong = next((f for f in self.findChildren(NumberField) if f.is_wrong), None)
            if wrong is not None:
                wrong.edit.setFocus()
            return
        self.accept()

    def exec(self) -> int:
        """Show the dialog until it is closed; then let go of it, with all that listens in it."""
        result = super().exec()
        self.deleteLater()
        return result

    def keep(self) -> None:
        """What the primary verb does; overridden."""


def text_field(text: str = "", *, hint: str = "") -> QLineEdit:
    """A one-line text field; `entered` reads it."""
    field = QLineEdit(text)
    field.setProperty("kept", (field.text(), text))
    field.setMinimumHeight(32)
    field.setPlaceholderText(hint)
    return field


def entered(field: QLineEdit) -> str:
    """What stands in a `text_field`, trimmed; untouched, it is the text it was made with."""
    kept: tuple[str, str] | list[str] = field.property("kept")
    shown, text = kept
    return text if field.text() == shown else field.text().strip()


class TextSheet(Sheet):
    """Asks for one line of text; it stays open, with the sentence, while nothing is entered."""

    def __init__(
        self,
        parent: QWidget | None,
        title: str,
        label: str,
        *,
        text: str,
        verb: str,
        about: str = "",
    ) -> None:
        super().__init__(parent, title, verb=verb, about=about)
        self.label = label
        self.field = text_field(text)
        self.field.selectAll()
        self.row(label, self.field)
        self.setMinimumWidth(420)
        self.field.setFocus()

    def keep(self) -> None:
        """Refuse an empty line."""
        require_text(self.field.text(), self.label)


def ask_text(
    parent: QWidget, title: str, label: str, *, text: str = "", verb: str, about: str = ""
) -> str | None:
    """The text that the coach enters, never empty; None if it was cancelled."""
    sheet = TextSheet(parent, title, label, text=text, verb=verb, about=about)
    return sheet.field.text() if sheet.exec() == QDialog.DialogCode.Accepted else None


def tell(parent: QWidget, title: str, sentence: str) -> None:
    """A box with one sentence and one button."""
    from PySide6.QtWidgets import QMessageBox

    box = QMessageBox(parent)
    box.setWindowTitle(title)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(sentence)
    box.setStandardButtons(QMessageBox.StandardButton.Close)
    box.exec()
