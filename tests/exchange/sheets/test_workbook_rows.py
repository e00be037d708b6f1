"""Workbooks as cells."""

from __future__ import annotations

import random
import zipfile
from contextlib import suppress
from datetime import date, datetime, time
from io import BytesIO

import openpyxl
import pytest

from app.exchange.sheets import workbook_rows
from app.exchange.sheets.sheet import SheetError
from app.exchange.sheets.workbook_rows import sheets_of
from app.exchange.tables.table import Table
from app.exchange.tables.workbook import write_workbook


def saved(book: openpyxl.Workbook) -> bytes:
    data = BytesIO()
    book.save(data)
    return data.getvalue()


def sample() -> openpyxl.Workbook:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Week 1"
    sheet.append(["Day", "Exercise", "Sets", "Reps"])
    sheet.append(["Mon", "Back squat", 3, "8-10"])
    sheet.append([None, "Row", 2.5, date(2026, 10, 8)])
    sheet.append([None, True, "=1+1", time(0, 2)])
    return book


def test_cells_are_what_they_are() -> None:
    (sheet,) = sheets_of(saved(sample()), source="a.xlsx")
    assert sheet.name == "Week 1"
    assert sheet.rows == (
        ("Day", "Exercise", "Sets", "Reps"),
        ("Mon", "Back squat", 3, "8-10"),
        (None, "Row", 2.5, date(2026, 10, 8)),
        (None, "True", None, time(0, 2)),
    )


def test_formulas_without_results_are_known_by_their_sheet() -> None:
    book = sample()
    book.create_sheet("Week 2").append(["Mon"])
    first, second = sheets_of(saved(book), source="a.xlsx")
    assert (first.unworked, second.unworked) == (("C4",), ())


def test_merged_cells_are_filled() -> None:
    book = sample()
    book.active.merge_cells("A2:A4")
    book.active.insert_rows(1)
    book.active["A1"] = "Lower"
    book.active.merge_cells("A1:D1")
    (sheet,) = sheets_of(saved(book), source="a.xlsx")
    assert sheet.rows[0] == ("Lower",) * 4


def test_a_tall_merged_cell_is_filled_down() -> None:
    book = sample()
    book.active.merge_cells("A2:A4")
    (sheet,) = sheets_of(saved(book), source="a.xlsx")
    assert [row[0] for row in sheet.rows] == ["Day", "Mon", "Mon", "Mon"]


def test_hidden_sheets_are_told_and_the_order_is_kept() -> None:
    book = sample()
    book.create_sheet("Notes").append(["x"])
    book["Week 1"].sheet_state = "hidden"
    book["Notes"].sheet_state = "visible"
    one, two = sheets_of(saved(book), source="a.xlsx")
    assert (one.name, one.hidden, two.name, two.hidden) == ("Week 1", True, "Notes", False)


def test_what_was_guarded_comes_back() -> None:
    data = write_workbook([Table("T", ("A",), (("=1+1",), (-2,)))])
    assert sheets_of(data, source="a.xlsx")[0].rows == (("A",), ("=1+1",), (-2,))


def test_a_far_away_cell_does_not_fill_the_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    book = openpyxl.Workbook()
    book.active["A1"] = 1
    book.active["XFD1048576"] = 1
    with pytest.raises(SheetError, match="cells"):
        sheets_of(saved(book), source="a.xlsx")


def test_moments_are_days_or_times() -> None:
    book = openpyxl.Workbook()
    book.active.append([datetime(2026, 10, 8), datetime(2026, 10, 8, 6, 30)])  # noqa: DTZ001
    assert sheets_of(saved(book), source="a.xlsx")[0].rows[0] == (date(2026, 10, 8), time(6, 30))


def test_bytes_that_are_no_workbook_are_refused() -> None:
    with pytest.raises(SheetError):
        sheets_of(b"PK\x03\x04" + b"x" * 300, source="a.xlsx")


@pytest.mark.parametrize("seed", range(60))
def test_a_damaged_workbook_is_read_or_refused(seed: int) -> None:
    dice = random.Random(seed)
    data = bytearray(saved(sample()))
    for _ in range(dice.randint(1, 12)):
        data[dice.randrange(4, len(data))] = dice.randrange(256)
    with suppress(SheetError):
        sheets_of(bytes(data), source="a.xlsx")


@pytest.mark.parametrize("seed", range(40))
def test_broken_xml_inside_a_whole_package_is_read_or_refused(seed: int) -> None:
    dice = random.Random(seed)
    made = BytesIO()
    with zipfile.ZipFile(BytesIO(saved(sample()))) as old, zipfile.ZipFile(made, "w") as new:
        for part in old.namelist():
            content = bytearray(old.read(part))
            if dice.random() < 0.4:
                for _ in range(dice.randint(1, 6)):
                    content[dice.randrange(len(content))] = dice.randrange(32, 127)
            new.writestr(part, bytes(content))
    with suppress(SheetError):
        sheets_of(made.getvalue(), source="a.xlsx")


def test_memory_that_runs_out_is_not_hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    def burst(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(workbook_rows, "_fill", burst)
    with pytest.raises(MemoryError):
        sheets_of(saved(sample()), source="a.xlsx")


def test_reading_can_be_stopped() -> None:
    with pytest.raises(SheetError, match="stopped"):
        sheets_of(saved(sample()), source="a.xlsx", stop=lambda: True)
