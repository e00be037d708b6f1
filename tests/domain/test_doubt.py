"""Entries that can be, but hardly are; and days that cannot be."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.doubt import doubt_load, doubt_mass, require_birth, require_day, unit_slip
from app.domain.errors import CoachError
from app.domain.units import KG_PER_LB

TODAY = date(2026, 11, 25)


@given(st.floats(30, 200), st.floats(0.92, 1.08))
def test_pounds_for_kilograms_are_noticed_both_ways(kg: float, drift: float) -> None:
    assert unit_slip(kg / KG_PER_LB * drift, kg) == pytest.approx(kg * drift)
    assert unit_slip(kg * KG_PER_LB * drift, kg) == pytest.approx(kg * drift)


@given(st.floats(30, 200), st.floats(0.6, 1.8))
def test_what_a_body_can_do_is_not_questioned(kg: float, change: float) -> None:
    assert unit_slip(kg * change, kg) is None


def test_nothing_and_help_are_no_slip() -> None:
    assert unit_slip(0, 60) is None
    assert unit_slip(-20, 60) is None


def test_a_mass_is_asked_about_with_what_it_would_be() -> None:
    doubt = doubt_mass(146, 66.4)
    assert doubt is not None
    assert doubt.meant == pytest.approx(146 * KG_PER_LB)
    for words in ("146 kg", "66.4 kg", "66.2 kg"):
        assert words in doubt.question
    assert doubt_mass(68, 66.4) is None
    assert doubt_mass(100, 66.4) is None


def test_without_an_earlier_mass_the_stature_speaks() -> None:
    doubt = doubt_mass(185, None, 171)
    assert doubt is not None
    assert doubt.meant == pytest.approx(185 * KG_PER_LB)
    assert doubt_mass(68, None, 171) is None
    assert doubt_mass(68, None) is None
    odd = doubt_mass(300, None, 150)
    assert odd is not None
    assert "300 kg" in odd.question


def test_a_load_is_asked_about_against_the_last_test() -> None:
    doubt = doubt_load(198, 90)
    assert doubt is not None
    assert doubt.meant == pytest.approx(198 * KG_PER_LB)
    assert doubt_load(95, 90) is None
    assert doubt_load(198, None) is None


def test_days_in_the_future_and_before_birth_are_refused() -> None:
    born = date(1992, 3, 14)
    assert require_day("Test", TODAY, today=TODAY, born=born) == TODAY
    later = date(2027, 1, 1)
    with pytest.raises(CoachError, match="Test on 2027-01-01, which is in the future"):
        require_day("Test", later, today=TODAY)
    assert require_day("Until", later, today=TODAY, future=True) == later
    with pytest.raises(CoachError, match="before the birth date 1992-03-14"):
        require_day("Test", date(1991, 1, 1), today=TODAY, born=born)
    with pytest.raises(CoachError, match="longer ago"):
        require_day("Test", date(1, 1, 1), today=TODAY)


def test_a_birth_date_lies_within_a_life() -> None:
    assert require_birth(TODAY, today=TODAY) == TODAY
    for day in (date(2026, 11, 26), date(1900, 1, 1)):
        with pytest.raises(CoachError, match="not in the last 110 years"):
            require_birth(day, today=TODAY)
