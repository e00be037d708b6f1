"""Amplitudes: bands, and comparisons within one study only."""

from __future__ import annotations

import pytest

from app.domain.activation import (
    FROM_MEMORY,
    GLUTEAL_TO_TFL,
    GLUTEAL_TO_TFL_RANGE,
    amplitude_ratio,
    band_of_amplitude,
    highest_amplitude,
)
from app.domain.exercise import Activation, Exercise, ExerciseKey, Muscle, Pattern
from app.resources import catalogue
from tests.builders import exercise


@pytest.mark.parametrize(
    ("percent", "band"),
    [
        (0, "low"),
        (20, "low"),
        (20.5, "low"),
        (21, "moderate"),
        (40, "moderate"),
        (40.5, "moderate"),
        (41, "high"),
        (60, "high"),
        (61, "very high"),
        (169, "very high"),
    ],
)
def test_amplitudes_are_banded_as_the_authors_do(percent: float, band: str) -> None:
    assert band_of_amplitude(percent) == band


def measured(*figures: tuple[float, str]) -> Exercise:
    """An exercise with amplitudes of the gluteals, each with its study."""
    return exercise(
        "bridge",
        Pattern.THRUST,
        "gluteals",
        activation=tuple(Activation(Muscle.GLUTEALS, v, v, study) for v, study in figures),
    )


def test_values_of_one_study_are_averaged_and_compared() -> None:
    # contreras2015-thrust: upper and lower part, 29.4 and 45.4 against 69.5 and 86.8
    squat = measured((29.4, "contreras2015-thrust"), (45.4, "contreras2015-thrust"))
    thrust = measured((69.5, "contreras2015-thrust"), (86.8, "contreras2015-thrust"))
    ratio = amplitude_ratio(squat, thrust, Muscle.GLUTEALS)
    assert ratio == pytest.approx((69.5 + 86.8) / (29.4 + 45.4))


def test_studies_are_never_compared_with_each_other() -> None:
    bare, loaded = measured((28.7, "macaskill2014")), measured((169, "neto2020"))
    assert amplitude_ratio(bare, loaded, Muscle.GLUTEALS) is None


def test_figures_of_a_review_are_not_compared() -> None:
    one, other = measured((60, "neto2020")), measured((169, "neto2020"))
    assert amplitude_ratio(one, other, Muscle.GLUTEALS) is None


def test_the_highest_amplitude_is_any_studys() -> None:
    assert highest_amplitude(measured((20, "ekstrom2007"), (41, "neto2020")), Muscle.GLUTEALS) == 41
    assert highest_amplitude(measured(), Muscle.GLUTEALS) is None


def test_the_index_names_exercises_of_the_library_and_lies_in_its_range() -> None:
    low, high = GLUTEAL_TO_TFL_RANGE
    for key, index in GLUTEAL_TO_TFL.items():
        assert key in catalogue()
        assert low <= index <= high


@pytest.mark.parametrize(
    ("key", "index", "recalled"),
    [
        ("clam", 115, False),
        ("lateral_band_walk", 64, False),
        ("side_lying_abduction", 38, True),
        ("glute_bridge", 32, True),
        ("step_up", 32, True),
        ("bodyweight_squat", 28, True),
        ("hip_hike", 28, True),
        ("lunge", 18, True),
    ],
)
def test_an_index_is_the_published_one_and_says_if_it_is_from_memory(
    key: str, index: int, recalled: bool
) -> None:
    assert GLUTEAL_TO_TFL[ExerciseKey(key)] == index
    assert (key in FROM_MEMORY) == recalled
