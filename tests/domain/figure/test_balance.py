"""Nobody who stands freely would fall over."""

from __future__ import annotations

import pytest

from app.domain.figure import Phase, Side, solve
from app.domain.figure.balance import base_of_support, mass_centre, soles
from tests.domain.figure.shipped import CASES, body, pose, shipped

STEADY = 0.01


# Not lying, sitting, hanging or held by something outside.
FREE = [case for case in CASES if base_of_support(shipped(*case), body(*case)) is not None]


def test_most_standing_exercises_are_put_to_the_test() -> None:
    assert len(FREE) >= 50


@pytest.mark.parametrize(("key", "phase"), FREE)
def test_the_mass_centre_is_over_the_base(key: str, phase: Phase) -> None:
    base = base_of_support(shipped(key, phase), body(key, phase))
    assert base is not None
    x = mass_centre(body(key, phase))[0]
    assert base[0] - STEADY <= x <= base[1] + STEADY


def test_the_mass_centre_of_a_standing_body_is_near_the_navel() -> None:
    # about 0.55 to 0.57 of stature in adults standing upright; common practice
    assert 0.53 <= mass_centre(solve(pose()))[1] <= 0.58


def test_leaning_forward_moves_the_mass_forward() -> None:
    assert mass_centre(solve(pose(lean=30)))[0] > mass_centre(solve(pose()))[0]


def test_a_flat_sole_reaches_from_heel_to_toe() -> None:
    rear, tip = soles(solve(pose()), Side.R)
    assert tip[0] - rear[0] == pytest.approx(0.152)


def test_a_raised_heel_carries_nothing() -> None:
    rear, tip = soles(solve(pose(pin="toes R 0 0 40")), Side.R)
    assert tip[0] - rear[0] < 0.07


def test_a_body_leaning_like_a_plank_would_be_found_falling() -> None:
    falling = pose(lean=25, hip=0)
    base = base_of_support(falling, solve(falling))
    assert base is not None
    assert mass_centre(solve(falling))[0] > base[1] + STEADY


def test_a_held_pose_has_no_base_of_its_own() -> None:
    held = pose(held=True)
    assert base_of_support(held, solve(held)) is None
