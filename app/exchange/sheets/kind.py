"""What kind of file the bytes are, by how they begin; the name is checked, never trusted."""

from __future__ import annotations

from enum import Enum
from pathlib import PurePath

from app.domain.wording import mark, tr
from app.exchange.sheets.sheet import SheetError

ZIP = b"PK\x03\x04"
EMPTY_ZIP = b"PK\x05\x06"

_OTHERS = (
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", mark("an old or a locked workbook (.xls)")),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", mark("a picture")),
    (b"\xff\xd8\xff", mark("a picture")),
    (b"GIF8", mark("a picture")),
    (b"SQLite format 3\0", mark("a database")),
    (b"\x1f\x8b", mark("a packed file")),
    (b"Rar!", mark("a packed file")),
    (b"7z\xbc\xaf\x27\x1c", mark("a packed file")),
    (b"MZ", mark("a program")),
    (b"\x7fELF", mark("a program")),
    (b"{\\rtf", mark("a text document")),
)
_MARKUP = (b"<?xml", b"<!doctype", b"<html")


class Kind(Enum):
    """What is read."""

    TEXT = "text"
    WORKBOOK = "workbook"


def kind_of(data: bytes, *, source: str) -> Kind:
    """Text or workbook. Raises SheetError for anything else, and where the name says otherwise."""
    if not data.strip():
        raise SheetError(tr("The file is empty."), where=source, mend=tr("Choose another file."))
    for start, what in _OTHERS:
        if data.startswith(start):
            raise _other(what, source)
    if data.removeprefix(b"\xef\xbb\xbf").lstrip()[:9].lower().startswith(_MARKUP):
        raise _other(tr("a web page or other markup"), source)
    found = Kind.WORKBOOK if data.startswith((ZIP, EMPTY_ZIP)) else Kind.TEXT
    _refuse_renamed(found, source)
    return found


def _other(what: str, source: str) -> SheetError:
    return SheetError(
        tr("The file is {what}, not a table.", what=what),
        where=source,
        mend=tr("Save the table as .xlsx or as CSV and choose that."),
    )


def _refuse_renamed(found: Kind, source: str) -> None:
    suffix = PurePath(source).suffix.lower()
    if found is Kind.TEXT and suffix in (".xlsx", ".xlsm"):
        raise SheetError(
            tr("The name ends in {suffix}, but the file is no workbook.", suffix=suffix),
            where=source,
            mend=tr("If it holds text, rename it to end in .csv."),
        )
    if found is Kind.WORKBOOK and suffix in (".csv", ".tsv", ".txt"):
        raise SheetError(
            tr("The name ends in {suffix}, but the file is packed like a workbook.", suffix=suffix),
            where=source,
            mend=tr("If it is a workbook, rename it to end in .xlsx."),
        )
