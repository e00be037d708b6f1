"""The coach's name and the small settings that belong in the file."""

from __future__ import annotations

from sqlalchemy import Connection, insert, select, update

from app.domain.work import Coach
from db.models import CoachRow, SettingRow
from db.rows import table_of

COACH = table_of(CoachRow)
SETTINGS = table_of(SettingRow)


def read_coach(connection: Connection) -> Coach:
    """Who the file belongs to; an empty name if nobody was entered."""
    row = connection.execute(select(COACH)).one_or_none()
    return Coach() if row is None else Coach(row.name, row.contact, row.team)


def write_coach(connection: Connection, coach: Coach) -> None:
    """Keeps who the file belongs to."""
    row = {"name": coach.name, "contact": coach.contact, "team": coach.team}
    if connection.execute(update(COACH).values(**row)).rowcount == 0:
        connection.execute(insert(COACH), {"id": 1, **row})


def read_setting(connection: Connection, key: str) -> str:
    """The value kept under `key`; empty if there is none."""
    value = connection.execute(select(SETTINGS.c.value).where(SETTINGS.c.key == key)).scalar()
    return "" if value is None else str(value)


def write_setting(connection: Connection, key: str, value: str) -> None:
    """Keeps `value` under `key`."""
    changed = update(SETTINGS).where(SETTINGS.c.key == key).values(value=value)
    if connection.execute(changed).rowcount == 0:
        connection.execute(insert(SETTINGS), {"key": key, "value": value})
