"""The whole-file export: a packed folder of open formats, with everything a coach's file holds.

    weekloom.json         what this is: format, version, schema, rows and check sum of each table
    tables/NAME.jsonl     a table, one row a line as JSON: what is read back
    csv/NAME.csv          the same for a spreadsheet; never read back
    pictures/NAME         the pictures of check-ins
    whole.schema.json     the published description of all this

Nothing is ever unpacked to a disk by the names in it. Reading is bounded (quality goals after ASVS
5.0, 5.2.3), and what does not fit is refused before any of it is taken in.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import re
import zipfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.tables.cell import guarded

FORMAT = "weekloom whole file"
VERSION = 1
SUFFIX = ".weekloom.zip"

MOST_PACKED = 1_000_000_000
MOST_UNPACKED = 4_000_000_000
MOST_ENTRIES = 50_000
MOST_RATIO = 100
SMALL = 1_000_000
"""Entries up to this size, bytes, are not held to the ratio: a table of one coach packs well."""
MOST_LINE = 20_000_000
MOST_PICTURE = 8_000_000

MANIFEST = "weekloom.json"
SCHEMA = "whole.schema.json"
README = "README.txt"

Value = str | int | float | None
Row = Mapping[str, Value]

_TABLE = re.compile(r"tables/([a-z_]{1,60})\.jsonl")
_CSV = re.compile(r"csv/[a-z_]{1,60}\.csv")
_PICTURE = re.compile(r"pictures/([A-Za-z0-9][A-Za-z0-9._-]{0,120})")
_SYMLINK, _KINDS = 0xA000, 0xF000
_TIME = (2026, 1, 1, 0, 0, 0)
"""The time of every entry, so that the same file always packs into the same bytes."""

_ABOUT = """Everything that one Weekloom file holds, in open formats.

tables/   one table a file, one row a line, as JSON. This is what Weekloom reads back.
csv/      the same tables for a spreadsheet. A text that a spreadsheet would run as a formula has
          a quote in front.
pictures/ the pictures of check-ins, by the names that check_in_pictures gives.
whole.schema.json  describes weekloom.json and every column (JSON Schema, draft 2020-12).

