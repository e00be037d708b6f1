"""Issues of booklets: what a client was handed, whole and never changed."""

from __future__ import annotations

from sqlalchemy import Connection, insert

from app.domain.work import Issue
from db.canonical import encode
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
