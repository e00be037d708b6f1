"""Rows of cells from an XLSX workbook: what it shows, with merged cells filled, and no formula."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from io import BytesIO
from typing import Any
from warnings import catch_warnings, simplefilter

from app.domain.wording import tr
from app.exchange.sheets.packed import Looked, look_through
from app.exchange.sheets.sheet import (
    MOST_CELLS,
    MOST_SHEETS,
    Cell,
    Sheet,
    SheetError,
    Stop,
    stopped,
    too_many_cells,
)
from app.exchange.tables.cell import unguarded

LONGEST_CELL = 32_767
MOST_FILLED = 50_000
"""Cells that merged ranges of one sheet are filled into."""


def sheets_of(data: bytes, *, source: str, stop: Stop | None = None) -> tuple[Sheet, ...]:
    """The sheets of the workbook in its order. Raises SheetError."""
    looked = look_through(data, source=source)
    try:
        with catch_warnings():
            simplefilter("ignore")  # of things that a plan does not need
            return tuple(_sheets(data, looked, source, stop))
    except SheetError:
        raise
    except MemoryError:
        raise
    except Exception as error:  # whatever a library says of a broken part of a file
        raise SheetError(
            tr("The workbook is damaged or is no workbook of this kind."),
            where=source,
            mend=tr("Open it in your spreadsheet program and save it again as .xlsx."),
        ) from error


def _sheets(data: bytes, looked: Looked, source: str, stop: Stop | None) -> Iterator[Sheet]:
    from openpyxl.reader.excel import ExcelReader

    reader = ExcelReader(BytesIO(data), read_only=True, data_only=True, keep_links=False)
    reader.read()
    paths = {sheet.name: rel.target for sheet, rel in reader.parser.find_sheets()}
    left = MOST_CELLS
    for sheet in reader.wb.worksheets[:MOST_SHEETS]:
        rows = []
        sheet.reset_dimensions()
        for row in sheet.iter_rows(values_only=True):
            left -= max(1, len(row))
            if left < 0:
                raise too_many_cells(source)
            if stop is not None and stop():
                raise stopped(source)
            rows.append([_cell(one) for one in row])
        part = paths.get(sheet.title, "")
        _fill(rows, looked.merged.get(part, ()))
        while rows and not any(cell is not None for cell in rows[-1]):
            rows.pop()
        yield Sheet(
            str(sheet.title),
            tuple(tuple(row) for row in rows),
            hidden=sheet.sheet_state != "visible",
            unworked=looked.unworked.get(part, ()),
        )
    reader.wb.close()


def _cell(value: Any) -> Cell:
    match value:
        case str():
            text = unguarded(value)
            return text[:LONGEST_CELL] if text.strip() else None
        case bool():
            return str(value)
        case datetime():
            return value.date() if value.time() == time() else value.time()
        case int() | float() | date() | time() | timedelta():
            return value
        case _:
            return None


def _fill(rows: list[list[Cell]], ranges: tuple[str, ...]) -> None:
    """Writes what stands in the corner of each merged range into all of it."""
    from openpyxl.utils.cell import range_boundaries

    left = MOST_FILLED
    for text in ranges:
        first, top, last, bottom = range_boundaries(text)
        if not 1 <= top <= len(rows) or first > len(rows[top - 1]):
            continue
        value = rows[top - 1][first - 1]
        if value is None:
            continue
        for row in rows[top - 1 : bottom]:
            left -= last - first + 1
            if left < 0:
                return
            row.extend([None] * (last - len(row)))
            row[first - 1 : last] = [value] * (last - first + 1)
