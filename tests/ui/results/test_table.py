"""The keys of a spreadsheet."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QItemSelection, QItemSelectionModel, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from app.domain.results import Diary
from app.ui.bench import Bench
from app.ui.results.table import ResultsTable
from app.ui.results.table_model import Column, ResultsModel
from tests.ui.results.test_draft import drafted

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def table(qtbot: QtBot, dressed, bench: Bench) -> ResultsTable:
    model = ResultsModel()
    model.show(drafted(bench, Diary()))
    made = ResultsTable(model)
    qtbot.addWidget(made)
    made.resize(900, 500)
    made.show()
    qtbot.waitExposed(made)
    made.setFocus()
    made.go_to(0)
    return made


def cell(table: ResultsTable, row: int, column: int = Column.LOAD) -> str:
    return str(table.rows.index(row, column).data())


def at(table: ResultsTable) -> tuple[int, int]:
    return table.currentIndex().row(), table.currentIndex().column()


def open_editor(table: ResultsTable) -> QLineEdit:
    """The line that is typed into; those that were left go only once the loop runs."""
    return [edit for edit in table.findChildren(QLineEdit) if edit.isVisible()][-1]


def typed(table: ResultsTable, text: str, then: Qt.Key = Qt.Key.Key_Return) -> None:
    """Type as a coach does: the first key opens the cell, the others go into it."""
    QTest.keyClicks(table, text[:1])
    editor = open_editor(table)
    QTest.keyClicks(editor, text[1:])
    QTest.keyClick(editor, then)


def choose(table: ResultsTable, top: int, left: int, bottom: int, right: int) -> None:
    model = table.rows
    chosen = QItemSelection(model.index(top, left), model.index(bottom, right))
    table.setCurrentIndex(model.index(top, left))
    table.selectionModel().select(chosen, QItemSelectionModel.SelectionFlag.ClearAndSelect)


def test_typing_replaces_and_enter_goes_down(table: ResultsTable) -> None:
    typed(table, "60")
    typed(table, "62.5")
    assert [cell(table, 0), cell(table, 1)] == ["60", "62.5"]
    assert at(table) == (2, Column.LOAD)
    table.go_to(0)
    typed(table, "55")
    assert cell(table, 0) == "55"


def test_tab_goes_on_to_the_next_line_and_back(table: ResultsTable) -> None:
    for text in ("60", "10", "2", "60"):
        typed(table, text, Qt.Key.Key_Tab)
    assert [cell(table, 0, c) for c in (Column.LOAD, Column.REPS, Column.RIR)] == ["60", "10", "2"]
    assert at(table) == (1, Column.REPS)
    QTest.keyClick(table, Qt.Key.Key_Backtab)
    assert at(table) == (1, Column.LOAD)


def test_arrows_leave_a_cell_that_was_typed_into(table: ResultsTable) -> None:
    typed(table, "60", Qt.Key.Key_Down)
    assert at(table) == (1, Column.LOAD)
    typed(table, "70", Qt.Key.Key_Up)
    assert (cell(table, 1), at(table)) == ("70", (0, Column.LOAD))


def test_f2_edits_what_stands_there(table: ResultsTable) -> None:
    typed(table, "60")
    table.go_to(0)
    QTest.keyClick(table, Qt.Key.Key_F2)
    editor = open_editor(table)
    assert editor.text() == "60"
    QTest.keyClick(editor, Qt.Key.Key_End)
    QTest.keyClicks(editor, ".5")
    QTest.keyClick(editor, Qt.Key.Key_Return)
    assert cell(table, 0) == "60.5"


def test_delete_clears_every_chosen_cell(table: ResultsTable) -> None:
    table.rows.put_many({(r, c): "5" for r in range(3) for c in (Column.LOAD, Column.REPS)})
    choose(table, 0, Column.LOAD, 1, Column.REPS)
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert [cell(table, r) for r in range(3)] == ["", "", "5"]


def test_cells_are_pasted_from_a_spreadsheet(table: ResultsTable) -> None:
    QGuiApplication.clipboard().setText("60\t10\t2\n62,5\t9\t1\n")
    table.go_to(1)
    QTest.keyClick(table, Qt.Key.Key_V, CONTROL)
    assert [cell(table, 1, c) for c in (Column.LOAD, Column.REPS, Column.RIR)] == ["60", "10", "2"]
    assert [cell(table, 2, c) for c in (Column.LOAD, Column.REPS, Column.RIR)] == ["62,5", "9", "1"]


def test_one_value_is_pasted_into_every_chosen_cell(table: ResultsTable) -> None:
    QGuiApplication.clipboard().setText("60")
    choose(table, 0, Column.LOAD, 3, Column.LOAD)
    QTest.keyClick(table, Qt.Key.Key_V, CONTROL)
    assert [cell(table, r) for r in range(5)] == ["60"] * 4 + [""]


def test_what_is_copied_can_be_pasted(table: ResultsTable) -> None:
    table.rows.put_many({(0, Column.LOAD): "60", (0, Column.REPS): "10", (1, Column.LOAD): "65"})
    choose(table, 0, Column.LOAD, 1, Column.REPS)
    QTest.keyClick(table, Qt.Key.Key_C, CONTROL)
    assert QGuiApplication.clipboard().text() == "60\t10\n65\t"


def test_filling_down_copies_the_top_of_each_column(table: ResultsTable) -> None:
    table.rows.put_many({(0, Column.LOAD): "60", (0, Column.REPS): "10"})
    choose(table, 0, Column.LOAD, 2, Column.REPS)
    QTest.keyClick(table, Qt.Key.Key_D, CONTROL)
    assert [cell(table, r) for r in range(4)] == ["60", "60", "60", ""]
    assert [cell(table, r, Column.REPS) for r in range(4)] == ["10", "10", "10", ""]


def test_filling_down_from_one_cell_reaches_to_the_end_of_the_exercise(
    table: ResultsTable,
) -> None:
    table.rows.put_many({(1, Column.LOAD): "60"})
    table.go_to(1)
    QTest.keyClick(table, Qt.Key.Key_D, CONTROL)
    assert [cell(table, r) for r in range(5)] == ["", "60", "60", "60", ""]


def test_as_planned_is_asked_for_by_key(table: ResultsTable, qtbot: QtBot) -> None:
    with qtbot.waitSignal(table.planned) as asked:
        QTest.keyClick(table, Qt.Key.Key_Return, CONTROL)
    assert asked.args == [False]
    with qtbot.waitSignal(table.planned) as asked:
        QTest.keyClick(table, Qt.Key.Key_Return, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    assert asked.args == [True]


def test_what_cannot_be_read_is_drawn_apart(table: ResultsTable) -> None:
    sound = table.grab().toImage()
    table.rows.put_many({(0, Column.REPS): "x1"})
    assert table.grab().toImage() != sound
    assert table.slot == 0


def test_as_planned_can_be_asked_for_from_inside_a_cell(table: ResultsTable, qtbot: QtBot) -> None:
    QTest.keyClicks(table, "6")
    with qtbot.waitSignal(table.planned) as asked:
        QTest.keyClick(open_editor(table), Qt.Key.Key_Return, CONTROL)
    assert asked.args == [False]
    assert cell(table, 0) == "6"
