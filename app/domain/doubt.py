"""Questions about what was entered: numbers and days that can be, but hardly are.

A doubt is put to the coach, with the entry as it would be if the suspicion is right; it never
changes anything by itself. What cannot be at all is refused where it is entered.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.errors import CoachError
from app.domain.units import KG_PER_LB
from app.domain.wording import tr

SLIP_WITHIN = 0.12
"""How near to the factor between pounds and kilograms a jump has to be, as a share of it.
Common practice: body mass moves less than that between two visits."""

BMI_LOW, BMI_HIGH = 14.0, 60.0
"""Body mass over stature squared, kg/m², outside which an entry is doubted. Common practice; it
catches slips of the finger and says nothing of health."""

OLDEST = timedelta(days=110 * 366)


@dataclass(frozen=True, slots=True)
class Doubt:
    """A question on an entry. meant: the value it would be if it is a slip; None if unknown."""

    question: str
    meant: float | None = None


def unit_slip(value: float, known: float) -> float | None:
    """What `value` would be in the unit of `known`, if the two lie a factor of about 2.2 apart.

    None where they do not. Both positive, one in kg and the other perhaps in lb.
    """
    if value <= 0 or known <= 0:
        return None
    for factor in (KG_PER_LB, 1 / KG_PER_LB):
        if abs(value * factor / known - 1) <= SLIP_WITHIN:
            return value * factor
    return None


def doubt_mass(
    mass_kg: float, known_kg: float | None, height_cm: float | None = None
) -> Doubt | None:
    """A question on a body mass, against the one known before, else against the stature."""
    if known_kg is not None:
        meant = unit_slip(mass_kg, known_kg)
        if meant is not None:
            return _slip(mass_kg, meant, tr("The mass known before is {kg} kg.", kg=_kg(known_kg)))
        return None
    if height_cm is None:
        return None
    if BMI_LOW <= _index(mass_kg, height_cm) <= BMI_HIGH:
        return None
    for meant in (mass_kg * KG_PER_LB, mass_kg / KG_PER_LB):
        if BMI_LOW + 3 <= _index(meant, height_cm) <= BMI_HIGH - 15:
            return _slip(
                mass_kg, meant, tr("It is unusual with a stature of {cm} cm.", cm=f"{height_cm:g}")
            )
    return Doubt(
        tr(
            "{kg} kg is unusual with a stature of {cm} cm. Is it right?",
            kg=_kg(mass_kg),
            cm=f"{height_cm:g}",
        )
    )


def doubt_load(load_kg: float, known_kg: float | None) -> Doubt | None:
    """A question on a tested load, against what the last test of the exercise comes to."""
    if known_kg is None:
        return None
    meant = unit_slip(load_kg, known_kg)
    if meant is None:
        return None
    return _slip(load_kg, meant, tr("The last test comes to {kg} kg.", kg=_kg(known_kg)))


def require_day(
    what: str, day: date, *, today: date, born: date | None = None, future: bool = False
) -> date:
    """`day` itself. Raises CoachError for one after today, before birth or longer ago than a life.

    what: 'Test', 'Screening', as the start of a sentence; future: days after today are allowed.
    """
    told = day.isoformat()
    if not future and day > today:
        raise CoachError(
            tr("{what} on {day}, which is in the future.", what=what, day=told),
            mend=tr("Enter the day it took place."),
        )
    if born is not None and day < born:
        raise CoachError(
            tr(
                "{what} on {day}, which is before the birth date {born}.",
                what=what,
                day=told,
                born=born.isoformat(),
            ),
            mend=tr("Correct the day, or the birth date in the profile."),
        )
    if today - day > OLDEST:
        raise CoachError(
            tr("{what} on {day}, longer ago than anybody lives.", what=what, day=told),
            mend=tr("Enter the day again."),
        )
    return day


def require_birth(day: date, *, today: date) -> date:
    """`day` itself. Raises CoachError for a birth date in the future or more than a life ago."""
    if day > today or today - day > OLDEST:
        raise CoachError(
            tr("Birth date {day}: not in the last 110 years.", day=day.isoformat()),
            mend=tr("Enter a day in the past, or untick 'known'."),
        )
    return day


def _slip(value: float, meant: float, beside: str) -> Doubt:
    question = tr(
        "Is {kg} kg right, or is it in the wrong unit? {beside} In the other "
        "unit it would be {meant} kg.",
        kg=_kg(value),
        beside=beside,
        meant=_kg(meant),
    )
    return Doubt(question, meant)


def _index(mass_kg: float, height_cm: float) -> float:
    return float(mass_kg / (height_cm / 100) ** 2)


def _kg(mass_kg: float) -> str:
    return f"{round(mass_kg, 1):g}"
