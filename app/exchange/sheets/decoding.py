"""Bytes of a text as letters: Unicode where it is, else the encoding that fits best.

A file put together from two encodings is read line by line, and that is said.
"""

from __future__ import annotations

import codecs
from dataclasses import dataclass

from app.domain.wording import tr, trn
from app.exchange.sheets.sheet import SheetError

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
USUAL = "cp1252"
"""What a file is taken for that nothing else tells about: the most common one without Unicode."""

ENCODINGS = (
    "utf-8",
    "utf-16",
    "cp1252",
    "iso8859_15",
    "cp1250",
    "iso8859_2",
    "cp1251",
    "cp1253",
    "cp1254",
    "cp1257",
    "mac_roman",
    "cp850",
)
"""What can be told apart or chosen by hand."""
SAMPLE = 100_000


@dataclass(frozen=True, slots=True)
class Decoded:
    """A text, the encoding it was read by, and what was odd about that."""

    text: str
    encoding: str
    remark: str = ""


def decode(data: bytes, *, source: str, encoding: str = "") -> Decoded:
    """The text of the bytes. encoding: one that the coach chose; found out where it is empty.

    Raises SheetError where the bytes are no text.
    """
    if encoding:
        return Decoded(_as(data, encoding, source).lstrip("\ufeff"), encoding)
    for mark, name in _MARKS:
        if data.startswith(mark):
            return Decoded(_as(data, name, source), name.removesuffix("-sig"))
    wide = _wide(data)
    if wide:
        return Decoded(_as(data, wide, source), wide)
    _refuse_binary(data, source)
    try:
        return Decoded(data.decode("utf-8"), "utf-8")
    except UnicodeDecodeError:
        return _mixed(data) or _likely(data)


def _as(data: bytes, encoding: str, source: str) -> str:
    try:
        return data.decode(encoding)
    except (UnicodeError, LookupError):
        raise SheetError(
            tr("The file cannot be read as {encoding}.", encoding=encoding),
            where=source,
            mend=tr("Choose another encoding, or save the file again as UTF-8."),
        ) from None


def _wide(data: bytes) -> str:
    """UTF-16 without its mark, told by the zeros between Latin letters; else empty."""
    start = data[:4000]
    pairs = len(start) // 2
    if pairs < 2 or len(data) % 2:
        return ""
    even, odd = start[0 : 2 * pairs : 2].count(0), start[1 : 2 * pairs : 2].count(0)
    if odd > 0.6 * pairs and even < 0.05 * pairs:
        return "utf-16-le"
    return "utf-16-be" if even > 0.6 * pairs and odd < 0.05 * pairs else ""


def _refuse_binary(data: bytes, source: str) -> None:
    start = data[:SAMPLE]
    strange = sum(start.count(byte) for byte in range(32) if byte not in b"\t\n\r\f\x1a\x1b")
    if start.count(0) > 8 or strange > 0.02 * len(start) + 8:
        raise SheetError(
            tr("The file is no text."),
            where=source,
            mend=tr("Save the table as .xlsx or as CSV and choose that."),
        )


def _mixed(data: bytes) -> Decoded | None:
    """The text line by line where some lines are Unicode and some are not; None if none is."""
    lines, strange, unicode = [], 0, 0
    for line in data.split(b"\n"):
        try:
            lines.append(line.decode("utf-8"))
            unicode += not line.isascii()
        except UnicodeDecodeError:
            strange += 1
            lines.append(line.decode(USUAL, errors="replace"))
    if not unicode:
        return None
    remark = trn(
        "{n} line is not UTF-8 like the others; it was read as Windows-1252.",
        "{n} lines are not UTF-8 like the others; they were read as Windows-1252.",
        strange,
    )
    return Decoded("\n".join(lines), "utf-8", remark)


def _likely(data: bytes) -> Decoded:
    from charset_normalizer import from_bytes

    told = b"\n".join(line for line in data[:SAMPLE].split(b"\n") if not line.isascii())
    best = from_bytes(told, cp_isolation=[*ENCODINGS]).best()
    name = USUAL if best is None else best.encoding
    try:
        text = data.decode(name)
    except UnicodeDecodeError:
        name, text = USUAL, data.decode(USUAL, errors="replace")
    remark = tr("The file does not say its encoding; it was read as {name}.", name=name)
    return Decoded(text, name, remark)
