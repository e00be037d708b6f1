"""Whether an exercise fits a client on a day: equipment, limitations, dislikes."""

from __future__ import annotations

from datetime import date

from app.domain.checks.context import breaches, missing_equipment
from app.domain.checks.possible import breach_text, equipment_text
from app.domain.client import Client
from app.domain.exercise import Exercise
from app.domain.wording import tr


def fits(exercise: Exercise, client: Client, on: date, *, day: int | None = None) -> bool:
    """True if the client has what it needs, nothing rules it out that day, and it is liked.

    day: the weekday whose place has to have it; without one, any place of the client's will do.
    """
    return (
        exercise.key not in client.dislikes
        and not missing_equipment(exercise, client, day)
        and not any(breach.limitation.applies_on(on) for breach in breaches(exercise, client))
    )


def misfit(exercise: Exercise, client: Client, on: date, *, day: int | None = None) -> str:
    """Why it does not fit that day: 'needs barbell and rack'; empty exactly where it `fits`.

    What a limitation rules out is named before what is missing, and that before a dislike.
    """
    for breach in breaches(exercise, client):
        if breach.limitation.applies_on(on):
            return breach_text(breach)
    if missing := missing_equipment(exercise, client, day):
        return tr("needs {equipment_text}", equipment_text=equipment_text(missing))
    return tr("is not liked") if exercise.key in client.dislikes else ""
