"""Tables of a program as files."""

from __future__ import annotations

import csv
from dataclasses import replace
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from app import resources
from app.domain.errors import CoachError
from app.domain.program import Block, Day, Session, SessionId, StrandId
from app.domain.results import Diary, SetDone, SlotResult
from app.exchange.files import FileTrouble
from app.exchange.tables.cell import STARTS
from app.exchange.tables.csv_file import STYLES
from app.table_files import LABELS, Content, Source, file_name, files_for, tables_of, write_tables
from tests.exchange.tables.test_cell import HOSTILE
from tests.ui.desks import PROGRAM, RUNA

CATALOGUE = resources.catalogue()
SLOT = next(PROGRAM.weeks[0].slots())
DONE = SlotResult(PROGRAM.id, SLOT.id, SLOT.exercise, date(2026, 11, 23), (SetDone(60, 5, 2),))
SOURCE = Source(RUNA, PROGRAM, Diary(results=(DONE,)), CATALOGUE)
ALL = tuple(Content)


def test_a_workbook_has_a_sheet_for_each_table(tmp_path: Path) -> None:
    (path,) = write_tables(tmp_path / "a.xlsx", SOURCE, ALL, None)
    book = openpyxl.load_workbook(path)
    assert book.sheetnames == ["Plan", "Sets per muscle", "Results"]
    slots = sum(1 for week in PROGRAM.weeks for _ in week.slots())
    assert book["Plan"].max_row == slots + 1
    assert book["Results"].max_row == 2


def test_each_csv_table_is_a_file_of_its_own(tmp_path: Path) -> None:
    written = write_tables(tmp_path / "a.csv", SOURCE, ALL, STYLES[1])
    assert [path.name for path in written] == ["a-plan.csv", "a-tally.csv", "a-results.csv"]
    with written[2].open(encoding="utf-8-sig", newline="") as file:
        assert list(csv.reader(file, delimiter=";"))[1][0] == "2026-11-23"


def test_one_csv_table_takes_the_name_that_was_asked_for(tmp_path: Path) -> None:
    assert files_for(tmp_path / "a.csv", [Content.TALLY], STYLES[0]) == (tmp_path / "a.csv",)
    (path,) = write_tables(tmp_path / "a.csv", SOURCE, [Content.TALLY], STYLES[0])
    assert path.read_bytes().startswith(b"\xef\xbb\xbfMuscle,")


def test_the_tables_come_in_their_order_whatever_was_asked_first() -> None:
    names = [table.name for table in tables_of(SOURCE, [Content.RESULTS, Content.PLAN])]
    assert names == ["Plan", "Results"]
    assert set(LABELS) == set(Content)


def test_a_file_is_named_after_client_and_program() -> None:
    assert file_name(SOURCE, ".xlsx").endswith(".xlsx")
    assert "/" not in file_name(SOURCE, ".xlsx")


def test_nothing_chosen_is_refused(tmp_path: Path) -> None:
    with pytest.raises(CoachError, match="No table"):
        write_tables(tmp_path / "a.xlsx", SOURCE, (), None)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(FileTrouble):
        write_tables(tmp_path / "no" / "a.xlsx", SOURCE, ALL, None)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("first", HOSTILE)
@pytest.mark.parametrize("suffix", ["csv", "xlsx"])
def test_no_text_of_a_coach_or_client_is_a_formula(tmp_path: Path, first: str, suffix: str) -> None:
    text = f"{first}cmd|' /C calc'!A0"
    squat = replace(CATALOGUE[SLOT.exercise], name=text)
    slot = replace(SLOT, note=text)
    session = Session(SessionId(900), StrandId(901), text, (slot,), note=text)
    week = replace(PROGRAM.weeks[0], days=(Day((session,)), *(Day(),) * 6))
    program = replace(PROGRAM, weeks=(week,), blocks=(Block(text, 1),), name=text)
    done = replace(DONE, note=text)
    source = Source(RUNA, program, Diary(results=(done,)), CATALOGUE.with_own((squat,)))
    path = tmp_path / f"a.{suffix}"
    paths = write_tables(path, source, ALL, STYLES[0] if suffix == "csv" else None)
    cells = [cell for one in paths for cell in texts_in(one)]
    assert sum(text in cell for cell in cells if "\0" not in text) >= (6 if first != "\0" else 0)
    assert [cell for cell in cells if cell[:1] in STARTS - {"'"}] == []


def texts_in(path: Path) -> list[str]:
    if path.suffix == ".csv":
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = [cell for row in csv.reader(file) for cell in row]
        return [cell for cell in rows if not cell.lstrip("-").replace(".", "").isdigit()]
    book = openpyxl.load_workbook(path)
    cells = [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row]
    assert {cell.data_type for cell in cells} <= {"s", "n", "d"}
    return [cell.value for cell in cells if isinstance(cell.value, str)]
