"""Total energy: resting energy times an activity level, or published requirement equations."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from statistics import fmean
from types import MappingProxyType

from app.domain.client import Sex
from app.domain.energy.resting import Person, both, person
from app.domain.errors import CoachError, QuantityError
from app.domain.units import require
from app.domain.wording import tr

PAL_MIDPOINT: Mapping[str, float] = MappingProxyType(
    {"sedentary/light": 1.55, "active/moderate": 1.85, "vigorous": 2.20}
)
"""The middle of each class of physical activity level (PAL). Source: fao2004.

One person's need lies 8 to 10 % about the middle of a class: the classes are made for groups.
"""

PAL_CLASSES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "sedentary/light": (1.40, 1.69),
        "active/moderate": (1.70, 1.99),
        "vigorous": (2.00, 2.40),
    }
)
"""The edges of each class. Source: fao2004."""

ACTIVITIES = ("inactive", "low_active", "active", "very_active")


def fao_class(pal: float) -> str:
    """The FAO/WHO/UNU class of a physical activity level. Source: fao2004."""
    require("physical activity level", pal, low=0.5, high=5)
    if pal < 1.40:
        return tr("below range")
    if pal < 1.70:
        return tr("sedentary/light")
    if pal < 2.00:
        return tr("active/moderate")
    return tr("vigorous") if pal <= 2.40 else tr("above sustainable range")


def dri_class(pal: float) -> str:
    """The adult class of a physical activity level in the 2023 tables. Source: healthcanada2023."""
    require("physical activity level", pal, low=0.5, high=5)
    edges = (
        (1.00, tr("out of range")),
        (1.53, tr("inactive")),
        (1.68, tr("low active")),
        (1.85, tr("active")),
    )
    for under, name in edges:
        if pal < under:
            return name
    return tr("very active") if pal < 2.50 else tr("out of range")


def iom_class(pal: float) -> str:
    """The class of a physical activity level in the 2005 tables. Source: iom2005, from memory."""
    require("physical activity level", pal, low=0.5, high=5)
    edges = ((1.0, tr("out of range")), (1.4, "inactive"), (1.6, tr("low active")), (1.9, "active"))
    for under, name in edges:
        if pal < under:
            return name
    return tr("very active") if pal < 2.50 else tr("out of range")


def total_energy(resting_kcal: float, activity_level: float | str) -> float:
    """Total energy in the unit of the resting energy: resting times activity level.

    activity_level: a physical activity level from 1.0 to 2.5 (FAO classes reach from 1.40 to
    2.40), or the name of an FAO class, which stands for its middle. Raises QuantityError or
    CoachError for others.  Source: fao2004.
    """
    require("resting energy", resting_kcal, low=0.5, high=20_000)
    if isinstance(activity_level, str):
        if activity_level not in PAL_MIDPOINT:
            raise CoachError(
                tr("There is no activity class {activity_level!r}.", activity_level=activity_level),
                mend=tr(
                    "Choose one of {pal_midpoint}, or a number from 1.0 to 2.5.",
                    pal_midpoint=", ".join(PAL_MIDPOINT),
                ),
            )
        activity_level = PAL_MIDPOINT[activity_level]
    return resting_kcal * require("physical activity level", activity_level, low=1.0, high=2.5)


@dataclass(frozen=True, slots=True)
class _Iom:
    """The 2005 equation: start - age + PA (mass + height in m)."""

    start: float
    age: float
    mass: float
    height_m: float
    activity: tuple[float, float, float, float]

    def kcal(self, who: Person, activity: int) -> float:
        body = self.mass * who.mass_kg + self.height_m * who.height_cm / 100
        return self.start - self.age * who.age_y + self.activity[activity] * body


_IOM_2005 = MappingProxyType(
    {
        Sex.MALE: _Iom(661.8, 9.53, 15.91, 539.6, (1.0, 1.11, 1.25, 1.48)),
        Sex.FEMALE: _Iom(354.1, 6.91, 9.36, 726.0, (1.0, 1.12, 1.27, 1.45)),
    }
)

_DRI_2023 = MappingProxyType(
    {
        # start, age, height cm, mass kg; the sexes by activity. Four agreeing transcriptions.
        Sex.MALE: (
            (753.07, 10.83, 6.50, 14.10),
            (581.47, 10.83, 8.30, 14.94),
            (1004.82, 10.83, 6.52, 15.91),
            (-517.88, 10.83, 15.61, 19.11),
        ),
        Sex.FEMALE: (
            (584.90, 7.01, 5.72, 11.71),
            (575.77, 7.01, 6.60, 12.14),
            (710.25, 7.01, 6.54, 12.34),
            (511.83, 7.01, 9.07, 12.56),
        ),
    }
)


def _iom_2005(who: Person, activity: int) -> float:
    return _IOM_2005[who.sex].kcal(who, activity)


def _dri_2023(who: Person, activity: int) -> float:
    start, age, height, mass = _DRI_2023[who.sex][activity]
    return start - age * who.age_y + height * who.height_cm + mass * who.mass_kg


_REQUIREMENTS: Mapping[str, Callable[[Person, int], float]] = MappingProxyType(
    {"iom_2005": _iom_2005, "dri_2023": _dri_2023}
)
REQUIREMENT_SOURCES: Mapping[str, str] = MappingProxyType(
    {"iom_2005": "iom2005", "dri_2023": "nasem2023"}
)


def energy_requirement(
    equation: str,
    sex: Sex | str,
    age_y: float,
    height_cm: float,
    mass_kg: float,
    activity: str,
) -> float:
    """Estimated energy requirement of an adult, kcal a day.

    equation: 'iom_2005' or 'dri_2023'; activity: inactive, low_active, active or very_active.
    Both are for 19 years on; younger ages have equations of their own and are refused with a
    QuantityError.  Sources: iom2005, nasem2023.
    """
    who = person(sex, age_y, height_cm=height_cm, mass_kg=mass_kg)
    if who.age_y < 19:
        raise QuantityError.outside(
            tr("age, years, for {equation},", equation=equation), age_y, low=19, high=110
        )
    if equation not in _REQUIREMENTS:
        raise CoachError(
            tr("There is no requirement equation {equation!r}.", equation=equation),
            mend=tr("Choose one of {requirements}.", requirements=", ".join(_REQUIREMENTS)),
        )
    if activity not in ACTIVITIES:
        raise CoachError(
            tr("There is no activity {activity!r}.", activity=activity),
            mend=tr("Choose one of {activities}.", activities=", ".join(ACTIVITIES)),
        )
    formula = _REQUIREMENTS[equation]
    return fmean(formula(each, ACTIVITIES.index(activity)) for each in both(who))
