"""CSV as the standard writes it, read back by the standard library."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError
from app.exchange.tables.cell import Cell, guarded, unguarded
from app.exchange.tables.csv_file import STYLES, Style, cell_text, style_of, usual_style, write_csv
from app.exchange.tables.table import Table
from tests.exchange.tables.test_cell import HOSTILE

COMMA, SEMICOLON, TAB = STYLES


def read(data: bytes, style: Style) -> list[list[str]]:
    text = data.decode("utf-8-sig")
    return list(csv.reader(StringIO(text, newline=""), delimiter=style.separator, strict=True))


def table(*rows: tuple, heads: tuple[str, ...] = ("Name", "Amount")) -> Table:
    return Table("T", heads, rows)


def test_lines_end_as_the_standard_says_and_the_mark_is_there() -> None:
    data = write_csv(table(("Żaneta", 1)))
    assert data == b"\xef\xbb\xbfName,Amount\r\n" + "Żaneta,1\r\n".encode()


def test_separators_quotes_and_line_breaks_stay_inside_their_cell() -> None:
    text = 'a "b", c;\td\ne'
    for style in STYLES:
        assert read(write_csv(table((text, 2)), style), style)[1] == [text, "2"]


@pytest.mark.parametrize("style", STYLES, ids=lambda s: s.key)
@pytest.mark.parametrize("first", HOSTILE)
def test_no_text_is_a_formula(first: str, style: Style) -> None:
    text = f"{first}cmd|' /C calc'!A0"
    heads, row = read(write_csv(table((text, -1.5), heads=(text, "Amount")), style), style)
    for cell in (heads[0], row[0]):
        assert cell[0] == "'"
        assert unguarded(cell) == text


def test_a_negative_number_stays_a_number() -> None:
    assert read(write_csv(table(("a", -12.5))), COMMA)[1][1] == "-12.5"
    assert read(write_csv(table(("a", -12.5)), SEMICOLON), SEMICOLON)[1][1] == "-12,5"


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        (None, ""),
        (3, "3"),
        (2.0, "2"),
        (1 / 3, "0.3333"),
        (-0.00001, "0"),
        (date(2026, 11, 23), "2026-11-23"),
        ("=1", "'=1"),
    ],
)
def test_a_cell_is_written(cell: Cell, text: str) -> None:
    assert cell_text(cell) == text


def test_the_usual_style_follows_the_decimal_sign() -> None:
    assert usual_style(",") is SEMICOLON
    assert usual_style(".") is COMMA
    assert style_of("tab") is TAB


def test_another_style_is_refused_by_name() -> None:
    with pytest.raises(CoachError, match="comma, semicolon, tab"):
        style_of("pipe")


@given(st.lists(st.tuples(st.text(), st.text()), max_size=5), st.sampled_from(STYLES))
def test_every_text_comes_back_through_the_file(rows: list[tuple[str, str]], style: Style) -> None:
    rows = [(a or "x", b.replace("\ud800", "")) for a, b in rows]
    try:
        data = write_csv(table(*rows), style)
    except UnicodeEncodeError:  # half a letter, which no file of a coach can hold
        return
    # csv.reader in 3.11 and later reads NUL as well
    got = [tuple(map(unguarded, row)) for row in read(data, style)[1:]]
    assert got == [tuple(unguarded(guarded(cell)) for cell in row) for row in rows]
