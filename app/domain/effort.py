"""How hard a set is meant to be, in the three forms that coaches write.

Repetitions in reserve, a percentage of the one-repetition maximum, or a percentage of the load
that would just allow the repetitions.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import assert_never

from app.domain.curve import Curve, find_curve, fraction_of_one_rep_max, reps_at_fraction
from app.domain.errors import QuantityError
from app.domain.units import require
from app.domain.wording import mark, tr


@dataclass(frozen=True, slots=True)
class Rir:
    """Repetitions in reserve, 0 (failure) to 10, in halves at the finest."""

    reps: float

    def __post_init__(self) -> None:
        require("repetitions in reserve", self.reps, low=0, high=10)


@dataclass(frozen=True, slots=True)
class PercentOneRm:
    """Per cent of the one-repetition maximum, 1 to 110."""

    percent: float

    def __post_init__(self) -> None:
        require("per cent of 1RM", self.percent, low=1, high=110)


@dataclass(frozen=True, slots=True)
class PercentRepMax:
    """Per cent of the load that would just allow the repetitions, 1 to 100 (100 is failure)."""

    percent: float

    def __post_init__(self) -> None:
        require("per cent of the rep-max load", self.percent, low=1, high=100)


Effort = Rir | PercentOneRm | PercentRepMax

MOST_REPS = 600
"""The most that a set counts; timed sets count seconds."""


def require_reps(reps: float) -> float:
    """`reps` itself, once it is known to lie from 1 to MOST_REPS. Raises QuantityError."""
    return require("repetitions", reps, low=1, high=MOST_REPS)


def fraction(effort: Effort, reps: float, curve: str | Curve = "textbook") -> float:
    """The fraction of 1RM that a set of `reps` at this effort is done with.

    RIR r: the load that would allow reps + r; per cent of 1RM: itself; p per cent of the rep-max
    load: p times the curve at `reps`. Raises QuantityError below one repetition and past the end
    of the curve.

    >>> fraction(PercentOneRm(75), 8)
    0.75
    >>> fraction(Rir(2), 8) == fraction(Rir(0), 10)
    True
    """
    require_reps(reps)
    match effort:
        case Rir(in_reserve):
            return fraction_of_one_rep_max(reps + in_reserve, curve)
        case PercentOneRm(percent):
            return percent / 100
        case PercentRepMax(percent):
            return percent / 100 * fraction_of_one_rep_max(reps, curve)
        case _:
            assert_never(effort)


def as_rir(effort: Effort, reps: float, curve: str | Curve = "textbook") -> Rir:
    """The same effort as repetitions in reserve (not rounded).

    Raises QuantityError if the load would not allow the repetitions at all, or leaves over 10.
    """
    require_reps(reps)
    if isinstance(effort, Rir):
        return effort
    share = fraction(effort, reps, curve)
    require("fraction of 1RM", share, low=find_curve(curve).lowest, high=1.0)
    # a crumb of float below 0 is failure, not an error
    left = round(reps_at_fraction(share, curve) - reps, 6)
    if left < 0:
        raise QuantityError(
            tr(
                "{share:.0f} % of 1RM is too heavy for {reps:g} repetitions: it "
                "allows about {reps_2:.1f}.",
                share=100 * share,
                reps=reps,
                reps_2=reps + left,
            ),
            mend=tr("Lower the per cent or the repetitions."),
        )
    return Rir(left)


def as_percent_one_rm(effort: Effort, reps: float, curve: str | Curve = "textbook") -> PercentOneRm:
    """The same effort as per cent of 1RM (not rounded). Raises as `fraction` does."""
    require_reps(reps)
    if isinstance(effort, PercentOneRm):
        return effort
    return PercentOneRm(100 * fraction(effort, reps, curve))


def as_percent_rep_max(
    effort: Effort, reps: float, curve: str | Curve = "textbook"
) -> PercentRepMax:
    """The same effort as per cent of the load that would just allow the repetitions.

    Raises QuantityError if the load would not allow the repetitions.
    """
    require_reps(reps)
    if isinstance(effort, PercentRepMax):
        return effort
    share = fraction(effort, reps, curve) / fraction_of_one_rep_max(reps, curve)
    return PercentRepMax(round(100 * share, 9))


def text(effort: Effort, reps: float | None = None) -> str:
    """The effort as coaches write it: 'RIR 2', '75 % 1RM', '95 % of 10RM'."""
    match effort:
        case Rir(in_reserve):
            return tr("RIR {in_reserve:.3g}", in_reserve=in_reserve)
        case PercentOneRm(percent):
            return tr("{percent:.3g} % 1RM", percent=percent)
        case PercentRepMax(percent):
            return tr(
                "{percent:.3g} % of {reps}RM",
                percent=percent,
                reps="" if reps is None else f"{reps:g}",
            )
        case _:
            assert_never(effort)


@dataclass(frozen=True, slots=True)
class RatingClass:
    """What a rating of perceived exertion says about repetitions in reserve.

    low and high: repetitions in reserve, None where the rating is too light to tell.
    Source: zourdos2016, helms2016 (value from memory).
    """

    low: int | None
    high: int | None
    text: str


_RATINGS: tuple[tuple[float, RatingClass], ...] = (
    # lowest rating of each class, hardest first
    (10.0, RatingClass(0, 0, "0")),
    (9.5, RatingClass(0, 0, mark("0, but the load could rise"))),
    (9.0, RatingClass(1, 1, "1")),
    (8.5, RatingClass(1, 2, "1-2")),
    (8.0, RatingClass(2, 2, "2")),
    (7.5, RatingClass(2, 3, "2-3")),
    (7.0, RatingClass(3, 3, "3")),
    (5.0, RatingClass(4, 6, "4-6")),
    (3.0, RatingClass(None, None, mark("light effort, no RIR"))),
    (1.0, RatingClass(None, None, mark("little or no effort, no RIR"))),
)


def rating_class(rating: float) -> RatingClass:
    """The class of repetitions in reserve for a rating of perceived exertion of a set.

    rating: 1 to 10; one between two classes counts with the lighter. Raises QuantityError
    outside.
    """
    require("rating of perceived exertion", rating, low=1, high=10)
    return next(meaning for lowest, meaning in _RATINGS if rating >= lowest)
