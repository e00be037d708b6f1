"""The measures add up to a person."""

from __future__ import annotations

import pytest

from app.domain.figure.skeleton import LENGTHS, LIMITS, MASSES, THICKNESS


def test_the_heights_add_up_to_the_stature() -> None:
    parts = ("foot_height", "shank", "thigh", "trunk", "neck", "head")
    assert sum(LENGTHS[part] for part in parts) == pytest.approx(1.0)


def test_the_joints_lie_at_the_published_heights() -> None:
    # Drillis & Contini 1966: ankle 0.039, knee 0.285, hip 0.530, shoulder 0.818, chin 0.870;
    # value from memory
    knee = LENGTHS["foot_height"] + LENGTHS["shank"]
    hip = knee + LENGTHS["thigh"]
    assert LENGTHS["foot_height"] == 0.039
    assert knee == pytest.approx(0.285)
    assert hip == pytest.approx(0.530)
    assert hip + LENGTHS["trunk"] == pytest.approx(0.818)
    assert hip + LENGTHS["trunk"] + LENGTHS["neck"] == pytest.approx(0.870)


def test_the_masses_add_up_to_one_body() -> None:
    single = ("head", "trunk")
    total = sum(share * (1 if name in single else 2) for name, (share, _) in MASSES.items())
    assert total == pytest.approx(1.0)


@pytest.mark.parametrize("name", LIMITS)
def test_every_joint_may_stand_in_the_anatomical_position(name: str) -> None:
    low, high = LIMITS[name]
    assert low <= 0 <= high


@pytest.mark.parametrize("name", THICKNESS)
def test_stations_run_from_one_end_to_the_other_and_have_flesh(name: str) -> None:
    stations = THICKNESS[name]
    assert [s.at for s in stations] == sorted(s.at for s in stations)
    assert all(min(s.front, s.back, s.side) > 0 for s in stations)
