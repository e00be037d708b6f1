"""The roster as a table model: it works out of a row only what is asked, however long it is."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from app.domain.client import ClientId
from app.domain.wording import tr
from app.ui.roster.finder import Entry, Wanted, columns, find_words, suiting
from app.ui.words import full_date, tip

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class RosterModel(QAbstractTableModel):
    """Entries that are wanted, in the order of a column.

    alike: nothing held the words, what is shown are names like them.
    """

    def __init__(self, today: date, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.today = today
        self.columns = columns(full_date)
        self.alike = False
        self._known: tuple[Entry, ...] = ()
        self._ordered: list[Entry] = []
        self._pool: list[Entry] = []  # those in order that suit all but the words
        self._shown: tuple[Entry, ...] = ()
        self._wanted = Wanted()
        self._by = 0
        self._down = False

    # -- what is shown ---------------------------------------------------------------------

    @property
    def known(self) -> tuple[Entry, ...]:
        """All entries, whatever is looked for."""
        return self._known

    def show_entries(self, known: tuple[Entry, ...]) -> None:
        """Take other entries; what is looked for and the order stay."""
        self.beginResetModel()
        self._known = known
        self._order()
        self.endResetModel()

    def look_for(self, wanted: Wanted) -> None:
        """Show what is wanted."""
        self.beginResetModel()
        same = replace(wanted, words="") == replace(self._wanted, words="")
        self._wanted = wanted
        if not same:
            self._pool = suiting(self._ordered, wanted)
        self._find()
        self.endResetModel()

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Order by a column."""
        self.beginResetModel()
        self._by, self._down = column, order == Qt.SortOrder.DescendingOrder
        self._order()
        self.endResetModel()

    def _order(self) -> None:
        key = self.columns[max(0, self._by)].key
        self._ordered = sorted(self._known, key=key, reverse=self._down)
        self._pool = suiting(self._ordered, self._wanted)
        self._find()

    def _find(self) -> None:
        found = find_words(self._pool, self._wanted.words)
        self._shown, self.alike = found.entries, found.alike

    def entry(self, row: int) -> Entry:
        """The entry of a row."""
        return self._shown[row]

    def row_of(self, client_id: ClientId | None) -> int:
        """The row of that client; -1 where it is not shown."""
        return next((k for k, e in enumerate(self._shown) if e.line.id == client_id), -1)

    # -- Qt --------------------------------------------------------------------------------

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        entry, column = self._shown[index.row()], self.columns[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.text(entry, self.today)
        if role == Qt.ItemDataRole.ToolTipRole:
            if index.column() == 1:
                return tip(*(due.text(self.today) for due in entry.dues))
            return tip(column.text(entry, self.today))
        if role == Qt.ItemDataRole.UserRole:
            return entry
        return None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return tr(self.columns[section].head)
        return None
