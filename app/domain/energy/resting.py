"""Resting energy by published equations, kcal a day, and the range between them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from statistics import fmean
from types import MappingProxyType
from typing import Protocol

from app.domain.client import Sex
from app.domain.errors import CoachError, QuantityError
from app.domain.units import kcal_text, number_text, require
from app.domain.wording import mark, tr
from app.domain.working import Line

KJ_PER_KCAL = 4.184
"""Thermochemical. Source: fao2003 (seen in a second-hand copy)."""

ADULT_FROM = 18

USUAL_EQUATION = "mifflin"
"""Most often within a tenth of what was measured in adults. Source: frankenfield2005."""


@dataclass(frozen=True, slots=True)
class Person:
    """Who a resting energy is computed for; sex is one of the two, fat_free_kg may be missing."""

    sex: Sex
    age_y: float
    height_cm: float
    mass_kg: float
    fat_free_kg: float | None = None

    @property
    def male(self) -> bool:
        """True for the equations' male form."""
        return self.sex is Sex.MALE


class Formula(Protocol):
    """A resting-energy equation as a function."""

    def __call__(self, who: Person, /) -> float:
        """Resting energy of that person, kcal a day."""


@dataclass(frozen=True, slots=True)
class RestingEquation:
    """One published equation; needs_fat_free: it rests on fat-free mass alone."""

    key: str
    name: str
    formula: Formula = field(repr=False)
    source: str
    needs_fat_free: bool = False
    adults_only: bool = True


def _mifflin(who: Person) -> float:
    sex = 5 if who.male else -161
    return 10 * who.mass_kg + 6.25 * who.height_cm - 5 * who.age_y + sex


def _mifflin_unrounded(who: Person) -> float:
    sex = 166 if who.male else 0
    return 9.99 * who.mass_kg + 6.25 * who.height_cm - 4.92 * who.age_y + sex - 161


def _harris_benedict(who: Person) -> float:
    if who.male:
        return 66.4730 + 13.7516 * who.mass_kg + 5.0033 * who.height_cm - 6.7550 * who.age_y
    return 655.0955 + 9.5634 * who.mass_kg + 1.8496 * who.height_cm - 4.6756 * who.age_y


def _roza_shizgal(who: Person) -> float:
    if who.male:
        return 88.362 + 13.397 * who.mass_kg + 4.799 * who.height_cm - 5.677 * who.age_y
    return 447.593 + 9.247 * who.mass_kg + 3.098 * who.height_cm - 4.330 * who.age_y


def _fat_free(who: Person) -> float:
    if who.fat_free_kg is None:
        raise CoachError(
            tr("This equation needs the fat-free mass."),
            mend=tr("Enter it, or use one that does without, such as Mifflin's."),
        )
    return who.fat_free_kg


@dataclass(frozen=True, slots=True)
class Band:
    """One row of Schofield's table: ages below `under`, kcal and kJ a day for W kg."""

    under: float
    kcal: tuple[float, float]
    kilojoules: tuple[float, float]


_SCHOFIELD: Mapping[Sex, tuple[Band, ...]] = MappingProxyType(
    {
        Sex.MALE: (
            Band(3, (59.512, -30.4), (249, -127)),
            Band(10, (22.706, 504.3), (95, 2110)),
            Band(18, (17.686, 658.2), (74, 2754)),
            Band(30, (15.057, 692.2), (63, 2896)),
            Band(60, (11.472, 873.1), (48, 3653)),
            Band(200, (11.711, 587.7), (49, 2459)),
        ),
        Sex.FEMALE: (
            Band(3, (58.317, -31.1), (244, -130)),
            Band(10, (20.315, 485.9), (85, 2033)),
            Band(18, (13.384, 692.6), (56, 2898)),
            Band(30, (14.818, 486.6), (62, 2036)),
            Band(60, (8.126, 845.6), (34, 3538)),
            Band(200, (9.082, 658.5), (38, 2755)),
        ),
    }
)


def band(who: Person) -> Band:
    """The row of Schofield's table that the person's age and sex belong to."""
    return next(row for row in _SCHOFIELD[who.sex] if who.age_y < row.under)


def _schofield(who: Person) -> float:
    slope, start = band(who).kcal
    return slope * who.mass_kg + start


RESTING_EQUATIONS: Mapping[str, RestingEquation] = MappingProxyType(
    {
        e.key: e
        for e in (
            RestingEquation("mifflin", "Mifflin 1990", _mifflin, "mifflin1990"),
            RestingEquation(
                "mifflin_unrounded",
                mark("Mifflin 1990, unrounded"),
                _mifflin_unrounded,
                "mifflin1990",
            ),
            RestingEquation(
                "harris_benedict", "Harris and Benedict 1919", _harris_benedict, "harris1919"
            ),
            RestingEquation("roza_shizgal", "Roza and Shizgal 1984", _roza_shizgal, "roza1984"),
            RestingEquation(
                "cunningham_1980",
                "Cunningham 1980",
                lambda who: 500 + 22 * _fat_free(who),
                "cunningham1980",
                needs_fat_free=True,
            ),
            RestingEquation(
                "cunningham_1991",
                "Cunningham 1991",
                lambda who: 370 + 21.6 * _fat_free(who),
                "cunningham1991",
                needs_fat_free=True,
            ),
            RestingEquation(
                "schofield", "Schofield 1985", _schofield, "schofield1985", adults_only=False
            ),
        )
    }
)
"""The equations by key."""


