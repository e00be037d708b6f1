"""Which schema this Weekloom writes, and how a new file gets it.

The schema's number stands in the header of the file (`user_version`), so that a newer file is
known for one without opening it; the Alembic revision stands in its own table.
"""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING
from zlib import crc32

from db.engine import APPLICATION_ID, writing

if TYPE_CHECKING:
    from sqlalchemy import Connection

REVISIONS = ("0001", "0002", "0003", "0004")
"""Every released revision, oldest first. The schema's number is the place in it, from 1."""

HEAD = REVISIONS[-1]
SCHEMA = len(REVISIONS)

COLUMNS_SUM = 1281690815
"""`sum_of` the names of all columns of the newest schema: a file that has just these lacks none.

A file with others is compared with the models name by name.
"""

SQLITE = sqlite3.sqlite_version
"""The version of SQLite that reads and writes the files."""

_VERSION_TABLE = (
    "CREATE TABLE alembic_version ("
    "version_num VARCHAR(32) NOT NULL, "
    "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
)


def create(connection: Connection) -> None:
    """Gives an empty file all tables of the newest schema, in one transaction."""
    from db.models import Model

    with writing(connection):
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.exec_driver_sql(f"PRAGMA user_version = {SCHEMA}")
        connection.exec_driver_sql(_VERSION_TABLE)
        connection.exec_driver_sql("INSERT INTO alembic_version VALUES (?)", (HEAD,))
        Model.metadata.create_all(connection, checkfirst=False)


def stored_revision(raw: sqlite3.Connection) -> str:
    """The revision the file says it has; empty if it says none."""
    row = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    return "" if row is None else str(row[0])


def sum_of(names: set[str]) -> int:
    """A check sum of names, whatever their order."""
    return crc32("\n".join(sorted(names)).encode())


def lacks(raw: sqlite3.Connection) -> tuple[str, ...]:
    """Columns of the newest schema that the file does not have, as `table.column`."""
    query = (
        "SELECT m.name || '.' || c.name FROM sqlite_master m, pragma_table_info(m.name) c "
        "WHERE m.type = 'table'"
    )
    found = {str(name) for (name,) in raw.execute(query)}
    if sum_of(found) == COLUMNS_SUM:
        return ()
    from db.models import Model

    meant = (str(c) for table in Model.metadata.tables.values() for c in table.columns)
    return tuple(sorted(set(meant) - found))
