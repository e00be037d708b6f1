"""Pounds, inches, kilojoules, and plates on a bar."""

from __future__ import annotations

import pytest

from app.domain.units import (
    cm_from_in,
    in_from_cm,
    kg_from_lb,
    lb_from_kg,
    nearest_plates,
    plates_per_side,
)
from tests.literature.table import Answer, Row, check, close, numbers, rows, says

IWF_DISCS_KG = (25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 2.0, 1.5, 1.0, 0.5)
CONVERT = {("lb", "kg"): kg_from_lb, ("kg", "lb"): lb_from_kg, ("in", "cm"): cm_from_in}


def convert(row: Row) -> Answer:
    value = numbers(row.inputs)[0]
    if row.inputs.startswith("round-trip"):
        got = lb_from_kg(kg_from_lb(value))
    else:
        given, to = row.inputs.split(" -> ")
        start = given.split()[-1]
        got = CONVERT[start, to](value)
    return close(got, float(row.expected), float(row.tolerance))


def plates(row: Row) -> Answer:
    found = plates_per_side(
        row.number("target"), row.number("bar"), IWF_DISCS_KG, row.number("collars total")
    )
    each = " + ".join(f"{size:g}" for size in found.plates)
    return says(f"{each} per side; remainder {found.remainder_kg:.1f}", row.expected)


ANSWERS = {"units": convert, "plates": plates}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_units_and_plates_agree_with_the_literature(row):
    check(row, ANSWERS)


@pytest.mark.parametrize(
    ("target", "bar", "collars", "expected"),
    [
        (140.0, 20.0, 0.0, (25.0, 25.0, 10.0)),
        (62.5, 20.0, 0.0, (20.0, 1.0)),
        (42.0, 15.0, 0.0, (10.0, 2.5, 1.0)),
    ],
)
def test_more_bars_are_loaded_as_the_federation_does(target, bar, collars, expected):
    assert plates_per_side(target, bar, IWF_DISCS_KG, collars).plates == expected


def test_with_half_kilo_discs_61_and_a_quarter_is_not_loadable():
    assert nearest_plates(61.25, 20.0, IWF_DISCS_KG).loaded_kg in (61.0, 62.0)


def test_conversions_agree_with_a_units_library():
    pint = pytest.importorskip("pint")
    registry = pint.UnitRegistry()
    for value in (0.5, 45.0, 137.5, 1000.0):
        assert kg_from_lb(value) == pytest.approx(registry(f"{value} lb").to("kg").magnitude)
        assert in_from_cm(value) == pytest.approx(registry(f"{value} cm").to("inch").magnitude)
