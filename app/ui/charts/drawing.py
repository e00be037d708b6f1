"""Charts drawn by matplotlib into a figure of its own; never through pyplot, never with Qt.

What tells two things apart has a shape, a dash or a hatch beside its tone, so that a grey copy
still reads. Whoever draws does it inside `pen.drawing`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.text import Text
from matplotlib.ticker import MaxNLocator

from app.domain.muscle_groups import muscle_name
from app.domain.progress.reported import (
    MARKS,
    SITE_NAMES,
    GirthSeries,
    MarkSeries,
    days_of,
    in_length,
    length_unit,
)
from app.domain.progress.series import MassSeries, Origin, StrengthPoint
from app.domain.progress.weeks import WeekDone
from app.domain.units import in_units
from app.domain.wording import tr
from app.ui.charts.kinds import Chart, Kind
from app.ui.charts.look import Look
from app.ui.charts.pen import Pen, x_of


def figure_of(
    chart: Chart, look: Look, *, size_in: tuple[float, float], dpi: float, title: bool = False
) -> Figure:
    """The chart as a figure of that size; with `title` its name stands above it."""
    figure = Figure(figsize=size_in, dpi=dpi, facecolor=look.ground, layout="constrained")
    pen = Pen(figure, look)
    _DRAWN[chart.kind](pen, chart)
    if title:
        figure.suptitle(chart.title, x=0.01, ha="left", fontsize=look.type_pt * 1.3)
    for text in figure.findobj(Text):
        assert isinstance(text, Text)
        text.set_color(look.ink)
    return figure


def _strength(pen: Pen, chart: Chart) -> None:
    series = chart.strength
    assert series is not None
    axes = pen.axes(chart.units)
    if series.trend is not None:
        pen.trend(axes, series.trend, chart.units)
    signs = (
        (Origin.SETS, "o", pen.look.ground, tr("from sets done")),
        (Origin.TEST, "D", pen.look.bar, tr("test")),
    )
    for origin, sign, fill, word in signs:
        points = [point for point in series.points if point.origin is origin]
        if points:
            _whiskers(pen, axes, points, units=chart.units, sign=(sign, fill, word))
    pen.dates(axes)
    pen.legend(axes)


def _whiskers(
    pen: Pen,
    axes: Axes,
    points: Sequence[StrengthPoint],
    *,
    units: str,
    sign: tuple[str, str, str],
) -> None:
    """Estimates with their intervals: the sign's shape and filling say what they rest on."""
    shape, fill, word = sign
    x = [x_of(point.on) for point in points]
    y = [in_units(point.kg, units) for point in points]
    below = [in_units(point.kg - point.low_kg, units) for point in points]
    above = [in_units(point.high_kg - point.kg, units) for point in points]
    axes.errorbar(
        x,
        y,
        yerr=[below, above],
        fmt=shape,
        color=pen.look.bar,
        markerfacecolor=fill,
        markeredgecolor=pen.look.bar,
        markersize=6,
        elinewidth=1,
        capsize=2.5,
        label=word,
        zorder=4,
    )


def _mass(pen: Pen, chart: Chart) -> None:
    series = chart.mass
    assert series is not None
    axes = pen.axes(chart.units)
    look = pen.look
    if series.corridor:
        x = [x_of(bound.on) for bound in series.corridor]
        axes.fill_between(
            x,
            [in_units(bound.low_kg, chart.units) for bound in series.corridor],
            [in_units(bound.high_kg, chart.units) for bound in series.corridor],
            facecolor="none",
            edgecolor=look.rule,
            hatch="////",
            linewidth=1.0,
            label=tr("corridor of the goal"),
            zorder=0,
        )
    if series.trend is not None:
        pen.trend(axes, series.trend, chart.units)
    axes.plot(
        [x_of(point.on) for point in series.points],
        [in_units(point.value, chart.units) for point in series.points],
        linestyle="none",
        marker="o",
        markersize=4.5,
        color=look.bar,
        label=tr("weighing"),
        zorder=4,
    )
    _missing_weeks(axes, series, look)
    pen.dates(axes)
    pen.legend(axes, columns=5)


def _missing_weeks(axes: Axes, series: MassSeries, look: Look) -> None:
    """A cross at the foot for each week without a weighing."""
    if series.missing:
        axes.plot(
            [x_of(day) + 3 for day in series.missing],
            [0.02] * len(series.missing),
            linestyle="none",
            marker="x",
            markersize=5,
            color=look.mid,
            transform=axes.get_xaxis_transform(),
            clip_on=False,
            label=tr("week without one"),
        )


