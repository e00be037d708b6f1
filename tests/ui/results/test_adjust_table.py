"""Suggestions can be ticked and typed over."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.ui.results.adjust_table import AdjustTable, Column
from tests.domain.test_adjust import PLAN, advice
from tests.ui.results.test_adjust_rows import line


@pytest.fixture
def table(qtbot: QtBot, dressed) -> AdjustTable:
    made = AdjustTable()
    qtbot.addWidget(made)
    made.show_lines([line(), line(advice(PLAN, 1, []))])
    return made


def test_a_row_says_what_was_done_planned_suggested_and_why(table: AdjustTable) -> None:
    texts = [table.item(0, column).text() for column in Column]
    assert texts[Column.EXERCISE] == "Back squat"
    assert texts[Column.LAST].startswith("60 kg")
    assert texts[Column.SUGGESTED].endswith(" kg")
    assert "passed" in texts[Column.WHY]
    assert table.item(0, Column.EXERCISE).checkState() == Qt.CheckState.Checked
    assert not table.item(1, Column.EXERCISE).flags() & Qt.ItemFlag.ItemIsUserCheckable


def test_unticking_leaves_it(table: AdjustTable, qtbot: QtBot) -> None:
    with qtbot.waitSignal(table.changed):
        table.item(0, Column.EXERCISE).setCheckState(Qt.CheckState.Unchecked)
    assert not table.lines[0].taken


def test_typing_takes_it_and_marks_what_cannot_be_read(table: AdjustTable, qtbot: QtBot) -> None:
    with qtbot.waitSignal(table.changed):
        table.item(1, Column.SUGGESTED).setText("50")
    assert table.item(1, Column.EXERCISE).checkState() == Qt.CheckState.Checked
    table.item(1, Column.SUGGESTED).setText("x")
    assert "not a number" in table.item(1, Column.WHY).text()
    assert table.item(1, Column.EXERCISE).checkState() == Qt.CheckState.Unchecked
    assert table.line is table.lines[0]
