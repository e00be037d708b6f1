"""Which schema this Weekloom writes, and how a new file gets it.

The schema's number stands in the header of the file (`user_version`), so that a newer file is
known for one without opening it; the Alembic revision stands in its own table.
"""

from __future__ import annotations

import sqlite3

from sqlalchemy import Connection

from db.engine import APPLICATION_ID, writing
from db.models import Model

REVISIONS = ("0001",)
"""Every released revision, oldest first. The schema's number is the place in it, from 1."""

HEAD = REVISIONS[-1]
SCHEMA = len(REVISIONS)

SQLITE = sqlite3.sqlite_version
"""The version of SQLite that reads and writes the files."""

_VERSION_TABLE = (
    "CREATE TABLE alembic_version ("
    "version_num VARCHAR(32) NOT NULL, "
    "CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
)


def create(connection: Connection) -> None:
    """Gives an empty file all tables of the newest schema, in one transaction."""
    with writing(connection):
        connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.exec_driver_sql(f"PRAGMA user_version = {SCHEMA}")
        connection.exec_driver_sql(_VERSION_TABLE)
        connection.exec_driver_sql("INSERT INTO alembic_version VALUES (?)", (HEAD,))
        Model.metadata.create_all(connection, checkfirst=False)


def stored_revision(connection: Connection) -> str:
    """The revision the file says it has; empty if it says none."""
    row = connection.exec_driver_sql("SELECT version_num FROM alembic_version").first()
    return "" if row is None else str(row[0])


def lacks(connection: Connection) -> tuple[str, ...]:
    """Columns of the newest schema that the file does not have, as `table.column`."""
    query = (
        "SELECT m.name || '.' || c.name FROM sqlite_master m, pragma_table_info(m.name) c "
        "WHERE m.type = 'table'"
    )
    found = set(connection.exec_driver_sql(query).scalars())
    meant = (str(c) for table in Model.metadata.tables.values() for c in table.columns)
    return tuple(sorted(set(meant) - found))
