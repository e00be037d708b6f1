"""Named points on a solved body, and the angle of every joint."""

from __future__ import annotations

import pytest

from app.domain.figure import Phase, Side, solve
from app.domain.figure.body import PARTS, ball_of, grip, part_point
from app.domain.figure.skeleton import GRIP, LIMITS
from app.domain.figure.space import length, sub
from tests.domain.figure.shipped import CASES, NAMES, body, pose

# The bodies are drawn to whole degrees.
SLACK_DEG = 0.5


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_every_joint_is_within_its_range(key: str, phase: Phase) -> None:
    for joint, angle in body(key, phase).angles.items():
        low, high = LIMITS[joint.rstrip("RL")]
        assert low - SLACK_DEG <= angle <= high + SLACK_DEG, joint


def test_the_shin_follows_from_lean_hip_and_knee() -> None:
    # -39 + 116 - 108 = -31: the shin leans 31 degrees forward over a flat foot
    angles = solve(pose(lean=39, hip=116, knee=108)).angles
    assert angles["ankleR"] == pytest.approx(31)
    assert angles["hipR"] == pytest.approx(116)
    assert angles["kneeL"] == pytest.approx(108)


def test_angles_read_back_as_they_were_given() -> None:
    angles = solve(pose(hipR=50, hip_outR=20, kneeR=70, shoulderL=60, elbowL=40)).angles
    assert angles["hipR"] == pytest.approx(50)
    assert angles["hip_outR"] == pytest.approx(20)
    assert angles["kneeR"] == pytest.approx(70)
    assert angles["shoulderL"] == pytest.approx(60)
    assert angles["elbowL"] == pytest.approx(40)


def test_the_fist_lies_beyond_the_wrist() -> None:
    standing = solve(pose())
    hand = standing.segments["handR"]
    assert length(sub(grip(standing, Side.R), hand.start)) == pytest.approx(GRIP)


def test_the_ball_of_a_flat_foot_lies_before_the_ankle() -> None:
    foot = solve(pose()).segments["footR"]
    assert ball_of(foot)[0] - foot.start[0] == pytest.approx(0.072)


@pytest.mark.parametrize("part", PARTS)
def test_parts_of_the_body_come_in_mirrored_pairs(part: str) -> None:
    segments = solve(pose()).segments
    right, left = (part_point(segments, part, side) for side in (Side.R, Side.L))
    assert right[:2] == pytest.approx(left[:2])
    assert right[2] == pytest.approx(-left[2])


def test_a_moved_body_keeps_its_shape() -> None:
    standing = solve(pose())
    moved = standing.moved((1.0, 2.0, 3.0))
    for name, part in standing.segments.items():
        other = moved.segments[name]
        assert sub(other.end, other.start) == pytest.approx(sub(part.end, part.start))
        assert sub(other.start, part.start) == pytest.approx((1, 2, 3))
