"""The progress report's charts, drawn with the booklet's own pen: weeks, strength, body mass.

They are read without colour: planned is an outline and done is filled, a light week is hatched, a
test is a lozenge and an estimate from sets a ring, the corridor is hatched, the trend dashed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from app.booklet.flow import Block, Ground
from app.booklet.fonts import CELL_BOLD, LABEL
from app.booklet.pen import Box, Pen
from app.booklet.words import day_text
from app.domain.progress.series import (
    Corridor,
    MassSeries,
    Origin,
    StrengthSeries,
    band_at,
)
from app.domain.progress.weeks import WeekDone
from app.domain.trend import Trend
from app.domain.units import in_units, number_text
from app.domain.wording import number_as_spoken, tr

WEEKS_MM, STRENGTH_MM, MASS_MM = 40.0, 42.0, 52.0
_LEFT, _FOOT, _KEY = 13.0, 6.0, 6.0
_DASH = (1.6, 1.0)


@dataclass(frozen=True, slots=True)
class Scale:
    """Values from low to high on a height: where each stands, mm from the top of the page."""

    low: float
    high: float
    box: Box

    def y(self, value: float) -> float:
        """Where a value stands."""
        share = (value - self.low) / (self.high - self.low)
        return self.box.bottom - share * self.box.height

    def marks(self) -> tuple[float, ...]:
        """Three to six round values."""
        span = self.high - self.low
        step = next((s for s in _STEPS if span / s <= 5), _STEPS[-1])
        first = -(-self.low // step) * step
        count = int((self.high - first) / step + 1e-9) + 1
        return tuple(first + n * step for n in range(count))


_STEPS = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 5000.0)


def scale_for(values: Sequence[float], box: Box, *, from_zero: bool = False) -> Scale:
    """A scale that holds the values with a little air; from 0 where they are amounts."""
    low, high = min(values, default=0.0), max(values, default=1.0)
    if from_zero:
        return Scale(0.0, high * 1.05 or 1.0, box)
    air = max((high - low) * 0.08, 0.5)
    return Scale(low - air, high + air, box)


def weeks_block(ground: Ground, weeks: Sequence[WeekDone]) -> Block:
    """Sets planned and done, week by week."""

    def draw(pen: Pen, y: float) -> None:
        box = Box(_LEFT, y + _KEY, ground.width - _LEFT, WEEKS_MM - _KEY - _FOOT - 2.0)
        most = [float(max(w.planned_sets, w.done_sets or 0)) for w in weeks]
        scale = scale_for(most, box, from_zero=True)
        _grid(pen, scale)
        pitch = box.width / max(len(weeks), 1)
        last = max((week.number for week in weeks if week.entered), default=0)
        for at, week in enumerate(weeks):
            x = box.x + at * pitch
            _week_bar(pen, scale, week, Box(x, box.y, pitch, box.height), missing=last)
            if len(weeks) <= 26 or (week.number - 1) % 4 == 0:
                tone = pen.palette.mid
                text = str(week.number)
                pen.text(x + pitch / 2, box.bottom + 4.4, text, style=LABEL, tone=tone, align=0.5)
        pen.text(0, box.bottom + 4.4, tr("Week"), style=LABEL, tone=pen.palette.mid)
        _weeks_key(pen, y + 3.2)

    return Block(WEEKS_MM, draw)


def _week_bar(pen: Pen, scale: Scale, week: WeekDone, column: Box, *, missing: int) -> None:
    p = pen.palette
    wide = column.width * 0.78
    x = column.x + (column.width - wide) / 2
    top = scale.y(week.planned_sets)
    planned = Box(x, top, wide, scale.box.bottom - top)
    if week.light and planned.height > 0:
        pen.hatch(planned, gap=1.2, weight=0.35, tone=p.line)
    pen.box(planned, stroke=p.mid, weight=0.7)
    if week.done_sets is not None:
        top = scale.y(week.done_sets)
        inner = wide * 0.5
        pen.box(Box(x + wide / 4, top, inner, scale.box.bottom - top), fill=p.slate)
    elif week.number < missing:
        _cross(pen, x + wide / 2, scale.box.bottom - 2.0)


def _weeks_key(pen: Pen, y: float) -> None:
    p = pen.palette
    x = _LEFT
    pen.box(Box(x, y - 2.4, 4.0, 2.8), stroke=p.mid, weight=0.7)
    x += 5.4 + pen.text(x + 5.4, y, tr("planned"), style=LABEL) + 5.0
    light = Box(x, y - 2.4, 4.0, 2.8)
    pen.hatch(light, gap=1.2, weight=0.35, tone=p.line)
    pen.box(light, stroke=p.mid, weight=0.7)
    x += 5.4 + pen.text(x + 5.4, y, tr("planned, light week"), style=LABEL) + 5.0
    pen.box(Box(x, y - 2.4, 4.0, 2.8), fill=p.slate)
    x += 5.4 + pen.text(x + 5.4, y, tr("done"), style=LABEL) + 5.0
    _cross(pen, x + 1.5, y - 1.0)
    pen.text(x + 4.4, y, tr("no entry"), style=LABEL)


def _cross(pen: Pen, x: float, y: float, half: float = 0.9) -> None:
    pen.rule(x - half, y - half, x + half, to_y=y + half, weight=0.8)
    pen.rule(x - half, y + half, x + half, to_y=y - half, weight=0.8)


def _grid(pen: Pen, scale: Scale) -> None:
    p = pen.palette
    for mark in scale.marks():
        y = scale.y(mark)
        pen.rule(scale.box.x, y, scale.box.right, weight=0.35, tone=p.hair)
        whole = abs(mark) >= 100
        text = number_as_spoken(f"{mark:,.0f}") if whole else number_text(mark, 1)
        pen.text(scale.box.x - 1.4, y + 1.1, text, style=LABEL, tone=p.mid, align=1)
    pen.rule(scale.box.x, scale.box.bottom, scale.box.right, weight=0.8, tone=p.mid)


# -- along days ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class DayAxis:
    """Days along a width: where each stands, mm."""

    first: date
    last: date
    box: Box

    def x(self, day: date) -> float:
        """Where a day stands."""
        span = (self.last - self.first).days
        if not span:
            return self.box.x + self.box.width / 2
        return self.box.x + 2.0 + (self.box.width - 4.0) * (day - self.first).days / span

    def labels(self) -> tuple[date, ...]:
        """First, middle and last day; fewer where they would touch."""
        span = (self.last - self.first).days
        if not span:
            return (self.first,)
        if self.box.width < 60 or span < 4:
            return (self.first, self.last)
        return (self.first, self.first + timedelta(days=span // 2), self.last)


def _days(pen: Pen, axis: DayAxis) -> None:
    labels = axis.labels()
    for number, day in enumerate(labels):
        align = 0.0 if number == 0 else 1.0 if number == len(labels) - 1 else 0.5
        if len(labels) == 1:
            align = 0.5
        text = day_text(day)
        pen.text(
            axis.x(day), axis.box.bottom + 4.4, text, style=LABEL, tone=pen.palette.mid, align=align
        )


def strength_row(ground: Ground, pair: Sequence[StrengthSeries], units: str) -> Block:
    """One or two exercises beside each other, each with its estimates, intervals and trend."""
    wide = (ground.width - 6.0) / 2

    def draw(pen: Pen, y: float) -> None:
        for number, series in enumerate(pair):
            _strength(pen, series, Box(number * (wide + 6.0), y, wide, STRENGTH_MM), units)

    return Block(STRENGTH_MM + 2.0, draw)


def _strength(pen: Pen, series: StrengthSeries, place: Box, units: str) -> None:
    name = pen.fitting(series.exercise.name, CELL_BOLD, place.width - 8.0)
    pen.text(place.x, place.y + 4.0, name, style=CELL_BOLD)
    pen.text(place.right, place.y + 4.0, units, style=LABEL, tone=pen.palette.mid, align=1)
    box = Box(place.x + _LEFT, place.y + 6.0, place.width - _LEFT, place.height - 6.0 - _FOOT - 1.0)
    values = [in_units(kg, units) for p in series.points for kg in (p.low_kg, p.high_kg)]
    scale = scale_for(values, box)
    axis = DayAxis(series.points[0].on, series.points[-1].on, box)
    _grid(pen, scale)
    if series.trend is not None:
        _trend(pen, axis, scale, series.trend, units)
    for point in series.points:
        x, middle = axis.x(point.on), scale.y(in_units(point.kg, units))
        low, high = (scale.y(in_units(kg, units)) for kg in (point.low_kg, point.high_kg))
        pen.rule(x, low, x, to_y=high, weight=0.6, tone=pen.palette.slate)
        if point.origin is Origin.TEST:
            _lozenge(pen, x, middle)
        else:
            pen.disc(x, middle, 0.85, fill=pen.palette.paper, stroke=pen.palette.slate)
    _days(pen, axis)


def _lozenge(pen: Pen, x: float, y: float, half: float = 1.3) -> None:
    points = ((x, y - half), (x + half, y), (x, y + half), (x - half, y))
    pen.polygon(points, fill=pen.palette.slate)


def _trend(pen: Pen, axis: DayAxis, scale: Scale, line: Trend, units: str) -> None:
    """The robust line, and thin dots for the interval of its slope."""
    ends = (line.first, line.last)
    xs = [axis.x(day) for day in ends]
    for side in (0, 1):
        # the band turns about the middle: each edge is low at one end and high at the other
        edges = [
            band_at(line, day)[side if number == 0 else 1 - side] for number, day in enumerate(ends)
        ]
        start, end = (scale.y(in_units(kg, units)) for kg in edges)
        pen.rule(xs[0], start, xs[1], to_y=end, weight=0.4, tone=pen.palette.mid, dash=(0.5, 0.8))
    start, end = (scale.y(in_units(line.at(day), units)) for day in ends)
    pen.rule(xs[0], start, xs[1], to_y=end, weight=1.4, tone=pen.palette.accent, dash=_DASH)


def strength_key(ground: Ground) -> Block:
    """What the signs of the strength charts mean."""

    def draw(pen: Pen, y: float) -> None:
        base, x = y + 3.4, 1.2
        _lozenge(pen, x, base - 1.1)
        x += 3.0 + pen.text(x + 3.0, base, tr("test"), style=LABEL) + 6.0
        pen.disc(x, base - 1.1, 0.85, fill=pen.palette.paper, stroke=pen.palette.slate)
        x += 3.0 + pen.text(x + 3.0, base, tr("from sets done"), style=LABEL) + 6.0
        _trend_key(pen, x, base)

    return Block(6.0, draw)


def _trend_key(pen: Pen, x: float, base: float) -> float:
    p = pen.palette
    pen.rule(x, base - 1.1, x + 7.0, weight=1.4, tone=p.accent, dash=_DASH)
    x += 8.4 + pen.text(x + 8.4, base, tr("trend"), style=LABEL) + 6.0
    pen.rule(x, base - 1.1, x + 7.0, weight=0.4, tone=p.mid, dash=(0.5, 0.8))
    return x + 8.4 + pen.text(x + 8.4, base, tr("its 95 % interval"), style=LABEL) + 6.0


def mass_block(ground: Ground, series: MassSeries, units: str) -> Block:
    """Body mass with its trend, and the corridor of the goal where there is one."""

    def draw(pen: Pen, y: float) -> None:
        box = Box(_LEFT, y + _KEY, ground.width - _LEFT, MASS_MM - _KEY - _FOOT - 2.0)
        last = series.points[-1].on
        corridor = [c for c in series.corridor if c.on <= last + timedelta(days=34)]
        values = [point.value for point in series.points]
        values += [kg for c in corridor for kg in (c.low_kg, c.high_kg)]
        scale = scale_for([in_units(kg, units) for kg in values], box)
        days = [series.points[0].on, last, *(c.on for c in corridor)]
        axis = DayAxis(min(days), max(days), box)
        _grid(pen, scale)
        _corridor(pen, axis, scale, corridor, units)
        if series.trend is not None:
            _trend(pen, axis, scale, series.trend, units)
        for point in series.points:
            pen.disc(
                axis.x(point.on), scale.y(in_units(point.value, units)), 0.7, fill=pen.palette.slate
            )
        for day in series.missing:
            _cross(pen, axis.x(day + timedelta(days=3)), box.bottom - 1.6, half=0.8)
        _days(pen, axis)
        _mass_key(pen, y + 3.2, series)

    return Block(MASS_MM, draw)


def _corridor(
    pen: Pen, axis: DayAxis, scale: Scale, corridor: Sequence[Corridor], units: str
) -> None:
    """Slanting lines between the corridor's two edges."""
    if len(corridor) < 2:
        return
    p = pen.palette
    edges: list[list[tuple[float, float]]] = [[], []]
    for bound in corridor:
        x = axis.x(bound.on)
        edges[0].append((x, scale.y(in_units(bound.low_kg, units))))
        edges[1].append((x, scale.y(in_units(bound.high_kg, units))))
    for edge in edges:
        pen.polygon(tuple(edge), stroke=p.line, weight=0.8, closed=False)
    x = edges[0][0][0] + 1.6
    while x < edges[0][-1][0]:
        low, high = (_height(edge, x) for edge in edges)
        pen.rule(x, low, x, to_y=high, weight=0.3, tone=p.line)
        x += 1.6


