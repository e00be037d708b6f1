"""The list of all clients with the few days that decide what each needs, in one query.

A list of thousands can be read in pieces, so that a window answers between them.

Every day is looked up through a key or an index of its own client, so the cost grows with the
number of clients and not with what is kept of them.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.domain.client import ClientId, Stage
from app.domain.due import Standing
from db.reading import date_of

TAG_END = "\x1f"
"""What stands between two tags in a row; no tag can hold it."""

PIECE = 250
"""So many clients are read at a time where the list is read in pieces."""

_QUERY = """
WITH runs AS (
  SELECT p.client_id, p.start, date(p.start, '+' || (7 * sum(b.weeks)) || ' days') AS over
  FROM programs AS p JOIN blocks AS b ON b.program_id = p.id
  WHERE p.archived = 0 {and_programs} GROUP BY p.id
),
plans AS (SELECT client_id, start, max(over) AS over FROM runs GROUP BY client_id),
papers AS (
  SELECT i.client_id, max(i.sequence) AS sequence,
    date(coalesce(p.start, i.on_date), '+' || (7 * i.weeks) || ' days') AS over
  FROM issues AS i LEFT JOIN programs AS p ON p.id = i.program_id
  {where_issues} GROUP BY i.client_id
)
SELECT c.id, c.name, c.team, c.contact, c.archived, c.stage, c.born, c.consent_on, c.keep_until,
  (SELECT count(*) FROM programs AS p WHERE p.client_id = c.id) AS programs,
  (SELECT group_concat(tag, char(31)) FROM client_tags AS t WHERE t.client_id = c.id) AS tags,
  (SELECT max(on_date) FROM screenings AS s WHERE s.client_id = c.id) AS screened,
  (SELECT max(on_date) FROM strength_tests AS s
    WHERE s.client_id = c.id AND s.guessed_from IS NULL) AS tested,
  (SELECT max(on_date) FROM check_ins AS k WHERE k.client_id = c.id) AS checked_in,
  plans.start AS program_start, plans.over AS program_end, papers.over AS issue_end
FROM clients AS c
  LEFT JOIN plans ON plans.client_id = c.id
  LEFT JOIN papers ON papers.client_id = c.id
{where_clients} ORDER BY c.name, c.id
"""


@dataclass(frozen=True, slots=True)
class RosterLine:
    """One client in the list of all: who it is, and what decides what is needed next."""

    id: ClientId
    name: str
    team: str
    contact: str
    born: date | None
    tags: tuple[str, ...]
    programs: int
    standing: Standing


def query_for(count: int | None = None) -> str:
    """The query for all clients, or for `count` of them, whose ids are its values."""
    if count is None:
        return _QUERY.format(and_programs="", where_issues="", where_clients="")
    these = ", ".join(f"?{number + 1}" for number in range(count))
    return _QUERY.format(
        and_programs=f"AND p.client_id IN ({these})",
        where_issues=f"WHERE i.client_id IN ({these})",
        where_clients=f"WHERE c.id IN ({these})",
    )


def list_roster(
    raw: sqlite3.Connection, ids: tuple[ClientId, ...] | None = None
) -> tuple[RosterLine, ...]:
    """Clients by name, archived ones too, with where each stands: those of `ids`, or all.

    ids: at most `PIECE`; whoever is no longer there is left out.
    """
    cursor = raw.cursor()
    cursor.row_factory = None  # ten thousand rows are read by place, in the order of the query
    days = _Days()
    query = query_for(None if ids is None else len(ids))
    return tuple(_line(row, days) for row in cursor.execute(query, ids or ()))


class _Days(dict[str, date]):
    """Days by their stored text; each is read once, for the same ones come again and again."""

    def __missing__(self, text: str) -> date:
        day = self[text] = date_of(text)
        return day

    def read(self, text: str | None) -> date | None:
        return None if text is None else self[text]


def _line(row: tuple[Any, ...], days: _Days) -> RosterLine:
    key, name, team, contact, archived, stage, born, consent, keep_until, *counted = row
    programs, tags, screened, tested, checked_in, start, end, issue_end = counted
    read = days.read
    return RosterLine(
        id=ClientId(key),
        name=name,
        team=team,
        contact=contact,
        born=read(born),
        tags=tuple(sorted(tags.split(TAG_END))) if tags else (),
        programs=programs,
        standing=Standing(
            stage=Stage(stage),
            archived=bool(archived),
            screened=read(screened),
            tested=read(tested),
            checked_in=read(checked_in),
            issue_end=read(issue_end),
            program_start=read(start),
            program_end=read(end),
            consent=read(consent),
            keep_until=read(keep_until),
        ),
    )
