"""The page of columns."""

from __future__ import annotations

from datetime import date, time
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.exchange.coach_plan.columns import Column, Mapping, Part
from app.exchange.sheets.sheet import Book, Cell, Sheet
from app.ui.exchange.table_import.columns_page import ColumnsPage, cell_text

SHEET = Sheet("Plan", (("Exercise", "Reps", None), ("Back squat", 2.5, date(2026, 1, 2))))
MAPPING = Mapping((Column(Part.EXERCISE), Column(Part.REPS, 2), Column()), head=0)


@pytest.fixture
def page(qtbot: QtBot, dressed) -> ColumnsPage:
    made = ColumnsPage()
    qtbot.addWidget(made)
    made.show_book(Book((SHEET,), "koi8_r", ";"), MAPPING)
    return made


def test_cells_and_choices_are_shown(page: ColumnsPage) -> None:
    assert [box.currentText() for box in page.choices] == ["Exercise", "Reps", "Left out"]
    assert page.table.item(3, 0).text() == "Back squat"
    assert page.table.item(2, 0).font().bold()
    assert page.encoding.currentData() == "koi8_r"
    assert page.chosen_mapping() == MAPPING


def test_the_row_of_the_headings_can_be_changed_or_none(page: ColumnsPage) -> None:
    page.head.edit.setText("")
    assert page.chosen_mapping().head == -1
    page.head.edit.setText("2")
    assert page.chosen_mapping().head == 1
    page.head.edit.setText("two")
    with pytest.raises(CoachError):
        page.chosen_mapping()


def test_a_workbook_has_no_encoding(page: ColumnsPage) -> None:
    page.show_book(Book((SHEET, Sheet("Hidden", SHEET.rows, hidden=True))), MAPPING)
    assert page.csv_row.isHidden()
    assert page.chosen_sheets() == (SHEET,)


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        (None, ""),
        ("a", "a"),
        (3, "3"),
        (2.5, "2.5"),
        (date(2026, 1, 2), "2026-01-02"),
        (time(2), "02:00:00"),
    ],
)
def test_a_cell_is_shown(cell: Cell, text: str) -> None:
    assert cell_text(cell) == text


def test_what_was_understood_is_told(page: ColumnsPage) -> None:
    page.tell("2 lines.", ("row 2: no.",))
    assert page.remarks.lines() == ["row 2: no."]
    page.tell("2 lines.", ())
    assert page.remarks.isHidden()


def test_the_weeks_of_columns_can_be_chosen(page: ColumnsPage, qtbot: QtBot) -> None:
    assert page.beside.isChecked()
    assert not page.table.isRowHidden(1)
    box: Any = page.table.cellWidget(1, 2)
    box.choose(3)
    with qtbot.waitSignal(page.changed):
        box.activated.emit(box.currentIndex())
    assert [column.week for column in page.chosen_mapping().columns] == [0, 2, 3]
    with qtbot.waitSignal(page.changed):
        page.beside.setChecked(False)
    assert not page.chosen_mapping().side_by_side
    assert page.table.isRowHidden(1)
