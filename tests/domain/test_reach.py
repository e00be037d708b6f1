from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Increments
from app.domain.errors import CoachError, QuantityError
from app.domain.exercise import LoadKind
from app.domain.reach import nearest_in_reach
from app.domain.units import nearest_plates, nearest_step

GYM = Increments()


@given(st.floats(20, 400), st.sampled_from([(25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25), (20.0, 0.5)]))
def test_a_bar_comes_within_half_a_step_of_the_load_wanted(exact_kg, plates_kg):
    found = nearest_in_reach(exact_kg, Increments(plates_kg=plates_kg))
    assert found.plates is not None
    assert abs(found.load_kg - exact_kg) <= min(plates_kg) + 1e-6
    assert found.load_kg == pytest.approx(20 + 2 * sum(found.plates.plates))
    assert not found.remark


@given(
    st.floats(20, 200),
    st.sets(st.sampled_from([20.0, 15.0, 7.5, 4.0, 1.5]), min_size=1).map(tuple),
)
def test_no_other_choice_of_plates_comes_nearer(exact_kg, plates_kg):
    # every load that these plates make, by counting up
    sides = {0.0}
    frontier = {0.0}
    while frontier:
        frontier = {s + p for s in frontier for p in plates_kg if s + p <= 120} - sides
        sides |= frontier
    best = min(abs(20 + 2 * side - exact_kg) for side in sides)
    found = nearest_plates(exact_kg, 20.0, plates_kg)
    assert abs(found.loaded_kg - exact_kg) == pytest.approx(best, abs=2e-3)


def test_the_lower_of_two_loads_equally_near_is_taken():
    assert nearest_in_reach(61.25, GYM).load_kg == 60.0
    assert nearest_step(7.5, 5.0, low_kg=5, high_kg=100) == 5.0


def test_a_load_below_the_empty_bar_says_so():
    found = nearest_in_reach(12.0, GYM)
    assert found.load_kg == 20.0
    assert "empty bar, 20 kg, is heavier than the 12 kg wanted" in found.remark


@pytest.mark.parametrize(
    ("kind", "exact_kg", "load_kg"),
    [
        (LoadKind.DUMBBELL_EACH, 14.9, 14.0),
        (LoadKind.DUMBBELL_ONE, 15.1, 16.0),
        (LoadKind.MACHINE, 52.4, 50.0),
        (LoadKind.CABLE, 18.6, 17.5),
        (LoadKind.BODY, 6.0, 6.25),
        (LoadKind.BODY, 0.4, 0.0),
    ],
)
def test_each_kind_of_load_has_its_own_steps(kind, exact_kg, load_kg):
    found = nearest_in_reach(exact_kg, GYM, kind=kind)
    assert (found.load_kg, found.remark) == (load_kg, "")


def test_a_dumbbell_past_the_rack_gives_the_heaviest_and_says_so():
    found = nearest_in_reach(46.0, GYM, kind=LoadKind.DUMBBELL_EACH)
    assert found.load_kg == 40.0
    assert "heaviest dumbbell, 40 kg, is lighter than the 46 kg wanted" in found.remark


def test_too_heavy_a_body_gives_the_help_to_take_off():
    found = nearest_in_reach(-13.0, GYM, kind=LoadKind.BODY)
    assert found.load_kg == -15.0
    assert "take 15 kg off" in found.remark


@pytest.mark.parametrize("kind", [LoadKind.BAND, LoadKind.NONE])
def test_bands_have_grades_and_no_kilograms(kind):
    with pytest.raises(CoachError, match="no load in kg"):
        nearest_in_reach(20.0, GYM, kind=kind)


@pytest.mark.parametrize("exact_kg", [-1.0, 10_000.0, float("nan"), float("inf")])
def test_absurd_loads_are_refused_by_name_value_and_range(exact_kg):
    for kind in (LoadKind.BARBELL, LoadKind.MACHINE, LoadKind.DUMBBELL_ONE):
        with pytest.raises(QuantityError, match=r"load, kg .* outside 0 to 1000"):
            nearest_in_reach(exact_kg, GYM, kind=kind)


def test_pound_plates_make_pound_loads():
    pounds = Increments(
        bar_kg=45 * 0.45359237,
        plates_kg=tuple(size * 0.45359237 for size in (45, 35, 25, 10, 5, 2.5)),
    )
    found = nearest_in_reach(134.0 * 0.45359237, pounds, unit="lb")
    assert found.load_kg == pytest.approx(135 * 0.45359237, abs=0.002)
    assert found.rule == "Nearest in reach, 5 lb steps"
