"""Connections to the coach's file: one set of switches for all of them, and transactions.

The journal is the DELETE one: SQLite before 3.51.3 can damage a file in WAL mode when two
programs use it, WAL does not work on network drives, and a file that is closed is one file.
`synchronous=EXTRA` is FULL plus a sync of the folder after the journal goes: without it a power
cut can bring the journal back, and with it the state before the last edit.

A locked file is reached through the cipher library (`db.passphrase`), with the same switches.

SQLAlchemy takes a fifth of a second to import. Reading goes without it, so a window is on screen
before it is needed; the first write brings it in (or `Store.prepare`, in a quiet moment).
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from db.passphrase import Passphrase, connect, module_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

APPLICATION_ID = 0x574B_4C4D
"""'WKLM' in the header of the file: what makes it ours."""

WAIT_S = 5.0
"""How long a locked file is waited for, s."""

SWITCHES = (
    "PRAGMA foreign_keys = ON",
    "PRAGMA synchronous = EXTRA",
    "PRAGMA secure_delete = ON",  # what a coach deletes is health data
    "PRAGMA temp_store = MEMORY",
    "PRAGMA trusted_schema = OFF",
    "PRAGMA cell_size_check = ON",
    "PRAGMA mmap_size = 0",
)


def is_writable(path: Path) -> bool:
    """True if the file, and the folder its journal goes to, can be written to."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


class Link:
    """The link to an open file: SQLite's own connection, and SQLAlchemy's over the same one."""

    def __init__(self, raw: sqlite3.Connection) -> None:
        self.raw = raw

    @cached_property
    def sql(self) -> Connection:
        """SQLAlchemy's connection, made when it is first asked for."""
        return sqlalchemy_over(self.raw)

    def close(self) -> None:
        """Lets go of the file. Closing twice is harmless."""
        if "sql" in self.__dict__:
            disconnect(self.sql)
        self.raw.close()


def sqlalchemy_over(raw: sqlite3.Connection) -> Connection:
    """SQLAlchemy's connection over SQLite's own; every statement commits by itself."""
    from sqlalchemy import StaticPool, create_engine

    engine = create_engine(
        "sqlite://",
        module=module_of(raw),
        creator=lambda: raw,
        poolclass=StaticPool,
        isolation_level="AUTOCOMMIT",
    )
    return engine.connect()


def link_file(
    path: Path, *, writable: bool = True, wait_s: float = WAIT_S, key: Passphrase | None = None
) -> Link:
    """The link to an existing file; key: what it is locked with. Raises the driver's Error."""
    raw = connect(path, writable=writable, wait_s=wait_s, key=key)
    return _switched(raw, ("PRAGMA journal_mode = DELETE", *SWITCHES) if writable else SWITCHES)


def link_memory() -> Link:
    """The link to a file that lives in memory only."""
    raw = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    return _switched(raw, SWITCHES)


def _switched(raw: sqlite3.Connection, switches: tuple[str, ...]) -> Link:
    try:
        for switch in switches:
            raw.execute(switch)
    except BaseException:
        raw.close()
        raise
    return Link(raw)


def connect_file(path: Path, *, writable: bool = True, wait_s: float = WAIT_S) -> Connection:
    """SQLAlchemy's connection to an existing file. Raises sqlite3.Error."""
    return link_file(path, writable=writable, wait_s=wait_s).sql


def connect_memory() -> Connection:
    """SQLAlchemy's connection to a file that lives in memory only."""
    return link_memory().sql


def disconnect(connection: Connection) -> None:
    """Closes the connection and what is behind it."""
    connection.close()
    connection.engine.dispose()


@contextmanager
def writing(connection: Connection) -> Iterator[None]:
    """One transaction, durable when the block ends; undone if anything in it raises."""
    connection.exec_driver_sql("BEGIN IMMEDIATE")
    try:
        yield
        connection.exec_driver_sql("COMMIT")
    except BaseException:
        raw = connection.connection.driver_connection
        if raw is not None:
            undo(raw)
        raise


@contextmanager
def reading(raw: sqlite3.Connection) -> Iterator[None]:
    """One view of the file for several queries, whatever other windows write meanwhile."""
    raw.execute("BEGIN")
    try:
        yield
    finally:
        undo(raw)


def undo(raw: sqlite3.Connection) -> None:
    """Ends the transaction, if one is open, with everything as it was."""
    # a full disk makes SQLite undo the transaction by itself
    if raw.in_transaction:
        raw.rollback()
