"""Issues of booklets: what a client was handed, whole and never changed."""

from __future__ import annotations

from sqlalchemy import Connection, insert, select

from app.domain.program import ProgramId
from app.domain.work import Issue, IssueId
from db.canonical import decode, encode
from db.errors import missing
from db.lines import IssueLine
from db.models import IssueRow
from db.rows import table_of

ISSUES = table_of(IssueRow)

FORMAT = 1
"""The form of the stored values; a migration that changes it rewrites them."""


def write_issue(connection: Connection, issue: Issue) -> None:
    """Keeps the issue."""
    row = {
        "id": issue.id,
        "client_id": issue.client.id,
        "program_id": issue.program.id,
        "on_date": issue.on,
        "program_name": issue.program.name,
        "weeks": len(issue.program.weeks),
        "format": FORMAT,
        "value": encode(issue),
    }
    connection.execute(insert(ISSUES), row)


def list_issues(connection: Connection, program_id: ProgramId) -> tuple[IssueLine, ...]:
    """The issues of a program, newest first."""
    query = (
        select(ISSUES.c.id, ISSUES.c.on_date, ISSUES.c.program_name, ISSUES.c.weeks)
        .where(ISSUES.c.program_id == program_id)
        .order_by(ISSUES.c.sequence.desc())
    )
    return tuple(
        IssueLine(IssueId(r.id), r.on_date, r.program_name, r.weeks)
        for r in connection.execute(query)
    )


def read_issue(connection: Connection, issue_id: IssueId) -> Issue:
    """The issue, equal to what was kept. Raises StoreFailure if there is none of that id."""
    value = connection.execute(select(ISSUES.c.value).where(ISSUES.c.id == issue_id)).scalar()
    if value is None:
        raise missing("issue", issue_id)
    return decode(Issue, value)