def _bars(
    pen: Pen,
    axes: Axes,
    weeks: Sequence[WeekDone],
    *,
    planned: Callable[[WeekDone], float],
    done: Callable[[WeekDone], float | None],
) -> None:
    """Each week: planned as an open bar, done as a filled one in it; light weeks are hatched."""
    look = pen.look
    usual = [week for week in weeks if not week.light]
    light = [week for week in weeks if week.light]
    outline: dict[str, Any] = {
        "facecolor": "none",
        "edgecolor": look.rule,
        "linewidth": 1.2,
        "zorder": 3,
    }
    axes.bar(
        [w.number for w in usual],
        [planned(w) for w in usual],
        width=0.82,
        label=tr("planned"),
        **outline,
    )
    if light:
        axes.bar(
            [w.number for w in light],
            [planned(w) for w in light],
            width=0.82,
            hatch="////",
            label=tr("planned, light week"),
            **outline,
        )
    entered = [(week.number, done(week)) for week in weeks if done(week) is not None]
    axes.bar(
        [number for number, _ in entered],
        [value or 0.0 for _, value in entered],
        width=0.44,
        facecolor=look.bar,
        label=tr("done"),
        zorder=4,
    )
    _no_entries(axes, look, [w.number for w in weeks if done(w) is None and _past(w, weeks)])
    _week_axis(axes, weeks)


def _no_entries(axes: Axes, look: Look, numbers: Sequence[int]) -> None:
    """A cross at the foot of each week that has no entry."""
    if numbers:
        axes.plot(
            numbers,
            [0.03] * len(numbers),
            linestyle="none",
            marker="x",
            markersize=5,
            color=look.ink,
            transform=axes.get_xaxis_transform(),
            label=tr("no entry"),
            zorder=5,
        )


def _past(week: WeekDone, weeks: Sequence[WeekDone]) -> bool:
    """True if a later week has entries: then this one's are missing, and not only to come."""
    return any(other.entered and other.number > week.number for other in weeks)


def _week_axis(axes: Axes, weeks: Sequence[WeekDone]) -> None:
    if weeks:
        step = 1 if len(weeks) <= 24 else 4
        axes.set_xticks([week.number for week in weeks if (week.number - 1) % step == 0])
        axes.set_xlim(weeks[0].number - 0.7, weeks[-1].number + 0.7)


def _sets(pen: Pen, chart: Chart) -> None:
    axes = pen.axes(tr("sets a week"))
    _bars(pen, axes, chart.weeks, planned=lambda w: w.planned_sets, done=lambda w: w.done_sets)
    axes.set_xlabel(tr("week"), fontsize=pen.look.type_pt)
    pen.legend(axes)


def _tonnage(pen: Pen, chart: Chart) -> None:
    axes = pen.axes(tr("{units} a week", units=chart.units))
    units = chart.units
    _bars(
        pen,
        axes,
        chart.weeks,
        planned=lambda w: in_units(w.planned_kg, units),
        done=lambda w: None if w.done_kg is None else in_units(w.done_kg, units),
    )
    axes.yaxis.set_major_formatter(lambda value, _at: f"{value:,.0f}")
    axes.set_xlabel(tr("week"), fontsize=pen.look.type_pt)
    pen.legend(axes)


def _adherence(pen: Pen, chart: Chart) -> None:
    axes, look, weeks = pen.axes(tr("planned sets done")), pen.look, chart.weeks
    entered = [week for week in weeks if week.done is not None]
    axes.axhline(100, color=look.rule, linewidth=1.2, dashes=(2, 2), label=tr("all of the plan"))
    axes.bar(
        [week.number for week in entered],
        [100 * week.done.share for week in entered if week.done],
        width=0.6,
        facecolor=look.bar,
        label=tr("done"),
        zorder=3,
    )
    _no_entries(axes, look, [w.number for w in weeks if w.done is None and _past(w, weeks)])
    axes.yaxis.set_major_formatter(lambda value, _at: f"{value:.0f} %")
    axes.set_ylim(0, 112)
    axes.set_xlabel(tr("week"), fontsize=look.type_pt)
    _week_axis(axes, weeks)
    pen.legend(axes)


