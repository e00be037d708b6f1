"""Rows from CSV as it is met."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.sheets import csv_rows
from app.exchange.sheets.csv_rows import rows_of, separator_of
from app.exchange.sheets.sheet import SheetError
from app.exchange.tables.csv_file import STYLES, write_csv
from app.exchange.tables.table import Table


def rows(text: str, separator: str = "") -> tuple[tuple[str | None, ...], ...]:
    return rows_of(text, separator or separator_of(text), source="a.csv")


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("a,b,c\n1,2,3\n", ","),
        ("a;b;c\n1,5;2,5;3\n", ";"),
        ("a;b\nsquat, wide;3,5\nrow, low, slow;2,5\n", ";"),
        ("a\tb\n1,5\t2\n", "\t"),
        ("a|b\n1|2\n", "|"),
        ("sep=;\na;b\n", ";"),
        ('"a;b",c\n"d;e",f\n', ","),
        ("one column\nonly\n", ","),
    ],
)
def test_the_separator_is_found(text: str, sign: str) -> None:
    found = separator_of(text)
    assert found == sign or "," not in text + sign


def test_quotes_line_breaks_and_empty_cells() -> None:
    assert rows('a,"b, ""c""\nd",\r\n,,\r\nx,y,z') == (
        ("a", 'b, "c"\nd', None),
        (None, None, None),
        ("x", "y", "z"),
    )


def test_old_line_ends_are_read() -> None:
    assert rows("a,b\rc,d") == (("a", "b"), ("c", "d"))


def test_the_declared_separator_is_no_row() -> None:
    assert rows("sep=;\na;b") == (("a", "b"),)


def test_a_guarded_text_comes_back_as_it_was() -> None:
    data = write_csv(Table("T", ("A",), (("=1+1",), ("'x",), ("-5",))), STYLES[1])
    read = rows(data.decode("utf-8-sig"))
    assert read[:4] == (("A",), ("=1+1",), ("'x",), ("-5",))


def test_a_cell_that_never_ends_is_told_with_its_line() -> None:
    with pytest.raises(SheetError, match="never ends") as caught:
        rows_of('a,"' + "x" * 200_000, ",", source="a.csv")
    assert "line 1" in caught.value.where


def test_a_table_that_goes_on_and_on_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(csv_rows, "MOST_CELLS", 10)
    with pytest.raises(SheetError, match="cells"):
        rows("a,b,c\n" * 4, ",")


@given(st.text(max_size=300), st.sampled_from(",;\t|"))
def test_any_text_is_read_or_refused(text: str, sign: str) -> None:
    separator_of(text)
    with suppress(SheetError):
        rows(text, sign)
