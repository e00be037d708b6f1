"""The grams of protein, fat and carbohydrate that make up an energy target."""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.energy.advice import KCAL_PER_G
from app.domain.energy.ramp import MOST_KCAL
from app.domain.errors import CoachError
from app.domain.units import require
from app.domain.wording import mark, tr

NUTRIENTS = {
    "protein": mark("Protein"),
    "fat": mark("Fat"),
    "carbohydrate": mark("Carbohydrate"),
}


@dataclass(frozen=True, slots=True)
class Macros:
    """Protein, fat and carbohydrate, g a day, that make up an energy target."""

    protein_g: float
    fat_g: float
    carbohydrate_g: float

    def share(self, nutrient: str) -> float:
        """The part of the energy that comes from 'protein', 'fat' or 'carbohydrate'."""
        grams = {
            "protein": self.protein_g,
            "fat": self.fat_g,
            "carbohydrate": self.carbohydrate_g,
        }
        whole = sum(KCAL_PER_G[name] * amount for name, amount in grams.items())
        return KCAL_PER_G[nutrient] * grams[nutrient] / whole


def macros(kcal: float, protein_g: float, *, fat_g: float) -> Macros:
    """Protein and fat as given, and the rest of the energy as carbohydrate.

    Raises CoachError if protein and fat alone pass the energy, and QuantityError for figures
    that cannot be.
    """
    require("energy, kcal a day", kcal, low=0, high=MOST_KCAL)
    require("protein, g a day", protein_g, low=0, high=1000)
    require("fat, g a day", fat_g, low=0, high=1000)
    left = kcal - KCAL_PER_G["protein"] * protein_g - KCAL_PER_G["fat"] * fat_g
    if left < 0:
        raise CoachError(
            tr(
                "{protein_g:.0f} g protein and {fat_g:.0f} g fat alone pass {kcal:,.0f} kcal.",
                protein_g=protein_g,
                fat_g=fat_g,
                kcal=kcal,
            ),
            mend=tr("Lower protein or fat, or raise the energy."),
        )
    return Macros(protein_g, fat_g, left / KCAL_PER_G["carbohydrate"])
