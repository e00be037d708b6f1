from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.energy import energy_requirement, total_energy
from app.domain.energy.requirement import ACTIVITIES, dri_class, fao_class
from app.domain.errors import CoachError, QuantityError


@given(
    st.sampled_from(["iom_2005", "dri_2023"]),
    st.sampled_from(["m", "f"]),
    st.integers(19, 80),
    st.floats(150, 200),
    st.floats(50, 110),
)
def test_more_active_people_need_more(equation, sex, age, height, mass):
    needs = [energy_requirement(equation, sex, age, height, mass, a) for a in ACTIVITIES]
    assert needs == sorted(needs)


def test_a_class_stands_for_its_middle():
    assert total_energy(1500, "active/moderate") == 1500 * 1.85
    assert total_energy(1500, 1.7) == 2550


@pytest.mark.parametrize("level", [0.9, 3.0, float("nan"), "busy"])
def test_activity_that_nobody_has_is_refused(level):
    with pytest.raises(CoachError, match="activity"):
        total_energy(1500, level)


def test_unknown_equations_and_activities_are_named():
    with pytest.raises(CoachError, match="'iom'"):
        energy_requirement("iom", "m", 30, 180, 80, "active")
    with pytest.raises(CoachError, match="'lazy'"):
        energy_requirement("iom_2005", "m", 30, 180, 80, "lazy")


@pytest.mark.parametrize("pal", [-1, 0, float("inf"), 10])
def test_impossible_levels_have_no_class(pal):
    for classify in (fao_class, dri_class):
        with pytest.raises(QuantityError, match="physical activity level"):
            classify(pal)


def test_edges_of_the_classes_belong_as_printed():
    # fao2004 table 5.3; healthcanada2023
    assert [fao_class(p) for p in (1.40, 1.99)] == ["sedentary/light", "active/moderate"]
    assert [dri_class(p) for p in (0.99, 1.67, 1.85, 2.49)] == [
        "out of range",
        "low active",
        "very active",
        "very active",
    ]
