"""Resting and total energy, activity classes, macronutrients, rates of change, METs."""

from __future__ import annotations

import re

import pytest

from app.domain.energy import (
    AMDR,
    GAIN_PER_WEEK,
    KJ_PER_KCAL,
    PROTEIN,
    amdr_verdict,
    dri_class,
    energy_requirement,
    fao_class,
    kcal_of,
    macros,
    mass_after,
    resting_energy,
    schofield_kj,
    serving_g,
    total_energy,
)
from app.domain.energy.lifting import (
    MET,
    met_kcal,
)
from app.domain.errors import QuantityError
from tests.literature.table import Answer, Row, all_close, check, close, numbers, rows, says

AGE_IN_BAND = {"10-18": 15, "18-30": 24, "30-60": 45, ">=60": 70, "3-10": 7}


def sex(row: Row) -> str:
    return row.given("sex").lower()


def schofield(row: Row) -> Answer:
    if "age band" in row.inputs:
        band = row.inputs.split("age band=")[1].split(";")[0]
        age, tolerances = AGE_IN_BAND[band], (0.1, 1.0)
    else:
        age, tolerances = int(row.number("age")), (1.0, 10.0)  # 0.01 MJ
    kg = row.number("weight")
    kcal, other = numbers(row.expected)[:2]
    kj = other * 1000 if "MJ" in row.expected else other
    return all_close(
        close(resting_energy("schofield", sex(row), age, 170, kg), kcal, tolerances[0]),
        close(schofield_kj(sex(row), age, kg), kj, tolerances[1]),
    )


def body(row: Row) -> tuple[str, float, float, float]:
    return sex(row), row.number("age"), row.number("height"), row.number("weight")


def resting(equation: str):
    def answer(row: Row) -> Answer:
        key = equation
        if "unrounded" in row.inputs:
            key = "mifflin_unrounded"
        return close(resting_energy(key, *body(row)), float(row.expected), float(row.tolerance))

    return answer


def cunningham(row: Row) -> Answer:
    equation = "cunningham_1991" if "1991" in row.inputs else "cunningham_1980"
    if "FFM=" in row.inputs:
        fat_free = row.number("FFM")
    else:
        fat_free = numbers(row.inputs.split("FFM rounded to")[1])[0]
    got = resting_energy(equation, "m", 30, 175, 90, fat_free)
    return close(got, float(row.expected), float(row.tolerance))


def total(row: Row) -> Answer:
    """Published day's energy: in MJ, in kcal, and for each kg of body mass."""
    pal, kg = row.number("PAL"), row.number("weight")
    resting_mj = row.number("BMR")
    mj = total_energy(resting_mj, pal)
    in_brackets = re.search(r"\((\d+) kcal\)", row.inputs)
    resting_kcal = float(in_brackets[1]) if in_brackets else resting_mj * 1000 / KJ_PER_KCAL
    kcal = total_energy(resting_kcal, pal)
    got = {"MJ": mj, "kcal": kcal, "kJ/kg": mj * 1000 / kg, "kcal/kg": kcal / kg}
    parts = [part.split() for part in row.expected.split(";")]
    tolerances = numbers(row.tolerance)
    return all_close(
        *(
            close(got[unit], float(value), tolerance)
            for (value, unit), tolerance in zip(parts, tolerances, strict=True)
        )
    )


ACTIVITY = {
    "sedentary": "inactive",
    "inactive": "inactive",
    "low active": "low_active",
    "active": "active",
    "very active": "very_active",
}


def requirement(equation: str):
    def answer(row: Row) -> Answer:
        if row.expected.startswith("refuse"):
            with pytest.raises(QuantityError, match="19"):
                energy_requirement(equation, "m", row.number("age"), 175, 70, "active")
            return Answer("refused: starts at 19", True)
        who, age, height, kg = body(row)
        height_cm = height * 100 if height < 3 else height
        activity = ACTIVITY[row.given("level")]
        got = energy_requirement(equation, who, age, height_cm, kg, activity)
        return close(got, float(row.expected), float(row.tolerance))

    return answer


def atwater(row: Row) -> Answer:
    if row.inputs == "kcal=1":
        return close(KJ_PER_KCAL, numbers(row.expected)[0], numbers(row.tolerance)[0])
    if "energy=" in row.inputs:
        per_kg, kg = numbers(row.given("protein"))
        fat_per_kg = row.number("fat")
        grams = macros(row.number("energy"), per_kg * kg, fat_g=fat_per_kg * kg)
        protein, fat, carbohydrate = numbers(row.expected)
        return all_close(
            close(grams.protein_g, protein, 0.1),
            close(grams.fat_g, fat, 0.1),
            close(grams.carbohydrate_g, carbohydrate, 0.1),
        )
    got = kcal_of(
        protein_g=row.number("protein"),
        carbohydrate_g=row.number("carb"),
        fat_g=row.number("fat"),
        alcohol_g=row.number("alcohol"),
    )
    return close(got, float(row.expected), 0)


