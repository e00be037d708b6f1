"""The first hundred bytes of a file: whose it is, before SQLite is asked to touch it.

Offsets are those of SQLite's published file format (1.3, "The Database Header").
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from app.domain.wording import tr
from db.engine import APPLICATION_ID
from db.errors import Cause, StoreFailure
from db.passphrase import PAGE_BYTES, Passphrase, fits, looks_locked
from db.schema import SCHEMA

MAGIC = b"SQLite format 3\0"
LENGTH = 100


@dataclass(frozen=True, slots=True)
class Header:
    """What the header says: page size in bytes, pages, the schema's number and the owner."""

    page_size: int
    pages: int
    schema: int
    application_id: int

    @property
    def size(self) -> int:
        """The bytes the file should have."""
        return self.page_size * self.pages


def read_header(path: Path) -> Header:
    """The header of the file. Raises StoreFailure for one that is no database at all."""
    with path.open("rb") as file:
        start = file.read(LENGTH)
    if not start:
        raise StoreFailure(Cause.DAMAGED, where=str(path), what=tr("The file is empty."))
    if not start.startswith(MAGIC[: len(start)]):
        raise StoreFailure(Cause.NOT_OURS, where=str(path))
    if len(start) < LENGTH:
        raise StoreFailure(Cause.DAMAGED, where=str(path), what=tr("The file is cut short."))

    def number(at: int, length: int = 4) -> int:
        return int.from_bytes(start[at : at + length], "big")

    page_size = number(16, 2)
    return Header(
        page_size=65536 if page_size == 1 else page_size,
        pages=number(28),
        schema=number(60),
        application_id=number(68),
    )


def admit(path: Path, key: Passphrase | None = None) -> Passphrase | None:
    """Lets a file of ours through that this Weekloom can read; 0 bytes are changed.

    key: what it opens with if it is locked. Gives the key back if the file needs it, and None for
    a file without a lock. Raises StoreFailure for a file that is not ours, newer than we are, cut
    short, or locked with another passphrase or none given.
    """
    if looks_locked(path):
        return _admit_locked(path, key)
    header = read_header(path)
    where = str(path)
    _refuse_strange(header.application_id, header.schema, where=where)
    # with a journal beside it the file may be in mid-change; SQLite will put that right
    if not _has_journal(path) and path.stat().st_size < header.size:
        raise _cut_short(where)
    return None


def _has_journal(path: Path) -> bool:
    return path.with_name(f"{path.name}-journal").exists()


def _cut_short(where: str) -> StoreFailure:
    return StoreFailure(Cause.DAMAGED, where=where, what=tr("The file is cut short."))


def _admit_locked(path: Path, key: Passphrase | None) -> Passphrase:
    where = str(path)
    if key is None:
        raise StoreFailure(Cause.NEEDS_PASSPHRASE, where=where)
    # before SQLite is asked to put a journal right with it
    if not fits(path, key):
        raise StoreFailure(Cause.WRONG_PASSPHRASE, where=where)
    if not _has_journal(path) and path.stat().st_size % PAGE_BYTES:
        raise _cut_short(where)
    return key


def admit_inside(raw: sqlite3.Connection, where: str) -> None:
    """The same for what an unlocked file says of itself. Raises StoreFailure."""
    owner = raw.execute("PRAGMA application_id").fetchone()[0]
    schema = raw.execute("PRAGMA user_version").fetchone()[0]
    _refuse_strange(int(owner), int(schema), where=where)


def refuse_hidden(raw: sqlite3.Connection, where: str) -> None:
    """Raises StoreFailure for a file that would do more than hold rows: a trigger, a view, a table
    that runs a module, a name that would be taken for a part of a query. No Weekloom makes any, so
    somebody put it there.
    """
    found = raw.execute(
        "SELECT name FROM sqlite_master WHERE type IN ('trigger', 'view') "
        "OR sql LIKE 'CREATE VIRTUAL%' OR (type = 'table' AND name GLOB '*[^a-z0-9_]*') "
        "UNION SELECT m.name || '.' || c.name FROM sqlite_master m, pragma_table_info(m.name) c "
        "WHERE m.type = 'table' AND c.name GLOB '*[^a-z0-9_]*' ORDER BY 1"
    ).fetchall()
    if found:
        raise StoreFailure(
            Cause.NOT_OURS,
            where=where,
            what=tr(
                "The file holds something that acts by itself and that no Weekloom made ({name}), "
                "so it was left as it is.",
                name=found[0][0],
            ),
            mend=tr("Ask whoever sent it for an export, and take that in."),
        )


def _refuse_strange(owner: int, schema: int, *, where: str) -> None:
    if owner != APPLICATION_ID:
        raise StoreFailure(Cause.NOT_OURS, where=where)
    if schema > SCHEMA:
        raise too_new(where, str(schema))


def too_new(where: str, schema: str) -> StoreFailure:
    """The refusal of a file that a newer Weekloom wrote; names both schemas."""
    return StoreFailure(
        Cause.TOO_NEW,
        where=where,
        what=tr(
            "The file was written by a newer Weekloom (schema {schema}; this "
            "one reads up to {schema_2}), so it was left as it is.",
            schema=schema,
            schema_2=SCHEMA,
        ),
    )