def _height(edge: Sequence[tuple[float, float]], x: float) -> float:
    """The height of a line of straight pieces at `x`."""
    for (left, start), (right, end) in pairwise(edge):
        if left <= x <= right:
            return start + (end - start) * (x - left) / (right - left)
    return edge[-1][1]


def _mass_key(pen: Pen, y: float, series: MassSeries) -> None:
    p = pen.palette
    pen.disc(_LEFT + 0.7, y - 1.1, 0.7, fill=p.slate)
    x = _LEFT + 2.6 + pen.text(_LEFT + 2.6, y, tr("weighing"), style=LABEL) + 6.0
    if series.trend is not None:
        x = _trend_key(pen, x, y)
    if series.corridor:
        box = Box(x, y - 2.4, 7.0, 2.8)
        for at in range(5):
            pen.rule(x + at * 1.6, box.y, x + at * 1.6, to_y=box.bottom, weight=0.3, tone=p.line)
        pen.rule(box.x, box.y, box.right, weight=0.8, tone=p.line)
        pen.rule(box.x, box.bottom, box.right, weight=0.8, tone=p.line)
        x += 8.4 + pen.text(x + 8.4, y, tr("corridor of the goal"), style=LABEL) + 6.0
    if series.missing:
        _cross(pen, x + 0.8, y - 1.1, half=0.8)
        pen.text(x + 3.0, y, tr("week without one"), style=LABEL)
