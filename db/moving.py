"""What one client holds goes over to another: programs, issues and the log of edits."""

from __future__ import annotations

from sqlalchemy import Connection, update

from app.domain.client import ClientId
from db.models import EditRow, IssueRow, ProgramRow
from db.rows import table_of
from db.saving import remove_client

HOLDERS = tuple(table_of(row) for row in (ProgramRow, IssueRow, EditRow))
"""Tables that name a client and are kept whoever the client is."""


def hand_over(connection: Connection, *, of: ClientId, to: ClientId) -> None:
    """Gives `to` all programs, issues and edits of `of`, and removes what is left of `of`.

    Issues keep their ids and what was printed.
    """
    for table in HOLDERS:
        mine = table.c.client_id == of
        connection.execute(update(table).where(mine).values(client_id=to))
    remove_client(connection, of)
