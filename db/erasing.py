"""Removing all that is held on one client, so that no byte of it stays in a file.

Deleting rows is not enough: SQLite leaves what stood in them in free pages. Here they are written
over (`secure_delete`), and the file is then built anew without them (`VACUUM`). Only tables and
columns that every schema has are named, so that copies of older schemas can be rewritten too.
"""

from __future__ import annotations

import logging
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from app.domain.client import ClientId
from db.backup import refuse_unsound, table_names
from db.engine import WAIT_S
from db.errors import told
from db.header import admit, refuse_hidden
from db.passphrase import Passphrase, connect

if TYPE_CHECKING:
    from sqlalchemy import Connection

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Footprint:
    """How much a file holds on one client."""

    name: str
    programs: int
    issues: int
    tests: int
    screenings: int
    check_ins: int
    results: int
    edits: int


_COUNTED = ("programs", "issues", "strength_tests", "screenings", "check_ins", "results", "edits")


def footprint(raw: sqlite3.Connection, client_id: ClientId) -> Footprint:
    """What the file holds on the client. Raises LookupError if there is none of that id."""
    row = raw.execute("SELECT name FROM clients WHERE id = ?", (client_id,)).fetchone()
    if row is None:
        raise LookupError(client_id)
    counts = []
    for table in _COUNTED:
        query = f"SELECT count(*) FROM {table} WHERE client_id = ?"  # noqa: S608  # our own names
        counts.append(int(raw.execute(query, (client_id,)).fetchone()[0]))
    return Footprint(str(row[0]), *counts)


def picture_names(raw: sqlite3.Connection) -> frozenset[str]:
    """The pictures that any check-in of the file names."""
    rows = raw.execute("SELECT DISTINCT name FROM check_in_pictures").fetchall()
    return frozenset(str(name) for (name,) in rows)


def remove_rows(connection: Connection, client_id: ClientId, name: str) -> None:
    """Deletes the client with all that belongs to it, and settings that name it."""
    for statement, values in _deletions(client_id, name):
        connection.exec_driver_sql(statement, values)


def _deletions(client_id: ClientId, name: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    of_client = "DELETE FROM settings WHERE instr(key, ?) OR instr(value, ?)"
    # what the calendars of a program were told, see `app.calendars`
    of_programs = (
        "DELETE FROM settings WHERE key IN "
        "(SELECT 'calendar ' || id FROM programs WHERE client_id = ?)"
    )
    return (
        (of_programs, (client_id,)),
        ("DELETE FROM clients WHERE id = ?", (client_id,)),
        (of_client, (client_id, client_id)),
        (of_client, (name, name)),
    )


def build_anew(raw: sqlite3.Connection) -> None:
    """Writes the file without its free pages. Raises the driver's Error."""
    raw.execute("VACUUM")


def mentions(raw: sqlite3.Connection, name: str) -> int:
    """How many rows of the file have the name in one of their texts still."""
    found = 0
    for table in table_names(raw):
        columns = [
            column
            for _, column, kind, *_ in raw.execute(f'PRAGMA table_info("{table}")').fetchall()
            if kind.upper() in ("TEXT", "VARCHAR", "")
        ]
        if columns:
            where = " OR ".join(f'instr("{column}", ?)' for column in columns)
            query = f'SELECT count(*) FROM "{table}" WHERE {where}'  # noqa: S608  # our own names
            found += int(raw.execute(query, [name] * len(columns)).fetchone()[0])
    return found


def holds(path: Path, client_id: ClientId, *, key: Passphrase | None) -> bool:
    """True if the file at `path` holds that client. Raises StoreFailure if it cannot be read."""
    with told(str(path)):
        needed = admit(path, key)
        with closing(connect(path, writable=False, wait_s=WAIT_S, key=needed)) as raw:
            row = raw.execute("SELECT 1 FROM clients WHERE id = ?", (client_id,)).fetchone()
            return row is not None


def rewrite(path: Path, client_id: ClientId, *, key: Passphrase | None) -> None:
    """Removes the client from a file that is not open. Raises StoreFailure.

    It is done in one transaction; the file is as it was if that fails.
    """
    with told(str(path)):
        needed = admit(path, key)
        with closing(connect(path, wait_s=WAIT_S, key=needed)) as raw:
            for switch in ("foreign_keys = ON", "secure_delete = ON", "synchronous = EXTRA"):
                raw.execute(f"PRAGMA {switch}")
            raw.execute("PRAGMA temp_store = MEMORY")
            refuse_hidden(raw, str(path))
            raw.execute("BEGIN IMMEDIATE")
            row = raw.execute("SELECT name FROM clients WHERE id = ?", (client_id,)).fetchone()
            if row is not None:
                for statement, values in _deletions(client_id, str(row[0])):
                    raw.execute(statement, values)
            raw.execute("COMMIT")
            build_anew(raw)
            refuse_unsound(raw, str(path))
    log.info("rewrote a copy without a client")
