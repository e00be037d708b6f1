"""What check-ins say besides body mass: girths with their trend, and marks from 1 to 5."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.loads import day_text
from app.domain.progress.series import EVERY_DAY, Days
from app.domain.results import CheckIn, Site
from app.domain.trend import FEWEST_POINTS, Point, Regression, Trend, trend
from app.domain.units import CM_PER_IN, number_text
from app.domain.wording import mark, tr, trn

SITE_NAMES = {
    Site.NECK: mark("Neck"),
    Site.CHEST: mark("Chest"),
    Site.WAIST: mark("Waist"),
    Site.HIPS: mark("Hips"),
    Site.UPPER_ARM: mark("Upper arm"),
    Site.THIGH: mark("Thigh"),
    Site.CALF: mark("Calf"),
}

MARKS = {
    "sleep": mark("Sleep"),
    "soreness": mark("Soreness"),
    "stress": mark("Stress"),
    "mood": mark("Mood"),
}
"""The marks by the field of a check-in; 5 is the good end of each."""


@dataclass(frozen=True, slots=True)
class GirthSeries:
    """One site over the days, cm. trend: robust, cm a week, None for fewer than three days."""

    site: Site
    points: tuple[Point, ...]
    trend: Trend | None


@dataclass(frozen=True, slots=True)
class MarkSeries:
    """One mark over the days, 1 (poor) to 5 (good)."""

    key: str
    points: tuple[Point, ...]

    @property
    def mean(self) -> float:
        """The mean of the marks; there is at least one."""
        return sum(point.value for point in self.points) / len(self.points)


def girth_series(
    check_ins: Sequence[CheckIn], regression: Regression, *, days: Days = EVERY_DAY
) -> tuple[GirthSeries, ...]:
    """The sites that were measured, head to foot."""
    found: dict[Site, list[Point]] = {site: [] for site in Site}
    for check_in in check_ins:
        if check_in.on in days:
            for girth in check_in.girths:
                found[girth.site].append(Point(check_in.on, girth.cm))
    return tuple(
        GirthSeries(
            site,
            tuple(points),
            trend(points, regression) if len(points) >= FEWEST_POINTS else None,
        )
        for site, points in found.items()
        if points
    )


def mark_series(check_ins: Sequence[CheckIn], *, days: Days = EVERY_DAY) -> tuple[MarkSeries, ...]:
    """The marks that were given, in the order of MARKS."""
    series = []
    for key in MARKS:
        points = tuple(
            Point(check_in.on, float(getattr(check_in, key)))
            for check_in in check_ins
            if check_in.on in days and getattr(check_in, key) is not None
        )
        if points:
            series.append(MarkSeries(key, points))
    return tuple(series)


def in_length(cm: float, units: str) -> float:
    """A length in the unit that goes with the client's: cm with kg, inches with lb."""
    return cm / CM_PER_IN if units == "lb" else cm


def length_unit(units: str) -> str:
    """'cm', or 'in' for a client with pounds."""
    return "in" if units == "lb" else "cm"


def girths_text(series: Sequence[GirthSeries], units: str) -> str:
    """What the chart of girths shows."""
    unit = length_unit(units)
    told = []
    for one in series:
        first, last = one.points[0], one.points[-1]
        parts = {
            "site": tr(SITE_NAMES[one.site]),
            "cm": number_text(in_length(last.value, units), 1),
            "unit": unit,
            "day": day_text(last.on),
        }
        if one.trend is None:
            told.append(tr("{site} {cm} {unit} on {day}", **parts))
            continue
        change = in_length(one.trend.at_last - one.trend.at_first, units)
        told.append(
            tr(
                "{site} {cm} {unit} on {day}, {change} along the trend since {first}",
                **parts,
                change=f"{change:+.1f}".replace("-", "−"),
                first=day_text(first.on),
            )
        )
    return f"{'; '.join(told)}." if told else tr("No girth has been written down yet.")


def marks_text(series: Sequence[MarkSeries]) -> str:
    """What the chart of marks shows."""
    told = [
        tr(
            "{name} {mean} of 5 on average, {answers}",
            name=tr(MARKS[one.key]),
            mean=number_text(one.mean, 1),
            answers=trn("{n} answer", "{n} answers", len(one.points)),
        )
        for one in series
    ]
    if not told:
        return tr("Nobody has been asked for these marks yet.")
    return f"{'; '.join(told)}. {tr('5 is the good end of each.')}"


def days_of(series: Sequence[GirthSeries | MarkSeries]) -> tuple[date, ...]:
    """Every day on which one of them has a value, in order."""
    return tuple(sorted({point.on for one in series for point in one.points}))
