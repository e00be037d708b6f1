"""A list of things to tick, as long as it may be: looked through by words, ticked as it is shown.

Rows are worked out when they are shown, and a tick is a number in a set, so ten thousand clients
cost no more than the few on screen. What is ticked stays so while it is not shown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHBoxLayout, QTreeView, QVBoxLayout, QWidget

from app.domain.folding import fold
from app.domain.wording import tr
from app.ui.forms import button, plain, text_field
from app.ui.words import tip

T = TypeVar("T")
Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()
Role = Qt.ItemDataRole


class TickModel(QAbstractTableModel, Generic[T]):
    """Things with a tick; in the last column stands how each went.

    A thing is known by its row among all, which does not change with what is shown.
    ticks_changed(): other things are ticked than before.
    """

    ticks_changed = Signal()

    def __init__(
        self,
        heads: tuple[str, ...],
        cells: Callable[[T], tuple[str, ...]],
        words: Callable[[T], str],
    ) -> None:
        """cells: a thing in all columns but the last; words: what a search looks through."""
        super().__init__()
        self.heads = heads
        self._cells, self._words = cells, words
        self.things: Sequence[T] = ()
        self.shown: Sequence[int] = ()
        self._ticked: set[int] = set()
        self._told: dict[int, str] = {}
        self._folded: list[str] = []  # made for the first search

    def show_things(self, things: Sequence[T], *, ticked: bool = False) -> None:
        """Hold other things, all shown, all ticked or none."""
        self.beginResetModel()
        self.things, self.shown = things, range(len(things))
        self._ticked = set(self.shown) if ticked else set()
        self._told, self._folded = {}, []
        self.endResetModel()
        self.ticks_changed.emit()

    def look_for(self, words: str, suits: Callable[[T], bool] | None = None) -> None:
        """Show those that hold every word and suit."""
        wanted = fold(words).split()
        if wanted and not self._folded:
            self._folded = [fold(self._words(thing)) for thing in self.things]
        self.beginResetModel()
        rows: Sequence[int] = range(len(self.things))
        if suits is not None:
            rows = [row for row in rows if suits(self.things[row])]
        for word in wanted:
            rows = [row for row in rows if word in self._folded[row]]
        self.shown = rows
        self.endResetModel()

    @property
    def ticked(self) -> list[int]:
        """The rows that are ticked, shown or not."""
        return sorted(self._ticked)

    @property
    def ticked_and_shown(self) -> int:
        """How many of those that are shown are ticked."""
        return len(self._ticked.intersection(self.shown))

    def tick(self, rows: Iterable[int], *, on: bool = True) -> None:
        """Tick those rows, or take their ticks away."""
        if on:
            self._ticked.update(rows)
        else:
            self._ticked.difference_update(rows)
        self._changed(0, Role.CheckStateRole)
        self.ticks_changed.emit()

    def told(self, row: int) -> str:
        """How a row went; empty if nothing was said of it."""
        return self._told.get(row, "")

    def tell(self, rows: Iterable[int], text: str) -> None:
        """Say how rows went."""
        self._told |= dict.fromkeys(rows, text)
        self._changed(len(self.heads) - 1, Role.DisplayRole)

    def _changed(self, column: int, role: Role) -> None:
        last = len(self.shown) - 1
        if last >= 0:
            self.dataChanged.emit(self.index(0, column), self.index(last, column), [role])

    # -- Qt --------------------------------------------------------------------------------

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.shown)

    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.heads)

    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsUserCheckable if index.column() == 0 else flags

    def data(self, index: Index, role: int = Role.DisplayRole) -> Any:
        if not index.isValid():
            return None
        row = self.shown[index.row()]
        if role == Role.CheckStateRole and index.column() == 0:
            return Qt.CheckState.Checked if row in self._ticked else Qt.CheckState.Unchecked
        if role in (Role.DisplayRole, Role.ToolTipRole):
            text = (*self._cells(self.things[row]), self.told(row))[index.column()]
            return tip(text) if role == Role.ToolTipRole else text
        return None

    def setData(self, index: Index, value: Any, role: int = Role.EditRole) -> bool:
        if role != Role.CheckStateRole or not index.isValid():
            return False
        on = Qt.CheckState(value) is Qt.CheckState.Checked
        self.tick((self.shown[index.row()],), on=on)
        return True

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> Any:
        if role == Role.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return self.heads[section]
        return None


class TickList(QWidget, Generic[T]):
    """The list with its head, a search, and one button that ticks all that is shown.

    narrow: the row of the search, for choices beside it; suits: what those choices ask for.
    """

    def __init__(self, name: str, model: TickModel[T], *, letters: tuple[int, ...]) -> None:
        """letters: how wide each column but the last is."""
        super().__init__()
        self.model = model
        model.setParent(self)
        self.suits: Callable[[T], bool] | None = None
        self.head = plain("", step="head")
        self.count = plain("", role="small")
        self.all_button = button("", self.tick_all)
        self.search = text_field(hint=tr("Words to look for"))
        self.search.setAccessibleName(tr("Look for words in the list"))
        self.tree = self._made_tree(name, letters)
        head = QHBoxLayout()
        head.addWidget(self.head)
        head.addStretch(1)
        head.addWidget(self.count)
        head.addWidget(self.all_button)
        self.narrow = QHBoxLayout()
        self.narrow.addWidget(self.search, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(head)
        column.addLayout(self.narrow)
        column.addWidget(self.tree, 1)
        self.search.textChanged.connect(lambda _text: self.look())
        model.ticks_changed.connect(self._say)
        model.modelReset.connect(self._say)
        self._say()

    def _made_tree(self, name: str, letters: tuple[int, ...]) -> QTreeView:
        tree = QTreeView()
        tree.setModel(self.model)
        tree.setAccessibleName(name)
        tree.setUniformRowHeights(True)
        tree.setRootIsDecorated(False)
        tree.setAllColumnsShowFocus(True)
        tree.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        tree.setStyleSheet("QTreeView::item { min-height: 26px; }")
        tree.setMinimumHeight(140)
        for column, count in enumerate(letters):
            tree.setColumnWidth(column, count * tree.fontMetrics().averageCharWidth())
        return tree

    def show_things(self, things: Sequence[T], *, ticked: bool = False) -> None:
        """Hold other things; what is looked for stays."""
        self.model.show_things(things, ticked=ticked)
        self.look()

    def look(self) -> None:
        """Show what is looked for."""
        self.model.look_for(self.search.text(), self.suits)

    def tick_all(self) -> None:
        """Tick all that is shown; take the ticks away if all of it is ticked."""
        self.model.tick(self.model.shown, on=not self._all_ticked())

    def tell(self, row: int, text: str) -> None:
        """Say how a row went, and bring it into sight."""
        self.model.tell((row,), text)
        if row in self.model.shown:
            self.tree.scrollTo(self.model.index(self.model.shown.index(row), 0))

    def _all_ticked(self) -> bool:
        return self.model.ticked_and_shown == len(self.model.shown) > 0

    def _say(self) -> None:
        count, everything, shown = len(self.model.ticked), len(self.model.things), self.model.shown
        hidden = count - self.model.ticked_and_shown
        self.all_button.setText(
            tr("Untick all shown") if self._all_ticked() else tr("Tick all shown")
        )
        self.all_button.setEnabled(bool(shown))
        if everything and not shown:
            self.count.setText(tr("Nothing fits what is looked for"))
        elif hidden:
            self.count.setText(
                tr(
                    "{n} of {all} ticked, {hidden} not shown",
                    n=count,
                    all=everything,
                    hidden=hidden,
                )
            )
        else:
            self.count.setText(tr("{n} of {all} ticked", n=count, all=everything))
