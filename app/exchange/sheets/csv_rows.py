"""Rows of cells from CSV as spreadsheets and people write it; cells stay texts."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator
from itertools import islice

from app.domain.wording import tr
from app.exchange.sheets.sheet import MOST_CELLS, SheetError, too_many_cells
from app.exchange.tables.cell import unguarded

SEPARATORS = (",", ";", "\t", "|")
SAMPLE_ROWS = 200
LONGEST_CELL = 32_767
"""As long as a cell of a spreadsheet can be."""


def separator_of(text: str) -> str:
    """The sign between the cells: the one that parts most rows into equally many."""
    declared = text[:6].lower()
    if declared.startswith("sep=") and len(text) > 4:
        return text[4]
    ranked = sorted((_evenness(text, sign), -n, sign) for n, sign in enumerate(SEPARATORS))
    return ranked[-1][2]


def _evenness(text: str, sign: str) -> tuple[float, int]:
    """How large a share of the rows has the most usual number of cells, and that number."""
    try:
        rows = [
            row for row in islice(csv.reader(_lines(text), delimiter=sign), SAMPLE_ROWS) if any(row)
        ]
    except csv.Error:
        return (0.0, 0)
    lengths = Counter(len(row) for row in rows if len(row) > 1)
    if not lengths:
        return (0.0, 0)
    length, count = max(lengths.items(), key=lambda one: (one[1], one[0]))
    return (round(count / len(rows), 1), length)


def _lines(text: str) -> Iterator[str]:
    for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n"):
        yield line + "\n"


def rows_of(text: str, separator: str, *, source: str) -> tuple[tuple[str | None, ...], ...]:
    """The rows; empty cells are None, quotes that guarded a text are taken off.

    Raises SheetError for more cells than a plan has, and for one that never ends.
    """
    if text[:4].lower() == "sep=":
        text = text.partition("\n")[2]
    if text.count(separator) > 2 * MOST_CELLS:  # most of them are no part of a text
        raise too_many_cells(source)
    rows, cells = [], 0
    reader = csv.reader(_lines(text), delimiter=separator)
    try:
        for row in reader:
            cells += max(1, len(row))
            if cells > MOST_CELLS:
                raise too_many_cells(source)
            rows.append(tuple(_cell(one) for one in row))
    except csv.Error as error:
        raise SheetError(
            tr("A cell of the table never ends ({error}).", error=error),
            where=tr("{source}, line {line_num}", source=source, line_num=reader.line_num),
            mend=tr("Look for a quotation mark that is opened there and not closed."),
        ) from None
    return tuple(rows)


def _cell(text: str) -> str | None:
    text = unguarded(text.removesuffix("\n")).strip("\ufeff\u200b")
    return text[:LONGEST_CELL] if text.strip() else None
