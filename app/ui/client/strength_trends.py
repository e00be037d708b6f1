"""The robust trend of strength in each exercise, from tests and from what was done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from app.domain.client import Client
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.loads import body_kg
from app.domain.progress.trends import maxima, strength_trend
from app.domain.results import SlotResult
from app.domain.trend import FEWEST_POINTS, Regression, Trend
from app.domain.units import in_units
from app.domain.wording import tr
from app.ui.words import number


def trends(
    client: Client, results: Iterable[SlotResult], catalogue: Catalogue, regression: Regression
) -> Mapping[ExerciseKey, Trend]:
    """The trend of each tested exercise that has three days or more; guesses are left out."""
    tests = [test for test in client.tests if test.guessed_from is None]
    done = tuple(results)
    found = {}
    for key in dict.fromkeys(test.exercise for test in tests):
        if key not in catalogue:
            continue
        points = maxima(key, tests, done, body_kg=body_kg(catalogue[key], client))
        if len(points) >= FEWEST_POINTS:
            found[key] = strength_trend(points, regression)
    return found


def trend_text(trend: Trend, units: str) -> str:
    """'+0.8 kg (+0.2 to +1.4)', with the 95 % interval of the slope."""
    return tr(
        "{slope} {unit} ({low} to {high})",
        slope=_signed(in_units(trend.per_week, units)),
        unit=units,
        low=_signed(in_units(trend.low_per_week, units)),
        high=_signed(in_units(trend.high_per_week, units)),
    )


def _signed(value: float) -> str:
    text = number(abs(value))
    if text == "0":
        return text
    return f"+{text}" if value > 0 else f"\N{MINUS SIGN}{text}"
