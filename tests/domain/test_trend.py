from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import theilslopes

from app.domain.errors import CoachError, QuantityError
from app.domain.trend import Point, trend

START = date(2026, 9, 7)


def daily(values):
    return [Point(START + timedelta(days=day), value) for day, value in enumerate(values)]


@given(st.floats(-2, 2), st.floats(40, 120), st.integers(5, 40))
def test_a_straight_line_is_found_again(per_week, start, days):
    found = trend(daily([start + per_week * day / 7 for day in range(days)]), theilslopes)
    assert found.per_week == pytest.approx(per_week, abs=1e-6)
    assert found.at_first == pytest.approx(start)
    assert found.at(START + timedelta(days=7)) == pytest.approx(start + per_week, abs=1e-6)
    assert found.at_last == pytest.approx(found.at(found.last))


def test_one_wild_value_hardly_moves_the_line():
    values = [80 + 0.05 * day for day in range(30)]
    values[20] = 166.0
    found = trend(daily(values), theilslopes)
    assert found.per_week == pytest.approx(0.35, abs=0.01)
    assert found.is_clear


def test_the_order_of_logging_does_not_matter():
    points = daily([80.0, 80.4, 80.1, 80.6, 80.9])
    assert trend(points[::-1], theilslopes) == trend(points, theilslopes)


def test_scattered_values_make_no_clear_trend():
    found = trend(daily([80.0, 81.0] * 10), theilslopes)
    assert not found.is_clear
    assert found.low_per_week <= 0 <= found.high_per_week
    assert (found.points, round(found.weeks, 2)) == (20, 2.71)


@pytest.mark.parametrize("points", [[], daily([80.0, 81.0]), [Point(START, 80.0)] * 5])
def test_too_few_values_make_no_trend(points):
    with pytest.raises(CoachError, match="make no trend"):
        trend(points, theilslopes)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_values_that_are_no_numbers_are_refused(value):
    with pytest.raises(QuantityError, match="logged value"):
        trend(daily([80.0, 81.0, value]), theilslopes)
