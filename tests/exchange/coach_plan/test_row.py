"""One row: its columns together."""

from __future__ import annotations

import pytest

from app.domain.effort import PercentRepMax, Rir
from app.exchange.coach_plan.asked import Asked
from app.exchange.coach_plan.columns import Column, Part
from app.exchange.coach_plan.row import asked_in, named
from app.exchange.sheets.sheet import Cell
from tests.exchange.coach_plan.shipped import WORDS


def asked(*cells: tuple[Part, Cell]) -> Asked:
    return asked_in([(Column(part), cell) for part, cell in cells], WORDS, unit="kg")


def test_columns_add_up() -> None:
    assert asked(
        (Part.SETS, 3), (Part.REPS_FROM, 8), (Part.REPS_TO, 10), (Part.COUNTED, "seconds")
    ) == Asked(3, 8, 10, seconds=True)
    assert asked((Part.PERCENT_RM, 95), (Part.NOTE, "a\nb"), (Part.NOTE, "c")) == Asked(
        effort=PercentRepMax(95), note="a b c"
    )
    assert asked((Part.PAIR, "a2"), (Part.EFFORT, "RIR 3"), (Part.IGNORED, "x")) == Asked(
        effort=Rir(3), pair="A"
    )
    assert asked((Part.PAIR, 3)) == Asked()


@pytest.mark.parametrize("part", [Part.SETS, Part.REPS_FROM, Part.RIR, Part.RATING, Part.PERCENT])
def test_what_no_number_can_be_read_from_is_handed_back(part: Part) -> None:
    assert asked((part, "some")).unread == ("some",)


def test_failure_in_a_column_of_reserve_is_none_left() -> None:
    assert asked((Part.RIR, "to failure")).effort == Rir(0)


@pytest.mark.parametrize(
    ("cell", "name", "letter"),
    [
        ("A1. Back squat", "Back squat", "A"),
        ("B2 Row", "Row", "B"),
        ("C) Plank", "Plank", "C"),
        ("1. Back squat", "Back squat", ""),
        ("T-bar row", "T-bar row", ""),
        ("Back squat", "Back squat", ""),
        ("A", "A", ""),
    ],
)
def test_letters_and_numbers_in_front_of_a_name(cell: str, name: str, letter: str) -> None:
    assert named(cell) == (name, letter)
