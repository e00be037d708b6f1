"""What a save writes: the difference between two values, their versions, and a line in the log.

Everything here runs inside the caller's transaction. This is the half of the store that needs
SQLAlchemy, so `db.store` imports it with the first write.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from datetime import UTC, datetime

from sqlalchemy import Connection, Table, delete, insert, select, update

from app.domain.client import Client, ClientId
from app.domain.program import Program, ProgramId
from app.domain.results import Diary
from app.domain.wording import tr
from app.domain.work import Work
from db.client_rows import CLIENTS, client_rows
from db.diary_reading import read_diary
from db.diary_rows import changed_diary_rows, diary_rows
from db.errors import Cause, StoreFailure
from db.models import EditRow
from db.program_rows import PROGRAMS, changed_rows, program_rows
from db.rows import table_of, write_difference

EDITS = table_of(EditRow)

DIARIES = "diaries"

Versions = dict[tuple[str, str], int]
"""How often a client, a diary or a program has been saved, by kind and id."""


def save(
    connection: Connection,
    before: Work | None,
    *,
    after: Work,
    label: str,
    at: datetime,
    seen: Mapping[tuple[str, str], int],
) -> Versions:
    """Writes what differs between two values and notes `label`; the versions that changed.

    seen: the versions as they were read or written last. Raises StoreFailure if another window
    has saved the same client or program since, or something else has the id of what is new.
    """
    versions: Versions = {}
    earlier = before.client if before and before.client.id == after.client.id else None
    if earlier is not after.client:
        versions |= _write_client(connection, earlier, after.client, seen=seen)
    if after.diary is not None:
        known_diary = before.diary if before and earlier is not None else None
        if known_diary is not after.diary:
            versions |= _write_diary(
                connection,
                after.client.id,
                before=known_diary,
                after=after.diary,
                seen=seen,
                is_new=earlier is None,
            )
    program_id = None
    if after.program is not None:
        known = before.program if before and before.program else None
        if known is not None and known.id != after.program.id:
            known = None
        if known is not after.program:
            program_id = after.program.id
            owner = after.client.id
            versions |= _write_program(
                connection, owner, before=known, after=after.program, seen=seen
            )
    _note(connection, after.client.id, program_id=program_id, label=label, at=at)
    return versions


def _write_client(
    connection: Connection,
    before: Client | None,
    after: Client,
    *,
    seen: Mapping[tuple[str, str], int],
) -> Versions:
    if before is None:
        version = _first_version(connection, CLIENTS, after.id)
    else:
        version = _next_version(
            connection, CLIENTS, after.id, known=seen.get((CLIENTS.name, after.id))
        )
    old = {} if before is None else client_rows(before)
    write_difference(connection, old, client_rows(after))
    return {(CLIENTS.name, after.id): version}


def _write_diary(
    connection: Connection,
    client_id: ClientId,
    *,
    before: Diary | None,
    after: Diary,
    seen: Mapping[tuple[str, str], int],
    is_new: bool,
) -> Versions:
    if is_new:
        write_difference(connection, {}, diary_rows(client_id, after))
        return {(DIARIES, client_id): 1}
    version = _next_version(
        connection,
        CLIENTS,
        client_id,
        known=seen.get((DIARIES, client_id)),
        counted_in="diary_version",
    )
    if before is None:  # it was not read, so what is to be changed is looked up
        before = _stored_diary(connection, client_id)
    write_difference(connection, *changed_diary_rows(client_id, before, after))
    return {(DIARIES, client_id): version}


def _stored_diary(connection: Connection, client_id: ClientId) -> Diary:
    raw = connection.connection.driver_connection
    assert isinstance(raw, sqlite3.Connection)
    diary, _ = read_diary(raw, client_id)
    return diary


def _write_program(
    connection: Connection,
    client_id: ClientId,
    *,
    before: Program | None,
    after: Program,
    seen: Mapping[tuple[str, str], int],
) -> Versions:
    if before is None:
        version = _first_version(connection, PROGRAMS, after.id)
        write_difference(connection, {}, program_rows(client_id, after))
        return {(PROGRAMS.name, after.id): version}
    version = _next_version(
        connection, PROGRAMS, after.id, known=seen.get((PROGRAMS.name, after.id))
    )
    write_difference(connection, *changed_rows(client_id, before, after))
    return {(PROGRAMS.name, after.id): version}


def _first_version(connection: Connection, table: Table, key: str) -> int:
    """The version of something new, which must not take the place of something else."""
    there = select(table.c.name).where(table.c.id == key)
    if (name := connection.execute(there).scalar()) is not None:
        raise StoreFailure(
            Cause.TAKEN,
            what=tr(
                "The file already holds {name!r} under the id {key}, so nothing was saved.",
                name=name,
                key=key,
            ),
        )
    return 1


def _next_version(
    connection: Connection,
    table: Table,
    key: str,
    *,
    known: int | None,
    counted_in: str = "version",
) -> int:
    """Counts one save more, and refuses if another window has counted one meanwhile."""
    column = table.c[counted_in]
    if known is None:
        known = connection.execute(select(column).where(table.c.id == key)).scalar()
    mine = (table.c.id == key) & (column == known)
    counted = connection.execute(update(table).where(mine).values({column: (known or 0) + 1}))
    if counted.rowcount != 1:
        raise StoreFailure(Cause.CHANGED_OUTSIDE)
    return (known or 0) + 1


def _note(
    connection: Connection,
    client_id: ClientId,
    *,
    program_id: ProgramId | None,
    label: str,
    at: datetime,
) -> None:
    row = {
        "client_id": client_id,
        "program_id": program_id,
        "at": at.astimezone(UTC).isoformat(timespec="milliseconds"),
        "label": label,
    }
    connection.execute(insert(EDITS), row)


def remove_client(connection: Connection, client_id: ClientId) -> None:
    """Removes a client with all programs, issues and notes."""
    connection.execute(delete(CLIENTS).where(CLIENTS.c.id == client_id))


def remove_program(connection: Connection, program_id: ProgramId) -> None:
    """Removes a program with everything in it."""
    connection.execute(delete(PROGRAMS).where(PROGRAMS.c.id == program_id))
