from __future__ import annotations

import pytest

from app.domain.energy import (
    PROTEIN,
    amdr_verdict,
    energy_availability,
    kcal_of,
    mass_after,
    serving_g,
)
from app.domain.errors import QuantityError


@pytest.mark.parametrize(
    ("nutrient", "share", "verdict"),
    [("fat", 0.19, "warn"), ("fat", 0.20, "ok"), ("fat", 0.36, "warn"), ("protein", 0.09, "warn")],
)
def test_shares_of_energy_are_held_against_the_acceptable_range(nutrient, share, verdict):
    # iom2005, value from memory
    assert amdr_verdict(nutrient, share) == verdict


def test_alcohol_has_seven_kcal_a_gram():
    assert kcal_of(protein_g=0, carbohydrate_g=0, fat_g=0, alcohol_g=10) == 70


def test_advice_without_meals_has_no_serving():
    assert serving_g(80, PROTEIN["deficit"]) == (0.0, 0.0)


def test_availability_is_what_training_leaves():
    assert energy_availability(2400, 600, fat_free_kg=60) == 30


@pytest.mark.parametrize("grams", [-1, float("nan"), 1e9])
def test_impossible_grams_are_refused(grams):
    with pytest.raises(QuantityError, match="protein, g"):
        kcal_of(protein_g=grams, carbohydrate_g=0, fat_g=0)


def test_impossible_rates_are_refused():
    with pytest.raises(QuantityError, match="weekly rate"):
        mass_after(80, 0.5, weeks=3)


@pytest.mark.parametrize("figure", [-1, float("nan"), float("inf")])
def test_impossible_figures_are_refused_by_name(figure):
    with pytest.raises(QuantityError, match=rf"intake, kcal a day {figure} is outside 0 to"):
        energy_availability(figure, 600, fat_free_kg=60)
    with pytest.raises(QuantityError, match=rf"exercise, kcal a day {figure} is outside 0 to"):
        energy_availability(2400, figure, fat_free_kg=60)
    with pytest.raises(QuantityError, match=rf"fat-free mass, kg {figure} is outside"):
        energy_availability(2400, 600, fat_free_kg=figure)
    with pytest.raises(QuantityError, match=rf"body mass, kg {figure} is outside"):
        mass_after(figure, 0.005, weeks=4)
    with pytest.raises(QuantityError, match=rf"number of weeks {figure} is outside"):
        mass_after(70, 0.005, weeks=figure)
    with pytest.raises(QuantityError, match="weekly rate"):
        mass_after(70, figure, weeks=4)
    with pytest.raises(QuantityError, match=rf"body mass, kg {figure} is outside"):
        serving_g(figure, PROTEIN["exercising"])
