"""Prescriptions as coaches write them into cells."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.exchange.coach_plan.asked import (
    Asked,
    effort_of_rating,
    number_in,
    percent_of,
    plain,
    whole_in,
    with_load,
    with_reps,
    with_rest,
    with_scheme,
    with_tempo,
    with_words,
)
from app.exchange.sheets.sheet import Cell
from tests.exchange.coach_plan.shipped import WORDS


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("4x8-10", Asked(4, 8, 10)),
        ("4 x 8 @ RIR 2", Asked(4, 8, 8, effort=Rir(2))),
        ("3×5 @ 80 %", Asked(3, 5, 5, effort=PercentOneRm(80))),
        ("3x5 @80%", Asked(3, 5, 5, effort=PercentOneRm(80))),
        ("3x30s", Asked(3, 30, 30, seconds=True)),
        ("3 x 30 sec", Asked(3, 30, 30, seconds=True)),
        ("3x1 min", Asked(3, 60, 60, seconds=True)),
        ("3 sets of 10", Asked(3, 10, 10)),
        ("3 Sätze à 12 Wdh", Asked(3, 12, 12)),
        ("3 series de 12", Asked(3, 12, 12)),
        ("4*6", Asked(4, 6, 6)),
        ("4 X 6–8, RIR 1-2", Asked(4, 6, 8, effort=Rir(1.5))),
        ("5x5 @8", Asked(5, 5, 5, effort=Rir(2))),
        ("5x5 RPE 8.5", Asked(5, 5, 5, effort=Rir(1.5))),
        ("5x5 RPE 9,5", Asked(5, 5, 5, effort=Rir(0))),
        ("3x8 95 % of RM", Asked(3, 8, 8, effort=PercentRepMax(95))),
        ("3x8 75-80%", Asked(3, 8, 8, effort=PercentOneRm(77.5))),
        ("3x8 @ 72,5 % 1RM", Asked(3, 8, 8, effort=PercentOneRm(72.5))),
        ("3x8 to failure", Asked(3, 8, 8, effort=Rir(0))),
        ("3x5 100 kg", Asked(3, 5, 5, load_kg=100)),
        ("3x5 @ 62,5kg", Asked(3, 5, 5, load_kg=62.5)),
        ("3x5 225 lb", Asked(3, 5, 5, load_kg=102.058)),
        ("3x8 rest 90s", Asked(3, 8, 8, rest_s=90)),
        ("3x8, Pause 2 min", Asked(3, 8, 8, rest_s=120)),
        ("3x8 rest 2:30", Asked(3, 8, 8, rest_s=150)),
        ("3x8 tempo 3010", Asked(3, 8, 8, tempo="3-0-1-0")),
        ("3x8 (3-0-x-0)", Asked(3, 8, 8, tempo="3-0-X-0")),
        ("3x10 each side", Asked(3, 10, 10)),
        ("2x12/10", Asked(2, 10, 12)),
        ("12/10/8", Asked(3, 8, 12)),
        ("12, 10, 8, 6", Asked(4, 6, 12)),
        ("10-8-6", Asked(3, 6, 10)),
        ("8/8", Asked(None, 8, 8)),
        ("8-10", Asked(None, 8, 10)),
        ("3x", Asked(unread=("3x",))),
        ("AMRAP", Asked(unread=("amrap",))),
        ("3x8 + band", Asked(3, 8, 8, unread=("+ band",))),
        ("30x8", Asked(None, 8, 8, unread=("30x8",))),
        ("", Asked()),
    ],
)
def test_a_cell_with_sets_and_reps(text: str, asked: Asked) -> None:
    assert with_scheme(Asked(), text or None, WORDS) == asked


@pytest.mark.parametrize(
    ("cell", "asked"),
    [
        (8, Asked(low=8, high=8)),
        (8.0, Asked(low=8, high=8)),
        ("8-10 reps", Asked(low=8, high=10)),
        ("10 - 8", Asked(low=8, high=10)),
        ("30 s", Asked(low=30, high=30, seconds=True)),
        ("0:45", Asked(low=45, high=45, seconds=True)),
        (date(2026, 10, 8), Asked(low=8, high=10)),
        (time(0, 0, 45), Asked(low=45, high=45, seconds=True)),
        (timedelta(seconds=40), Asked(low=40, high=40, seconds=True)),
        ("10 per leg", Asked(low=10, high=10)),
        ("8 @ RIR 2", Asked(low=8, high=8, effort=Rir(2))),
        ("3x8", Asked(3, 8, 8)),
        ("max", Asked(unread=("max",))),
        (0, Asked(unread=("0",))),
        ("5000", Asked(unread=("5000",))),
        (None, Asked()),
    ],
)
def test_a_cell_of_repetitions(cell: Cell, asked: Asked) -> None:
    assert with_reps(Asked(), cell, WORDS) == asked


@pytest.mark.parametrize(
    ("cell", "unit", "seconds"),
    [
        (90, "", 90),
        ("90", "", 90),
        ("90 s", "", 90),
        ("2 min", "", 120),
        ("2'", "", 120),
        ('90"', "", 90),
        ("1:30", "", 90),
        ("120-180", "", 120),
        (2, "min", 120),
        (1.5, "min", 90),
        ("2,5", "min", 150),
        (time(2, 0), "", 120),
        (time(0, 1, 30), "", 90),
        ("long", "", None),
        (5000, "", None),
    ],
)
def test_a_cell_of_rest(cell: Cell, unit: str, seconds: int | None) -> None:
    asked = with_rest(Asked(), cell, WORDS, unit=unit)
    assert asked.rest_s == seconds
    assert bool(asked.unread) == (seconds is None)


@pytest.mark.parametrize(
    ("cell", "tempo"),
    [
        ("3-0-1-0", "3-0-1-0"),
        ("30X1", "3-0-X-1"),
        ("3/0/1", "3-0-1-0"),
        (3010, "3-0-1-0"),
        (201, "0-2-0-1"),
        ("slow", ""),
        (date(2026, 3, 1), ""),
    ],
)
def test_a_cell_of_tempo(cell: Cell, tempo: str) -> None:
    assert with_tempo(Asked(), cell).tempo == tempo


@pytest.mark.parametrize(
    ("cell", "unit", "load_kg"),
    [
        (100, "kg", 100),
        (100, "lb", 45.359),
        ("62,5", "kg", 62.5),
        ("62.5 kg", "lb", 62.5),
        ("+10kg", "kg", 10),
        ("70-75 kg", "kg", 70),
        ("2x20", "kg", None),
        ("BW", "kg", None),
        (99999, "kg", None),
        (-5, "kg", None),
    ],
)
def test_a_cell_of_load(cell: Cell, unit: str, load_kg: float | None) -> None:
    asked = with_load(Asked(), cell, unit=unit)
    assert asked.load_kg == load_kg
    assert bool(asked.unread) == (load_kg is None)


def test_per_cent_in_a_column_of_loads_is_effort() -> None:
    assert with_load(Asked(), "80 %", unit="kg").effort == PercentOneRm(80)


@pytest.mark.parametrize(
    ("rating", "rir"), [(10, 0), (9, 1), (8.5, 1.5), (8, 2), (7, 3), (6, 5), (3, None), (11, None)]
)
def test_a_rating_is_reserve_by_the_published_classes(rating: float, rir: float | None) -> None:
    assert effort_of_rating(rating) == (None if rir is None else Rir(rir))


def test_per_cent_and_shares() -> None:
    assert percent_of(0.8) == percent_of(80) == PercentOneRm(80)
    assert percent_of(95, rep_max=True) == PercentRepMax(95)
    assert percent_of(150) is None
    assert percent_of(105, rep_max=True) is None


def test_numbers_in_cells() -> None:
    assert number_in("RIR 1-2") == 1.5
    assert number_in("2,5") == 2.5
    assert number_in("x") is None
    assert whole_in("3-4 sets") == 3
    assert whole_in(2.5) is None
    assert whole_in("Week 3") == 3
    assert plain("4 × 8 – 10") == "4 x 8 - 10"


def test_what_is_asked_or_not() -> None:
    assert Asked(note="x", pair="A").is_empty
    assert not Asked(sets=3).is_empty


CELLS = (
    st.none()
    | st.text(max_size=30)
    | st.from_regex(r"[0-9x@% .,:/\-]{1,12}(rir|rpe|kg|lb|s|min)?", fullmatch=True)
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.dates()
    | st.times()
    | st.timedeltas()
)


@given(CELLS)
def test_any_cell_is_read_or_handed_back(cell: Cell) -> None:
    for asked in (
        with_scheme(Asked(), cell, WORDS),
        with_reps(Asked(), cell, WORDS),
        with_rest(Asked(), cell, WORDS),
        with_tempo(Asked(), cell),
        with_load(Asked(), cell, unit="kg"),
        with_words(Asked(), plain(cell), WORDS),
    ):
        assert asked.low is None or 1 <= asked.low <= asked.high <= 600
        assert asked.sets is None or 1 <= asked.sets <= 20
        assert asked.rest_s is None or 0 <= asked.rest_s <= 1200
        assert asked.load_kg is None or 0 <= asked.load_kg <= 1000
    number_in(cell)
    whole_in(cell)
