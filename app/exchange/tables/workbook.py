"""Tables as one XLSX workbook: a sheet a table; texts are texts, numbers numbers, days days."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from io import BytesIO
from typing import TYPE_CHECKING

from app.domain.wording import tr
from app.exchange.tables.cell import Cell, guarded
from app.exchange.tables.table import Table

if TYPE_CHECKING:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.worksheet._write_only import WriteOnlyWorksheet

SUFFIX = ".xlsx"
LONGEST_NAME = 31
LONGEST_TEXT = 32_767
"""What a sheet's name and a cell hold at most; the format's own limits."""
WIDEST = 48
_NOT_IN_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_NOT_IN_NAMES = re.compile(r"[\[\]:*?/\\\x00-\x1f]")


def write_workbook(tables: Sequence[Table]) -> bytes:
    """The tables as a workbook; no cell of it is a formula, a link or a macro."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    names: list[str] = []
    for table in tables:
        names.append(sheet_name(table.name, names))
        _write_sheet(book.create_sheet(names[-1]), table)
    data = BytesIO()
    book.save(data)
    return data.getvalue()


def _write_sheet(sheet: WriteOnlyWorksheet, table: Table) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    sheet.freeze_panes = "A2"
    for number, width in enumerate(_widths(table), 1):
        sheet.column_dimensions[get_column_letter(number)].width = width
    heads = [_cell(sheet, head) for head in table.heads]
    for head in heads:
        head.font = Font(bold=True)
    sheet.append(heads)
    for row in table.rows:
        sheet.append([None if one is None else _cell(sheet, one) for one in row])


def _cell(sheet: WriteOnlyWorksheet, value: Cell) -> WriteOnlyCell:
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, str):
        # a sign that XML cannot hold is shown as one that is not known
        text = _NOT_IN_XML.sub("\N{REPLACEMENT CHARACTER}", guarded(value))[:LONGEST_TEXT]
        cell = WriteOnlyCell(sheet, text)
        cell.data_type = "s"
        return cell
    cell = WriteOnlyCell(sheet, value)
    if isinstance(value, date):
        cell.number_format = "yyyy-mm-dd"
    return cell


def _widths(table: Table) -> Iterable[float]:
    for number, head in enumerate(table.heads):
        longest = max((len(str(row[number] or "")) for row in table.rows), default=0)
        yield min(max(len(head), longest) + 2, WIDEST)


def sheet_name(name: str, taken: Iterable[str] = ()) -> str:
    """A name that a sheet may have, unlike those taken: short, and without signs of formulas."""
    stem = _NOT_IN_NAMES.sub(" ", _NOT_IN_XML.sub(" ", name)).strip(" '")[:LONGEST_NAME]
    stem = stem.strip(" '") or tr("Table")
    gone = {one.casefold() for one in taken}
    made, number = stem, 2
    while made.casefold() in gone:
        tail = f" {number}"
        made, number = stem[: LONGEST_NAME - len(tail)] + tail, number + 1
    return made
