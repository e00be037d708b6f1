"""The coach's name and the small settings that belong in the file."""

from __future__ import annotations

from sqlalchemy import Connection, insert, update

from app.domain.work import Coach
from db.models import CoachRow, SettingRow
from db.rows import table_of

COACH = table_of(CoachRow)
SETTINGS = table_of(SettingRow)


def write_coach(connection: Connection, coach: Coach) -> None:
    """Keeps who the file belongs to."""
    row = {"name": coach.name, "contact": coach.contact, "team": coach.team}
    if connection.execute(update(COACH).values(**row)).rowcount == 0:
        connection.execute(insert(COACH), {"id": 1, **row})


def write_setting(connection: Connection, key: str, value: str) -> None:
    """Keeps `value` under `key`."""
    changed = update(SETTINGS).where(SETTINGS.c.key == key).values(value=value)
    if connection.execute(changed).rowcount == 0:
        connection.execute(insert(SETTINGS), {"key": key, "value": value})