def _muscles(pen: Pen, chart: Chart) -> None:
    count = max(1, len(chart.muscles))
    most = max(
        (
            max(w.planned_muscles.get(m, 0.0), w.done_muscles.get(m, 0.0))
            for w in chart.weeks
            for m in chart.muscles
        ),
        default=1.0,
    )
    first: Axes | None = None
    for number, muscle in enumerate(chart.muscles):
        axes = pen.axes("", place=(count, 1, number + 1))
        axes.set_ylim(0, most * 1.1 or 1.0)
        axes.set_title(muscle_name(muscle), loc="right", fontsize=pen.look.type_pt * 0.95, pad=2.0)
        _bars(
            pen,
            axes,
            chart.weeks,
            planned=lambda w, m=muscle: w.planned_muscles.get(m, 0.0),  # type: ignore[misc]
            done=lambda w, m=muscle: (  # type: ignore[misc]
                w.done_muscles.get(m, 0.0) if w.entered else None
            ),
        )
        axes.yaxis.set_major_locator(MaxNLocator(nbins=3, integer=True))
        if number + 1 < count:
            axes.tick_params(labelbottom=False)
        first = first or axes
    if first is not None:
        pen.legend(first)
        pen.figure.supylabel(tr("sets a week"), fontsize=pen.look.type_pt)
        pen.figure.supxlabel(tr("week"), fontsize=pen.look.type_pt)


def _girths(pen: Pen, chart: Chart) -> None:
    """A small chart a site, each on a scale of its own: what counts is where it is heading."""
    for number, one in enumerate(chart.girths):
        axes = _small(pen, len(chart.girths), number, tr(SITE_NAMES[one.site]))
        x = [x_of(point.on) for point in one.points]
        y = [in_length(point.value, chart.units) for point in one.points]
        axes.plot(
            x,
            y,
            linestyle="none",
            marker="o",
            markersize=4.5,
            color=pen.look.bar,
            label=tr("measured"),
        )
        if one.trend is not None:
            ends = (one.trend.first, one.trend.last)
            axes.plot(
                [x_of(day) for day in ends],
                [in_length(one.trend.at(day), chart.units) for day in ends],
                color=pen.look.accent,
                linewidth=1.6,
                dashes=(6, 2),
                label=tr("trend"),
            )
        axes.margins(y=0.3)
        _share_days(pen, axes, chart.girths, last=number + 1 == len(chart.girths))
    with_key = next((a for a in pen.figure.axes if len(a.lines) > 1), pen.figure.axes[0])
    pen.legend(with_key)
    pen.figure.supylabel(length_unit(chart.units), fontsize=pen.look.type_pt)


def _marks(pen: Pen, chart: Chart) -> None:
    """A small chart a mark, all from 1 to 5."""
    for number, one in enumerate(chart.marks):
        axes = _small(pen, len(chart.marks), number, tr(MARKS[one.key]))
        axes.plot(
            [x_of(point.on) for point in one.points],
            [point.value for point in one.points],
            color=pen.look.rule,
            linewidth=1.0,
            marker="o",
            markersize=4.5,
            markerfacecolor=pen.look.bar,
            markeredgecolor=pen.look.bar,
            label=tr("answer"),
        )
        axes.axhline(
            one.mean, color=pen.look.accent, linewidth=1.4, dashes=(6, 2), label=tr("mean")
        )
        axes.set_ylim(0.7, 5.3)
        axes.set_yticks([1, 3, 5])
        _share_days(pen, axes, chart.marks, last=number + 1 == len(chart.marks))
    pen.legend(pen.figure.axes[0])
    pen.figure.supylabel(tr("1 poor, 5 good"), fontsize=pen.look.type_pt)


def _small(pen: Pen, count: int, number: int, name: str) -> Axes:
    """One of several small charts below each other, its name at the right."""
    axes = pen.axes("", place=(count, 1, number + 1))
    axes.set_title(name, loc="right", fontsize=pen.look.type_pt * 0.95, pad=2.0)
    axes.yaxis.set_major_locator(MaxNLocator(nbins=3))
    return axes


def _share_days(
    pen: Pen, axes: Axes, series: Sequence[GirthSeries | MarkSeries], *, last: bool
) -> None:
    """The same days along every small chart; only the lowest writes them."""
    days = days_of(series)
    air = max(1.0, (days[-1] - days[0]).days * 0.03)
    axes.set_xlim(x_of(days[0]) - air, x_of(days[-1]) + air)
    pen.dates(axes)
    if not last:
        axes.tick_params(labelbottom=False)
        axes.set_xlabel("")


_DRAWN: dict[Kind, Callable[[Pen, Chart], None]] = {
    Kind.STRENGTH: _strength,
    Kind.SETS: _sets,
    Kind.TONNAGE: _tonnage,
    Kind.ADHERENCE: _adherence,
    Kind.MASS: _mass,
    Kind.MUSCLES: _muscles,
    Kind.GIRTHS: _girths,
    Kind.MARKS: _marks,
}
