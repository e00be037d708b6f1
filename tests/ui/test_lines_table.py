"""A table of lines that stand for keys."""

from __future__ import annotations

from PySide6.QtCore import QStringListModel
from PySide6.QtWidgets import QApplication, QTableView
from pytestqt.qtbot import QtBot

from app.ui.lines_table import add_line, choose, chosen, dress_lines, lines_table


def test_a_line_stands_for_its_key_and_the_first_is_chosen_without_it(qapp: QApplication) -> None:
    table = lines_table("Programs", ("Program", "Weeks"))
    assert chosen(table) is None
    choose(table, "a")
    assert chosen(table) is None, "there is none yet"
    add_line(table, ("Ridge season", "6"), "a")
    add_line(table, ("Hill season", "4"), "b")
    choose(table, "b")
    assert chosen(table) == "b"
    choose(table, "nothing")
    assert chosen(table) == "a"


def test_it_has_a_name_and_heads_and_cells_are_whole_in_their_tips(qapp: QApplication) -> None:
    table = lines_table("Programs", ("Program", "Weeks"))
    assert table.accessibleName() == "Programs"
    assert [table.headerItem().text(k) for k in range(2)] == ["Program", "Weeks"]
    item = add_line(table, ("A long name of a season", "6"), 1)
    assert item.toolTip(0) == "<qt>A long name of a season</qt>"
    item = add_line(table, ("<b>Season</b>", "6"), 2)
    assert item.toolTip(0) == "<qt>&lt;b&gt;Season&lt;/b&gt;</qt>", "names are no markup"


def test_the_view_of_a_model_shows_whole_lines_and_no_grid(qtbot: QtBot) -> None:
    table = QTableView()
    qtbot.addWidget(table)
    table.setModel(QStringListModel(["Runa", "Tavi"], table))
    dress_lines(table, row_px=30, widths=(90,))
    assert table.selectionBehavior() is QTableView.SelectionBehavior.SelectRows
    assert not table.showGrid()
    assert table.verticalHeader().isHidden()
    assert (table.rowHeight(0), table.horizontalHeader().stretchLastSection()) == (30, True)
