"""Reading from the coach's file, in plain SQL over SQLite's own connection.

What is on screen first is read here, so SQLAlchemy is not needed for it (see `db.engine`). Table
and column names are those of `db.models`; a test reads every column of every table back. Dates
are stored as ISO texts, and true and false as 1 and 0.
"""

from __future__ import annotations

import sqlite3
from datetime import date, datetime

from app.domain.client import ClientId
from app.domain.exercise import Exercise
from app.domain.program import ProgramId
from app.domain.ranges import Override
from app.domain.work import Coach, Issue, IssueId
from db.canonical import decode
from db.errors import missing
from db.lines import ClientLine, IssueLine, LogLine, ProgramLine
from db.passphrase import module_of


def rows_of(raw: sqlite3.Connection, query: str, *values: str | int) -> list[sqlite3.Row]:
    """All rows of a query; columns by name."""
    cursor = raw.cursor()
    cursor.row_factory = module_of(raw).Row
    return cursor.execute(query, values).fetchall()


def date_of(text: str) -> date:
    """The date behind its stored text. Raises ValueError or TypeError for anything else."""
    return date.fromisoformat(text)


def date_or_none(text: str | None) -> date | None:
    """The date behind its stored text, if one was stored."""
    return None if text is None else date_of(text)


# ---------------------------------------------------------------------------- lists


_CLIENT_LINES = (
    "SELECT id, name, team, archived, "
    "(SELECT count(*) FROM programs WHERE client_id = clients.id) AS programs FROM clients "
)


def list_clients(raw: sqlite3.Connection) -> tuple[ClientLine, ...]:
    """All clients by name, archived ones too."""
    return _client_lines(raw, _CLIENT_LINES + "ORDER BY name, id")


def client_line(raw: sqlite3.Connection, client_id: ClientId) -> ClientLine | None:
    """The line of one client; None where there is none of that id."""
    return next(iter(_client_lines(raw, _CLIENT_LINES + "WHERE id = ?", client_id)), None)


def count_clients(raw: sqlite3.Connection) -> int:
    """How many clients there are, archived ones too."""
    return int(raw.execute("SELECT count(*) FROM clients").fetchone()[0])


def _client_lines(raw: sqlite3.Connection, query: str, *values: str) -> tuple[ClientLine, ...]:
    cursor = raw.cursor()
    cursor.row_factory = None  # ten thousand rows are read by place, in the order of the query
    return tuple(
        ClientLine(ClientId(key), name, team, bool(archived), programs)
        for key, name, team, archived, programs in cursor.execute(query, values)
    )


def list_programs(raw: sqlite3.Connection, client_id: ClientId) -> tuple[ProgramLine, ...]:
    """The client's programs, the newest start first."""
    query = (
        "SELECT p.id, p.name, p.start, p.archived, coalesce(sum(b.weeks), 0) AS weeks "
        "FROM programs AS p LEFT JOIN blocks AS b ON b.program_id = p.id WHERE p.client_id = ? "
        "GROUP BY p.id ORDER BY p.start DESC, p.name, p.id"
    )
    return tuple(
        ProgramLine(
            ProgramId(r["id"]), r["name"], date_of(r["start"]), r["weeks"], bool(r["archived"])
        )
        for r in rows_of(raw, query, client_id)
    )


def list_all_issues(raw: sqlite3.Connection) -> tuple[IssueId, ...]:
    """The ids of all issues, in the order they were handed out."""
    return tuple(IssueId(r["id"]) for r in rows_of(raw, "SELECT id FROM issues ORDER BY sequence"))


def list_issues(raw: sqlite3.Connection, program_id: ProgramId) -> tuple[IssueLine, ...]:
    """The issues of a program, newest first."""
    query = (
        "SELECT id, on_date, program_name, weeks FROM issues WHERE program_id = ? "
        "ORDER BY sequence DESC"
    )
    return tuple(
        IssueLine(IssueId(r["id"]), date_of(r["on_date"]), r["program_name"], r["weeks"])
        for r in rows_of(raw, query, program_id)
    )


def list_issues_of(raw: sqlite3.Connection, client_id: ClientId) -> tuple[IssueId, ...]:
    """The ids of what the client was handed, in that order."""
    query = "SELECT id FROM issues WHERE client_id = ? ORDER BY sequence"
    return tuple(IssueId(r["id"]) for r in rows_of(raw, query, client_id))


def list_edits_of(raw: sqlite3.Connection, client_id: ClientId) -> tuple[LogLine, ...]:
    """All edits of the client and the client's programs, the oldest first."""
    query = "SELECT at, label FROM edits WHERE client_id = ? ORDER BY id"
    return tuple(
        LogLine(datetime.fromisoformat(r["at"]), r["label"]) for r in rows_of(raw, query, client_id)
    )


def list_edits(
    raw: sqlite3.Connection, program_id: ProgramId, *, limit: int
) -> tuple[LogLine, ...]:
    """The last edits of the program, newest first, in the order they were kept."""
    query = "SELECT at, label FROM edits WHERE program_id = ? ORDER BY id DESC LIMIT ?"
    return tuple(
        LogLine(datetime.fromisoformat(r["at"]), r["label"])
        for r in rows_of(raw, query, program_id, limit)
    )


# ---------------------------------------------------------------------------- single values


def read_issue(raw: sqlite3.Connection, issue_id: IssueId) -> Issue:
    """The issue, equal to what was kept. Raises StoreFailure if there is none of that id."""
    for row in rows_of(raw, "SELECT value FROM issues WHERE id = ?", issue_id):
        return decode(Issue, row["value"])
    raise missing("issue", issue_id)


def read_exercises(raw: sqlite3.Connection, *, retired: bool) -> tuple[Exercise, ...]:
    """The coach's own exercises by key; with `retired`, also those no longer offered."""
    query = "SELECT value FROM own_exercises WHERE retired <= ? ORDER BY key"
    return tuple(decode(Exercise, r["value"]) for r in rows_of(raw, query, int(retired)))


def read_overrides(raw: sqlite3.Connection) -> tuple[Override, ...]:
    """The coach's own ranges, in the order they were made."""
    query = "SELECT value FROM range_overrides ORDER BY id"
    return tuple(decode(Override, r["value"]) for r in rows_of(raw, query))


def read_coach(raw: sqlite3.Connection) -> Coach:
    """Who the file belongs to; an empty name if nobody was entered."""
    for row in rows_of(raw, "SELECT name, contact, team FROM coach"):
        return Coach(row["name"], row["contact"], row["team"])
    return Coach()


def read_setting(raw: sqlite3.Connection, key: str) -> str:
    """The value kept under `key`; empty if there is none."""
    for row in rows_of(raw, "SELECT value FROM settings WHERE key = ?", key):
        return str(row["value"])
    return ""