def person(
    sex: Sex | str,
    age_y: float,
    *,
    height_cm: float,
    mass_kg: float,
    fat_free_kg: float | None = None,
) -> Person:
    """The person, once every figure is known to be possible.

    Raises QuantityError outside 0 to 110 years, 45 to 250 cm and 2 to 400 kg (adults: 100 to 250
    cm and 25 to 400 kg, so that figures in the wrong fields are noticed), or with more fat-free
    than whole mass.
    """
    require("age, years", age_y, low=0, high=110)
    adult = age_y >= ADULT_FROM
    require("height, cm", height_cm, low=100 if adult else 45, high=250)
    require("body mass, kg", mass_kg, low=25 if adult else 2, high=400)
    if fat_free_kg is not None:
        require("fat-free mass, kg", fat_free_kg, low=1, high=mass_kg)
    return Person(as_sex(sex), age_y, height_cm, mass_kg, fat_free_kg)


def figures_text(who: Person) -> str:
    """'68 kg, 172 cm, 34 years', with the fat-free mass where it is known."""
    figures = {
        "mass_kg": number_text(who.mass_kg),
        "height_cm": number_text(who.height_cm),
        "age_y": number_text(who.age_y),
    }
    if who.fat_free_kg is None:
        return tr("{mass_kg} kg, {height_cm} cm, {age_y} years", **figures)
    return tr(
        "{mass_kg} kg, {lean_kg} kg of it fat-free, {height_cm} cm, {age_y} years",
        lean_kg=number_text(who.fat_free_kg),
        **figures,
    )


def as_sex(sex: Sex | str) -> Sex:
    """The sex for the equations from 'm', 'f' or 'average'. Raises CoachError for others."""
    try:
        return Sex(sex)
    except ValueError:
        raise CoachError(
            tr("The equations do not know the sex {sex!r}.", sex=sex),
            mend=tr("Choose f, m or average."),
        ) from None


def _find(equation: str) -> RestingEquation:
    try:
        return RESTING_EQUATIONS[equation]
    except KeyError:
        from difflib import get_close_matches

        near = get_close_matches(equation, RESTING_EQUATIONS, n=1)
        mend = (
            tr("Did you mean {first!r}?", first=near[0])
            if near
            else tr("Use {resting_equations}.", resting_equations=", ".join(RESTING_EQUATIONS))
        )
        raise CoachError(
            tr("There is no resting-energy equation {equation!r}.", equation=equation), mend=mend
        ) from None


def resting_energy(
    equation: str,
    sex: Sex | str,
    age_y: float,
    height_cm: float,
    mass_kg: float,
    fat_free_kg: float | None = None,
) -> float:
    """Resting energy, kcal a day.

    equation: a key of RESTING_EQUATIONS; sex: 'f', 'm' or 'average' (the mean of both). Those
    made for adults refuse ages under 18. Raises QuantityError for impossible figures.
    """
    found = _find(equation)
    who = person(sex, age_y, height_cm=height_cm, mass_kg=mass_kg, fat_free_kg=fat_free_kg)
    return _resting(found, who)


def _resting(equation: RestingEquation, who: Person) -> float:
    if equation.adults_only and who.age_y < ADULT_FROM:
        raise QuantityError.outside(
            tr("age, years, for {equation},", equation=equation.name),
            who.age_y,
            low=ADULT_FROM,
            high=110,
        )
    return fmean(equation.formula(each) for each in both(who))


def both(who: Person) -> tuple[Person, ...]:
    """The person as each sex that the equations are to be averaged over."""
    if who.sex is not Sex.AVERAGE:
        return (who,)
    return tuple(
        Person(sex, who.age_y, who.height_cm, who.mass_kg, who.fat_free_kg)
        for sex in (Sex.FEMALE, Sex.MALE)
    )


def schofield_kj(sex: Sex | str, age_y: float, mass_kg: float) -> float:
    """Schofield's resting energy in its own kJ form, kJ a day (differs from kcal by under 1 %)."""
    who = person(sex, age_y, height_cm=170, mass_kg=mass_kg)
    bands = [(band(each).kilojoules, each) for each in both(who)]
    return fmean(slope * each.mass_kg + start for (slope, start), each in bands)


@dataclass(frozen=True, slots=True)
class RestingEnergy:
    """Resting energy as a value with the range between equations, kcal a day.

    kcal: by `equation`, a key of RESTING_EQUATIONS.
    """

    kcal: float
    low: float
    high: float
    by_equation: Mapping[str, float] = field(hash=False)
    equation: str = "mifflin"

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of the references."""
        return tuple(RESTING_EQUATIONS[key].source for key in self.by_equation)

    def line(self) -> Line:
        """The estimate as one line of an account."""
        span = tr(
            "{low}–{high} by other equations",
            low=number_text(self.low, 0),
            high=number_text(self.high, 0),
        )
        label = tr("Resting energy, {equation}", equation=RESTING_EQUATIONS[self.equation].name)
        return Line(label, kcal_text(self.kcal), span)


def estimate_resting_energy(
    sex: Sex | str,
    age_y: float,
    *,
    height_cm: float,
    mass_kg: float,
    fat_free_kg: float | None = None,
    equation: str = "",
) -> RestingEnergy:
    """Resting energy of an adult by every equation that the figures allow, kcal a day.

    equation: a key of RESTING_EQUATIONS; empty: Mifflin's, most often near the measured value
    (frankenfield2005). Raises CoachError for another name, or one that lacks the fat-free mass.
    """
    chosen = _find(equation or USUAL_EQUATION)
    who = person(sex, age_y, height_cm=height_cm, mass_kg=mass_kg, fat_free_kg=fat_free_kg)
    values = {
        key: _resting(each, who)
        for key, each in RESTING_EQUATIONS.items()
        if key != "mifflin_unrounded" and (fat_free_kg is not None or not each.needs_fat_free)
    }
    return RestingEnergy(
        kcal=_resting(chosen, who),
        low=min(values.values()),
        high=max(values.values()),
        by_equation=MappingProxyType(values),
        equation=chosen.key,
    )
