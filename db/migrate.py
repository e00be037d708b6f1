"""Upgrading an older file, in one transaction that either happens whole or not at all.

Alembic is imported here and nowhere else, and only when a file really is older. The connection is
its own: rebuilding a table with foreign keys on would delete the rows that point to it, and the
switch does nothing inside a transaction. So foreign keys are off from the start, checked before
the end, and on again with the ordinary connection.
"""

from __future__ import annotations

import sys
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection

from app.domain.wording import tr
from db.engine import (
    WAIT_S,
    connect_memory,
    disconnect,
    sqlalchemy_over,
    writing,
)
from db.errors import Cause, StoreFailure, told
from db.passphrase import Passphrase, connect
from db.schema import HEAD, REVISIONS

SCRIPTS = Path(__file__).parent / "migrations"
"""The folder with Alembic's scripts."""


def upgrade(
    path: Path, target: str = HEAD, *, scripts: Path = SCRIPTS, key: Passphrase | None = None
) -> None:
    """Brings the file at `path` to revision `target`; it is as it was if anything fails.

    key: what it is locked with, if it is.

    Raises StoreFailure if rows would be left that point to nothing.
    """
    with told(str(path)):
        connection = _connect(path, key)
        try:
            with writing(connection):
                run(connection, target, scripts=scripts)
                _refuse_strays(connection, str(path))
        finally:
            disconnect(connection)


def run(connection: Connection, target: str = HEAD, *, scripts: Path = SCRIPTS) -> None:
    """Runs the scripts up to `target` inside the caller's transaction."""
    command.upgrade(configuration(connection, scripts), target)
    if target in REVISIONS:
        number = REVISIONS.index(target) + 1
        connection.exec_driver_sql(f"PRAGMA user_version = {number}")


def configuration(connection: Connection, scripts: Path = SCRIPTS) -> Config:
    """What Alembic needs to know, with no file of its own."""
    config = Config()
    config.set_main_option("script_location", str(scripts).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def draft(why: str, *, scripts: Path = SCRIPTS) -> None:
    """Writes a new revision with what the models have beyond the scripts, to be read by hand."""
    connection = connect_memory()
    try:
        with writing(connection):
            run(connection, "head", scripts=scripts)
            command.revision(
                configuration(connection, scripts),
                why,
                autogenerate=True,
                rev_id=f"{len(REVISIONS) + 1:04}",
            )
    finally:
        disconnect(connection)


def _connect(path: Path, key: Passphrase | None) -> Connection:
    raw = connect(path, wait_s=WAIT_S, key=key)
    for switch in (
        "PRAGMA foreign_keys = OFF",
        "PRAGMA synchronous = EXTRA",
        "PRAGMA secure_delete = ON",
        "PRAGMA temp_store = MEMORY",
    ):
        raw.execute(switch)
    return sqlalchemy_over(raw)


def _refuse_strays(connection: Connection, where: str) -> None:
    strays = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
    if strays:
        tables = ", ".join(sorted({str(row[0]) for row in strays}))
        raise StoreFailure(
            Cause.DAMAGED,
            where=where,
            what=tr(
                "Upgrading would leave rows of {tables} that belong to nothing, "
                "so the file was left as it is.",
                tables=tables,
            ),
        )


if __name__ == "__main__":
    draft(" ".join(sys.argv[1:]))
