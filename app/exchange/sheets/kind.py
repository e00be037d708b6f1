"""What kind of file the bytes are, by how they begin; the name is checked, never trusted."""

from __future__ import annotations

from enum import Enum
from pathlib import PurePath

from app.exchange.sheets.sheet import SheetError

ZIP = b"PK\x03\x04"
EMPTY_ZIP = b"PK\x05\x06"

_OTHERS = (
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an old or a locked workbook (.xls)"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"SQLite format 3\0", "a database"),
    (b"\x1f\x8b", "a packed file"),
    (b"Rar!", "a packed file"),
    (b"7z\xbc\xaf\x27\x1c", "a packed file"),
    (b"MZ", "a program"),
    (b"\x7fELF", "a program"),
    (b"{\\rtf", "a text document"),
)
_MARKUP = (b"<?xml", b"<!doctype", b"<html")


class Kind(Enum):
    """What is read."""

    TEXT = "text"
    WORKBOOK = "workbook"


def kind_of(data: bytes, *, source: str) -> Kind:
    """Text or workbook. Raises SheetError for anything else, and where the name says otherwise."""
    if not data.strip():
        raise SheetError("The file is empty.", where=source, mend="Choose another file.")
    for start, what in _OTHERS:
        if data.startswith(start):
            raise _other(what, source)
    if data.removeprefix(b"\xef\xbb\xbf").lstrip()[:9].lower().startswith(_MARKUP):
        raise _other("a web page or other markup", source)
    found = Kind.WORKBOOK if data.startswith((ZIP, EMPTY_ZIP)) else Kind.TEXT
    _refuse_renamed(found, source)
    return found


def _other(what: str, source: str) -> SheetError:
    return SheetError(
        f"The file is {what}, not a table.",
        where=source,
        mend="Save the table as .xlsx or as CSV and choose that.",
    )


def _refuse_renamed(found: Kind, source: str) -> None:
    suffix = PurePath(source).suffix.lower()
    if found is Kind.TEXT and suffix in (".xlsx", ".xlsm"):
        raise SheetError(
            f"The name ends in {suffix}, but the file is no workbook.",
            where=source,
            mend="If it holds text, rename it to end in .csv.",
        )
    if found is Kind.WORKBOOK and suffix in (".csv", ".tsv", ".txt"):
        raise SheetError(
            f"The name ends in {suffix}, but the file is packed like a workbook.",
            where=source,
            mend="If it is a workbook, rename it to end in .xlsx.",
        )
