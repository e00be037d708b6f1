from __future__ import annotations

from datetime import date, timedelta
from math import sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import theilslopes

from app.domain.energy.recheck import (
    reestimate,
)
from app.domain.errors import CoachError, QuantityError
from app.domain.trend import Point

START = date(2026, 9, 7)


def daily(values):
    return [Point(START + timedelta(days=day), value) for day, value in enumerate(values)]


@given(st.floats(-1, 1), st.floats(1500, 4000), st.integers(14, 60))
def test_the_balance_of_intake_and_mass_is_the_energy_used(per_week, intake, days):
    masses = daily([80 + per_week * day / 7 for day in range(days)])
    found = reestimate(masses, daily([intake] * days), theilslopes)
    # wishnofsky1958: half a kilogram a week lost is 550 kcal a day more than was eaten
    assert found.kcal == pytest.approx(intake - 7700 * per_week / 7, abs=0.5)
    assert found.low - 1e-6 <= found.kcal <= found.high + 1e-6


def test_half_a_kilogram_a_week_lost_is_550_kcal():
    masses = daily([80 - 0.5 * day / 7 for day in range(21)])
    found = reestimate(masses, daily([2000.0] * 21), theilslopes)
    assert found.kcal == pytest.approx(2550)
    line = found.working().lines[2]
    assert (line.label, line.value) == ("At 7,700 kcal for a kg", "+550 kcal")


def test_what_a_kilogram_holds_is_unsure_too():
    eaten = daily([2000.0] * 21)
    losing = reestimate(daily([80 - 0.5 * day / 7 for day in range(21)]), eaten, theilslopes)
    steady = reestimate(daily([80.0] * 21), eaten, theilslopes)
    # nothing scatters here: a fifth of 550 kcal either way is left, and nothing without a change
    assert losing.high - losing.kcal == pytest.approx(110, abs=1)
    assert losing.kcal - losing.low == pytest.approx(110, abs=1)
    assert steady.high - steady.low == pytest.approx(0, abs=1e-6)


def test_scatter_makes_the_estimate_less_sure():
    calm = daily([80.0 + 0.1 * sin(5 * day) for day in range(28)])
    wild = daily([80.0 + 2.0 * sin(5 * day) for day in range(28)])
    eaten = daily([2400.0 + 100 * (day % 3) for day in range(28)])
    sure, unsure = (reestimate(masses, eaten, theilslopes) for masses in (calm, wild))
    assert unsure.high - unsure.low > sure.high - sure.low > 0


def test_intake_outside_the_weighings_does_not_count():
    masses = daily([80.0] * 14)
    eaten = [*daily([2000.0] * 14), Point(START + timedelta(days=40), 9000.0)]
    assert reestimate(masses, eaten, theilslopes).intake_kcal == 2000


@pytest.mark.parametrize(("weighings", "meals"), [(0, 0), (5, 14), (13, 13), (14, 6)])
def test_too_few_logs_are_refused_with_what_it_takes(weighings, meals):
    with pytest.raises(CoachError, match="at least 6 weighings over 14 days"):
        reestimate(daily([80.0] * weighings), daily([2000.0] * meals), theilslopes)


def test_impossible_logs_are_refused():
    with pytest.raises(QuantityError, match="body mass"):
        reestimate(daily([800.0] * 20), daily([2000.0] * 20), theilslopes)
    with pytest.raises(QuantityError, match="intake"):
        reestimate(daily([80.0] * 20), daily([-5.0] * 20), theilslopes)
