"""A number that tells how it came about: a press or F3 shows its account, a hover its gist."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPushButton

from app.domain.wording import tr
from app.domain.working import Working
from app.ui.bench import Bench
from app.ui.forms import plain
from app.ui.theme import Step
from app.ui.words import tip

if TYPE_CHECKING:
    from app.ui.working_popup import WorkingPopup


class NumberButton(QPushButton):
    """Shows a text; its account is read from `working`. about: what the number is."""

    def __init__(
        self, bench: Bench, text: str, working: Working, *, about: str, step: Step = "number"
    ) -> None:
        super().__init__(text)
        self.bench, self.about = bench, about
        self.popup: WorkingPopup | None = None
        self.setProperty("flat", True)
        self.setFont(plain("", step=step).font())
        self.setMinimumHeight(24)
        self.setAutoDefault(False)
        self.show_number(text, working)
        self.clicked.connect(lambda _checked: self.show_account())

    def show_number(self, text: str, working: Working) -> None:
        """Show another number."""
        self.working = working
        self.setText(text)
        self.setAccessibleName(
            tr("{about}: {number}, show how it came about", about=self.about, number=text)
        )
        gist = [f"{line.label}: {line.value}" for line in working.lines]
        self.setToolTip(tip(working.about, *gist[:6]))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_F3:
            self.show_account()
        else:
            super().keyPressEvent(event)

    def show_account(self) -> None:
        """Show how the number came about, below it."""
        from app.ui.working_popup import show_working

        place = self.mapToGlobal(self.rect().bottomLeft())
        self.popup = show_working(self.bench, self.working, place, self)
