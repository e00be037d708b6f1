"""The body's shapes: contour, clothes and hair."""

from __future__ import annotations

import pytest

from app.domain.figure import Path, Side, bounds, solve
from app.domain.figure.anatomy import (
    arm_shapes,
    crease,
    hair_shapes,
    leg_shapes,
    shorts_on_leg,
    shorts_on_trunk,
    trunk_shapes,
)
from app.domain.figure.space import View
from tests.domain.figure.shipped import pose

SIDE, FRONT, BACK = View(0, 0), View(90, 0), View(-90, 0)


@pytest.mark.parametrize("view", [SIDE, FRONT, BACK, View(68, 11)])
def test_a_standing_person_is_one_stature_high(view: View) -> None:
    standing = solve(pose())
    shapes = [*trunk_shapes(standing, view)]
    for side in Side:
        shapes += leg_shapes(standing, side, view)
    box = bounds(shapes)
    if view.pitch_deg == 0:
        assert box.height == pytest.approx(1.0, abs=0.01)
    assert 0.15 < box.width < 0.35


def test_the_hip_is_as_broad_as_measured() -> None:
    # hip breadth 0.191: Drillis & Contini 1966, value from memory
    standing = solve(pose())
    shorts = bounds(shorts_on_trunk(standing, FRONT))
    assert shorts.width == pytest.approx(0.191, abs=0.015)


def test_shorts_cover_the_upper_thigh_only() -> None:
    box = bounds(shorts_on_leg(solve(pose()), Side.R, SIDE))
    assert 0.53 - 0.6 * 0.245 < box.bottom < 0.53 - 0.2 * 0.245


def test_hair_lies_at_the_back_seen_from_the_side() -> None:
    standing = solve(pose())
    (cap,) = hair_shapes(standing, SIDE, nose=True)
    head = bounds(trunk_shapes(standing, SIDE)[2:])
    hair = bounds((cap,))
    assert hair.top == pytest.approx(head.top, abs=0.005)
    assert isinstance(cap, Path)
    back = min(cap.points)[1]
    front = max(cap.points)[1]
    assert back < front


def test_more_hair_shows_from_behind_and_a_nose_from_the_front() -> None:
    standing = solve(pose())
    behind, ahead = (hair_shapes(standing, view, nose=True) for view in (BACK, FRONT))
    assert bounds(behind[:1]).height > bounds(ahead[:1]).height
    assert (len(behind), len(ahead)) == (1, 2)


def test_a_spine_line_tells_a_back_from_a_front() -> None:
    standing = solve(pose())
    assert crease(standing, BACK)
    assert not crease(standing, FRONT)
    assert not crease(standing, SIDE)


def test_a_fist_is_shorter_than_an_open_hand() -> None:
    standing = solve(pose())
    fist = bounds(arm_shapes(standing, Side.R, SIDE, gripping=True))
    palm = bounds(arm_shapes(standing, Side.R, SIDE, gripping=False))
    assert fist.bottom > palm.bottom
