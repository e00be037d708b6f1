"""Grams that make up an energy: the rest is carbohydrate, and what cannot be is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.energy import kcal_of, macros
from app.domain.errors import CoachError, QuantityError


@given(st.floats(1200, 5000), st.floats(40, 120), st.floats(20, 70))
def test_the_grams_make_up_the_energy_and_the_shares_one(kcal, protein_g, fat_g):
    made = macros(kcal, protein_g, fat_g=fat_g)
    assert (made.protein_g, made.fat_g) == (protein_g, fat_g)
    assert kcal_of(
        protein_g=protein_g, carbohydrate_g=made.carbohydrate_g, fat_g=fat_g
    ) == pytest.approx(kcal)
    assert sum(map(made.share, ("protein", "fat", "carbohydrate"))) == pytest.approx(1)


def test_protein_and_fat_that_pass_the_energy_are_refused():
    with pytest.raises(CoachError, match="alone pass 1,000 kcal. Lower protein or fat"):
        macros(1000, 150, fat_g=60)


@pytest.mark.parametrize("figure", [-1.0, float("nan"), float("inf")])
@pytest.mark.parametrize("name", ["energy", "protein", "fat"])
def test_impossible_macros_are_refused_by_name(name, figure):
    figures = {"energy": 2000.0, "protein": 100.0, "fat": 60.0, name: figure}
    with pytest.raises(QuantityError, match=rf"^{name}, .* {figure} is outside 0 to "):
        macros(figures["energy"], figures["protein"], fat_g=figures["fat"])
