"""Curves between repetitions to failure and the fraction of the one-repetition maximum.

The one bridge between the three forms of effort. A curve falls strictly from 1.0 at one
repetition, so that it has an inverse. The cell values of the published meta-regression
(nuzzo2024) are not at hand and are not guessed: the two curves here are the textbook table and the
inverse of a published equation. People differ widely about any of them (zourdos2021).
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.domain.errors import CoachError
from app.domain.units import require
from app.domain.wording import mark, tr


@dataclass(frozen=True, slots=True)
class Curve:
    """A strictly falling curve, given by points and read linearly between them.

    points: (repetitions to failure, fraction of 1RM), from (1, 1.0) on; method: how it is named
    in an account; extended_past: repetitions above which the points are common practice and no
    longer the source's; source: a key of the references.
    """

    key: str
    method: str
    points: tuple[tuple[float, float], ...]
    source: str
    extended_past: float
    note: str = ""

    @property
    def max_reps(self) -> float:
        """The most repetitions that the curve speaks of."""
        return self.points[-1][0]

    @property
    def lowest(self) -> float:
        """The smallest fraction that the curve speaks of."""
        return self.points[-1][1]


def _epley_points() -> tuple[tuple[float, float], ...]:
    """The published equation turned round, 1/(1 + r/30); one repetition is 1.0 by definition."""
    return ((1.0, 1.0), *((float(r), 1 / (1 + r / 30)) for r in range(2, 51)))


TEXTBOOK = Curve(
    key="textbook",
    method=mark("textbook table"),
    # 1 to 10 as reprinted in many places; 11, 12 and 15 are values from memory (other printings
    # have 0.73 and 0.70 at 11 and 12). From 16 on common practice: 60 % at 20, half at 30, and
    # three tenths, about the lightest that is trained with, at 50.
    points=(
        (1, 1.0),
        (2, 0.95),
        (3, 0.93),
        (4, 0.90),
        (5, 0.87),
        (6, 0.85),
        (7, 0.83),
        (8, 0.80),
        (9, 0.77),
        (10, 0.75),
        (11, 0.70),
        (12, 0.67),
        (15, 0.65),
        (20, 0.60),
        (30, 0.50),
        (50, 0.30),
    ),
    source="haff2016",
    extended_past=15,
    note=mark("11 to 15 repetitions: value from memory; above 15: common practice."),
)

EPLEY_INVERSE = Curve(
    key="epley_inverse",
    method=mark("Epley's equation turned round"),
    points=_epley_points(),
    source="epley1985",
    extended_past=10,
    note=mark("Above 10 repetitions the equation is stretched."),
)

CURVES: Mapping[str, Curve] = MappingProxyType({c.key: c for c in (TEXTBOOK, EPLEY_INVERSE)})
"""The curves a program can choose from, by key."""


def find_curve(curve: str | Curve) -> Curve:
    """The curve of that key; a curve is given back as it is. Raises CoachError for others."""
    if isinstance(curve, Curve):
        return curve
    try:
        return CURVES[curve]
    except KeyError:
        from difflib import get_close_matches

        near = get_close_matches(curve, CURVES, n=1)
        mend = (
            tr("Did you mean {first!r}?", first=near[0])
            if near
            else tr("Choose one of {curves}.", curves=", ".join(CURVES))
        )
        raise CoachError(
            tr("There is no reps-%1RM curve {curve!r}.", curve=curve), mend=mend
        ) from None


def fraction_of_one_rep_max(reps: float, curve: str | Curve = "textbook") -> float:
    """The fraction of 1RM that just allows `reps` repetitions: 1 gives 1.0, 10 gives 0.75.

    reps: repetitions to failure, 1 to the end of the curve (50); parts are read between points.
    Raises QuantityError outside.  Source: `Curve.source`.
    """
    found = find_curve(curve)
    require("repetitions to failure", reps, low=1, high=found.max_reps)
    at = max(1, bisect_left(found.points, (reps,)))
    (left, high), (right, low) = found.points[at - 1], found.points[at]
    return high + (low - high) * (reps - left) / (right - left)


def reps_at_fraction(fraction: float, curve: str | Curve = "textbook") -> float:
    """The repetitions to failure that a fraction of 1RM allows: the inverse of the curve.

    fraction: from the curve's lowest (0.30 in the textbook table) to 1. Raises QuantityError
    outside.
    """
    found = find_curve(curve)
    require("fraction of 1RM", fraction, low=found.lowest, high=1.0)
    at = max(1, bisect_left(found.points, -fraction, key=lambda point: -point[1]))
    (left, high), (right, low) = found.points[at - 1], found.points[at]
    return left + (right - left) * (high - fraction) / (high - low)
