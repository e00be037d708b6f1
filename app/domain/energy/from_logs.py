"""What the check-ins say of a client's energy, as a change that the coach may take over.

The logs give the energy really used; in the client's own figures that is another activity level,
so that window and booklet go on from one and the same value.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.domain.client import Client
from app.domain.energy.plan import client_figures
from app.domain.energy.recheck import Expenditure, reestimate
from app.domain.energy.refer import Referral, reason_of_intake, referral
from app.domain.energy.resting import estimate_resting_energy
from app.domain.errors import CoachError
from app.domain.results import CheckIn
from app.domain.trend import Point, Regression
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line, Working

LOG_DAYS = 42
"""How far back the logs are looked at: six weeks. Common practice."""

LOWEST_PAL, HIGHEST_PAL = 1.2, 2.5
"""Levels outside were rather logged wrong than lived. The upper one is the highest that the
tables know (fao2004: 2.40); the lower one is of people who sit all day (value from memory).
"""


@dataclass(frozen=True, slots=True)
class EnergySuggestion:
    """What the logs suggest. pal: the activity level they stand for; client: with it taken over."""

    used: Expenditure
    pal: float
    before_kcal: float
    client: Client
    resting_kcal: float

    @property
    def text(self) -> str:
        """The suggestion as one sentence."""
        return tr(
            "Over {days} days the check-ins say about {used} kcal a day used ({low}–{high}); the "
            "targets now rest on {before}.",
            days=(self.used.mass.last - self.used.mass.first).days + 1,
            used=f"{self.used.kcal:,.0f}",
            low=f"{self.used.low:,.0f}",
            high=f"{self.used.high:,.0f}",
            before=f"{self.before_kcal:,.0f}",
        )

    def working(self) -> Working:
        """The account of what would be taken over."""
        account = self.used.working()
        lines = (
            *account.lines,
            Line(
                tr("Divided by the energy at rest"),
                f"{self.pal:.2f}",
                tr("{kcal} kcal at rest", kcal=f"{self.resting_kcal:,.0f}"),
            ),
        )
        return Working(account.title, account.about, lines, (*account.sources, COMMON_PRACTICE))


def suggest_from_logs(
    client: Client, check_ins: Iterable[CheckIn], regression: Regression, *, on: date
) -> EnergySuggestion | Referral:
    """What the last six weeks of check-ins suggest for the client's energy.

    The client in it has the activity level the logs stand for, the intake that was logged, and
    the body mass at the end of the trend. A referral, also for an intake far below the resting
    energy, stands in the place of numbers. Raises CoachError for too few logs, missing figures,
    and for logs that stand for a level nobody lives at.
    """
    instead = referral(client, on)
    if instead is not None:
        return instead
    recent = [c for c in check_ins if on - timedelta(days=LOG_DAYS) <= c.on <= on]
    used = reestimate(
        [Point(c.on, c.mass_kg) for c in recent if c.mass_kg is not None],
        [Point(c.on, c.kcal) for c in recent if c.kcal is not None],
        regression,
    )
    now = replace(client, mass_kg=round(used.mass.at_last, 1))
    who = client_figures(now, on)
    resting = estimate_resting_energy(
        who.sex,
        who.age_y,
        height_cm=who.height_cm,
        mass_kg=who.mass_kg,
        fat_free_kg=who.fat_free_kg,
        equation=client.energy_equation,
    )
    reason = reason_of_intake(used.intake_kcal, resting.kcal)
    if reason:
        return Referral((reason,))
    pal = used.kcal / resting.kcal
    if not LOWEST_PAL <= pal <= HIGHEST_PAL:
        raise CoachError(
            tr(
                "The check-ins say {kcal} kcal a day used, {pal} times the energy at rest; people "
                "live at {low} to {high}.",
                kcal=f"{used.kcal:,.0f}",
                pal=f"{pal:.2f}",
                low=f"{LOWEST_PAL:g}",
                high=f"{HIGHEST_PAL:g}",
            ),
            mend=tr("Look at how eating was written down before anything is changed."),
        )
    taken = replace(now, activity_level=round(pal, 2), kcal_now=float(round(used.intake_kcal, -1)))
    again = referral(taken, on)
    if again is not None:
        return again
    before = _resting_of(client, on) * client.activity_level
    return EnergySuggestion(used, pal, before, taken, resting.kcal)


def _resting_of(client: Client, on: date) -> float:
    who = client_figures(client, on)
    return estimate_resting_energy(
        who.sex,
        who.age_y,
        height_cm=who.height_cm,
        mass_kg=who.mass_kg,
        fat_free_kg=who.fat_free_kg,
        equation=client.energy_equation,
    ).kcal
