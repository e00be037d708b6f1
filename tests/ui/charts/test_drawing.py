from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from matplotlib.patches import Rectangle
from scipy.stats import theilslopes

from app.domain.exercise import Catalogue
from app.domain.progress import Origin
from app.ui.charts.data import chart_of
from app.ui.charts.drawing import figure_of
from app.ui.charts.kinds import Choice, Kind
from app.ui.charts.look import paper_look
from app.ui.charts.pen import drawing
from tests.builders import CATALOGUE
from tests.ui.charts.sample import ASKED, MISSING, SQUAT


def drawn(kind, asked=ASKED, **fields):
    chart = chart_of(asked, Choice(kind, **fields), theilslopes)
    with drawing():
        figure = figure_of(chart, paper_look(), size_in=(7, 4), dpi=80)
        figure.draw_without_rendering()
    return chart, figure


def words(figure):
    return [text.get_text() for axes in figure.axes for text in axes.get_legend().get_texts()]


def test_marks_of_strength_stand_at_the_series_values():
    chart, figure = drawn(Kind.STRENGTH)
    (axes,) = figure.axes
    shown = {}
    for container in axes.containers:
        line = container.lines[0]
        shown[line.get_marker()] = [tuple(map(float, p)) for p in line.get_xydata()]
    wanted = {
        sign: [(p.on.toordinal(), p.kg) for p in chart.strength.points if p.origin is origin]
        for sign, origin in (("o", Origin.SETS), ("D", Origin.TEST))
    }
    assert shown == wanted
    assert words(figure) == ["interval of the trend", "trend", "from sets done", "test"]


def test_the_line_of_body_mass_is_scipys():
    chart, figure = drawn(Kind.MASS)
    (axes,) = figure.axes
    line = next(line for line in axes.lines if line.get_label() == "trend")
    x, y = line.get_xdata(), line.get_ydata()
    points = chart.mass.points
    days = np.array([p.on.toordinal() for p in points])
    slope, start, *_ = theilslopes([p.value for p in points], days - days[0])
    assert x[-1] == days[-1]
    assert y[0] == pytest.approx(start)
    assert (y[-1] - y[0]) / (x[-1] - x[0]) == pytest.approx(slope)
    assert words(figure)[-1] == "week without one"


def bars(axes, word):
    container = next(c for c in axes.containers if c.get_label() == word)
    assert all(isinstance(bar, Rectangle) for bar in container)
    return {round(bar.get_x() + bar.get_width() / 2): bar.get_height() for bar in container}


@pytest.mark.parametrize(
    ("kind", "planned", "done"),
    [
        (Kind.SETS, lambda w: w.planned_sets, lambda w: w.done_sets),
        (Kind.TONNAGE, lambda w: w.planned_kg, lambda w: w.done_kg),
    ],
)
def test_bars_stand_at_what_was_planned_and_done(kind, planned, done):
    chart, figure = drawn(kind)
    (axes,) = figure.axes
    entered = {w.number: done(w) for w in chart.weeks if w.entered}
    assert bars(axes, "done") == pytest.approx(entered)
    light = {w.number: planned(w) for w in chart.weeks if w.light}
    assert bars(axes, "planned, light week") == pytest.approx(light)
    crosses = next(line for line in axes.lines if line.get_label() == "no entry")
    assert [x - 1 for x in crosses.get_xdata()] == list(MISSING)


def test_adherence_is_drawn_in_per_cent():
    chart, figure = drawn(Kind.ADHERENCE)
    shown = bars(figure.axes[0], "done")
    assert shown == pytest.approx({w.number: 100 * w.done.share for w in chart.weeks if w.done})


def test_each_muscle_has_a_picture_of_its_own():
    chart, figure = drawn(Kind.MUSCLES)
    assert len(figure.axes) == len(chart.muscles)
    for axes, muscle in zip(figure.axes, chart.muscles, strict=True):
        wanted = {w.number: w.done_muscles.get(muscle, 0.0) for w in chart.weeks if w.entered}
        assert bars(axes, "done") == pytest.approx(wanted)


def test_what_differs_differs_without_colour():
    _, figure = drawn(Kind.SETS)
    hatches = {c.get_label(): c[0].get_hatch() for c in figure.axes[0].containers}
    assert hatches == {"planned": None, "planned, light week": "////", "done": None}


def test_a_dollar_in_a_name_is_a_dollar():
    odd = replace(CATALOGUE[SQUAT], name=r"Squat $x^2$ \frac")
    asked = replace(
        ASKED, catalogue=Catalogue(tuple(odd if e is CATALOGUE[SQUAT] else e for e in CATALOGUE))
    )
    chart = chart_of(asked, Choice(Kind.STRENGTH), theilslopes)
    with drawing():
        figure = figure_of(chart, paper_look(), size_in=(7, 4), dpi=80, title=True)
        figure.draw_without_rendering()
    title = next(text for text in figure.texts if "Squat" in text.get_text())
    assert not title.get_parse_math()
    assert "$x^2$" in title.get_text()


def test_girths_and_marks_have_a_small_chart_each():
    chart, figure = drawn(Kind.GIRTHS)
    assert [axes.get_title(loc="right") for axes in figure.axes] == ["Waist", "Thigh"]
    for axes, one in zip(figure.axes, chart.girths, strict=True):
        shown = [float(y) for y in axes.lines[0].get_ydata()]
        assert shown == [point.value for point in one.points]
        assert axes.get_xlim() == figure.axes[0].get_xlim()
    chart, figure = drawn(Kind.MARKS)
    assert [axes.get_title(loc="right") for axes in figure.axes] == ["Sleep", "Mood"]
    mean = figure.axes[0].lines[1].get_ydata()
    assert float(mean[0]) == pytest.approx(chart.marks[0].mean)
