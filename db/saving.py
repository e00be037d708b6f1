"""What a save writes: the difference between two values, their versions, and a line in the log.

Everything here runs inside the caller's transaction. This is the half of the store that needs
SQLAlchemy, so `db.store` imports it with the first write.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime

from sqlalchemy import Connection, Table, delete, insert, select, update

from app.domain.client import Client, ClientId
from app.domain.program import Program, ProgramId
from app.domain.work import Work
from db.client_rows import CLIENTS, client_rows
from db.errors import Cause, StoreFailure
from db.models import EditRow
from db.program_rows import PROGRAMS, changed_rows, program_rows
from db.rows import table_of, write_difference

EDITS = table_of(EditRow)

Versions = dict[tuple[str, str], int]
"""How often a client or a program has been saved, by table and id."""


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
        version = _next_version(connection, CLIENTS, after.id, seen=seen)
    old = {} if before is None else client_rows(before)
    write_difference(connection, old, client_rows(after))
    return {(CLIENTS.name, after.id): version}


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
    version = _next_version(connection, PROGRAMS, after.id, seen=seen)
    write_difference(connection, *changed_rows(client_id, before, after))
    return {(PROGRAMS.name, after.id): version}


def _first_version(connection: Connection, table: Table, key: str) -> int:
    """The version of something new, which must not take the place of something else."""
    there = select(table.c.name).where(table.c.id == key)
    if (name := connection.execute(there).scalar()) is not None:
        raise StoreFailure(
            Cause.TAKEN,
            what=f"The file already holds {name!r} under the id {key}, so nothing was saved.",
        )
    return 1


def _next_version(
    connection: Connection, table: Table, key: str, *, seen: Mapping[tuple[str, str], int]
) -> int:
    """Counts one save more, and refuses if another window has counted one meanwhile."""
    known = seen.get((table.name, key))
    if known is None:
        found = select(table.c.version).where(table.c.id == key)
        known = connection.execute(found).scalar()
    mine = (table.c.id == key) & (table.c.version == known)
    counted = connection.execute(update(table).where(mine).values(version=(known or 0) + 1))
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
