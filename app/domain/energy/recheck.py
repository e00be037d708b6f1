"""What a body really used, from logged body mass and intake, with how unsure that is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

from app.domain.energy.advice import KCAL_PER_KG, KCAL_PER_KG_UNSURE
from app.domain.errors import CoachError
from app.domain.trend import Point, Regression, Trend, trend
from app.domain.units import require
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line, Working

FEWEST_DAYS = 14
FEWEST_WEIGHINGS = 6
FEWEST_INTAKES = 7
"""Under these a week's water hides the trend. Common practice."""


@dataclass(frozen=True, slots=True)
class Expenditure:
    """Energy used, kcal a day, from the balance of intake and change in body mass.

    low and high: about 95 %, from the spread of the weighings and of the intake, and from what a
    kilogram of body mass may hold (KCAL_PER_KG_UNSURE); what was not written down is not in it.
    """

    kcal: float
    low: float
    high: float
    intake_kcal: float
    mass: Trend

    def working(self) -> Working:
        """The account of the estimate."""
        change = -KCAL_PER_KG * self.mass.per_week / 7
        return Working(
            title=tr("{kcal:,.0f} kcal a day", kcal=self.kcal),
            about=tr("energy used, from logs"),
            lines=(
                Line(tr("Logged intake, mean"), f"{self.intake_kcal:,.0f} kcal"),
                Line(
                    tr("Trend of body mass"),
                    tr("{per_week:+.2f} kg a week", per_week=self.mass.per_week),
                    tr(
                        "{low_per_week:+.2f} to {high_per_week:+.2f}",
                        low_per_week=self.mass.low_per_week,
                        high_per_week=self.mass.high_per_week,
                    ),
                ),
                Line(
                    tr("At {kcal_per_kg:,.0f} kcal for a kg", kcal_per_kg=KCAL_PER_KG),
                    f"{change:+,.0f} kcal",
                    tr(
                        "short-run rule, ±{kcal_per_kg_unsure:.0%}",
                        kcal_per_kg_unsure=KCAL_PER_KG_UNSURE,
                    ),
                ),
                Line(tr("Used"), f"{self.kcal:,.0f} kcal", f"{self.low:,.0f}–{self.high:,.0f}"),
            ),
            sources=("wishnofsky1958", "hall2008", COMMON_PRACTICE),
        )


def reestimate(
    masses: Sequence[Point], intakes: Sequence[Point], regression: Regression
) -> Expenditure:
    """Energy used, kcal a day: mean logged intake less what the trend of body mass stored.

    masses in kg, intakes in kcal a day; those outside the days of the weighings are left out.
    Raises CoachError with fewer than 6 weighings over 14 days or 7 days of intake in them, and
    QuantityError for impossible values.
    """
    for point in masses:
        require("body mass, kg", point.value, low=25, high=400)
    for point in intakes:
        require("intake, kcal a day", point.value, low=0, high=15_000)
    days = sorted(point.on for point in masses)
    span = (days[-1] - days[0]).days + 1 if days else 0
    inside = [p.value for p in intakes if days and days[0] <= p.on <= days[-1]]
    too_few = len(masses) < FEWEST_WEIGHINGS or len(inside) < FEWEST_INTAKES
    if span < FEWEST_DAYS or too_few:
        raise CoachError(
            tr(
                "{masses} weighings over {span} days and {inside} days of intake are "
                "too few to tell the energy used.",
                masses=len(masses),
                span=span,
                inside=len(inside),
            ),
            mend=tr(
                "Log at least {fewest_weighings} weighings over {fewest_days} "
                "days and {fewest_intakes} days of intake.",
                fewest_weighings=FEWEST_WEIGHINGS,
                fewest_days=FEWEST_DAYS,
                fewest_intakes=FEWEST_INTAKES,
            ),
        )
    line = trend(masses, regression)
    intake = fmean(inside)
    used = intake - KCAL_PER_KG * line.per_week / 7
    from_mass = KCAL_PER_KG * (line.high_per_week - line.low_per_week) / 14
    from_intake = 1.96 * stdev(inside) / sqrt(len(inside))
    from_kilogram = KCAL_PER_KG_UNSURE * KCAL_PER_KG * abs(line.per_week) / 7
    half = sqrt(from_mass**2 + from_intake**2 + from_kilogram**2)
    return Expenditure(used, used - half, used + half, intake, line)
