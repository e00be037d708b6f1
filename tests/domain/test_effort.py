from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.curve import CURVES, fraction_of_one_rep_max
from app.domain.effort import (
    PercentOneRm,
    PercentRepMax,
    Rir,
    as_percent_one_rm,
    as_percent_rep_max,
    as_rir,
    fraction,
    rating_class,
    text,
)
from app.domain.errors import QuantityError

REPS = st.integers(1, 30)
RIR = st.integers(0, 20).map(lambda halves: Rir(halves / 2))
CURVE = st.sampled_from(sorted(CURVES))


@given(RIR, REPS, CURVE)
def test_reserve_comes_back_from_per_cent_of_1rm(effort, reps, curve):
    back = as_rir(as_percent_one_rm(effort, reps, curve), reps, curve)
    assert back.reps == pytest.approx(effort.reps, abs=1e-6)


@given(RIR, REPS, CURVE)
def test_reserve_comes_back_from_per_cent_of_the_rep_max_load(effort, reps, curve):
    back = as_rir(as_percent_rep_max(effort, reps, curve), reps, curve)
    assert back.reps == pytest.approx(effort.reps, abs=1e-6)


@given(st.floats(40, 99.9), st.integers(1, 30), CURVE)
def test_per_cent_of_the_rep_max_load_comes_back_from_per_cent_of_1rm(percent, reps, curve):
    effort = PercentRepMax(percent)
    back = as_percent_rep_max(as_percent_one_rm(effort, reps, curve), reps, curve)
    assert back.percent == pytest.approx(percent)


@given(RIR, RIR, REPS)
def test_more_in_reserve_is_a_lighter_load(one, other, reps):
    less, more = sorted((one, other), key=lambda effort: effort.reps)
    assert fraction(less, reps) >= fraction(more, reps)


def test_the_three_forms_say_the_same_of_eight_with_two_in_reserve():
    assert fraction(Rir(2), 8) == 0.75
    assert fraction(PercentOneRm(75), 8) == 0.75
    assert as_percent_rep_max(Rir(2), 8).percent == pytest.approx(75 / 0.80)


def test_all_of_the_rep_max_load_is_a_set_to_failure():
    assert as_rir(PercentRepMax(100), 12) == Rir(0)
    assert fraction(PercentRepMax(100), 12) == fraction_of_one_rep_max(12)


def test_a_load_too_heavy_for_the_repetitions_is_refused_with_what_it_allows():
    with pytest.raises(QuantityError, match="90 % of 1RM is too heavy for 8 repetitions"):
        as_rir(PercentOneRm(90), 8)


def test_a_load_above_the_maximum_has_no_reserve():
    with pytest.raises(QuantityError, match="fraction of 1RM"):
        as_rir(PercentOneRm(105), 1)


@pytest.mark.parametrize(
    ("effort", "reps", "written"),
    [
        (Rir(2), None, "RIR 2"),
        (Rir(1.5), 8, "RIR 1.5"),
        (PercentOneRm(75), 10, "75 % 1RM"),
        (PercentOneRm(72.5), 10, "72.5 % 1RM"),
        (PercentRepMax(95), 10, "95 % of 10RM"),
        (PercentRepMax(95), None, "95 % of RM"),
    ],
)
def test_effort_is_written_as_coaches_write_it(effort, reps, written):
    assert text(effort, reps) == written


@pytest.mark.parametrize(
    ("rating", "low", "high"), [(9.5, 0, 0), (7, 3, 3), (6, 4, 6), (5.5, 4, 6), (4, None, None)]
)
def test_ratings_fall_into_the_classes_of_the_scale(rating, low, high):
    # zourdos2016, helms2016; value from memory
    found = rating_class(rating)
    assert (found.low, found.high) == (low, high)


@pytest.mark.parametrize("rating", [0, 11, -1, float("nan")])
def test_ratings_off_the_scale_are_refused(rating):
    with pytest.raises(QuantityError, match="rating of perceived exertion"):
        rating_class(rating)


@pytest.mark.parametrize(
    "make", [lambda: Rir(-1), lambda: Rir(11), lambda: PercentOneRm(0), lambda: PercentRepMax(101)]
)
def test_efforts_off_their_scales_cannot_be_made(make):
    with pytest.raises(QuantityError):
        make()


@pytest.mark.parametrize("reps", [0, -5, float("nan"), float("inf"), 1e308])
@pytest.mark.parametrize("effort", [Rir(2), PercentOneRm(75), PercentRepMax(90)])
@pytest.mark.parametrize("turn", [fraction, as_rir, as_percent_one_rm, as_percent_rep_max])
def test_repetitions_that_there_cannot_be_are_refused_in_every_form(turn, effort, reps):
    with pytest.raises(QuantityError, match=r"repetitions .* is outside 1 to 600"):
        turn(effort, reps)
