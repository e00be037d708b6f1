"""Check-ins that cannot be, and weighings that are worth a question before they are kept."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from statistics import median

from app.domain.client import Client
from app.domain.doubt import Doubt, unit_slip
from app.domain.errors import CoachError
from app.domain.loads import day_text
from app.domain.results import CheckIn
from app.domain.units import in_units, number_text
from app.domain.wording import tr

NEAREST = 5
"""So many weighings nearest in time are what a new one is held against. Common practice."""

BIG_JUMP = 0.10
"""A part of body mass that seldom comes or goes between two check-ins. Common practice."""


def doubt_weighing(
    mass_kg: float | None, on: date, others: Iterable[CheckIn], client: Client
) -> Doubt | None:
    """A question on a day's body mass; None where it fits, or nothing is known to fit to.

    It is held against the median of the weighings nearest in time, else the client's mass.
    `meant` and the question are in the client's own unit.
    """
    if mass_kg is None:
        return None
    known = sorted(
        (c for c in others if c.mass_kg is not None and c.on != on),
        key=lambda c: (abs((c.on - on).days), c.on),
    )[:NEAREST]
    near_kg = median(c.mass_kg or 0.0 for c in known) if known else client.mass_kg
    if near_kg is None:
        return None
    units = client.units
    said = {"mass": _mass(mass_kg, units), "near": _mass(near_kg, units)}
    meant_kg = unit_slip(mass_kg, near_kg)
    if meant_kg is not None:
        question = tr(
            "{mass} beside {near} looks like the other unit: it would be {meant}.",
            **said,
            meant=_mass(meant_kg, units),
        )
        return Doubt(question, in_units(meant_kg, units))
    if abs(mass_kg / near_kg - 1) > BIG_JUMP:
        return Doubt(
            tr("{mass} is far from {near}, the weighings about that day. Is it right?", **said)
        )
    return None


def _mass(mass_kg: float, units: str) -> str:
    return f"{number_text(in_units(mass_kg, units), 1)} {units}"


def require_one_a_day(days: Sequence[date]) -> None:
    """Raises CoachError that names the days which stand there twice."""
    twice = sorted(day for day, times in Counter(days).items() if times > 1)
    if twice:
        raise CoachError(
            tr("Two check-ins on {days}.", days=", ".join(map(day_text, twice))),
            mend=tr("Keep one a day: put both into one line."),
        )


def is_empty(check_in: CheckIn) -> bool:
    """True if nothing but the day was said."""
    return replace(check_in, on=date.min) == CheckIn(date.min)
