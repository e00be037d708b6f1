"""The start page: who needs what today; one click opens the client at the right place."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.domain.client import ClientId
from app.domain.due import Due, Need
from app.domain.wording import mark, tr, trn
from app.ui.client.section import this_day
from app.ui.forms import Wrapped, button, plain
from app.ui.lines_table import dress_lines
from app.ui.roster.finder import Entry
from app.ui.roster.reading import RosterReading
from app.ui.words import full_date, tip
from db.store import Store

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()

ACTS = {
    Need.SCREENING: mark("Screening…"),
    Need.KEEP_UNTIL: mark("Keep or erase…"),
    Need.PROGRAM: mark("New program…"),
    Need.ISSUE: mark("Make booklet…"),
    Need.CHECK_IN: mark("Check-in…"),
    Need.TEST: mark("Strength tests…"),
    Need.CONSENT: mark("Record…"),
}
"""What a click on a line opens."""

HEADS = (mark("Client"), mark("Needs"), mark("Opens"), mark("Team"))


@dataclass(frozen=True, slots=True)
class Line:
    """One thing one client needs."""

    entry: Entry
    due: Due


def lines(known: tuple[Entry, ...], today: date) -> tuple[Line, ...]:
    """Everything that anybody needs, the longest overdue first, then what never took place."""
    found = [Line(entry, due) for entry in known for due in entry.dues]
    return tuple(sorted(found, key=lambda x: (-x.due.late(today), x.entry.name)))


class HomeModel(QAbstractTableModel):
    """The lines as a table."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: tuple[Line, ...] = ()
        self.today = this_day()

    def show_lines(self, found: tuple[Line, ...], today: date) -> None:
        """Show these."""
        self.beginResetModel()
        self.lines, self.today = found, today
        self.endResetModel()

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.lines)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(HEADS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        line = self.lines[index.row()]
        texts = (
            line.entry.line.name,
            line.due.text(self.today),
            tr(ACTS[line.due.need]),
            line.entry.line.team,
        )
        if role == Qt.ItemDataRole.DisplayRole:
            return texts[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(texts[index.column()])
        return None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return tr(HEADS[section])
        return None


class HomeTable(QTableView):
    """The table; Enter on a line does what a click does."""

    chosen = Signal(int)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
            self.chosen.emit(self.currentIndex().row())
        else:
            super().keyPressEvent(event)


class HomePage(QWidget):
    """Who needs what today.

    need_chosen(ClientId, Need): a line was clicked. clients_wanted(), client_wanted(): all
    clients, or a new one, are asked for. back_wanted(): the plan that is open is asked for.
    """

    need_chosen = Signal(object, object)
    clients_wanted = Signal()
    client_wanted = Signal()
    back_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = plain("", step="title")
        self.about = Wrapped(role="small")
        self.model = HomeModel()
        self.today = this_day()
        self.reading = RosterReading(self)
        self.reading.begun.connect(lambda some, count: self._tell_progress(len(some), count))
        self.reading.told.connect(self._tell_progress)
        self.reading.done.connect(self._show_known)
        self.reading.failed.connect(lambda error: self._say(error.sentence))
        self.table = self._made_table()
        self.empty = Wrapped()
        self.clients_button = button(tr("All clients…"), self.clients_wanted.emit)
        self.new_button = button(tr("New client…"), self.client_wanted.emit)
        self.back_button = button(tr("Back to the plan"), self.back_wanted.emit, primary=True)
        acts = QHBoxLayout()
        acts.setSpacing(8)
        acts.addWidget(self.clients_button)
        acts.addWidget(self.new_button)
        acts.addStretch(1)
        acts.addWidget(self.back_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(40, 28, 40, 20)
        column.setSpacing(12)
        column.addWidget(self.title)
        column.addWidget(self.about)
        column.addWidget(self.empty)
        column.addWidget(self.table, 1)
        column.addLayout(acts)

    def _made_table(self) -> HomeTable:
        table = HomeTable()
        table.setModel(self.model)
        table.setAccessibleName(tr("Who needs what today"))
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        dress_lines(table, row_px=30, widths=(220, 280, 150))
        table.setMouseTracking(True)
        table.viewport().setCursor(Qt.CursorShape.PointingHandCursor)
        table.clicked.connect(lambda index: self._go(index.row()))
        table.chosen.connect(self._go)
        return table

    def read(self, store: Store, *, open_name: str, today: date | None = None) -> None:
        """Read what everybody needs; open_name: whose plan there is to go back to, if any."""
        self.back_button.setVisible(bool(open_name))
        self.back_button.setText(tr("Back to {client}", client=open_name))
        self.today = today or this_day()
        self.title.setText(tr("Today, {day}", day=full_date(self.today)))
        self.reading.begin(store, self.today)

    def _tell_progress(self, read: int, count: int) -> None:
        self._say(tr("Reading the list: {read} of {count}", read=read, count=count))

    def _say(self, sentence: str) -> None:
        """Say it above the table, which stays as it is."""
        self.about.setText(sentence)
        self.about.show()
        self.empty.hide()

    def _show_known(self, known: tuple[Entry, ...]) -> None:
        found = lines(known, self.today)
        self.model.show_lines(found, self.today)
        people = len({line.entry.line.id for line in found})
        self.about.setText(
            trn("{n} client needs something.", "{n} clients need something.", people)
            + " "
            + tr("Reminders after common practice; a click opens the right place.")
        )
        self.about.setVisible(bool(found))
        self.table.setVisible(bool(found))
        self.empty.setVisible(not found)
        self.empty.setText(
            tr("Nobody needs anything today. All clients stand in the list.")
            if known
            else tr("No client yet. A name is enough to begin.")
        )
        if found:
            self.table.setCurrentIndex(self.model.index(0, 0))

    def _go(self, row: int) -> None:
        line = self.model.lines[row]
        self.need_chosen.emit(line.entry.line.id, line.due.need)


def serve(window: Any, client_id: ClientId, need: Need) -> None:
    """Open the client, and what answers the need, in `window`."""
    from app.ui.client import open_form

    window.choose_client(client_id)
    desk = window.bench.desk
    if desk.work is None or desk.client.id != client_id:
        return  # it could not be opened, and the window has said why
    forms = {
        Need.SCREENING: open_form.screening,
        Need.CHECK_IN: open_form.check_in,
        Need.TEST: open_form.strength_tests,
        Need.CONSENT: open_form.record,
    }
    if need in forms:
        forms[need](window.bench, window)
    elif need is Need.KEEP_UNTIL:
        from app.ui.keeping_sheet import propose

        propose(window)
    elif need is Need.ISSUE and desk.has_program:
        window.make_booklet()
    else:
        window.new_program()
