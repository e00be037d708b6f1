"""The table of suggestions: ticked ones are taken, and each can be typed over."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from app.domain.wording import mark, tr
from app.ui import theme
from app.ui.results.adjust_rows import Line
from app.ui.words import tip


class Column(IntEnum):
    """What stands where."""

    EXERCISE = 0
    LAST = 1
    PLANNED = 2
    SUGGESTED = 3
    WHY = 4


TITLES = (
    mark("Exercise"),
    mark("Last done"),
    mark("Planned"),
    mark("Suggested"),
    mark("Why"),
)


class AdjustTable(QTableWidget):
    """One row a slot. changed(): something was ticked, unticked or typed."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__(0, len(Column))
        self.lines: tuple[Line, ...] = ()
        self.setAccessibleName(tr("Suggestions for the week"))
        self.setHorizontalHeaderLabels([tr(title) for title in TITLES])
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(True)
        self.setStyleSheet("QTableView::item { padding: 4px; }")
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.verticalHeader().setMinimumSectionSize(30)
        head = self.horizontalHeader()
        head.setHighlightSections(False)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        for column in (Column.EXERCISE, Column.LAST, Column.PLANNED, Column.SUGGESTED):
            head.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(Column.WHY, QHeaderView.ResizeMode.Stretch)
        self.itemChanged.connect(self._edited)

    def show_lines(self, lines: Sequence[Line]) -> None:
        """Show other lines."""
        self.lines = tuple(lines)
        with QSignalBlocker(self):
            self.setRowCount(len(self.lines))
            for row in range(len(self.lines)):
                self._fill(row)
        if self.lines:
            self.setCurrentCell(0, Column.SUGGESTED)

    def refresh(self) -> None:
        """Show again what the lines hold."""
        with QSignalBlocker(self):
            for row in range(len(self.lines)):
                self._fill(row)

    def _fill(self, row: int) -> None:
        line = self.lines[row]
        texts = (
            line.advice.exercise.name,
            line.last_text,
            line.planned_text,
            line.text,
            line.why,
        )
        for column, text in enumerate(texts):
            item = self.item(row, column)
            if item is None:
                item = QTableWidgetItem()
                self.setItem(row, column, item)
            item.setText(text)
            item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            item.setToolTip(tip(text, line.session if column == Column.EXERCISE else ""))
        self._mark(row, line)

    def _mark(self, row: int, line: Line) -> None:
        """The tick, what can be typed, and what is wrong."""
        first, suggested = self.item(row, Column.EXERCISE), self.item(row, Column.SUGGESTED)
        why = self.item(row, Column.WHY)
        assert first is not None
        assert suggested is not None
        assert why is not None
        if line.taken or line.advice.changes or line.typed is not None:
            first.setFlags(first.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            first.setCheckState(Qt.CheckState.Checked if line.taken else Qt.CheckState.Unchecked)
        if line.can_change:
            suggested.setFlags(suggested.flags() | Qt.ItemFlag.ItemIsEditable)
        wrong = line.wrong is not None
        colours = theme.current()
        why.setForeground(colours.conflict if wrong else QColor(colours.ink2))
        font = theme.font("medium" if line.taken else "body")
        suggested.setFont(font)

    def _edited(self, item: QTableWidgetItem) -> None:
        line = self.lines[item.row()]
        if item.column() == Column.EXERCISE:
            line.taken = item.checkState() == Qt.CheckState.Checked and line.wrong is None
        elif item.column() == Column.SUGGESTED:
            line.type(item.text())
        else:
            return
        self.refresh()
        self.changed.emit()

    @property
    def line(self) -> Line | None:
        """The line that the cursor is in."""
        row = self.currentRow()
        return self.lines[row] if 0 <= row < len(self.lines) else None
