"""What the coach added to the shipped data: exercises and ranges of their own."""

from __future__ import annotations

from sqlalchemy import Connection, delete, insert, select, update

from app.domain.exercise import Exercise, ExerciseKey
from app.domain.ranges import Override, Who
from app.domain.wording import tr
from db.canonical import decode, encode
from db.errors import missing
from db.models import OwnExerciseRow, RangeOverrideRow
from db.rows import table_of

OWN = table_of(OwnExerciseRow)
OVERRIDES = table_of(RangeOverrideRow)


def write_exercise(connection: Connection, exercise: Exercise) -> None:
    """Keeps the exercise, in the place of an earlier one of its key."""
    row = {"name": exercise.name, "retired": False, "value": encode(exercise)}
    same_key = OWN.c.key == exercise.key
    if connection.execute(update(OWN).where(same_key).values(**row)).rowcount == 0:
        connection.execute(insert(OWN), {"key": exercise.key, **row})


def retire(connection: Connection, key: ExerciseKey) -> None:
    """Offers the exercise no longer; programs that hold it keep it."""
    retired = update(OWN).where(OWN.c.key == key).values(retired=True)
    if connection.execute(retired).rowcount == 0:
        raise missing(tr("exercise of your own"), key)


def write_override(connection: Connection, override: Override) -> None:
    """Keeps one more range of the coach's own."""
    row = {
        "rule": override.range.rule,
        "changed_by": override.by,
        "on_date": override.on,
        "why": override.why,
        "value": encode(override),
    }
    connection.execute(insert(OVERRIDES), row)


def remove_overrides(connection: Connection, rule: str, who: Who) -> None:
    """Takes back every range of the coach's own of that rule for those people."""
    found = select(OVERRIDES.c.id, OVERRIDES.c.value).where(OVERRIDES.c.rule == rule)
    gone = [
        row.id for row in connection.execute(found) if decode(Override, row.value).range.who == who
    ]
    connection.execute(delete(OVERRIDES).where(OVERRIDES.c.id.in_(gone)))
