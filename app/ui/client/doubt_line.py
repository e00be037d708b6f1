"""A question under a form on what was entered, with the change it suspects one click away."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from app.domain.doubt import Doubt
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.ui.forms import Wrapped, button
from app.ui.words import number


class DoubtLine(QWidget):
    """Hidden until a doubt is put; then it asks, and keeping waits for an answer.

    change(value) is called with what the entry is suspected to mean, once the coach says so; unit:
    of the value.
    """

    def __init__(self, change: Callable[[float], object], *, unit: str = "kg") -> None:
        super().__init__()
        self.unit = unit
        self.doubt: Doubt | None = None
        self.question = Wrapped(role="wrong", step="small")
        self.change_button = button("", self._change)
        self.setAccessibleName(tr("Question on what was entered"))
        self.right = QCheckBox(tr("It is right as entered"))
        self.right.setMinimumHeight(24)
        self._run = change
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.change_button)
        row.addWidget(self.right)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.question)
        column.addLayout(row)
        self.hide()

    def put(self, doubt: Doubt | None) -> None:
        """Ask; None takes the question away. An answered question is not asked again."""
        if doubt == self.doubt:
            return
        self.doubt = doubt
        self.right.setChecked(False)
        self.setVisible(doubt is not None)
        if doubt is not None:
            self.question.setText(doubt.question)
            self.change_button.setVisible(doubt.meant is not None)
            if doubt.meant is not None:
                self.change_button.setText(
                    tr("Change to {mass} {unit}", mass=number(doubt.meant), unit=self.unit)
                )

    def require_answer(self) -> None:
        """Raise CoachError while a question waits for its answer."""
        if self.doubt is not None and not self.right.isChecked():
            raise CoachError(
                tr("A question waits for your answer."),
                mend=tr("Change the entry, or tick that it is right as entered."),
            )

    def _change(self) -> None:
        if self.doubt is not None and self.doubt.meant is not None:
            meant = round(self.doubt.meant, 1)
            self.put(None)
            self._run(meant)