def amdr(row: Row) -> Answer:
    nutrient = next(name for name in AMDR if name in row.inputs)
    shares = numbers(row.inputs)
    verdicts = [amdr_verdict(nutrient, share / 100) for share in shares]
    expected = row.expected.split(" / ")
    if len(expected) == 1:
        expected *= len(verdicts)
    return Answer(" / ".join(verdicts), verdicts == expected)


def protein(row: Row) -> Answer:
    kg = row.number("weight")
    figures = numbers(row.expected.replace("..", " ").replace("-", " "))
    if "Morton" in row.inputs:
        advice = PROTEIN["plateau"]
        assert advice.middle is not None
        got: tuple[float, ...] = (advice.middle * kg, *advice.grams(kg))
    elif "serving" in row.inputs:
        advice = PROTEIN["exercising"]
        assert advice.meal_g is not None
        got = (serving_g(kg, advice)[0], *advice.meal_g)
        figures = [figures[0], *figures[2:]]  # the 0.25 g/kg itself
    else:
        advice = PROTEIN["off_season"]
        assert advice.meals is not None
        got = (*advice.grams(kg), *serving_g(kg, advice), *advice.meals)
    tolerance = float(row.tolerance)
    return all_close(*(close(g, e, tolerance) for g, e in zip(got, figures, strict=True)))


def surplus(row: Row) -> Answer:
    low, high = numbers(row.expected.replace("..", " "))
    if "kJ/d" in row.inputs:
        got = [kj / KJ_PER_KCAL for kj in numbers(row.inputs.replace("..", " "))]
    else:
        kg = row.number("weight")
        got = [mass_after(kg, rate, weeks=1) - kg for rate in GAIN_PER_WEEK]
    tolerance = float(row.tolerance)
    return all_close(close(got[0], low, tolerance), close(got[1], high, tolerance))


def met(row: Row) -> Answer:
    if "code" in row.inputs:
        return close(MET[row.given("code")].met, float(row.expected), 0)
    got = met_kcal(row.number("MET"), row.number("weight"), minutes=row.number("minutes"))
    return close(got, float(row.expected), float(row.tolerance))


ANSWERS = {
    "bmr-schofield": schofield,
    "rmr-mifflin": resting("mifflin"),
    "rmr-harris-benedict": resting("harris_benedict"),
    "rmr-roza": resting("roza_shizgal"),
    "rmr-cunningham": cunningham,
    "tee-fao": total,
    "pal-fao": lambda row: says(fao_class(row.number("PAL")), row.expected),
    "pal-dri2023": lambda row: says(dri_class(row.number("adult PAL")), row.expected),
    "eer-iom2005": requirement("iom_2005"),
    "eer-dri2023": requirement("dri_2023"),
    "atwater": atwater,
    "amdr": amdr,
    "protein": protein,
    "surplus": surplus,
    "met": met,
}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_energy_agrees_with_the_literature(row):
    check(row, ANSWERS)


PRINTED_REQUIREMENTS = """
height mass  activity     m     mass2 f
1.50   41.6  inactive     1848  56.2  1762
1.50   41.6  very_active  2554  56.2  2489
1.65   50.4  low_active   2254  68.0  2202
1.65   50.4  active       2490  68.0  2477
1.80   59.9  inactive     2301  81.0  2211
1.80   59.9  very_active  3225  81.0  3141
"""
"""More cells of the printed 2005 table, age 30: men at BMI 18.5, women at 24.99 (iom2005)."""


@pytest.mark.parametrize("line", PRINTED_REQUIREMENTS.strip().splitlines()[1:])
def test_more_cells_of_the_printed_requirements_agree(line):
    height, light, activity, men, heavy, women = line.split()
    for who, kg, kcal in (("m", light, men), ("f", heavy, women)):
        got = energy_requirement("iom_2005", who, 30, float(height) * 100, float(kg), activity)
        assert got == pytest.approx(float(kcal), abs=3)


def test_a_quarter_per_cent_a_week_compounds():
    # iraki2019's lower rate over twelve weeks, compounded
    assert mass_after(80, 0.0025, weeks=12) == pytest.approx(82.43, abs=0.005)
