"""Published advice on macronutrients and rates of change, as data, and arithmetic on it.

Ranges, not treatment: what they are used for says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.domain.units import require

KCAL_PER_G: Mapping[str, int] = MappingProxyType(
    {"protein": 4, "carbohydrate": 4, "fat": 9, "alcohol": 7}
)
"""Atwater's general factors. Source: fao2003 (value from memory)."""

AMDR: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"carbohydrate": (0.45, 0.65), "fat": (0.20, 0.35), "protein": (0.10, 0.35)}
)
"""Acceptable shares of energy for adults. Source: iom2005 (value from memory)."""

GAIN_PER_WEEK = (0.0025, 0.005)
"""Part of body mass gained a week, novice and intermediate. Source: iraki2019."""

LOSS_PER_WEEK = (-0.01, -0.005)
"""Part of body mass lost a week. Common practice."""

KCAL_PER_KG = 7700.0
"""Energy of a kilogram of body mass in the short run; overstates later loss (hall2008, hall2011).
Source: wishnofsky1958 (value from memory)."""

KCAL_PER_KG_UNSURE = 0.2
"""Part of it either way that a kilogram may hold more or less, as fat, muscle and water change.
Common practice: hall2008 says that the energy differs between people, the figure is not theirs."""

LOW_AVAILABILITY = 30.0
"""Energy availability, kcal a day for each kg fat-free, under which to screen. A prompt to see a
practitioner, no diagnosis. Source: mountjoy2023 (value from memory)."""


@dataclass(frozen=True, slots=True)
class ProteinAdvice:
    """One source's advice on protein, g a day for each kg; meal: g for each kg at one meal."""

    low: float
    high: float
    source: str
    middle: float | None = None
    meal: tuple[float, float] | None = None
    meals: tuple[int, int] | None = None
    meal_g: tuple[float, float] | None = None

    def grams(self, mass_kg: float) -> tuple[float, float]:
        """The range for a body mass, g a day."""
        return self.low * mass_kg, self.high * mass_kg


PROTEIN: Mapping[str, ProteinAdvice] = MappingProxyType(
    {
        # break point of the dose and its confidence interval (interval in a second-hand copy)
        "plateau": ProteinAdvice(1.03, 2.20, "morton2018", middle=1.62),
        "exercising": ProteinAdvice(1.4, 2.0, "jager2017", meal=(0.25, 0.25), meal_g=(20.0, 40.0)),
        "deficit": ProteinAdvice(2.3, 3.1, "jager2017"),  # trained people in energy deficit
        "off_season": ProteinAdvice(1.6, 2.2, "iraki2019", meal=(0.40, 0.55), meals=(3, 6)),
    }
)
"""Advice on protein by occasion."""


def kcal_of(
    *, protein_g: float, carbohydrate_g: float, fat_g: float, alcohol_g: float = 0.0
) -> float:
    """The energy of so many grams, kcal, by Atwater's general factors."""
    grams = {
        "protein": protein_g,
        "carbohydrate": carbohydrate_g,
        "fat": fat_g,
        "alcohol": alcohol_g,
    }
    for name, amount in grams.items():
        require(f"{name}, g", amount, low=0, high=5000)
    return sum(KCAL_PER_G[name] * amount for name, amount in grams.items())


def amdr_verdict(nutrient: str, share: float) -> str:
    """'ok' if the share of energy lies in the acceptable range for adults, else 'warn'."""
    low, high = AMDR[nutrient]
    require("share of energy", share, low=0, high=1)
    return "ok" if low - 1e-9 <= share <= high + 1e-9 else "warn"


def serving_g(mass_kg: float, advice: ProteinAdvice) -> tuple[float, float]:
    """Protein for one meal, g, by the advice's figure for each kg; (0, 0) if it has none."""
    require("body mass, kg", mass_kg, low=2, high=400)
    low, high = advice.meal or (0.0, 0.0)
    return low * mass_kg, high * mass_kg


def mass_after(mass_kg: float, rate: float, *, weeks: int) -> float:
    """Body mass after so many weeks at a weekly rate (0.0025 is a quarter per cent), kg."""
    require("body mass, kg", mass_kg, low=2, high=400)
    require("weekly rate", rate, low=-0.05, high=0.05)
    require("number of weeks", weeks, low=0, high=520)
    return float(mass_kg * (1 + rate) ** weeks)


def energy_availability(intake_kcal: float, exercise_kcal: float, *, fat_free_kg: float) -> float:
    """What is left for the body after exercise, kcal a day for each kg of fat-free mass.

    Below 0 where exercise takes more than is eaten. Raises QuantityError for impossible figures.
    """
    require("intake, kcal a day", intake_kcal, low=0, high=20_000)
    require("energy of exercise, kcal a day", exercise_kcal, low=0, high=20_000)
    require("fat-free mass, kg", fat_free_kg, low=10, high=200)
    return (intake_kcal - exercise_kcal) / fat_free_kg
