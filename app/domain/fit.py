"""Whether an exercise fits a client on a day: equipment, limitations, dislikes."""

from __future__ import annotations

from datetime import date

from app.domain.checks.context import breaches, missing_equipment
from app.domain.client import Client
from app.domain.exercise import Exercise


def fits(exercise: Exercise, client: Client, on: date) -> bool:
    """True if the client has what it needs, nothing rules it out that day, and it is liked."""
    return (
        exercise.key not in client.dislikes
        and not missing_equipment(exercise, client)
        and not any(breach.limitation.applies_on(on) for breach in breaches(exercise, client))
    )
