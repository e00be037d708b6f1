"""Questions on what was typed, each with the change it suspects one click away."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.domain.wording import tr
from app.ui.forms import Wrapped, button

MOST = 3
"""Questions shown at a time; the others follow as these are answered."""


@dataclass(frozen=True, slots=True)
class Question:
    """A question; change: what the coach says to it and what is then done; None: nothing to do.

    right: what is done when it is right as it stands.
    """

    text: str
    right: Callable[[], object]
    verb: str = ""
    change: Callable[[], object] | None = None


class Doubts(QWidget):
    """The questions under the table; none takes no room."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Questions on what was entered"))
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(4)
        self.questions: tuple[Question, ...] = ()
        self.hide()

    def put(self, questions: Sequence[Question]) -> None:
        """Ask these in the place of those before."""
        self.questions = tuple(questions[:MOST])
        while (item := self.column.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for question in self.questions:
            self.column.addWidget(self._line(question))
        self.setVisible(bool(self.questions))

    def _line(self, question: Question) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(Wrapped(question.text, role="wrong", step="small"), 1)
        if question.change is not None:
            row.addWidget(button(question.verb, question.change))
        row.addWidget(button(tr("It is right"), question.right))
        return line
