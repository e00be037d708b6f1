"""The fat-free mass: measured or unknown, below the body mass, and asked for by two equations."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.client import Client, ClientId
from app.domain.energy.fat_free import (
    MISSED_KCAL,
    MISSED_KG,
    measured_text,
    refuse_choice,
    refuse_fat_free,
    why_not,
)
from app.domain.energy.resting import RESTING_EQUATIONS, resting_energy
from app.domain.errors import CoachError

JORUNN = Client(ClientId("jorunn"), "Jorunn Aske", mass_kg=68, fat_free_kg=50)


@pytest.mark.parametrize("key", ["", *RESTING_EQUATIONS])
def test_only_the_equations_on_fat_free_mass_ask_for_it(key: str) -> None:
    asks = key in ("cunningham_1980", "cunningham_1991")
    assert bool(why_not(key, None)) == asks
    assert why_not(key, 50) == ""
    unknown = replace(JORUNN, energy_equation=key, fat_free_kg=None)
    if not asks:
        refuse_choice(unknown)
        return
    with pytest.raises(CoachError, match="needs the fat-free mass.*Enter what was measured"):
        refuse_choice(unknown)
    refuse_choice(replace(unknown, fat_free_kg=50))


@pytest.mark.parametrize("lean_kg", [68.0, 70.0])
def test_as_much_as_the_whole_body_is_refused(lean_kg: float) -> None:
    with pytest.raises(CoachError, match=f"{lean_kg:g} kg, is not below the body mass, 68 kg"):
        refuse_fat_free(replace(JORUNN, fat_free_kg=lean_kg))


@pytest.mark.parametrize("known", [{"fat_free_kg": None}, {"mass_kg": None}, {"mass_kg": 50.5}])
def test_what_cannot_be_compared_or_lies_below_passes(known: dict) -> None:
    refuse_fat_free(replace(JORUNN, **known))


def test_the_kcal_said_are_what_the_equations_make_of_the_kilograms_said() -> None:
    def change(key: str, kg: float) -> float:
        of = [resting_energy(key, "f", 34, 172, 68, fat_free_kg=lean) for lean in (50, 50 + kg)]
        return of[1] - of[0]

    for kg, kcal in zip(MISSED_KG, MISSED_KCAL, strict=True):
        for key in ("cunningham_1980", "cunningham_1991"):
            assert change(key, kg) == pytest.approx(kcal, abs=5)
    assert "2 to 4 kg (value from memory): 40 to 90 kcal a day" in measured_text()
