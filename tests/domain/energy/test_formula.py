from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Sex
from app.domain.energy.formula import equation_working, written_out
from app.domain.energy.resting import RESTING_EQUATIONS, person, resting_energy
from app.domain.errors import CoachError

JORUNN = person(Sex.FEMALE, 34, height_cm=172, mass_kg=68)
KEYS = [key for key in RESTING_EQUATIONS if key != "mifflin_unrounded"]


def worked(text: str) -> float:
    """The value of 'a + b × c − d × e', worked out by hand."""
    total = 0.0
    for sign, term in re.findall(r"(^|[+−]) ?([\d. ×]+)", text):
        product = 1.0
        for factor in term.split("×"):
            product *= float(factor)
        total += -product if sign == "−" else product
    return total


def test_the_equation_stands_there_with_the_clients_figures():
    assert written_out("mifflin", JORUNN) == "10 × 68 + 6.25 × 172 − 5 × 34 − 161"


@given(
    st.sampled_from(KEYS),
    st.sampled_from([Sex.FEMALE, Sex.MALE]),
    st.integers(18, 90),
    st.integers(140, 210),
    st.integers(40, 160),
)
def test_what_is_written_out_comes_to_the_equations_value(key, sex, age, height, mass):
    who = person(sex, age, height_cm=height, mass_kg=mass, fat_free_kg=mass * 0.75)
    kcal = resting_energy(key, sex, age, height, mass, fat_free_kg=mass * 0.75)
    assert worked(written_out(key, who)) == pytest.approx(kcal, abs=1.2)  # a rounded fat-free mass


def test_the_mean_of_both_sexes_shows_both():
    both = equation_working("mifflin", person(Sex.AVERAGE, 34, height_cm=172, mass_kg=68))
    values = {line.label: line.value for line in both.lines}
    assert values["Form for women"] == "1,424 kcal"
    assert values["Form for men"] == "1,590 kcal"
    assert values["Mean of both"] == "1,507 kcal"


def test_an_equation_on_fat_free_mass_stands_once_and_needs_it():
    who = person(Sex.AVERAGE, 34, height_cm=172, mass_kg=68, fat_free_kg=50)
    shown = equation_working("cunningham_1991", who)
    assert [line.value for line in shown.lines[1:]] == ["1,450 kcal"]
    with pytest.raises(CoachError, match="fat-free mass"):
        equation_working("cunningham_1980", JORUNN)
