"""Whether a packed file may be unpacked: bounded before a byte of it is.

Limits: quality goals after ASVS 5.0, 5.2.3. Nothing is ever unpacked to a disk, so the names in
the file decide no path; those that would are refused all the same.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import PurePosixPath

from app.domain.wording import tr
from app.exchange.sheets.sheet import MOST_CELLS, SheetError, too_many_cells

MOST_PACKED = 20 * 1024 * 1024
MOST_UNPACKED = 200 * 1024 * 1024
MOST_ENTRIES = 1_000
MOST_RATIO = 100
MOST_OF_TEXTS = 40 * 1024 * 1024
MOST_OF_OTHERS = 8 * 1024 * 1024
"""Bytes of the shared texts, and of a part that is read as a whole: they stand in memory."""

CHUNK = 1 << 20
_SYMLINK = 0xA000
_KINDS = 0xF000
_DECLARATIONS = ("<!DOCTYPE", "<!ENTITY")
_WIDE = tuple(
    word.encode(coding) for word in _DECLARATIONS for coding in ("utf-16-le", "utf-16-be")
)
_PLAIN = tuple(word.encode() for word in _DECLARATIONS)
_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
_MERGED = re.compile(
    rb"<(?:\w+:)?mergeCell\s[^>]{0,200}?ref=\"([A-Z]{1,3}\d{1,7}:[A-Z]{1,3}\d{1,7})\""
)
MOST_MERGED = 20_000
_UNWORKED = re.compile(
    rb"<(?:\w+:)?c\s([^>]{0,200})>\s*"
    rb"<(?:\w+:)?f(?:\s[^>]{0,200})?(?:/>|>[^<]*</(?:\w+:)?f>)\s*"
    rb"(?:<(?:\w+:)?v\s*/>|<(?:\w+:)?v>\s*</(?:\w+:)?v>)?\s*</(?:\w+:)?c>"
)
"""A cell with a formula and no result beside it."""
_PLACE = re.compile(rb"\br=\"([A-Z]{1,3}\d{1,7})\"")
_OF_TEXT = b't="str"'
"""Says that the result is text, which may be empty."""
OVERLAP = 64 * 1024
"""Bytes that two pieces share: more than the longest formula has."""


@dataclass(frozen=True, slots=True)
class Looked:
    """What a look through the parts found, by the part's name.

    merged: ranges of merged cells; unworked: cells with a formula whose result is not stored.
    """

    merged: dict[str, tuple[str, ...]]
    unworked: dict[str, tuple[str, ...]]


def look_through(data: bytes, *, source: str) -> Looked:
    """Refuse what must not be unpacked or read as XML, and find merged cells on the way.

    Raises SheetError.
    """
    if len(data) > MOST_PACKED:
        raise _refused(
            tr(
                "It has {data:,} bytes; at most {most_packed:,} are read.",
                data=len(data),
                most_packed=MOST_PACKED,
            ),
            source,
        )
    try:
        with zipfile.ZipFile(BytesIO(data)) as packed:
            parts = packed.infolist()
            _refuse_sizes(parts, packed_bytes=len(data), source=source)
            _refuse_names(parts, source)
            return _looked(packed, parts, source)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise _refused(tr("It is damaged, locked, or not whole."), source) from error
    except (ValueError, LookupError) as error:
        if isinstance(error, SheetError):
            raise
        raise _refused(tr("It is damaged, locked, or not whole."), source) from error
    except Exception as error:  # zlib and its kin have errors of their own
        raise _refused(tr("It is damaged, locked, or not whole."), source) from error


def _refused(what: str, source: str) -> SheetError:
    return SheetError(
        tr("The workbook is not read. {what}", what=what),
        where=source,
        mend=tr("Save it again from your spreadsheet program, the plan's sheets only."),
    )


def _refuse_sizes(parts: list[zipfile.ZipInfo], *, packed_bytes: int, source: str) -> None:
    if len(parts) > MOST_ENTRIES:
        raise _refused(
            tr(
                "It holds {parts:,} parts; at most {most_entries:,} may be.",
                parts=len(parts),
                most_entries=MOST_ENTRIES,
            ),
            source,
        )
    unpacked = sum(part.file_size for part in parts)
    if unpacked > MOST_UNPACKED:
        raise _refused(
            tr(
                "Unpacked it would have {unpacked:,} bytes; at most {most_unpacked:,} may be.",
                unpacked=unpacked,
                most_unpacked=MOST_UNPACKED,
            ),
            source,
        )
    if unpacked > MOST_RATIO * packed_bytes:
        raise _refused(
            tr(
                "It would grow to {unpacked} times its size; at most {most_ratio} times may be.",
                unpacked=unpacked // packed_bytes,
                most_ratio=MOST_RATIO,
            ),
            source,
        )
    for part in parts:
        most = _most_of(part.filename)
        if part.file_size > most:
            raise _refused(
                tr("A part of it has {file_size:,} bytes.", file_size=part.file_size), source
            )
        if part.flag_bits & 0x1:
            raise _refused(tr("It is locked by a password."), source)


def _most_of(name: str) -> int:
    if "/worksheets/" in f"/{name}" and name.endswith(".xml"):
        return MOST_UNPACKED
    if name.endswith("sharedStrings.xml"):
        return MOST_OF_TEXTS
    return MOST_OF_OTHERS if name.endswith((".xml", ".rels")) else MOST_UNPACKED


def _refuse_names(parts: list[zipfile.ZipInfo], source: str) -> None:
    names = [part.filename for part in parts]
    for part, name in zip(parts, names, strict=True):
        path = PurePosixPath(name.replace("\\", "/"))
        outside = path.is_absolute() or ".." in path.parts or ":" in name or "\0" in name
        if outside or (part.external_attr >> 16) & _KINDS == _SYMLINK:
            raise _refused(tr("A part of it has a name that leads elsewhere."), source)
    if len({name.casefold() for name in names}) < len(names):
        raise _refused(tr("Two parts of it have the same name."), source)
    if "[Content_Types].xml" not in names:
        raise SheetError(
            tr("The file is packed, but it is no workbook."),
            where=source,
            mend=tr("Save the table as .xlsx or as CSV and choose that."),
        )


def _looked(packed: zipfile.ZipFile, parts: list[zipfile.ZipInfo], source: str) -> Looked:
    cells, merged, unworked = 0, {}, {}
    for part in parts:
        if not part.filename.endswith((".xml", ".rels", ".vml")):
            continue
        found: list[str] = []
        blank: list[str] = []
        for chunk, fresh in _chunks(packed, part):
            words = _PLAIN + _WIDE
            if any(word in chunk for word in words):
                raise _refused(tr("It declares entities, which a table has no need of."), source)
            cells += sum(1 for one in _CELL.finditer(chunk) if one.end() > fresh)
            found += [one[1].decode() for one in _MERGED.finditer(chunk) if one.end() > fresh]
            blank += _unworked_in(chunk, fresh)
            if cells > MOST_CELLS:
                raise too_many_cells(source)
            if len(found) > MOST_MERGED:
                raise _refused(tr("It has too many merged cells."), source)
        if found:
            merged[part.filename] = tuple(found)
        if blank:
            unworked[part.filename] = tuple(blank)
    return Looked(merged, unworked)


def _unworked_in(chunk: bytes, fresh: int) -> Iterator[str]:
    """The places of formulas without a result that end past `fresh`."""
    for one in _UNWORKED.finditer(chunk):
        if one.end() > fresh and _OF_TEXT not in one[1]:
            place = _PLACE.search(one[1])
            yield "" if place is None else place[1].decode()


def _chunks(packed: zipfile.ZipFile, part: zipfile.ZipInfo) -> Iterator[tuple[bytes, int]]:
    """The part piece by piece, each with the end of the one before it; where the new begins."""
    kept = b""
    with packed.open(part) as file:
        while piece := file.read(CHUNK):
            yield kept + piece, len(kept)
            kept = (kept + piece)[-OVERLAP:]
