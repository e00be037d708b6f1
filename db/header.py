"""The first hundred bytes of a file: whose it is, before SQLite is asked to touch it.

Offsets are those of SQLite's published file format (1.3, "The Database Header").
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from db.engine import APPLICATION_ID
from db.errors import Cause, StoreFailure
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
        raise StoreFailure(Cause.DAMAGED, where=str(path), what="The file is empty.")
    if not start.startswith(MAGIC[: len(start)]):
        raise StoreFailure(Cause.NOT_OURS, where=str(path))
    if len(start) < LENGTH:
        raise StoreFailure(Cause.DAMAGED, where=str(path), what="The file is cut short.")

    def number(at: int, length: int = 4) -> int:
        return int.from_bytes(start[at : at + length], "big")

    page_size = number(16, 2)
    return Header(
        page_size=65536 if page_size == 1 else page_size,
        pages=number(28),
        schema=number(60),
        application_id=number(68),
    )


def admit(path: Path) -> Header:
    """The header of a file of ours that this Weekloom can read; 0 bytes are changed.

    Raises StoreFailure for a file that is not ours, newer than we are, or cut short.
    """
    header = read_header(path)
    where = str(path)
    if header.application_id != APPLICATION_ID:
        raise StoreFailure(Cause.NOT_OURS, where=where)
    if header.schema > SCHEMA:
        raise too_new(where, str(header.schema))
    # with a journal beside it the file may be in mid-change; SQLite will put that right
    has_journal = path.with_name(f"{path.name}-journal").exists()
    if not has_journal and path.stat().st_size < header.size:
        raise StoreFailure(Cause.DAMAGED, where=where, what="The file is cut short.")
    return header


def too_new(where: str, schema: str) -> StoreFailure:
    """The refusal of a file that a newer Weekloom wrote; names both schemas."""
    return StoreFailure(
        Cause.TOO_NEW,
        where=where,
        what=f"The file was written by a newer Weekloom (schema {schema}; this one reads up to "
        f"{SCHEMA}), so it was left as it is.",
    )
