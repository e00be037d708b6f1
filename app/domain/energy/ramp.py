"""From what is eaten now to the target in bounded weekly steps."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from app.domain.units import require
from app.domain.wording import tr

KCAL_ROUND = 10
PROTEIN_STEP_G = 5
MOST_KCAL = 20_000
"""No day's energy past this is taken for meant."""


def rounded(value: float, step: float) -> float:
    """`value` to the nearest whole number of steps."""
    return round(value / step) * step


@dataclass(frozen=True, slots=True)
class Ramp:
    """Energy week by week, kcal a day. reached_in: the week at the target, None if not in these.

    remark: what became of the wish to arrive in a given week, empty if it was kept.
    """

    kcal: tuple[float, ...]
    reached_in: int | None
    remark: str = ""


def ramp(
    start_kcal: float,
    target_kcal: float,
    *,
    weeks: int,
    arrive_in: int | None,
    most_step_kcal: float,
) -> Ramp:
    """Even steps from the start in week 1 to the target, none larger than `most_step_kcal`.

    arrive_in: the week to be there; None: as soon as the largest step allows. Steps are whole
    tens of kcal, the last one takes what is left. Raises QuantityError for impossible figures.
    """
    require("energy to start from, kcal a day", start_kcal, low=0, high=MOST_KCAL)
    require("energy to arrive at, kcal a day", target_kcal, low=0, high=MOST_KCAL)
    require("number of weeks", weeks, low=1, high=52)
    require("largest weekly step, kcal", most_step_kcal, low=10, high=500)
    way = target_kcal - start_kcal
    most = KCAL_ROUND * int(most_step_kcal // KCAL_ROUND)
    step = float(most)
    if arrive_in is not None:
        require("week to arrive in", arrive_in, low=1, high=weeks)
        even = abs(way) / max(1, arrive_in - 1)
        step = min(step, KCAL_ROUND * ceil(even / KCAL_ROUND - 1e-9))
    kcal = tuple(_at(start_kcal, way, step * week) for week in range(weeks))
    reached_in = next((n for n, each in enumerate(kcal, start=1) if each == target_kcal), None)
    return Ramp(kcal, reached_in, _remark(kcal[-1], reached_in, arrive_in, most=most))


def _at(start_kcal: float, way: float, walked: float) -> float:
    """Where the ramp stands once so much has been walked, never past its end."""
    if walked >= abs(way):
        return start_kcal + way
    return start_kcal + (walked if way > 0 else -walked)


def _remark(last: float, reached_in: int | None, arrive_in: int | None, *, most: float) -> str:
    """What to say where the target is reached late or not at all."""
    if reached_in is None:
        return tr(
            "With steps of at most {most:.0f} kcal a week the target is not reached in these "
            "weeks; the last stands at {last:,.0f}.",
            most=most,
            last=last,
        )
    if arrive_in is not None and reached_in > arrive_in:
        return tr(
            "With steps of at most {most:.0f} kcal a week the target is reached in week "
            "{reached_in}, not {arrive_in}.",
            most=most,
            reached_in=reached_in,
            arrive_in=arrive_in,
        )
    return ""


def protein_ramp(now_g: float | None, target_g: float, weeks: int) -> tuple[float, ...]:
    """Protein week by week, g a day: up or down by 5 g; at the target at once if unknown."""
    require("protein to arrive at, g", target_g, low=0, high=1000)
    require("number of weeks", weeks, low=1, high=52)
    if now_g is None:
        return (target_g,) * weeks
    require("protein eaten now, g", now_g, low=0, high=500)
    start = rounded(now_g, PROTEIN_STEP_G)
    way = target_g - start
    return tuple(_at(start, way, PROTEIN_STEP_G * week) for week in range(weeks))
