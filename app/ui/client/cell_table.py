"""A table to fill by keyboard: Enter goes down, Tab right, Delete clears, a paste fills on."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QAbstractScrollArea,
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)


class CellTable(QTableWidget):
    """Texts in rows and columns; typing replaces a cell, F2 changes it."""

    def __init__(self, name: str, heads: tuple[str, ...]) -> None:
        super().__init__(0, len(heads))
        self.setAccessibleName(name)
        self.setHorizontalHeaderLabels(list(heads))
        self.verticalHeader().hide()
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setTabKeyNavigation(True)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)

    def focusNextPrevChild(self, onward: bool) -> bool:
        """Tab goes from cell to cell, and out of the table behind the last one."""
        end = (self.rowCount() - 1, self.columnCount() - 1) if onward else (0, 0)
        if not self.rowCount() or (self.currentRow(), self.currentColumn()) == end:
            return QAbstractScrollArea.focusNextPrevChild(self, onward)
        return super().focusNextPrevChild(onward)

    def set_cells(self, row: int, texts: tuple[str, ...]) -> None:
        """Fill a row."""
        for column, text in enumerate(texts):
            self.set_text(row, column, text)

    def set_text(self, row: int, column: int, text: str) -> None:
        """Fill one cell."""
        item = self.item(row, column)
        if item is None:
            self.setItem(row, column, QTableWidgetItem(text))
        else:
            item.setText(text)

    def text(self, row: int, column: int) -> str:
        """What stands in a cell."""
        item = self.item(row, column)
        return "" if item is None else item.text()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.state() == QAbstractItemView.State.EditingState:
            super().keyPressEvent(event)  # the cell's own editor passes keys on
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste(QGuiApplication.clipboard().text())
        elif event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(self.copied())
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            for index in self.selectedIndexes():
                self.set_text(index.row(), index.column(), "")
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._go_down()
        else:
            super().keyPressEvent(event)

    def closeEditor(self, editor: QWidget, hint: QAbstractItemDelegate.EndEditHint) -> None:
        super().closeEditor(editor, hint)
        if hint == QAbstractItemDelegate.EndEditHint.SubmitModelCache:
            self._go_down()

    def _go_down(self) -> None:
        row = min(self.currentRow() + 1, self.rowCount() - 1)
        self.setCurrentCell(row, self.currentColumn())

    def copied(self) -> str:
        """The selected cells as a spreadsheet takes them."""
        places = sorted((i.row(), i.column()) for i in self.selectedIndexes())
        rows: dict[int, list[str]] = {}
        for row, column in places:
            rows.setdefault(row, []).append(self.text(row, column))
        return "\n".join("\t".join(cells) for cells in rows.values())

    def paste(self, text: str) -> None:
        """Fill on from the current cell with rows of tab-parted texts, as far as the table goes."""
        top, left = max(0, self.currentRow()), max(0, self.currentColumn())
        for down, line in enumerate(text.rstrip("\r\n").splitlines()):
            for right, cell in enumerate(line.split("\t")):
                if top + down < self.rowCount() and left + right < self.columnCount():
                    self.set_text(top + down, left + right, cell.strip())
