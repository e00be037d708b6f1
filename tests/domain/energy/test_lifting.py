from __future__ import annotations

import pytest

from app.domain.energy.lifting import (
    MET,
    met_kcal,
)
from app.domain.errors import QuantityError


@pytest.mark.parametrize(
    ("met", "kg", "minutes", "kcal"), [(5.0, 70, 45, 275.6), (3.5, 70, 60, 257.25)]
)
def test_energy_of_lifting_by_the_oxygen_convention(met, kg, minutes, kcal):
    assert met_kcal(met, kg, minutes=minutes) == pytest.approx(kcal, abs=0.1)


def test_codes_carry_their_source():
    assert {entry.source for entry in MET.values()} == {"ainsworth2011", "herrmann2024"}


@pytest.mark.parametrize(
    ("met", "kg", "minutes"), [(0, 70, 60), (5, -1, 60), (5, 70, float("nan"))]
)
def test_impossible_activities_are_refused(met, kg, minutes):
    with pytest.raises(QuantityError):
        met_kcal(met, kg, minutes=minutes)
