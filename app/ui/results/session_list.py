"""The sessions of a program, week by week, with how much of each has results."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget

from app.domain.wording import DateForm, date_text, tr
from app.ui.lines_table import add_line, lines_table
from app.ui.results.draft import Known
from app.ui.results.meant import MeantSession

NONE, SOME, ALL = "\N{WHITE CIRCLE}", "\N{CIRCLE WITH LEFT HALF BLACK}", "\N{BLACK CIRCLE}"


class SessionList(QWidget):
    """One line a session; chosen(int): another one is wanted."""

    chosen = Signal(int)

    def __init__(self, sessions: Sequence[MeantSession]) -> None:
        super().__init__()
        self.sessions = tuple(sessions)
        names = (tr("Week"), tr("Session"), tr("Day"), tr("Done"))
        self.tree: QTreeWidget = lines_table(tr("Sessions of the program"), names, wide=1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.tree)
        self.setFocusProxy(self.tree)
        self._items: list[QTreeWidgetItem] = []
        for number, one in enumerate(self.sessions):
            day = date_text(one.planned, DateForm.DAY)
            cells = (str(one.week.index + 1), one.session.title, day, "")
            self._items.append(add_line(self.tree, cells, number))
        self.tree.currentItemChanged.connect(self._changed)

    def _changed(self, item: QTreeWidgetItem | None) -> None:
        if item is not None:
            self.chosen.emit(item.data(0, Qt.ItemDataRole.UserRole))

    def show_known(self, known: Known) -> None:
        """Say how much of each session has results."""
        for number in range(len(self.sessions)):
            self.show_one(number, known)

    def show_one(self, number: int, known: Known) -> None:
        """Say how much of one session has results."""
        slots = self.sessions[number].session.slots
        done = known.count(slot.id for slot in slots)
        sign = ALL if done == len(slots) else SOME if done else NONE
        text = f"{sign} {done}/{len(slots)}"
        item = self._items[number]
        if item.text(3) != text:
            item.setText(3, text)
            spoken = tr("{done} of {all} exercises", done=done, all=len(slots))
            item.setData(3, Qt.ItemDataRole.AccessibleTextRole, spoken)

    def choose(self, number: int) -> None:
        """Put the cursor on a session, without a word."""
        self.tree.blockSignals(True)
        self.tree.setCurrentItem(self._items[number])
        self.tree.blockSignals(False)
        self.tree.scrollToItem(self._items[number])
