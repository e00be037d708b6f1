"""What charts, tables and the progress report draw: strength and body mass over the days.

Pure values in SI units; window and paper only draw them. Weeks of a program are in `weeks`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from statistics import fmean

from app.domain.client import Client, EnergyGoal
from app.domain.energy import Referral, corridor, referral
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, LoadKind
from app.domain.loads import body_kg
from app.domain.program import Program
from app.domain.progress.trends import DatedMax, maxima, strength_trend
from app.domain.results import CheckIn, SlotResult
from app.domain.trend import Point, Regression, Trend, trend
from app.domain.working import COMMON_PRACTICE

CORRIDOR_SOURCES = {
    EnergyGoal.GAIN: "iraki2019",
    EnergyGoal.HOLD: COMMON_PRACTICE,
    EnergyGoal.LOSE: COMMON_PRACTICE,
}
"""Who says how fast body mass is meant to change."""

START_DAYS = 7
"""Weighings so near to the first day make up the mass that the corridor begins with."""


@dataclass(frozen=True, slots=True)
class Days:
    """The days that are looked at, first and last included; None leaves that end open."""

    first: date | None = None
    last: date | None = None

    def __contains__(self, day: date) -> bool:
        """True if the day is one of them."""
        return (self.first is None or self.first <= day) and (self.last is None or day <= self.last)


EVERY_DAY = Days()


class Origin(StrEnum):
    """What an estimate of strength rests on."""

    TEST = "test"
    SETS = "sets"


@dataclass(frozen=True, slots=True)
class StrengthPoint:
    """The best estimate of one day, kg: the median of the equations and their interval."""

    on: date
    low_kg: float
    kg: float
    high_kg: float
    origin: Origin


@dataclass(frozen=True, slots=True)
class StrengthSeries:
    """Estimated 1RM of one exercise over the days, oldest first.

    trend: robust, kg a week, None for fewer than three days; own_weight: the body's part is in it.
    """

    exercise: Exercise
    points: tuple[StrengthPoint, ...]
    trend: Trend | None
    own_weight: bool = False


def strength_series(
    exercise: Exercise,
    client: Client,
    results: Iterable[SlotResult],
    *,
    regression: Regression,
    days: Days = EVERY_DAY,
) -> StrengthSeries:
    """Estimated 1RM of the exercise by day, from tests and from sets done near failure.

    Guesses from related exercises are left out: nothing was lifted for them. Own weight counts
    with the client's present mass. Of a day with both, the higher estimate stands (`maxima`).
    """
    own_kg = body_kg(exercise, client)
    tests = [
        test
        for test in client.tests
        if test.guessed_from is None and test.exercise == exercise.key and test.on in days
    ]
    done = [r for r in results if r.exercise == exercise.key and r.on in days]
    if exercise.timed or exercise.load_kind in (LoadKind.BAND, LoadKind.NONE):
        return StrengthSeries(exercise, (), None)
    tested = {found.on: found for found in maxima(exercise.key, tests, body_kg=own_kg)}
    best = maxima(exercise.key, tests, done, body_kg=own_kg)
    points = tuple(_strength_point(found, tested) for found in best)
    line = strength_trend(best, regression) if len(best) >= 3 else None
    return StrengthSeries(exercise, points, line, own_weight=bool(own_kg))


def _strength_point(found: DatedMax, tested: dict[date, DatedMax]) -> StrengthPoint:
    of_test = tested.get(found.on)
    is_test = of_test is not None and of_test.one_rm == found.one_rm
    one_rm = found.one_rm
    return StrengthPoint(
        found.on, one_rm.low, one_rm.median, one_rm.high, Origin.TEST if is_test else Origin.SETS
    )


@dataclass(frozen=True, slots=True)
class Corridor:
    """Where body mass is meant to be on a day, kg."""

    on: date
    low_kg: float
    high_kg: float


@dataclass(frozen=True, slots=True)
class MassSeries:
    """Body mass over the days, oldest first.

    trend: robust, kg a week, None for fewer than three days; corridor: at the ends of the plan's
    weeks, empty without a goal or where a referral stands in its place; missing: Mondays of weeks
    between the first and the last weighing without one.
    """

    points: tuple[Point, ...]
    trend: Trend | None
    corridor: tuple[Corridor, ...] = ()
    missing: tuple[date, ...] = ()


def mass_series(
    client: Client,
    check_ins: Iterable[CheckIn],
    *,
    regression: Regression,
    program: Program | None = None,
    days: Days = EVERY_DAY,
) -> MassSeries:
    """Body mass by day with its trend, and the corridor of the client's goal over the program."""
    every = tuple(Point(c.on, c.mass_kg) for c in check_ins if c.mass_kg is not None)
    points = tuple(point for point in every if point.on in days)
    try:
        line = trend(points, regression)
    except CoachError:
        line = None
    goal = client.energy_goal
    bounds: tuple[Corridor, ...] = ()
    if program is not None and goal is not None:
        bounds = tuple(c for c in mass_corridor(client, goal, every, program) if c.on in days)
    return MassSeries(points, line, bounds, weeks_without(tuple(p.on for p in points)))


def mass_corridor(
    client: Client, goal: EnergyGoal, points: Sequence[Point], program: Program
) -> tuple[Corridor, ...]:
    """The corridor from the program's first day to the end of its last week.

    It begins at the mean of the weighings within a week of the first day, else at the mass on the
    client's page. Empty where nobody should give numbers, or where no mass is known.
    """
    if isinstance(referral(client, program.start), Referral):
        return ()
    near = [p.value for p in points if abs((p.on - program.start).days) <= START_DAYS]
    start_kg = fmean(near) if near else client.mass_kg
    if start_kg is None:
        return ()
    return tuple(
        Corridor(program.week_start(week), *corridor(goal, start_kg, week))
        for week in range(len(program.weeks) + 1)
    )


def weeks_without(days: Sequence[date]) -> tuple[date, ...]:
    """Mondays of the weeks between the first and the last day in which none of the days lies."""
    if not days:
        return ()
    have = {monday(day) for day in days}
    first, last = min(have), max(have)
    weeks = (last - first).days // 7
    every = (first + timedelta(weeks=week) for week in range(weeks + 1))
    return tuple(day for day in every if day not in have)


def monday(day: date) -> date:
    """The Monday of the day's week."""
    return day - timedelta(days=day.weekday())


def band_at(line: Trend, day: date) -> tuple[float, float]:
    """The interval of the trend's slope on a day, turned about the middle of its days."""
    middle = line.first + (line.last - line.first) / 2
    weeks = (day - middle).days / 7
    centre = line.at(middle)
    low, high = sorted(centre + slope * weeks for slope in (line.low_per_week, line.high_per_week))
    return low, high
