from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QTableWidgetSelectionRange, QWidget

from app.ui.client.cell_table import CellTable

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def table(qtbot, dressed):
    made = CellTable("Check-ins", ("Day", "Mass", "Note"))
    made.setRowCount(3)
    qtbot.addWidget(made)
    made.show()
    made.setCurrentCell(0, 1)
    return made


def test_typing_and_enter_go_down_a_column(qtbot, table):
    for row, text in enumerate(("66", "67")):
        qtbot.keyClicks(table, text[0])
        editor = table.findChild(QLineEdit)
        qtbot.keyClicks(editor, text[1:])
        qtbot.keyClick(editor, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda row=row: table.currentRow() == row + 1)
        qtbot.waitUntil(lambda: not table.findChildren(QLineEdit))
    assert [table.text(row, 1) for row in range(3)] == ["66", "67", ""]
    assert (table.currentRow(), table.currentColumn()) == (2, 1)


def test_enter_without_typing_goes_down_and_stops_at_the_end(qtbot, table):
    for _ in range(5):
        qtbot.keyClick(table, Qt.Key.Key_Return)
    assert table.currentRow() == 2


def test_a_paste_from_a_spreadsheet_fills_on_as_far_as_the_table_goes(qtbot, table):
    QGuiApplication.clipboard().setText("66.1\tone\n66.2\ttwo\n66.3\tthree\n66.4\tfour\n")
    qtbot.keyClick(table, Qt.Key.Key_V, CTRL)
    assert [table.text(row, 1) for row in range(3)] == ["66.1", "66.2", "66.3"]
    assert table.text(2, 2) == "three"


def test_delete_clears_and_copy_takes_what_is_selected(qtbot, table):
    table.set_cells(0, ("a", "b", "c"))
    table.set_cells(1, ("d", "e", "f"))
    table.setRangeSelected(QTableWidgetSelectionRange(0, 1, 1, 2), True)
    qtbot.keyClick(table, Qt.Key.Key_C, CTRL)
    assert QGuiApplication.clipboard().text() == "b\tc\ne\tf"
    qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert (table.text(0, 0), table.text(0, 1), table.text(1, 2)) == ("a", "", "")


def test_tab_goes_over_the_cells_and_out_behind_the_last(qtbot, table):
    host = QWidget()
    qtbot.addWidget(host)
    row = QHBoxLayout(host)
    before, after = QLineEdit(), QLineEdit()
    for widget in (before, table, after):
        row.addWidget(widget)
    host.show()
    qtbot.waitExposed(host)
    table.setFocus()
    table.setCurrentCell(0, 0)
    for _ in range(table.rowCount() * table.columnCount() - 1):
        qtbot.keyClick(table, Qt.Key.Key_Tab)
        assert host.focusWidget() is table
    qtbot.keyClick(table, Qt.Key.Key_Tab)
    assert host.focusWidget() is after
    table.setFocus()
    table.setCurrentCell(0, 0)
    qtbot.keyClick(table, Qt.Key.Key_Backtab)
    assert host.focusWidget() is before
    row.removeWidget(table)
    table.setParent(None)  # it is closed by itself
