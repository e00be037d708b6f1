"""Tables of a program as files."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from app import resources
from app.domain.errors import CoachError
from app.domain.results import Diary, SetDone, SlotResult
from app.exchange.files import FileTrouble
from app.exchange.tables.csv_file import STYLES
from app.table_files import LABELS, Content, Source, file_name, files_for, tables_of, write_tables
from tests.ui.desks import PROGRAM, RUNA

SLOT = next(PROGRAM.weeks[0].slots())
DONE = SlotResult(PROGRAM.id, SLOT.id, SLOT.exercise, date(2026, 11, 23), (SetDone(60, 5, 2),))
SOURCE = Source(RUNA, PROGRAM, Diary(results=(DONE,)), resources.catalogue())
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
