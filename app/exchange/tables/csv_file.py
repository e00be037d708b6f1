"""A table as CSV: RFC 4180 with the separator and the decimal sign that the reader's program wants.

Comma and point are the standard's; where the decimal sign is a comma, spreadsheets expect a
semicolon between the cells.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from datetime import date
from io import StringIO

from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.exchange.tables.cell import Cell, guarded
from app.exchange.tables.table import Table

SUFFIX = ".csv"
PLACES = 4
"""Decimal places of a number; a load in pounds is kept to less than a gram."""


@dataclass(frozen=True, slots=True)
class Style:
    """A way of writing CSV. key: stable name; label: what a coach chooses by."""

    key: str
    label: str
    separator: str
    decimal: str


STYLES = (
    Style("comma", mark("Comma between cells, decimal point"), ",", "."),
    Style("semicolon", mark("Semicolon between cells, decimal comma"), ";", ","),
    Style("tab", mark("Tab between cells, decimal point"), "\t", "."),
)


def style_of(key: str) -> Style:
    """The style of that name. Raises CoachError for another."""
    for style in STYLES:
        if style.key == key:
            return style
    raise CoachError(
        tr("{key!r} is no way of writing CSV.", key=key),
        mend=tr("Use {styles}.", styles=", ".join(s.key for s in STYLES)),
    )


def usual_style(decimal: str) -> Style:
    """The style that a spreadsheet expects where `decimal` is the decimal sign."""
    return STYLES[1] if decimal == "," else STYLES[0]


def write_csv(table: Table, style: Style = STYLES[0]) -> bytes:
    """The table as UTF-8 text with its mark in front, by which spreadsheets know it."""
    text = StringIO(newline="")
    writer = csv.writer(text, delimiter=style.separator, lineterminator="\r\n")
    writer.writerow([guarded(head) for head in table.heads])
    for row in table.rows:
        writer.writerow([cell_text(cell, style.decimal) for cell in row])
    return text.getvalue().encode("utf-8-sig")


def cell_text(cell: Cell, decimal: str = ".") -> str:
    """What stands in the file for a cell: numbers as numbers, days as 2026-11-23."""
    match cell:
        case None:
            return ""
        case str():
            return guarded(cell)
        case date():
            return cell.isoformat()
        case int():
            return str(cell)
        case _:
            text = f"{cell:.{PLACES}f}".rstrip("0").rstrip(".")
            return ("0" if text == "-0" else text).replace(".", decimal)
