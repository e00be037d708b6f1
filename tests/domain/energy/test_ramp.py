from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.energy.ramp import protein_ramp, ramp
from app.domain.errors import QuantityError

TENS = st.integers(120, 450).map(lambda tens: 10.0 * tens)


@given(TENS, TENS, st.integers(1, 52), st.integers(10, 300), st.data())
def test_a_ramp_goes_one_way_in_bounded_steps_and_ends_at_the_target(
    start, target, weeks, most, data
):
    arrive_in = data.draw(st.none() | st.integers(1, weeks))
    found = ramp(start, target, weeks=weeks, arrive_in=arrive_in, most_step_kcal=most)
    assert len(found.kcal) == weeks
    assert found.kcal[0] == start
    assert list(found.kcal) == sorted(found.kcal, reverse=target < start)
    assert all(abs(b - a) <= most for a, b in pairwise(found.kcal))
    if found.reached_in is None:
        assert found.kcal[-1] != target
        assert "not reached in these weeks" in found.remark
    else:
        assert set(found.kcal[found.reached_in - 1 :]) == {target}
        if arrive_in is not None and found.reached_in > arrive_in:
            assert f"week {found.reached_in}, not {arrive_in}" in found.remark


def test_enough_weeks_arrive_when_asked():
    found = ramp(2260, 2660, weeks=21, arrive_in=9, most_step_kcal=100)
    assert found.kcal[:9] == (2260, 2310, 2360, 2410, 2460, 2510, 2560, 2610, 2660)
    assert (found.reached_in, found.remark) == (9, "")


def test_protein_climbs_by_five_grams():
    assert protein_ramp(95, 110, 5) == (95, 100, 105, 110, 110)
    assert protein_ramp(None, 110, 3) == (110, 110, 110)
    assert protein_ramp(130, 120, 3) == (130, 125, 120)


@pytest.mark.parametrize(
    "fields", [{"weeks": 0}, {"arrive_in": 13}, {"most_step_kcal": 0}, {"most_step_kcal": 5000}]
)
def test_impossible_ramps_are_refused(fields):
    usual = {"weeks": 12, "arrive_in": None, "most_step_kcal": 100.0}
    with pytest.raises(QuantityError):
        ramp(2000, 2500, **{**usual, **fields})


@pytest.mark.parametrize("figure", [-1.0, float("nan"), float("inf")])
def test_impossible_energies_are_refused_by_name(figure):
    with pytest.raises(QuantityError, match=rf"start from, kcal a day {figure} is outside 0 to"):
        ramp(figure, 2000, weeks=12, arrive_in=None, most_step_kcal=100)
    with pytest.raises(QuantityError, match=rf"arrive at, kcal a day {figure} is outside 0 to"):
        ramp(2000, figure, weeks=12, arrive_in=None, most_step_kcal=100)
    with pytest.raises(QuantityError, match=rf"protein to arrive at, g {figure} is outside 0 to"):
        protein_ramp(None, figure, 3)
