from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy import interp

from app.domain.curve import CURVES, find_curve, fraction_of_one_rep_max, reps_at_fraction
from app.domain.errors import CoachError, QuantityError

REPS = st.floats(1, 50)
CURVE = st.sampled_from(sorted(CURVES))


@given(REPS, REPS, CURVE)
def test_more_repetitions_mean_a_smaller_fraction(one, other, curve):
    fewer, more = sorted((one, other))
    assert fraction_of_one_rep_max(fewer, curve) >= fraction_of_one_rep_max(more, curve)
    if more - fewer > 1e-6:
        assert fraction_of_one_rep_max(fewer, curve) > fraction_of_one_rep_max(more, curve)


@given(REPS, CURVE)
def test_the_inverse_gives_the_repetitions_back(reps, curve):
    fraction = fraction_of_one_rep_max(reps, curve)
    assert reps_at_fraction(fraction, curve) == pytest.approx(reps, abs=1e-6)


@given(REPS)
def test_between_points_the_table_is_read_as_a_library_interpolates(reps):
    xs, ys = zip(*find_curve("textbook").points, strict=True)
    assert fraction_of_one_rep_max(reps) == pytest.approx(interp(reps, xs, ys))


@pytest.mark.parametrize("curve", CURVES)
def test_one_repetition_is_the_whole_maximum(curve):
    assert fraction_of_one_rep_max(1, curve) == 1.0
    assert reps_at_fraction(1.0, curve) == 1.0


@pytest.mark.parametrize("reps", [0, -3, 51, 200, float("nan"), float("inf")])
def test_repetitions_off_the_curve_are_refused_with_the_range(reps):
    with pytest.raises(QuantityError, match=r"repetitions to failure .* outside 1 to 50"):
        fraction_of_one_rep_max(reps)


@pytest.mark.parametrize("fraction", [0, -0.5, 0.2, 1.01, float("nan")])
def test_fractions_off_the_curve_are_refused(fraction):
    with pytest.raises(QuantityError, match="fraction of 1RM"):
        reps_at_fraction(fraction)


def test_an_unknown_curve_is_named_with_a_near_match():
    with pytest.raises(CoachError, match="Did you mean 'textbook'"):
        find_curve("textbok")
