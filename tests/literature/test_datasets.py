"""Public data sets run through the engine; what came out was computed without it."""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import fmean, median

import pytest

from app.domain.energy import kcal_of, resting_energy
from app.domain.errors import QuantityError
from app.domain.units import cm_from_in, kg_from_lb
from tests.literature.table import Answer, Row, all_close, check, close, numbers, rows

DATA = Path(__file__).with_name("data")


def read(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def column(table: list[dict[str, str]], name: str) -> list[float]:
    return [float(record[name]) for record in table]


def linnerud(row: Row) -> Answer:
    """Converting each record and then averaging is converting the published mean."""
    table = read("linnerud.csv")
    count, *means = numbers(row.expected)
    names = ("chins", "situps", "jumps", "mass_lb", "waist_in", "pulse")
    plain = [
        close(fmean(column(table, name)), mean, 0.01)
        for name, mean in zip(names, means, strict=True)
    ]
    kg = fmean(kg_from_lb(lb) for lb in column(table, "mass_lb"))
    cm = fmean(cm_from_in(inches) for inches in column(table, "waist_in"))
    return all_close(
        close(len(table), count, 0),
        *plain,
        close(kg, 178.6 * 0.45359237, 0.01),
        close(cm, 35.4 * 2.54, 0.01),
    )


def bdims(row: Row) -> Answer:
    """Only the summary is carried, so the answer is by linearity and not record by record.

    Mifflin's equation is linear in age, mass and height: for women and men in the numbers of the
    summary, at its means, it gives the mean over all records. What is checked: that the row is
    the summary, and that mean, in kcal a day; the summary's means are rounded to 0.01.
    """
    (summary,) = read("bdims_summary.csv")
    figures = {name: float(value) for name, value in summary.items()}
    count, women, _, men, _, *means = numbers(row.expected)
    names = ("people", "women", "men", "age_years", "mass_kg", "height_cm")
    age, kg, cm = (figures[name] for name in names[3:])
    got = sum(
        figures[group] / figures["people"] * resting_energy("mifflin", sex, age, cm, kg)
        for sex, group in (("f", "women"), ("m", "men"))
    )
    return all_close(
        close(got, figures["mifflin_kcal"], 0.15),
        *(
            close(figures[name], told, 0)
            for name, told in zip(names, (count, women, men, *means), strict=True)
        ),
    )


def second_person(row: Row) -> Answer:
    age, kg, cm = numbers(row.inputs)
    return close(resting_energy("mifflin", "m", age, cm, kg), float(row.expected), 0.001)


def cereal(row: Row) -> Answer:
    """Label energy against Atwater's factors."""
    mean, middle = numbers(row.expected)
    gaps = []
    shares = []
    for record in read("cereal1993.csv"):
        label = float(record["kcal"])
        got = kcal_of(
            protein_g=float(record["protein_g"]),
            carbohydrate_g=float(record["carbohydrate_g"]) + float(record["sugars_g"]),
            fat_g=float(record["fat_g"]),
        )
        gaps.append(abs(got - label))
        shares.append(100 * abs(got - label) / label)
    return all_close(close(fmean(gaps), mean, 0.01), close(median(shares), middle, 0.05))


def davis(row: Row) -> Answer:
    """The one record whose mass and height are swapped is refused, and no other."""
    refused = []
    for record in read("davis1990.csv"):
        kg, cm = float(record["mass_kg"]), float(record["height_cm"])
        try:
            resting_energy("mifflin", record["sex"], 25, cm, kg)
        except QuantityError:
            refused.append((kg, cm))
    return Answer(f"refused {refused}", refused == [(166.0, 57.0)])


def women(row: Row) -> Answer:
    table = read("women1975.csv")
    cm = fmean(cm_from_in(inches) for inches in column(table, "height_in"))
    kg = fmean(kg_from_lb(lb) for lb in column(table, "mass_lb"))
    expected = numbers(row.expected)
    tolerance = float(row.tolerance)
    return all_close(close(cm, expected[0], tolerance), close(kg, expected[1], tolerance))


BY_ROW = {
    "dataset-001": linnerud,
    "dataset-002": bdims,
    "dataset-005": second_person,
    "dataset-007": cereal,
    "dataset-008": davis,
    "dataset-009": women,
}

ANSWERS = {"dataset": lambda row: BY_ROW[row.id](row)}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_data_sets_come_out_as_computed_elsewhere(row):
    check(row, ANSWERS)
