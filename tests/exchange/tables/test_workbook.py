"""Workbooks, reopened by the library and, where it is there, by LibreOffice."""

from __future__ import annotations

import csv
import shutil
import subprocess
import zipfile
from datetime import date
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest

from app.exchange.tables.cell import unguarded
from app.exchange.tables.table import Table
from app.exchange.tables.workbook import sheet_name, write_workbook
from tests.exchange.tables.test_cell import HOSTILE

OFFICE = shutil.which("soffice") or shutil.which("libreoffice")


def reopened(*tables: Table) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(write_workbook(tables)))


def test_numbers_days_and_texts_are_what_they_are() -> None:
    book = reopened(Table("Plan", ("A", "B", "C", "D"), ((-2.5, date(2026, 11, 23), "x", None),)))
    heads, row = list(book["Plan"].iter_rows())
    assert [cell.value for cell in heads] == ["A", "B", "C", "D"]
    assert [cell.value for cell in row][::2] == [-2.5, "x"]
    assert row[1].value.date() == date(2026, 11, 23)
    assert row[3].value is None
    assert [cell.data_type for cell in row] == ["n", "d", "s", "n"]
    assert row[1].number_format == "yyyy-mm-dd"
    assert book["Plan"].freeze_panes == "A2"


@pytest.mark.parametrize("first", HOSTILE)
def test_no_text_is_a_formula(first: str) -> None:
    text = f"{first}1+1"
    book = reopened(Table(text, (text,), ((text,),)))
    for (cell,) in book.worksheets[0].iter_rows():
        assert cell.data_type == "s"
        assert str(cell.value).startswith("'")
        assert unguarded(str(cell.value)) == text.replace("\0", "\N{REPLACEMENT CHARACTER}")


def test_a_text_that_looks_like_a_formula_leaves_none_in_the_file() -> None:
    data = write_workbook([Table("T", ("=A",), (("=1+1",), ("http://a.test",)))])
    with zipfile.ZipFile(BytesIO(data)) as parts:
        sheets = b"".join(parts.read(n) for n in parts.namelist() if "worksheets" in n)
    assert b"<f" not in sheets
    assert b"hyperlink" not in sheets


def test_signs_that_the_format_cannot_hold_do_not_stop_the_file() -> None:
    (_, row) = reopened(Table("T", ("A",), (("a\x00b\x1fc\ufffe",),)))["T"].iter_rows()
    assert row[0].value == "a\ufffdb\ufffdc\ufffd"


@pytest.mark.parametrize(
    ("name", "taken", "made"),
    [
        ("Runa: ridge/season", (), "Runa  ridge season"),
        ("", (), "Table"),
        ("x" * 40, (), "x" * 31),
        ("Plan", ("plan",), "Plan 2"),
        ("x" * 31, ("x" * 31,), "x" * 29 + " 2"),
        ("'quoted'", (), "quoted"),
    ],
)
def test_a_sheet_has_a_name_that_the_format_takes(
    name: str, taken: tuple[str, ...], made: str
) -> None:
    assert sheet_name(name, taken) == made


@pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not here")
def test_libreoffice_reads_what_was_written(tmp_path: Path) -> None:
    rows = (("=1+1", -2.5, date(2026, 11, 23)), ("Ä; ö", 12, None))
    (tmp_path / "a.xlsx").write_bytes(write_workbook([Table("Plan", ("N", "Q", "D"), rows)]))
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    command = [OFFICE, profile, "--headless", "--convert-to", "csv", "--outdir", str(tmp_path)]
    subprocess.run([*command, str(tmp_path / "a.xlsx")], check=True, capture_output=True)
    with (tmp_path / "a.csv").open(encoding="utf-8-sig", newline="") as file:
        read = list(csv.reader(file))
    assert read == [["N", "Q", "D"], ["'=1+1", "-2.5", "2026-11-23"], ["Ä; ö", "12", ""]]
