"""Limbs keep their lengths, by angles or by reaching."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import ResourceError
from app.domain.figure import Phase, Side, solve
from app.domain.figure.body import grip
from app.domain.figure.skeleton import BALL, LENGTHS, WAIST
from app.domain.figure.space import dot, length, sub
from tests.domain.figure.shipped import CASES, NAMES, body, pose

LIMBS = ("thigh", "shank", "upper_arm", "forearm", "hand")


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_no_segment_is_ever_stretched(key: str, phase: Phase) -> None:
    segments = body(key, phase).segments
    for side in Side:
        for name in LIMBS:
            part = segments[name + side]
            assert length(sub(part.end, part.start)) == pytest.approx(LENGTHS[name], abs=1e-9)
        foot = segments["foot" + side]
        assert length(sub(foot.end, foot.start)) == pytest.approx(BALL, abs=1e-9)
    trunk = [segments[name] for name in ("pelvis", "chest")]
    long = [length(sub(part.end, part.start)) for part in trunk]
    assert long == pytest.approx([WAIST, LENGTHS["trunk"] - WAIST], abs=1e-9)


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_limbs_hang_together(key: str, phase: Phase) -> None:
    segments = body(key, phase).segments
    for side in Side:
        for upper, lower in (("thigh", "shank"), ("shank", "foot"), ("upper_arm", "forearm")):
            assert segments[upper + side].end == pytest.approx(segments[lower + side].start)


@given(
    forward=st.floats(-0.2, 0.2),
    up=st.floats(-0.2, 0.2),
    out=st.floats(0.02, 0.2),
)
def test_a_hand_in_reach_arrives_exactly(forward: float, up: float, out: float) -> None:
    reached = solve(pose(hands=f"from {forward:.4f} {up:.4f} {out:.4f}", elbow_pole="back down"))
    shoulder_mid = 0.818
    for side in Side:
        x, y, z = grip(reached, side)
        assert x == pytest.approx(round(forward, 4), abs=1e-6)
        assert y == pytest.approx(shoulder_mid + round(up, 4), abs=1e-6)
        assert z * side.sign == pytest.approx(0.108 + round(out, 4), abs=1e-6)


def test_a_hand_out_of_reach_is_an_error_that_names_it() -> None:
    with pytest.raises(ResourceError, match="handR cannot reach"):
        solve(pose(handR="at 1 1"))


def test_a_foot_out_of_reach_is_an_error_that_names_it() -> None:
    with pytest.raises(ResourceError, match="footL cannot reach"):
        solve(pose(footL="flat 0.9 0"))


def test_a_reaching_elbow_bends_toward_its_pole() -> None:
    bent = solve(pose(hands="from 0.2 0 0", elbow_pole="down"))
    raised = solve(pose(hands="from 0.2 0 0", elbow_pole="up"))
    assert bent.segments["forearmR"].start[1] < raised.segments["forearmR"].start[1]


def test_a_knee_bends_forward() -> None:
    squat = solve(pose(pin="pelvis 0 0.4", feet="flat 0 0"))
    knee = squat.segments["shankR"].start
    assert knee[0] > 0.1
    assert dot(squat.segments["thighR"].frame.front, (0.0, 1.0, 0.0)) > 0


def test_the_shoulder_rises_with_the_arm_overhead() -> None:
    down, up = solve(pose(shoulder=0)), solve(pose(shoulder=175))
    rise = up.segments["upper_armR"].start[1] - down.segments["upper_armR"].start[1]
    assert rise == pytest.approx(0.030)
