"""All tables of a file as plain rows, and a new file made of such rows.

It is for the whole-file export: what comes back must be the file that went out, row by row, also
after Weekloom has moved on to a newer schema. So the new file gets the schema the rows were written
with, is filled, and is then upgraded like any older file.
"""

from __future__ import annotations

import logging
import os
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from app.domain.wording import tr
from db.backup import refuse_unsound, table_names
from db.engine import APPLICATION_ID, WAIT_S, link_file, reading
from db.errors import Cause, StoreFailure, cause_of, is_of_sqlite, told
from db.passphrase import Passphrase, connect
from db.private import make_private, make_private_folder
from db.schema import HEAD, REVISIONS, create, stored_revision

log = logging.getLogger(__name__)

Value = str | int | float | None
Row = Mapping[str, Value]

KINDS = {"TEXT": "text", "DATE": "text", "INTEGER": "integer", "BOOLEAN": "integer"}
"""What the types of columns hold; anything else holds numbers."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table. kind: 'text', 'integer' or 'number'; optional: it may hold nothing."""

    name: str
    kind: str
    optional: bool


def columns_of(raw: sqlite3.Connection) -> dict[str, tuple[Column, ...]]:
    """The tables of a file with their columns, Alembic's own left out."""
    found = {}
    for table in table_names(raw):
        if table == "alembic_version" or table.startswith("sqlite_"):
            continue
        rows = raw.execute(f'PRAGMA table_info("{table}")').fetchall()
        found[table] = tuple(
            Column(name, KINDS.get(kind.upper().partition("(")[0], "number"), not (required or key))
            for _, name, kind, required, _, key in rows
        )
    return found


def newest_columns() -> dict[str, tuple[Column, ...]]:
    """The tables of the newest schema."""
    from db.engine import link_memory

    link = link_memory()
    try:
        create(link.sql)
        return columns_of(link.raw)
    finally:
        link.close()


Table = tuple[str, tuple[Column, ...], Iterator[Row]]
"""The name of a table, its columns and its rows."""


def read_tables(raw: sqlite3.Connection) -> Iterator[Table]:
    """Every table with its rows in the order of their keys.

    The rows of a table must be taken before the next table is; all of them in one `reading`.
    """
    for table, columns in columns_of(raw).items():
        names = [column.name for column in columns]
        keys = raw.execute(f'PRAGMA table_info("{table}")').fetchall()
        order = [name for _, name, *_, key in sorted(keys, key=lambda row: row[-1]) if key]
        listed = ", ".join(f'"{name}"' for name in names)
        ordered = ", ".join(f'"{name}"' for name in order)
        query = f'SELECT {listed} FROM "{table}" ORDER BY {ordered}'  # noqa: S608  # our own names
        cursor = raw.execute(query)
        yield table, columns, (dict(zip(names, row, strict=True)) for row in cursor)


@contextmanager
def whole(raw: sqlite3.Connection) -> Iterator[tuple[str, Iterator[Table]]]:
    """The schema of the file and its tables, all of one moment, for as long as the block lasts."""
    with reading(raw):
        yield stored_revision(raw), read_tables(raw)


def build(
    target: Path,
    revision: str,
    tables: Iterable[tuple[str, Iterable[Row]]],
    *,
    key: Passphrase | None = None,
) -> None:
    """Makes a new file at `target` of those rows and brings it to the newest schema.

    key: what it is locked with. Laws that only the values know are not checked here. Raises
    StoreFailure, and whatever `tables` raises, with nothing at `target`.
    """
    where = str(target)
    if revision not in REVISIONS:
        raise StoreFailure(Cause.TOO_NEW, where=where)
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    with told(where):
        try:
            make_private_folder(target.parent)
            make_private(part)
            _lay_out(part, revision, key=key)
            _fill(part, tables, key=key, where=where)
            _upgrade(part, revision, key=key)
            if os.path.lexists(target):
                raise StoreFailure(Cause.TAKEN, where=where)
            part.replace(target)
        finally:
            with suppress(OSError):
                part.unlink(missing_ok=True)
                part.with_name(f"{part.name}-journal").unlink(missing_ok=True)
    log.info("made a file of rows of schema %s", revision)


def _lay_out(part: Path, revision: str, *, key: Passphrase | None) -> None:
    if revision == HEAD:
        link = link_file(part, key=key)
        try:
            create(link.sql)
        finally:
            link.close()
        return
    from db.migrate import upgrade

    upgrade(part, revision, key=key)
    with closing(connect(part, wait_s=WAIT_S, key=key)) as raw:
        raw.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def _fill(
    part: Path, tables: Iterable[tuple[str, Iterable[Row]]], *, key: Passphrase | None, where: str
) -> None:
    with closing(connect(part, wait_s=WAIT_S, key=key)) as raw:
        raw.execute("PRAGMA foreign_keys = OFF")  # checked as a whole at the end
        raw.execute("PRAGMA secure_delete = ON")
        known = columns_of(raw)
        raw.execute("BEGIN IMMEDIATE")
        for table, rows in tables:
            if table not in known:
                raise _unfit(where, table)
            names = [column.name for column in known[table]]
            places = ", ".join("?" for _ in names)
            listed = ", ".join(f'"{name}"' for name in names)
            insert = f'INSERT INTO "{table}" ({listed}) VALUES ({places})'  # noqa: S608  # our own
            try:
                raw.executemany(insert, (_values(row, names, where, table) for row in rows))
            except Exception as error:
                if is_of_sqlite(error) and cause_of(error) is None:  # a law of the table
                    raise _unfit(where, table) from error
                raise
        raw.execute("COMMIT")
        refuse_unsound(raw, where)


def _values(row: Row, names: list[str], where: str, table: str) -> list[Value]:
    if row.keys() != set(names):
        raise _unfit(where, table)
    return [row[name] for name in names]


def _unfit(where: str, table: str) -> StoreFailure:
    return StoreFailure(
        Cause.DAMAGED,
        where=where,
        what=tr("The rows of {table} do not fit the tables of a Weekloom file.", table=table),
        mend=tr("Export the file again and take that in."),
    )


def _upgrade(part: Path, revision: str, *, key: Passphrase | None) -> None:
    if revision != HEAD:
        from db.migrate import upgrade

        upgrade(part, key=key)
