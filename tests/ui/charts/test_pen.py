from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib import rcParams
from matplotlib.figure import Figure

from app.ui.charts.look import paper_look
from app.ui.charts.pen import Pen, day_of, drawing, x_of


@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_a_day_comes_back_from_where_it_stands(day):
    assert day_of(int(x_of(day))) == day


def test_settings_of_drawing_are_gone_afterwards():
    before = rcParams["text.parse_math"], rcParams["font.family"]
    with drawing():
        assert rcParams["text.parse_math"] is False
        assert rcParams["pdf.fonttype"] == 42
    assert (rcParams["text.parse_math"], rcParams["font.family"]) == before


@pytest.mark.parametrize("span", [1, 6, 30, 90, 400, 2000])
def test_days_along_the_axis_are_few_and_none_is_lost(span):
    with drawing():
        figure = Figure(figsize=(7, 4), dpi=80)
        axes = Pen(figure, paper_look()).axes("kg")
        first = x_of(date(2026, 11, 23))
        axes.plot([first, first + span], [60, 61])
        Pen(figure, paper_look()).dates(axes)
    assert 1 <= len(axes.get_xticks()) <= 9
    assert axes.get_xlabel().startswith("2026")


@pytest.mark.parametrize("days", [[0], [0, 0], [0, 1], [0, 5, 9]])
def test_a_single_day_has_an_axis_of_days_and_not_of_centuries(days):
    with drawing():
        figure = Figure(figsize=(7, 4), dpi=80)
        axes = Pen(figure, paper_look()).axes("kg")
        first = x_of(date(2026, 4, 11))
        axes.plot([first + day for day in days], [60 + day for day in days], "o")
        Pen(figure, paper_look()).dates(axes)
    low, high = axes.get_xlim()
    assert low < first <= first + days[-1] < high
    assert 10 <= high - low <= 30
    assert axes.get_xlabel() == "2026"
    assert 1 <= len(axes.get_xticks()) <= 15
