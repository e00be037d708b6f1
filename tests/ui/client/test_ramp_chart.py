from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF

from app.domain import energy
from app.domain.client import EnergyGoal
from app.ui.client.ramp_chart import RampChart, week_text
from tests.ui.desks import RUNA, TODAY

GAINING = replace(RUNA, energy_goal=EnergyGoal.GAIN, kcal_now=2050.0)


def planned(client):
    found = energy.usual_plan(client, weeks=6, on=TODAY)
    assert isinstance(found, energy.EnergyPlan)
    return found


PLAN = planned(GAINING)


@pytest.fixture
def chart(qtbot, dressed):
    made = RampChart()
    qtbot.addWidget(made)
    made.resize(420, 200)
    made.show_plan(PLAN, open_week=2)
    made.show()
    return made


def test_every_week_stands_at_its_energy(chart):
    low, high = chart.span()
    assert low <= min(week.kcal for week in PLAN.weeks)
    assert high >= max(PLAN.need_kcal, PLAN.target_kcal)
    heights = [chart.y_of(week.kcal) for week in PLAN.weeks]
    assert heights == sorted(heights, reverse=True)
    tall = chart.y_of(low) - chart.y_of(high)
    share = (chart.y_of(low) - chart.y_of(PLAN.need_kcal)) / tall
    assert share == pytest.approx((PLAN.need_kcal - low) / (high - low))


def test_pointing_finds_the_week(chart):
    for week in PLAN.weeks:
        start, end = chart.column(week.number)
        assert chart.week_at(QPointF((start + end) / 2, 50)) is week
    assert chart.week_at(QPointF(0, 50)) is None
    assert week_text(PLAN.weeks[0]) == "Week 1: 2,050 kcal, protein 105 g a day"


def test_it_is_told_in_a_sentence_and_painted(chart):
    assert "From 2,050 kcal a day in week 1" in chart.accessibleDescription()
    picture = chart.grab().toImage()
    colours = {picture.pixelColor(x, y).name() for x in range(0, 420, 3) for y in range(200)}
    assert "#7a2558" in colours


def test_without_numbers_it_is_blank(chart):
    chart.show_plan(None)
    assert chart.accessibleDescription() == ""
    assert chart.week_at(QPointF(100, 50)) is None
    assert not chart.grab().isNull()


def test_a_level_plan_has_a_scale_too(chart):
    hold = replace(RUNA, energy_goal=EnergyGoal.HOLD)
    chart.show_plan(planned(hold))
    low, high = chart.span()
    assert high > low
