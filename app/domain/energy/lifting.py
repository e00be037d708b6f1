"""Energy cost of lifting by metabolic equivalents (MET), gross: rest is included.

Not to be added to a requirement or an activity level that already contains the training.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.domain.units import require
from app.domain.wording import mark


@dataclass(frozen=True, slots=True)
class Met:
    """One entry of the compendium of physical activities, in our words."""

    code: str
    met: float
    what: str
    source: str = "herrmann2024"


MET: Mapping[str, Met] = MappingProxyType(
    {
        m.code: m
        for m in (
            Met("02050", 6.0, mark("free weights or machines, vigorous"), "ainsworth2011"),
            Met("02052", 5.0, mark("squats and deadlifts, slow or explosive")),
            Met("02054", 3.5, mark("several exercises, 8 to 15 repetitions"), "ainsworth2011"),
            Met("02055", 5.8, mark("circuit of alternating exercises")),
            Met("02056", 3.0, mark("own body weight, general")),
            Met("02057", 6.5, mark("own body weight, high intensity")),
            Met("02101", 2.3, "stretching", "ainsworth2011"),
        )
    }
)
"""By code. Read in second-hand copies; the 2024 list is for 19 to 59 years."""


def met_kcal(met: float, mass_kg: float, *, minutes: float) -> float:
    """Gross energy of an activity, kcal, by the oxygen convention (3.5 mL/kg/min, 5 kcal/L).

    5 % above the other convention, MET times kg times hours.
    """
    require("metabolic equivalents", met, low=0.5, high=25)
    require("body mass, kg", mass_kg, low=2, high=400)
    require("minutes", minutes, low=0, high=1440)
    return met * 3.5 * mass_kg / 200 * minutes
