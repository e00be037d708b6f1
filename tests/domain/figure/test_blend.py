"""The way between two positions."""

from __future__ import annotations

import pytest

from app.domain.figure.blend import between, can_blend
from app.domain.figure.pose import Both
from tests.domain.figure.shipped import pose, poses

BLENDING = [key for key, pair in poses().items() if can_blend(pair.start, pair.end)]


@pytest.mark.parametrize("key", BLENDING)
def test_the_ends_of_the_way_are_the_two_positions(key: str) -> None:
    pair = poses()[key]
    assert between(pair.start, pair.end, 1.0).hip == pair.end.hip
    assert between(pair.start, pair.end, 0.0).hip == pair.start.hip
    assert between(pair.start, pair.end, 0.0).feet == pair.start.feet


def test_half_way_is_half_of_each_angle() -> None:
    middle = between(pose(hipR=10, lean=0), pose(hipR=50, lean=20), 0.5)
    assert middle.hip == Both(30, 0)
    assert middle.lean == 10


def test_a_hand_that_lets_go_cannot_be_blended() -> None:
    assert not can_blend(pose(hands="down 0 0"), pose(hands="on waist"))
    assert can_blend(pose(hands="down 0 0"), pose(hands="down 0.1 0"))
