"""Resting-energy equations written out with one person's figures, as an account shows them."""

from __future__ import annotations

from app.domain.client import Sex
from app.domain.energy.resting import (
    RESTING_EQUATIONS,
    Person,
    band,
    both,
    figures_text,
    resting_energy,
)
from app.domain.units import kcal_text, number_text
from app.domain.wording import mark, tr
from app.domain.working import Line, Working

SEX_WORDS = {Sex.FEMALE: mark("Form for women"), Sex.MALE: mark("Form for men")}

_MASS_HEIGHT_AGE: dict[str, dict[Sex, tuple[str, str, str, str]]] = {
    "mifflin": {
        Sex.FEMALE: ("− 161", "10", "6.25", "− 5"),
        Sex.MALE: ("+ 5", "10", "6.25", "− 5"),
    },
    "harris_benedict": {
        Sex.FEMALE: ("655.0955", "9.5634", "1.8496", "− 4.6756"),
        Sex.MALE: ("66.4730", "13.7516", "5.0033", "− 6.7550"),
    },
    "roza_shizgal": {
        Sex.FEMALE: ("447.593", "9.247", "3.098", "− 4.330"),
        Sex.MALE: ("88.362", "13.397", "4.799", "− 5.677"),
    },
}
"""Constant, then what a kilogram, a centimetre and a year count; as published."""

_FAT_FREE = {"cunningham_1980": "500 + 22 × {kg}", "cunningham_1991": "370 + 21.6 × {kg}"}


def equation_working(key: str, who: Person) -> Working:
    """How one equation comes to its value for this person, each sex written out where both count.

    Raises CoachError for a name that is not one of RESTING_EQUATIONS, or where the fat-free mass
    it needs is missing.
    """
    kcal = resting_energy(
        key, who.sex, who.age_y, who.height_cm, who.mass_kg, fat_free_kg=who.fat_free_kg
    )
    found = RESTING_EQUATIONS[key]
    lines = []
    for each in both(who):
        value = resting_energy(
            key, each.sex, each.age_y, each.height_cm, each.mass_kg, fat_free_kg=each.fat_free_kg
        )
        label = tr(SEX_WORDS[each.sex])
        if found.needs_fat_free:
            label = tr("For both sexes")
        lines.append(Line(label, kcal_text(value), written_out(key, each)))
        if found.needs_fat_free:
            break
    if len(lines) > 1:
        lines.append(Line(tr("Mean of both"), kcal_text(kcal)))
    return Working(
        title=tr("{kcal} kcal a day", kcal=f"{kcal:,.0f}"),
        about=tr("energy at rest by {equation}", equation=found.name),
        lines=(Line(tr("For"), figures_text(who)), *lines),
        sources=(found.source,),
    )


def written_out(key: str, who: Person) -> str:
    """The equation with the person's figures: '10 × 68 + 6.25 × 172 − 5 × 34 − 161'."""
    kg, cm, years = (number_text(x) for x in (who.mass_kg, who.height_cm, who.age_y))
    if key in _FAT_FREE:
        return _FAT_FREE[key].format(kg=number_text(who.fat_free_kg or 0.0))
    if key == "schofield":
        slope, start = band(who).kcal
        sign = "−" if start < 0 else "+"
        return f"{slope:g} × {kg} {sign} {abs(start):g}"
    constant, per_kg, per_cm, per_year = _MASS_HEIGHT_AGE[key][who.sex]
    terms = f"{per_kg} × {kg} + {per_cm} × {cm} {per_year} × {years}"
    return f"{terms} {constant}" if constant[0] in "+−" else f"{constant} + {terms}"
