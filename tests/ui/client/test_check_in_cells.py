from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.results import CheckIn, Girth, Site
from app.ui.client.check_in_cells import (
    Column,
    WrongCell,
    cells,
    head,
    read_cells,
    read_day,
    read_mass,
    tip,
)

DAY = date(2026, 11, 23)
WHOLE = CheckIn(
    DAY,
    mass_kg=66.4,
    kcal=2400,
    sleep=4,
    soreness=3,
    mood=5,
    note="slept badly",
    stress=2,
    adherence=0.8,
    girths=(Girth(Site.WAIST, 74.0),),
    pictures=("one.jpg",),
)


def marks():
    return st.none() | st.integers(1, 5)


CHECKS = st.builds(
    CheckIn,
    on=st.just(DAY),
    mass_kg=st.none() | st.floats(30, 200),
    kcal=st.none() | st.floats(500, 6000),
    sleep=marks(),
    soreness=marks(),
    mood=marks(),
    stress=marks(),
    adherence=st.none() | st.floats(0, 1),
)


@given(CHECKS, st.sampled_from(["kg", "lb"]))
def test_a_row_that_nobody_changed_is_the_check_in_itself(check_in, units):
    assert read_cells(cells(check_in, units), units, {DAY: check_in}) == check_in


def test_a_row_of_its_own_is_read_whole():
    read = read_cells(cells(WHOLE, "kg"), "kg", {})
    assert (read.mass_kg, read.kcal, read.sleep, read.soreness) == (66.4, 2400, 4, 3)
    assert (read.mood, read.stress, read.adherence, read.note) == (5, 2, 0.8, "slept badly")


def test_what_the_row_does_not_show_stays():
    texts = {**cells(WHOLE, "kg"), Column.SLEEP: "1"}
    read = read_cells(texts, "kg", {DAY: WHOLE})
    assert read.sleep == 1
    assert (read.girths, read.pictures) == (WHOLE.girths, WHOLE.pictures)


def test_a_cleared_cell_is_no_longer_said():
    texts = {**cells(WHOLE, "kg"), Column.MASS: " ", Column.NOTE: ""}
    read = read_cells(texts, "kg", {DAY: WHOLE})
    assert (read.mass_kg, read.note) == (None, "")


def test_a_blank_row_is_nothing():
    assert read_cells(dict.fromkeys(Column, "  "), "kg", {}) is None


@pytest.mark.parametrize(
    "text", ["23 Nov 2026", "2026-11-23", "23.11.2026", "23/11/2026", " 23 November 2026 "]
)
def test_a_day_is_read_in_the_usual_forms(text):
    assert read_day(text) == DAY


@pytest.mark.parametrize(
    ("text", "units", "kg"),
    [
        ("66,4", "kg", 66.4),
        ("66.4", "kg", 66.4),
        ("146.4", "lb", 146.4 * 0.45359237),
        ("146.4 lb", "kg", 146.4 * 0.45359237),
        ("66.4 kg", "lb", 66.4),
        ("", "kg", None),
    ],
)
def test_a_mass_is_read_in_its_own_unit(text, units, kg):
    assert read_mass(text, units) == pytest.approx(kg) if kg else read_mass(text, units) is None


@pytest.mark.parametrize(
    ("column", "text", "what"),
    [
        (Column.DAY, "yesterday", "'yesterday' is no day"),
        (Column.MASS, "heavy", "Mass: 'heavy' cannot be. Enter 25 to 400"),
        (Column.MASS, "5", "Mass: '5' cannot be"),
        (Column.KCAL, "99999", "Enter 0 to 15"),
        (Column.SLEEP, "6", "Sleep: '6' cannot be. Enter 1 to 5"),
        (Column.MOOD, "2.5", "Mood"),
        (Column.ADHERENCE, "120", "Done, %"),
        (Column.KCAL, "nan", "kcal"),
    ],
)
def test_a_cell_that_cannot_be_is_named(column, text, what):
    with pytest.raises(WrongCell) as found:
        read_cells({**cells(WHOLE, "kg"), column: text}, "kg", {})
    assert found.value.column is column
    assert what in found.value.sentence


def test_heads_carry_the_unit_and_marks_their_ends():
    assert head(Column.MASS, "lb") == "Mass, lb"
    assert head(Column.SLEEP, "lb") == "Sleep"
    assert tip(Column.SORENESS) == "1 (strong) to 5 (none)"
    assert "0 to 100" in tip(Column.ADHERENCE)
    assert tip(Column.NOTE) == ""
