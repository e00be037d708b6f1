"""Straight trends through logged values. The robust regression itself is passed in.

`scipy.stats.theilslopes` fits the shape asked for here; the domain does not import it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Protocol

from app.domain.errors import CoachError
from app.domain.units import require
from app.domain.wording import tr


class Slopes(Protocol):
    """What a robust regression gives: a line and the interval of its slope."""

    @property
    def slope(self) -> float:
        """Change in y for one of x."""

    @property
    def intercept(self) -> float:
        """y where x is 0."""

    @property
    def low_slope(self) -> float:
        """Lower end of the 95 % interval of the slope."""

    @property
    def high_slope(self) -> float:
        """Upper end of the 95 % interval of the slope."""


Regression = Callable[[Sequence[float], Sequence[float]], Slopes]
"""Takes y, then x (in days), as `scipy.stats.theilslopes` does."""

FEWEST_POINTS = 3


@dataclass(frozen=True, slots=True)
class Point:
    """One logged value on one day."""

    on: date
    value: float


@dataclass(frozen=True, slots=True)
class Trend:
    """A robust line through logged values.

    per_week with its 95 % interval; value at the first and the last day on the line; points: how
    many values it rests on.
    """

    first: date
    last: date
    at_first: float
    at_last: float
    per_week: float
    low_per_week: float
    high_per_week: float
    points: int

    @property
    def is_clear(self) -> bool:
        """True if the interval of the slope leaves out zero."""
        return self.low_per_week > 0 or self.high_per_week < 0

    @property
    def weeks(self) -> float:
        """Weeks from the first value to the last."""
        return (self.last - self.first).days / 7

    def at(self, day: date) -> float:
        """The line's value on a day."""
        return self.at_first + self.per_week * (day - self.first).days / 7


def trend(points: Sequence[Point], regression: Regression) -> Trend:
    """The robust trend through the points.

    Raises CoachError for fewer than 3 values or all on one day, QuantityError for values that are
    not finite numbers.
    """
    days = sorted({point.on for point in points})
    if len(points) < FEWEST_POINTS or len(days) < 2:
        raise CoachError(
            tr("{points} values on {days} days make no trend.", points=len(points), days=len(days)),
            mend=tr("Log at least {fewest_points} on different days.", fewest_points=FEWEST_POINTS),
        )
    for point in points:
        require("logged value", point.value, low=-1e6, high=1e6)
    first, last = days[0], days[-1]
    ordered = sorted(points, key=lambda point: point.on)
    line = regression([p.value for p in ordered], [float((p.on - first).days) for p in ordered])
    span = (last - first) // timedelta(days=1)
    return Trend(
        first=first,
        last=last,
        at_first=float(line.intercept),
        at_last=float(line.intercept + line.slope * span),
        per_week=float(line.slope) * 7,
        low_per_week=float(line.low_slope) * 7,
        high_per_week=float(line.high_slope) * 7,
        points=len(points),
    )
