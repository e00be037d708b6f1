"""The progression's chart: hollow for now, filled for after, hatched for light weeks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage
from pytestqt.qtbot import QtBot

from app.domain import progression
from app.domain.progression import Light, Scheme, SetsPath, Stepwise
from app.ui import theme
from app.ui.bench import Bench
from app.ui.progression_chart import ProgressionChart
from app.ui.progression_weeks import ChartWeek, Course, chart_weeks
from tests.ui.access import unnamed

PLAIN = Course("10", 20, False, "RIR 2", "RIR 1")


@pytest.fixture
def chart(qtbot: QtBot, dressed) -> ProgressionChart:
    made = ProgressionChart()
    qtbot.addWidget(made)
    made.resize(600, made.height())
    return made


def grabbed(chart: ProgressionChart, *weeks: tuple[Course, Course]) -> QImage:
    chart.show_weeks(tuple(ChartWeek(k, a, b) for k, (a, b) in enumerate(weeks)))
    return chart.grab().toImage()


def spot(image: QImage, chart: ProgressionChart, week: int, aside: float) -> QColor:
    """The colour low in a week's bars, so many px beside its middle."""
    rect = chart.column(week)
    return image.pixelColor(round(rect.center().x() + aside), round(rect.bottom() - 4))


def test_what_stays_is_hollow_beside_filled_in_the_bars_colour(chart) -> None:
    image = grabbed(chart, (PLAIN, PLAIN), (PLAIN, PLAIN))
    assert spot(image, chart, 0, -6) == theme.LIGHT.sheet
    assert spot(image, chart, 0, 5) == theme.LIGHT.bar


def test_what_would_change_is_filled_in_the_accent(chart: ProgressionChart) -> None:
    image = grabbed(chart, (PLAIN, replace(PLAIN, sets=24)), (PLAIN, PLAIN))
    assert spot(image, chart, 0, 5) == theme.LIGHT.accent
    assert spot(image, chart, 1, 5) == theme.LIGHT.bar


def test_bars_are_as_high_as_their_sets(chart: ProgressionChart) -> None:
    half = replace(PLAIN, sets=10)
    image = grabbed(chart, (PLAIN, half), (PLAIN, PLAIN))

    def height(week: int) -> int:
        rect = chart.column(week)
        x = round(rect.center().x() + 5)
        ground = theme.LIGHT.sheet
        tall = range(round(rect.top()), round(rect.bottom()))
        return sum(image.pixelColor(x, y) != ground for y in tall)

    assert height(0) == pytest.approx(height(1) / 2, abs=2)


def test_a_light_week_is_hatched(chart: ProgressionChart) -> None:
    light = replace(PLAIN, light=True)
    plain, hatched = grabbed(chart, (PLAIN, PLAIN)), grabbed(chart, (PLAIN, light))
    assert plain != hatched


def test_more_reps_stand_higher(chart: ProgressionChart) -> None:
    heights = [chart._step_y(reps) for reps in ("15", "12", "8–10", "5", "1")]
    assert heights == sorted(heights)
    assert heights[-1] < chart.column(0).top()


def test_reserve_is_told_as_a_number_and_other_efforts_in_full(chart: ProgressionChart) -> None:
    grabbed(chart, (PLAIN, PLAIN))
    assert chart.in_reserve
    assert chart._effort_words() == ("core RIR", "assistance RIR")
    grabbed(chart, (PLAIN, replace(PLAIN, core="75 %")))
    assert not chart.in_reserve


def test_a_point_finds_its_week_and_everything_is_told(chart: ProgressionChart, bench) -> None:
    now = bench.desk.program
    scheme = Scheme(path=Stepwise(9, 4), sets=SetsPath(1), light=Light(3))
    weeks = chart_weeks(now, progression.apply(now, scheme, bench.desk.catalogue))
    chart.show_weeks(weeks)
    for week in weeks:
        assert chart.week_at(chart.column(week.index).center()) is week
        assert week.told in chart.accessibleDescription()
    assert chart.week_at(QPointF(2, 40)) is None
    assert unnamed(chart) == []


def test_without_weeks_and_with_a_year_of_them_it_paints(chart, bench: Bench) -> None:
    chart.grab()
    image = grabbed(chart, *([(PLAIN, replace(PLAIN, reps="8", core="RIR 1"))] * 52))
    assert image.width() == 600
    assert chart.column(51).right() <= chart.width()
