"""A table of lines with a header, as the dialogs on clients, programs and steps show them."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableView,
    QTreeWidget,
    QTreeWidgetItem,
)

from app.ui.words import tip

KEY = Qt.ItemDataRole.UserRole


def lines_table(name: str, columns: tuple[str, ...], *, wide: int = 0) -> QTreeWidget:
    """An empty table; column `wide` takes the room that is left."""
    table = QTreeWidget()
    table.setColumnCount(len(columns))
    table.setHeaderLabels(columns)
    table.setAccessibleName(name)
    table.setUniformRowHeights(True)
    table.setRootIsDecorated(False)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setStyleSheet("QTreeView::item { min-height: 26px; }")
    table.setMinimumHeight(140)
    head = table.header()
    head.setStretchLastSection(False)
    for column in range(len(columns)):
        mode = QHeaderView.ResizeMode
        head.setSectionResizeMode(column, mode.Stretch if column == wide else mode.ResizeToContents)
    return table


def dress_lines(table: QTableView, *, row_px: int, widths: tuple[int, ...]) -> None:
    """Let the view of a model show whole lines; its last column takes the room that is left."""
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.setTabKeyNavigation(False)
    side = table.verticalHeader()
    side.hide()
    side.setDefaultSectionSize(row_px)
    side.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    head = table.horizontalHeader()
    head.setHighlightSections(False)
    head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    head.setStretchLastSection(True)
    for column, width in enumerate(widths):
        table.setColumnWidth(column, width)


def add_line(table: QTreeWidget, cells: tuple[str, ...], key: object) -> QTreeWidgetItem:
    """Add a line that stands for `key`; every cell is whole in its tip."""
    item = QTreeWidgetItem(list(cells))
    item.setData(0, KEY, key)
    for column, text in enumerate(cells):
        item.setToolTip(column, tip(text))
    table.addTopLevelItem(item)
    return item


def chosen(table: QTreeWidget) -> object | None:
    """The key of the line that is chosen; None if none is."""
    item = table.currentItem()
    key: object | None = None if item is None else item.data(0, KEY)
    return key


def choose(table: QTreeWidget, key: object) -> None:
    """Choose the line of that key; the first one if there is none of it."""
    items = [table.topLevelItem(row) for row in range(table.topLevelItemCount())]
    there = [item for item in items if item is not None]
    item = next((one for one in there if one.data(0, KEY) == key), there[0] if there else None)
    if item is not None:
        table.setCurrentItem(item)
