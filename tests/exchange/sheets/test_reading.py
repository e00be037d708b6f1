"""A table file as sheets, whichever kind it is."""

from __future__ import annotations

import subprocess
import sys
from contextlib import suppress
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.sheets import reading
from app.exchange.sheets.reading import read_book
from app.exchange.sheets.sheet import SheetError

ROOT = Path(__file__).resolve().parents[3]


def test_csv_is_one_sheet_named_after_its_file() -> None:
    book = read_book("Übung;Sätze\nKniebeuge;3\n".encode("cp1252"), source="in/plan.csv")
    assert book.sheets[0].name == "plan"
    assert book.sheets[0].rows[1] == ("Kniebeuge", "3")
    assert book.separator == ";"
    assert book.remarks


def test_a_workbook_has_neither_encoding_nor_separator() -> None:
    made = openpyxl.Workbook()
    made.active.append(["a"])
    data = BytesIO()
    made.save(data)
    book = read_book(data.getvalue(), source="plan.xlsx")
    assert (book.encoding, book.separator, book.remarks) == ("", "", ())


def workbook(*rows: tuple[object, ...], hidden: bool = False) -> bytes:
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    if hidden:
        made.create_sheet("Plan").append(["Day", "Exercise"])
        made.active.sheet_state = "hidden"
        made.active = 1
    data = BytesIO()
    made.save(data)
    return data.getvalue()


def test_formulas_without_results_are_told_with_their_places() -> None:
    one = workbook(("Squat", "=3+2"))
    (remark,) = read_book(one, source="a.xlsx").remarks
    assert remark == (
        "1 cell of sheet 'Sheet' holds a formula without its result (B1) and is read as empty. "
        "Save the file in your spreadsheet program, then choose it again."
    )
    many = workbook(*[("Squat", "=3+2")] * 5)
    (remark,) = read_book(many, source="a.xlsx").remarks
    assert remark.startswith("5 cells of sheet 'Sheet' hold formulas without their results")
    assert "(B1, B2, B3 and more)" in remark


def test_formulas_of_a_hidden_sheet_are_not_told() -> None:
    assert read_book(workbook(("a", "=3+2"), hidden=True), source="a.xlsx").remarks == ()


def test_a_table_of_nothing_but_formulas_says_why_it_is_empty() -> None:
    with pytest.raises(SheetError, match="No cell of it holds anything.*formulas without"):
        read_book(workbook(("=1+1", "=2+2")), source="a.xlsx")


def test_what_the_coach_chose_is_kept_to() -> None:
    book = read_book(b"a;b,c\n", source="a.csv", separator=",", encoding="cp1252")
    assert book.sheets[0].rows[0] == ("a;b", "c")


def test_a_file_past_the_limit_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "MOST_BYTES", 10)
    with pytest.raises(SheetError, match="at most 10"):
        read_book(b"a,b\n" * 10, source="a.csv")


def test_cells_without_anything_are_refused() -> None:
    with pytest.raises(SheetError, match="No cell"):
        read_book(b",,\n,,\n", source="a.csv")


@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    with suppress(SheetError):
        read_book(data, source="a.csv")


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="nobody tells the memory here")
@pytest.mark.parametrize("cell", [b"3", b"Back squat with a pause"], ids=["refused", "read"])
def test_the_largest_text_takes_less_than_300_mb(cell: bytes) -> None:
    probe = (
        "import re, sys\n"
        "from contextlib import suppress\n"
        "from pathlib import Path\n"
        "from app.exchange.sheets.reading import MOST_BYTES, read_book\n"
        "from app.exchange.sheets.sheet import SheetError\n"
        "row = b','.join([sys.argv[1].encode()] * 10) + b'\\n'\n"
        "with suppress(SheetError):\n"
        "    read_book(row * (MOST_BYTES // len(row)), source='a.csv')\n"
        "told = Path('/proc/self/status').read_text()\n"
        "print(int(re.search(r'VmHWM:\\s*(\\d+)', told)[1]) // 1024)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", probe, cell.decode()],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert 0 < int(done.stdout) < 300
