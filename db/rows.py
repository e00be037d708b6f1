"""Rows as plain dictionaries by table and key, and the difference between two sets of them.

A value is laid out as rows twice, before and after; what differs is written. Nothing here knows
what a client or a program is (see `client_rows` and `program_rows`).
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache
from typing import cast

from sqlalchemy import Connection, Delete, FromClause, Table, Update, bindparam, delete, insert
from sqlalchemy import and_ as all_of
from sqlalchemy import update as update_table
from sqlalchemy.orm import DeclarativeBase

from db.errors import Cause, StoreFailure
from db.models import Model

SqlValue = str | int | float | bool | date | None
Values = dict[str, SqlValue]
Key = tuple[SqlValue, ...]
Rows = dict[Table, dict[Key, Values]]
"""Rows of some tables, each under the values of its key columns."""


def table_of(model: type[DeclarativeBase]) -> Table:
    """The table behind a typed model."""
    table: FromClause = model.__table__
    return cast(Table, table)


@lru_cache(maxsize=64)
def key_names(table: Table) -> tuple[str, ...]:
    """The key columns of a table, in order."""
    return tuple(column.name for column in table.primary_key.columns)


def put(rows: Rows, table: Table, found: Iterable[Values]) -> None:
    """Adds `found` rows of `table` to `rows`, under their keys."""
    names = key_names(table)
    into = rows.setdefault(table, {})
    for row in found:
        into[tuple(row[name] for name in names)] = row


@lru_cache(maxsize=64)
def _parents_first() -> tuple[Table, ...]:
    return tuple(Model.metadata.sorted_tables)


@lru_cache(maxsize=512)
def _update(table: Table, changed: tuple[str, ...]) -> Update:
    keys = [table.c[name] == bindparam(f"key_{name}") for name in key_names(table)]
    return (
        update_table(table)
        .where(all_of(*keys))
        .values({table.c[name]: bindparam(f"new_{name}") for name in changed})
    )


@lru_cache(maxsize=64)
def _delete(table: Table) -> Delete:
    keys = [table.c[name] == bindparam(f"key_{name}") for name in key_names(table)]
    return delete(table).where(all_of(*keys))


def write_difference(connection: Connection, old: Rows, new: Rows) -> int:
    """Writes what turns `old` rows into `new` ones; how many rows that were.

    Parents come before children and deletions last, so a child can move to a parent that is new
    before its old parent goes. Runs inside the caller's transaction. Raises StoreFailure if a row
    of `old` is no longer there.
    """
    written = 0
    tables = [table for table in _parents_first() if table in old or table in new]
    for table in tables:
        before, after = old.get(table, {}), new.get(table, {})
        fresh = [row for key, row in after.items() if key not in before]
        if fresh:
            connection.execute(insert(table), fresh)
        written += len(fresh) + _write_updates(connection, table, before, after)
    for table in reversed(tables):
        after = new.get(table, {})
        gone = [_key_values(table, key) for key in old.get(table, {}) if key not in after]
        if gone:
            result = connection.execute(_delete(table), gone)
            _all_found(result.rowcount, len(gone))
            written += len(gone)
    return written


def _key_values(table: Table, key: Key) -> Values:
    return {f"key_{name}": value for name, value in zip(key_names(table), key, strict=True)}


def _write_updates(
    connection: Connection, table: Table, before: dict[Key, Values], after: dict[Key, Values]
) -> int:
    by_columns: dict[tuple[str, ...], list[Values]] = {}
    for key, row in after.items():
        earlier = before.get(key)
        if earlier is None or earlier == row:
            continue
        changed = tuple(name for name, value in row.items() if earlier[name] != value)
        values = _key_values(table, key)
        values.update((f"new_{name}", row[name]) for name in changed)
        by_columns.setdefault(changed, []).append(values)
    for changed, parameters in by_columns.items():
        result = connection.execute(_update(table, changed), parameters)
        _all_found(result.rowcount, len(parameters))
    return sum(map(len, by_columns.values()))


def _all_found(found: int, meant: int) -> None:
    if found != meant:
        raise StoreFailure(Cause.CHANGED_OUTSIDE)
