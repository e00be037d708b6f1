from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet.flow import Ground, Heading, print_flow
from app.booklet.fonts import open_faces
from app.booklet.pen import Box
from app.booklet.progress_charts import (
    DayAxis,
    Scale,
    mass_block,
    scale_for,
    strength_key,
    strength_row,
    weeks_block,
)
from tests.booklet.progress_sample import FONTS, report
from tests.booklet.reading_pdf import Printed

BOX = Box(13, 40, 160, 30)
GROUND = Ground(open_faces(FONTS))


@given(st.lists(st.floats(-50, 500), min_size=1, max_size=20), st.booleans())
def test_every_value_stands_inside_its_scale(values, from_zero):
    if from_zero:
        values = [abs(value) for value in values]
    scale = scale_for(values, BOX, from_zero=from_zero)
    assert all(BOX.y - 1e-6 <= scale.y(value) <= BOX.bottom + 1e-6 for value in values)
    assert all(scale.low - 1e-9 <= mark <= scale.high + 1e-9 for mark in scale.marks())
    assert len(scale.marks()) <= 7


def test_amounts_begin_at_nothing():
    assert scale_for([12, 20], BOX, from_zero=True).low == 0
    assert scale_for([], BOX, from_zero=True).high > 0


def test_more_stands_higher():
    scale = Scale(60, 70, BOX)
    assert scale.y(60) == BOX.bottom
    assert scale.y(70) == BOX.y
    assert scale.marks() == (60, 62, 64, 66, 68, 70)


def test_days_stand_in_order_and_one_day_in_the_middle():
    first = date(2026, 11, 23)
    axis = DayAxis(first, first + timedelta(days=60), BOX)
    places = [axis.x(first + timedelta(days=n)) for n in range(0, 61, 10)]
    assert places == sorted(places)
    assert axis.labels() == (first, first + timedelta(days=30), first + timedelta(days=60))
    alone = DayAxis(first, first, BOX)
    assert alone.x(first) == pytest.approx(BOX.x + BOX.width / 2)
    assert alone.labels() == (first,)


def printed(*blocks) -> Printed:
    return Printed(print_flow(GROUND, Heading("Charts"), blocks))


def test_the_weeks_name_their_signs_and_every_week():
    text = printed(weeks_block(GROUND, report().weeks)).text(1)
    for word in ("planned", "planned, light week", "done", "no entry", "Week"):
        assert word in text
    assert all(str(week.number) in text for week in report().weeks)


def test_strength_names_its_exercises_and_days():
    blocks = (strength_key(GROUND), strength_row(GROUND, report().strength, "lb"))
    text = printed(*blocks).text(1)
    for word in ("test", "from sets done", "trend", "Back squat", "Goblet squat", "lb", "19 Nov"):
        assert word in text


def test_mass_names_its_corridor_and_missing_weeks():
    text = printed(mass_block(GROUND, report().mass, "kg")).text(1)
    for word in ("weighing", "trend", "corridor of the goal", "week without one", "23 Nov"):
        assert word in text


def test_a_chart_is_as_high_as_it_says():
    # a block that drew past its height would run into what stands below it
    block = weeks_block(GROUND, report().weeks)
    letters = [each for each in printed(block).letters(1) if each.size <= 9.01]
    lowest = max(each.bottom for each in letters if each.bottom < 200)
    assert lowest <= 24.2 + block.height
