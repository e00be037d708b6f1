from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.energy import (
    KJ_PER_KCAL,
    RESTING_EQUATIONS,
    estimate_resting_energy,
    resting_energy,
    schofield_kj,
)
from app.domain.errors import CoachError, QuantityError

AGE, HEIGHT, MASS = st.integers(18, 90), st.floats(140, 210), st.floats(40, 160)
SEX = st.sampled_from(["m", "f", "average"])


@given(st.sampled_from(sorted(RESTING_EQUATIONS)), SEX, AGE, HEIGHT, MASS)
def test_a_heavier_body_uses_more_at_rest(equation, sex, age, height, mass):
    lighter = resting_energy(equation, sex, age, height, mass, 0.8 * mass)
    heavier = resting_energy(equation, sex, age, height, mass + 5, 0.8 * (mass + 5))
    assert heavier > lighter > 0


@given(st.sampled_from(sorted(RESTING_EQUATIONS)), AGE, HEIGHT, MASS)
def test_the_average_lies_half_way_between_the_sexes(equation, age, height, mass):
    men, women, mean = (
        resting_energy(equation, sex, age, height, mass, 0.8 * mass)
        for sex in ("m", "f", "average")
    )
    assert mean == pytest.approx((men + women) / 2)


@given(st.sampled_from(["m", "f"]), st.integers(10, 90), MASS)
def test_schofields_two_forms_differ_by_little(sex, age, mass):
    kcal = resting_energy("schofield", sex, age, 170, mass)
    assert schofield_kj(sex, age, mass) == pytest.approx(kcal * KJ_PER_KCAL, rel=0.012)


@given(SEX, AGE, HEIGHT, MASS)
def test_an_estimate_gives_the_range_between_equations(sex, age, height, mass):
    found = estimate_resting_energy(sex, age, height_cm=height, mass_kg=mass)
    assert len(found.by_equation) == 4
    assert found.low <= found.kcal <= found.high
    with_fat_free = estimate_resting_energy(
        sex, age, height_cm=height, mass_kg=mass, fat_free_kg=0.8 * mass
    )
    assert len(with_fat_free.by_equation) == 6
    assert "mifflin1990" in with_fat_free.sources


@pytest.mark.parametrize(
    ("figures", "name"),
    [
        (("m", 200, 180, 80), "age"),
        (("m", -1, 180, 80), "age"),
        (("m", 30, 300, 80), "height"),
        (("m", 30, 0, 80), "height"),
        (("m", 30, float("nan"), 80), "height"),
        (("m", 30, 180, 0), "body mass"),
        (("m", 30, 180, -80), "body mass"),
        (("m", 30, 180, float("inf")), "body mass"),
        (("m", 30, 180, 80, 90), "fat-free mass"),
    ],
)
def test_impossible_figures_are_refused_by_name(figures, name):
    with pytest.raises(QuantityError, match=rf"{name}.* is outside .* to "):
        resting_energy("mifflin", *figures)


def test_equations_for_adults_refuse_children_and_schofield_does_not():
    with pytest.raises(QuantityError, match="Mifflin 1990"):
        resting_energy("mifflin", "f", 12, 150, 45)
    assert resting_energy("schofield", "f", 12, 150, 45) > 0


def test_what_needs_fat_free_mass_says_so():
    with pytest.raises(CoachError, match="needs the fat-free mass"):
        resting_energy("cunningham_1980", "m", 30, 180, 80)


def test_unknown_equations_and_sexes_are_named():
    with pytest.raises(CoachError, match="Did you mean 'mifflin'"):
        resting_energy("miflin", "m", 30, 180, 80)
    with pytest.raises(CoachError, match="sex 'x'"):
        resting_energy("mifflin", "x", 30, 180, 80)
