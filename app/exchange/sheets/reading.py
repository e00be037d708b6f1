"""A table file as a book of sheets, whichever of the two kinds it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import PurePath

from app.domain.wording import tr, trn
from app.exchange.sheets.csv_rows import rows_of, separator_of
from app.exchange.sheets.decoding import decode
from app.exchange.sheets.kind import Kind, kind_of
from app.exchange.sheets.sheet import Book, Sheet, SheetError, Stop
from app.exchange.sheets.workbook_rows import sheets_of

MOST_BYTES = 20 * 1024 * 1024
"""The largest table file that is read; a year of full weeks has some 5 MB as CSV."""
MOST_PLACES = 3


def read_book(
    data: bytes,
    *,
    source: str,
    encoding: str = "",
    separator: str = "",
    stop: Stop | None = None,
) -> Book:
    """The cells of the file `source`.

    encoding and separator: of a CSV file, as the coach chose them; found out where empty; stop:
    asked at every row of a workbook. Raises
    SheetError for what is no table or too large, and where no cell holds anything.
    """
    if len(data) > MOST_BYTES:
        raise SheetError(
            tr(
                "The file has {data:,} bytes; at most {most_bytes:,} are read.",
                data=len(data),
                most_bytes=MOST_BYTES,
            ),
            where=source,
            mend=tr("Take the plan's part of it into a file of its own."),
        )
    if kind_of(data, source=source) is Kind.WORKBOOK:
        sheets = sheets_of(data, source=source, stop=stop)
        book = Book(sheets, remarks=tuple(_of_formulas(sheets)))
    else:
        decoded = decode(data, source=source, encoding=encoding)
        sign = separator or separator_of(decoded.text)
        rows = rows_of(decoded.text, sign, source=source)
        remarks = (decoded.remark,) if decoded.remark else ()
        sheet = Sheet(PurePath(source).stem, rows)
        book = Book((sheet,), decoded.encoding, sign, remarks)
    if not any(cell is not None for sheet in book.sheets for row in sheet.rows for cell in row):
        raise SheetError(
            " ".join([tr("No cell of it holds anything."), *book.remarks]),
            where=source,
            mend=tr("Choose another file."),
        )
    return book


def _of_formulas(sheets: Iterable[Sheet]) -> Iterator[str]:
    """A sentence for each sheet that is seen and has formulas without their results."""
    for sheet in sheets:
        if not sheet.unworked or sheet.hidden:
            continue
        places = ", ".join(sheet.unworked[:MOST_PLACES])
        if len(sheet.unworked) > MOST_PLACES:
            places = tr("{places} and more", places=places)
        yield trn(
            "{n} cell of sheet {name} holds a formula without its result ({places}) and is read as "
            "empty. Save the file in your spreadsheet program, then choose it again.",
            "{n} cells of sheet {name} hold formulas without their results ({places}) and are read "
            "as empty. Save the file in your spreadsheet program, then choose it again.",
            len(sheet.unworked),
            name=repr(sheet.name),
            places=places,
        )