Masses are in kg, lengths in cm, times in s, energy in kcal, days as 2026-11-29. Columns called
`value` hold a whole record as JSON text: a booklet as handed out, an own exercise, an own range.
The files are not encrypted, whatever the Weekloom file is.
"""


class WholeFileError(CoachError):
    """A whole-file export that cannot be read."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """What an export says of itself. rows: how many each table has, by name."""

    schema: str
    rows: Mapping[str, int]
    sums: Mapping[str, str]
    pictures: Mapping[str, str]


# -- out -----------------------------------------------------------------------------------------


def write_whole(
    out: IO[bytes],
    *,
    schema: str,
    tables: Iterable[tuple[str, tuple[str, ...], Iterator[Row]]],
    pictures: Iterable[tuple[str, bytes]],
    published: str,
    cancelled: Callable[[], bool] = lambda: False,
) -> Manifest:
    """Writes an export to `out`; what it says of itself.

    tables: name, columns and rows of each; published: the text of the schema that goes along.
    cancelled: asked between tables; True ends it with what is written so far.
    """
    rows: dict[str, int] = {}
    sums: dict[str, str] = {}
    shown: dict[str, str] = {}
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as packed:
        for name, columns, found in tables:
            if cancelled():
                break
            rows[name], sums[name] = _write_table(packed, name, columns, found)
        for name, picture in pictures:
            shown[name] = hashlib.sha256(picture).hexdigest()
            packed.writestr(_entry(f"pictures/{name}", stored=True), picture)
        manifest = Manifest(schema, rows, sums, shown)
        packed.writestr(_entry(MANIFEST), json.dumps(_record(manifest), indent=2) + "\n")
        packed.writestr(_entry(SCHEMA), published)
        packed.writestr(_entry(README), _ABOUT)
    return manifest


def _record(manifest: Manifest) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "version": VERSION,
        "schema": manifest.schema,
        "tables": {
            name: {"rows": count, "sha256": manifest.sums[name]}
            for name, count in manifest.rows.items()
        },
        "pictures": {name: {"sha256": found} for name, found in manifest.pictures.items()},
    }


def _entry(name: str, *, stored: bool = False) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, _TIME)
    entry.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
    entry.external_attr = 0o600 << 16
    return entry


def _write_table(
    packed: zipfile.ZipFile, name: str, columns: tuple[str, ...], rows: Iterator[Row]
) -> tuple[int, str]:
    digest = hashlib.sha256()
    count = 0
    table = io.StringIO(newline="")
    writer = csv.writer(table, lineterminator="\r\n")
    writer.writerow(columns)
    with packed.open(_entry(f"tables/{name}.jsonl"), "w", force_zip64=True) as lines:
        for row in rows:
            line = json.dumps(row, ensure_ascii=False, allow_nan=False).encode() + b"\n"
            lines.write(line)
            digest.update(line)
            writer.writerow([guarded(v) if isinstance(v, str) else v for v in row.values()])
            count += 1
    packed.writestr(_entry(f"csv/{name}.csv"), table.getvalue().encode("utf-8-sig"))
    return count, digest.hexdigest()


# -- in ------------------------------------------------------------------------------------------


class WholeFile:
    """An export that was found fit to be read: its manifest, tables and pictures."""

    def __init__(self, packed: zipfile.ZipFile, manifest: Manifest, source: str) -> None:
        self.manifest = manifest
        self._packed = packed
        self._source = source

    def tables(self) -> Iterator[tuple[str, Iterator[Row]]]:
        """Each table with its rows, checked on the way. Raises WholeFileError."""
        for name in self.manifest.rows:
            yield name, self._rows(name)

    def _rows(self, name: str) -> Iterator[Row]:
        digest, count = hashlib.sha256(), 0
        entry = f"tables/{name}.jsonl"
        with _told(self._source), self._packed.open(entry) as lines:
            while line := lines.readline(MOST_LINE + 1):
                count += 1
                digest.update(line)
                yield _row(line, where=f"{self._source}, {entry}, {tr('line {n}', n=count)}")
        if (count, digest.hexdigest()) != (self.manifest.rows[name], self.manifest.sums[name]):
            raise _unlike(self._source, entry)

    def pictures(self) -> Iterator[tuple[str, bytes]]:
        """Each picture with its name. Raises WholeFileError."""
        for name, told in self.manifest.pictures.items():
            with _told(self._source), self._packed.open(f"pictures/{name}") as entry:
                picture = entry.read(MOST_PICTURE + 1)
            if len(picture) > MOST_PICTURE or hashlib.sha256(picture).hexdigest() != told:
                raise _unlike(self._source, f"pictures/{name}")
            yield name, picture


def _row(line: bytes, *, where: str) -> Row:
    try:
        row = json.loads(line.decode(), object_pairs_hook=_once, parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise _no_row(where) from None
    if not isinstance(row, dict) or not all(
        value is None or isinstance(value, (str, int, float)) for value in row.values()
    ):
        raise _no_row(where)
    return row


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    row = dict(pairs)
    if len(row) < len(pairs):
        raise ValueError(pairs)
    return row


def _no_number(word: str) -> float:
    raise ValueError(word)


def _no_row(where: str) -> WholeFileError:
    return WholeFileError(
        tr("That is no row of a table."), where=where, mend=tr("Export the file again.")
    )


def _unlike(source: str, entry: str) -> WholeFileError:
    return WholeFileError(
        tr("{entry} is not what it was when it was exported.", entry=entry),
        where=source,
        mend=tr("Export the file again."),
    )


@contextmanager
def _told(source: str) -> Iterator[None]:
    try:
        yield
    except CoachError:
        raise
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise _broken(source) from error
    except Exception as error:  # zlib has errors of its own
        if type(error).__module__ not in ("zlib", "lzma", "_lzma"):
            raise
        raise _broken(source) from error


def _broken(source: str) -> WholeFileError:
    return WholeFileError(
        tr("The file is damaged, locked, or not a whole-file export."),
        where=source,
        mend=tr("Choose a file that Weekloom exported whole."),
    )


@contextmanager
def open_whole(path: Path, *, published: Mapping[str, Any]) -> Iterator[WholeFile]:
    """The export at `path`, found fit before a row of it is read.

    published: the schema it is held against. Raises WholeFileError.
    """
    source = str(path)
    with _told(source), path.open("rb") as file:
        if path.stat().st_size > MOST_PACKED:
            raise _too_large(source)
        with zipfile.ZipFile(file) as packed:
            _refuse_entries(packed.infolist(), source)
            manifest = _manifest(packed, source, published)
            _refuse_strays(packed.namelist(), manifest, source)
            yield WholeFile(packed, manifest, source)


def _too_large(source: str) -> WholeFileError:
    return WholeFileError(
        tr("The file would take too much room when it is unpacked, so it is not read."),
        where=source,
        mend=tr("Choose a file that Weekloom exported whole."),
    )


def _refuse_entries(entries: list[zipfile.ZipInfo], source: str) -> None:
    if len(entries) > MOST_ENTRIES or sum(e.file_size for e in entries) > MOST_UNPACKED:
        raise _too_large(source)
    seen: set[str] = set()
    for entry in entries:
        if entry.filename in seen:
            raise _strange(source, entry.filename)
        seen.add(entry.filename)
        kind = (entry.external_attr >> 16) & _KINDS
        if entry.flag_bits & 0x1 or kind == _SYMLINK or not _is_known(entry.filename):
            raise _strange(source, entry.filename)
        if entry.file_size > SMALL and entry.file_size > MOST_RATIO * max(1, entry.compress_size):
            raise _too_large(source)


def _is_known(name: str) -> bool:
    if name in (MANIFEST, SCHEMA, README):
        return True
    return any(form.fullmatch(name) for form in (_TABLE, _CSV, _PICTURE))


def _strange(source: str, name: str) -> WholeFileError:
    return WholeFileError(
        tr("{name!r} has no place in a whole-file export.", name=name[:80]),
        where=source,
        mend=tr("Choose a file that Weekloom exported whole."),
    )


def _manifest(packed: zipfile.ZipFile, source: str, published: Mapping[str, Any]) -> Manifest:
    if MANIFEST not in packed.namelist():
        raise _broken(source)
    with packed.open(MANIFEST) as entry:
        text = entry.read(MOST_LINE + 1)
    try:
        record = json.loads(text.decode(), object_pairs_hook=_once, parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise _broken(source) from None
    _refuse_version(record, source)
    _refuse_faults(record, source, published)
    return Manifest(
        record["schema"],
        {name: table["rows"] for name, table in record["tables"].items()},
        {name: table["sha256"] for name, table in record["tables"].items()},
        {name: picture["sha256"] for name, picture in record["pictures"].items()},
    )


def _refuse_version(record: Any, source: str) -> None:
    version = record.get("version") if isinstance(record, dict) else None
    if isinstance(version, int) and version > VERSION:
        raise WholeFileError(
            tr(
                "The export has version {found}; this Weekloom reads version {known}.",
                found=version,
                known=VERSION,
            ),
            where=source,
            mend=tr("Update Weekloom on this computer, then take it in again."),
        )


def _refuse_faults(record: Any, source: str, published: Mapping[str, Any]) -> None:
    from jsonschema import Draft202012Validator

    from app.exchange.faults import fault

    error = next(Draft202012Validator(published).iter_errors(record), None)
    if error is not None:
        said = fault(error, source=f"{source}, {MANIFEST}")
        raise WholeFileError(said.what, where=said.where, mend=said.mend)


def _refuse_strays(names: list[str], manifest: Manifest, source: str) -> None:
    """What is packed and what the manifest names must be the same."""
    tables = {found[1] for name in names if (found := _TABLE.fullmatch(name))}
    pictures = {found[1] for name in names if (found := _PICTURE.fullmatch(name))}
    for packed, named in ((tables, manifest.rows), (pictures, manifest.pictures)):
        if odd := packed ^ set(named):
            raise _strange(source, sorted(odd)[0])
