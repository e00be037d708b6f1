from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import QuantityError
from app.domain.units import (
    cm_from_in,
    in_from_cm,
    in_units,
    kcal_text,
    kg_from_lb,
    lb_from_kg,
    mass_text,
    nearest_plates,
    nearest_step,
    number_text,
    plates_per_side,
    require,
    require_whole,
)
from app.domain.wording import Language, speaking

GYM_KG = (25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25)


@given(st.floats(0.1, 1000))
def test_pounds_and_inches_come_back(value):
    assert lb_from_kg(kg_from_lb(value)) == pytest.approx(value)
    assert in_from_cm(cm_from_in(value)) == pytest.approx(value)


@given(st.floats(20, 400))
def test_plates_stay_at_or_below_the_target_and_leave_less_than_a_pair(target_kg):
    found = plates_per_side(target_kg, 20.0, GYM_KG)
    assert found.loaded_kg == pytest.approx(20 + 2 * sum(found.plates))
    assert -1e-3 <= found.remainder_kg < 2.5 + 1e-3
    assert list(found.plates) == sorted(found.plates, reverse=True)


@given(st.floats(0, 1000), st.floats(0, 10))
def test_the_nearest_plates_are_no_further_than_those_below(target_kg, collars_kg):
    near = nearest_plates(target_kg, 20.0, GYM_KG, collars_kg)
    assert near.loaded_kg >= 20 + collars_kg
    if target_kg >= 20 + collars_kg:
        below = plates_per_side(target_kg, 20.0, GYM_KG, collars_kg)
        assert abs(near.remainder_kg) <= below.remainder_kg + 1e-3


def test_a_bar_without_plates_is_what_there_is():
    assert nearest_plates(60.0, 20.0, ()).loaded_kg == 20.0


@given(st.floats(-50, 500), st.sampled_from([1.0, 2.5, 5.0]))
def test_the_nearest_step_is_within_half_a_step_between_the_ends(target_kg, step_kg):
    found = nearest_step(target_kg, step_kg, low_kg=step_kg, high_kg=40 * step_kg)
    assert step_kg <= found <= 40 * step_kg
    assert (found / step_kg) == pytest.approx(round(found / step_kg))
    if step_kg <= target_kg <= 40 * step_kg:
        assert abs(found - target_kg) <= step_kg / 2 + 1e-6


@pytest.mark.parametrize(
    ("value", "digits", "written"),
    [(70.0, 1, "70"), (62.5, 1, "62.5"), (104.94, 1, "104.9"), (100.0, 0, "100"), (-0.01, 1, "0")],
)
def test_numbers_are_written_without_idle_zeros(value, digits, written):
    assert number_text(value, digits) == written


def test_masses_are_written_in_either_unit():
    assert mass_text(61.25) == "61.25 kg"
    assert mass_text(kg_from_lb(137.5), "lb") == "137.5 lb"
    assert mass_text(70.28, digits=1) == "70.3 kg"


@pytest.mark.parametrize("value", [-1, 11, float("nan"), float("inf"), float("-inf")])
def test_what_is_out_of_range_is_refused_with_quantity_value_and_range(value):
    with pytest.raises(QuantityError, match=r"sets .* is outside 0 to 10\. Enter a value from"):
        require("sets", value, low=0, high=10)


@pytest.mark.parametrize("target_kg", [-5, 10_000, float("nan")])
def test_impossible_bars_are_refused(target_kg):
    for load in (plates_per_side, nearest_plates):
        with pytest.raises(QuantityError, match="load, kg"):
            load(target_kg, 20.0, GYM_KG)


NO_NUMBERS = [float("nan"), float("inf"), float("-inf")]


@pytest.mark.parametrize("convert", [kg_from_lb, lb_from_kg, cm_from_in, in_from_cm])
@pytest.mark.parametrize("value", NO_NUMBERS)
def test_what_is_no_number_is_not_converted(convert, value):
    with pytest.raises(QuantityError, match=f"{value} is outside"):
        convert(value)


@pytest.mark.parametrize("unit", ["kg", "lb"])
@pytest.mark.parametrize("value", NO_NUMBERS)
def test_what_is_no_mass_is_not_written_as_one(unit, value):
    with pytest.raises(QuantityError, match=f"mass, kg {value} is outside"):
        mass_text(value, unit)


@pytest.mark.parametrize("load", [plates_per_side, nearest_plates])
@pytest.mark.parametrize("plate_kg", [0.0, -5.0, *NO_NUMBERS])
def test_a_plate_that_there_cannot_be_is_refused_by_name(load, plate_kg):
    with pytest.raises(QuantityError, match=r"plate, kg .* is outside 0\.01 to 100"):
        load(100.0, 20.0, (20.0, plate_kg))


@pytest.mark.parametrize("load", [plates_per_side, nearest_plates])
@pytest.mark.parametrize("bar_kg", [-20.0, 1e308, *NO_NUMBERS])
def test_a_bar_that_there_cannot_be_is_refused_by_name(load, bar_kg):
    with pytest.raises(QuantityError, match=r"bar, kg .* is outside 0 to 100"):
        load(100.0, bar_kg, GYM_KG)


@pytest.mark.parametrize("load", [plates_per_side, nearest_plates])
@pytest.mark.parametrize("collars_kg", [-1.0, 500.0, *NO_NUMBERS])
def test_collars_that_there_cannot_be_are_refused_by_name(load, collars_kg):
    with pytest.raises(QuantityError, match=r"collars, kg .* is outside 0 to 20"):
        load(100.0, 20.0, GYM_KG, collars_kg)


@pytest.mark.parametrize(
    ("target_kg", "step_kg", "low_kg", "high_kg"),
    [
        (float("nan"), 5, 5, 100),
        (50, 0, 5, 100),
        (50, 5, float("inf"), 100),
        (50, 5, 5, float("inf")),
        (50, 5, 50, 5),
    ],
)
def test_a_row_of_steps_that_there_cannot_be_is_refused(target_kg, step_kg, low_kg, high_kg):
    with pytest.raises(QuantityError, match="is outside"):
        nearest_step(target_kg, step_kg, low_kg=low_kg, high_kg=high_kg)


@pytest.mark.parametrize("value", [2.5, float("nan"), 0, 7])
def test_a_whole_number_is_whole_and_in_its_range(value):
    with pytest.raises(QuantityError, match="sets"):
        require_whole("sets", value, low=1, high=6)


def test_energy_is_parted_as_the_language_has_it() -> None:
    assert kcal_text(2383.4) == "2,383 kcal"
    with speaking(Language("xx", decimal=",", group=".")):
        assert kcal_text(2383.4) == "2.383 kcal"


@given(kg=st.floats(0, 500))
def test_a_mass_in_pounds_is_the_same_mass(kg: float) -> None:
    assert in_units(kg, "kg") == kg
    assert kg_from_lb(in_units(kg, "lb")) == pytest.approx(kg)
