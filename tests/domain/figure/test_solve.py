"""Pins, planted feet, hands on implements."""

from __future__ import annotations

import math

import pytest

from app.domain.figure import Bounds, Phase, Pose, Primitive, Role, Side, bounds, primitives, solve
from app.domain.figure.body import grip
from app.domain.figure.pose import Hold
from tests.domain.figure.shipped import CASES, NAMES, body, pose, poses, shipped

GROUND_SLACK = 0.012
WALKING = {
    *("lunge", "walking_lunge", "sled_push", "sled_drag", "brisk_walk"),
    *("farmers_carry", "suitcase_carry", "goblet_carry", "overhead_carry"),
    *("lateral_band_walk", "easy_lateral_walk", "lateral_lunge"),
}
FOOT_PINS = (Hold.FLAT, Hold.BALL, Hold.TOES, Hold.KNEE)


def standing_part(drawing: tuple[Primitive, ...]) -> Bounds:
    """The box around a drawing without its floor line."""
    return bounds(item for item in drawing if item.stroke is not Role.FLOOR)


# Seen from above, the floor is no line.
LEVEL = [case for case in CASES if not shipped(*case).view.pitch_deg]


@pytest.mark.parametrize(("key", "phase"), LEVEL)
def test_the_figure_stands_on_the_floor_and_not_in_it(key: str, phase: Phase) -> None:
    bottom = standing_part(primitives(shipped(key, phase))).bottom
    assert -GROUND_SLACK <= bottom <= GROUND_SLACK


def width_of_grip(key: str, phase: Phase) -> float:
    """Between the two fists."""
    return grip(body(key, phase), Side.R)[2] - grip(body(key, phase), Side.L)[2]


@pytest.mark.parametrize("key", [key for key, pair in poses().items() if pair.end.bar])
def test_hands_keep_their_width_on_a_bar(key: str) -> None:
    start, end = (width_of_grip(key, phase) for phase in Phase)
    assert start == pytest.approx(end, abs=0.005)


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_hands_that_hold_a_bar_are_on_it(key: str, phase: Phase) -> None:
    solved = body(key, phase)
    if solved.bar is None:
        return
    for side in Side:
        x, y, _ = grip(solved, side)
        assert (x, y) == pytest.approx(solved.bar[:2], abs=0.005)


def planted(pose: Pose, side: Side) -> tuple[float, ...] | None:
    """Where a foot is set down, if the pose says so."""
    if pose.pin_side is side and pose.pin.hold in FOOT_PINS:
        return pose.pin.numbers[:2]
    place = pose.feet.of(side)
    return place.numbers[:2] if place.hold in (Hold.FLAT, Hold.TOES, Hold.BALL) else None


@pytest.mark.parametrize("key", sorted(set(poses()) - WALKING))
def test_planted_feet_stay_where_they_are(key: str) -> None:
    pair = poses()[key]
    for side in Side:
        before, after = planted(pair.start, side), planted(pair.end, side)
        if before is not None and after is not None:
            assert before == after


@pytest.mark.parametrize("key", ["clam", "clam_band"])
def test_in_a_clam_the_feet_stay_together_and_the_knees_part(key: str) -> None:
    closed, opened = (body(key, phase).segments for phase in Phase)
    for foot in ("footR", "footL"):
        assert opened[foot].start == pytest.approx(closed[foot].start, abs=0.002)
    apart = [math.dist(each["shankR"].start, each["shankL"].start) for each in (closed, opened)]
    assert apart[1] > 1.5 * apart[0]


@pytest.mark.parametrize("key", sorted(set(poses()) - WALKING))
def test_start_and_end_are_fixed_by_the_same_part(key: str) -> None:
    pair = poses()[key]
    assert pair.start.pin.hold is pair.end.pin.hold
    assert pair.start.pin_side is pair.end.pin_side


@pytest.mark.parametrize("key", ["back_squat", "front_squat", "deadlift"])
@pytest.mark.parametrize("phase", Phase)
def test_the_bar_stays_over_the_foot(key: str, phase: Phase) -> None:
    solved = body(key, phase)
    ankle = solved.segments["footR"].start[0]
    assert solved.bar is not None
    assert ankle - 0.040 <= solved.bar[0] <= ankle + 0.112


@pytest.mark.parametrize(
    ("pin", "name", "place"),
    [
        ("flat R 0.1 0.2", "footR", (0.1, 0.239)),
        ("ankle L 0.3 0.1", "footL", (0.3, 0.1)),
        ("knee R 0.1 0", "shankR", (0.1, 0.036)),
        ("pelvis 0.2 0.5", "pelvis", (0.2, 0.5)),
        ("elbow R 0.2 0", "forearmR", (0.2, 0.022)),
        ("seat 0.2 0.25", "pelvis", (0.2, 0.315)),
    ],
)
def test_a_pin_puts_its_part_where_it_says(pin: str, name: str, place: tuple[float, float]) -> None:
    solved = solve(pose(pin=pin, hip=30, knee=40, lean=20))
    assert solved.segments[name].start[:2] == pytest.approx(place)


def test_hanging_hands_are_under_the_shoulders() -> None:
    solved = solve(pose(hands="down 0 0"))
    for side in Side:
        x, _, z = grip(solved, side)
        shoulder = solved.segments["upper_arm" + side].start
        assert (x, z) == pytest.approx((shoulder[0], shoulder[2]))


def test_a_flat_hand_on_a_wall_points_up_and_stays_out_of_it() -> None:
    hand = solve(pose(hands="wall 0.25 0.85")).segments["handR"]
    assert hand.start[:2] == pytest.approx((0.25 - 0.018, 0.85))
    assert hand.end[:2] == pytest.approx((0.25 - 0.018, 0.85 + 0.108))


def test_a_bent_wrist_turns_the_hand_and_what_it_holds() -> None:
    straight, bent = (solve(pose(elbow=90, wrist=angle)) for angle in (0, 50))
    assert bent.segments["forearmR"] == straight.segments["forearmR"]
    assert grip(bent, Side.R)[1] > grip(straight, Side.R)[1] + 0.02
    assert bent.angles["wristR"] == 50


def test_shoulders_can_be_lifted_and_drawn_forward() -> None:
    plain = solve(pose(hands="down 0 0"))
    moved = solve(pose(hands="down 0 0", shoulders_up=0.03, shoulders_front=0.02))
    before, after = (body.segments["upper_armL"].start for body in (plain, moved))
    assert (after[0] - before[0], after[1] - before[1]) == pytest.approx((0.02, 0.03))
    assert grip(moved, Side.L)[1] == pytest.approx(grip(plain, Side.L)[1] + 0.03)


def test_a_tipped_foot_keeps_its_toes_flat() -> None:
    solved = solve(pose(pin="toes R 0 0 40"))
    assert solved.segments["toesR"].frame.up == pytest.approx((0, 1, 0))
    assert solved.segments["footR"].start[1] > 0.07
