"""Check-ins that cannot be, and those that are worth a question before they are kept."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from statistics import median

from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.loads import day_text
from app.domain.results import CheckIn
from app.domain.units import KG_PER_LB, number_text
from app.domain.wording import tr

NEAREST = 5
"""So many weighings nearest in time are what a new one is held against. Common practice."""

UNIT_SLACK = 0.12
"""How far from the factor of kg and lb a jump may lie to be taken for one. Common practice."""

BIG_JUMP = 0.10
"""A part of body mass that seldom comes or goes between two check-ins. Common practice."""


@dataclass(frozen=True, slots=True)
class MassDoubt:
    """A body mass that jumps. meant_kg: what it is in the other unit, None if that fits not."""

    on: date
    mass_kg: float
    near_kg: float
    meant_kg: float | None

    def text(self, units: str = "kg") -> str:
        """The question, in the client's unit."""
        values = {
            "mass": _mass(self.mass_kg, units),
            "near": _mass(self.near_kg, units),
        }
        if self.meant_kg is None:
            return tr(
                "{mass} is far from {near}, the weighings about that day. Is it right?", **values
            )
        return tr(
            "{mass} beside {near} looks like the other unit: it would be {meant}.",
            **values,
            meant=_mass(self.meant_kg, units),
        )


def _mass(mass_kg: float, units: str) -> str:
    value = mass_kg / KG_PER_LB if units == "lb" else mass_kg
    return f"{number_text(value, 1)} {units}"


def mass_doubt(
    mass_kg: float | None, on: date, others: Iterable[CheckIn], client: Client
) -> MassDoubt | None:
    """A doubt about a day's body mass; None where it fits, or nothing is known to fit to.

    It is held against the median of the weighings nearest in time, else the client's mass.
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
    ratio = mass_kg / near_kg
    if abs(ratio * KG_PER_LB - 1) <= UNIT_SLACK:
        return MassDoubt(on, mass_kg, near_kg, mass_kg * KG_PER_LB)
    if abs(ratio / KG_PER_LB - 1) <= UNIT_SLACK:
        return MassDoubt(on, mass_kg, near_kg, mass_kg / KG_PER_LB)
    if abs(ratio - 1) > BIG_JUMP:
        return MassDoubt(on, mass_kg, near_kg, None)
    return None


def require_day(day: date, *, today: date, client: Client) -> date:
    """`day` itself, once it is known to be one that a check-in can have.

    Raises CoachError for a day in the future or before the client was born.
    """
    if day > today:
        raise CoachError(
            tr("{day} lies in the future.", day=day_text(day)),
            mend=tr("Enter a day up to today, {today}.", today=day_text(today)),
        )
    if client.born is not None and day < client.born:
        raise CoachError(
            tr("{day} lies before {name} was born.", day=day_text(day), name=client.name),
            mend=tr("Correct the day, or the birth date on the profile."),
        )
    return day


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
