"""Programs of all clients in one query, for what is done for many clients at once."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

from app.domain.client import ClientId, Stage
from app.domain.program import ProgramId
from db.roster import TAG_END

_NEWEST = """
SELECT c.id, c.name, c.team, c.stage,
  (SELECT group_concat(tag, char(31)) FROM client_tags AS t WHERE t.client_id = c.id) AS tags,
  p.id, p.name,
  (SELECT coalesce(sum(b.weeks), 0) FROM blocks AS b WHERE b.program_id = p.id) AS weeks
FROM clients AS c JOIN programs AS p ON p.id = (
  SELECT q.id FROM programs AS q WHERE q.client_id = c.id AND q.archived = 0
  ORDER BY q.start DESC, q.name, q.id LIMIT 1
)
WHERE c.archived = 0 ORDER BY c.name, c.id
"""

_ALL = """
SELECT c.id, c.name, p.id, coalesce(p.name, '')
FROM clients AS c LEFT JOIN programs AS p ON p.client_id = c.id
ORDER BY c.name, c.id, p.start DESC, p.name, p.id
"""


@dataclass(frozen=True, slots=True)
class PlanLine:
    """A client with one of the programs; without one, None and an empty name."""

    client: ClientId
    client_name: str
    program: ProgramId | None
    program_name: str


@dataclass(frozen=True, slots=True)
class NewestLine:
    """A client with the program that starts last; weeks: how many it has."""

    client: ClientId
    client_name: str
    team: str
    stage: Stage
    tags: tuple[str, ...]
    program: ProgramId
    program_name: str
    weeks: int


def list_newest(raw: sqlite3.Connection) -> tuple[NewestLine, ...]:
    """The newest program of every client by the client's name; nothing archived counts."""
    cursor = raw.cursor()
    cursor.row_factory = None  # ten thousand rows are read by place, in the order of the query
    stages = {stage.value: stage for stage in Stage}
    tags = _Tags()
    return tuple(
        NewestLine(client, name, team, stages[stage], tags[tagged], program, plan, weeks)
        for client, name, team, stage, tagged, program, plan, weeks in cursor.execute(_NEWEST)
    )


def list_plans(raw: sqlite3.Connection) -> tuple[PlanLine, ...]:
    """A line for each program of each client, archived ones too, and for whoever has none."""
    cursor = raw.cursor()
    cursor.row_factory = None
    return tuple(PlanLine(*row) for row in cursor.execute(_ALL))


class _Tags(dict[str | None, tuple[str, ...]]):
    """Tags by their joined text; the same ones come again and again."""

    def __missing__(self, text: str | None) -> tuple[str, ...]:
        found = self[text] = tuple(sorted(text.split(TAG_END))) if text else ()
        return found
