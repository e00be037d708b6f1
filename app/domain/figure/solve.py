"""From a pose to a body in space: pin the person, set the feet, reach with the hands."""

import math
from collections.abc import Mapping

from app.domain.figure.body import (
    BACK_DEPTH,
    BALL_DEPTH,
    BUTTOCK_DEPTH,
    FOOT_HEIGHT,
    HIP_SIDE,
    KNEE_DEPTH,
    SEAT_DEPTH,
    SIDES,
    Body,
    Segment,
    ball_of,
    grip_of,
    joint_angles,
    part_point,
)
from app.domain.figure.limbs import (
    arm_by_angles,
    foot_at,
    hip_joint,
    leg,
    limb,
    reach_arm,
    reach_leg,
    seat_of,
    shoulder_joint,
    toes_of,
    trunk,
)
from app.domain.figure.pose import Hold, Place, Pose, Side
from app.domain.figure.skeleton import BALL, GRIP, LENGTHS, SHOULDER_OFF
from app.domain.figure.space import UPRIGHT, Frame, Vec, add, frame_along, middle, scale, sub, unit

# How far the wrist stays from what a flat hand lies on.
OFF_THE_SKIN: dict[Hold, Vec] = {Hold.PALM: (0.0, 0.02, 0.0), Hold.WALL: (-0.018, 0.0, 0.0)}


def _hand_target(pose: Pose, body: dict[str, Segment], side: Side, bar: Vec | None) -> Vec:
    place = pose.hands.of(side)
    shoulder = shoulder_joint(pose, body["chest"], side, 0.0)
    if place.hold is Hold.BAR and bar is not None:
        return (bar[0], bar[1], bar[2] + place.number(0, SHOULDER_OFF) * side.sign)
    if place.hold in (Hold.AT, Hold.PALM, Hold.WALL):
        return (place.numbers[0], place.numbers[1], place.number(2, shoulder[2]))
    if place.hold is Hold.FROM:
        forward, rise, out = place.numbers
        return add(shoulder, (forward, rise, out * side.sign))
    if place.hold is Hold.HANGING:
        reach = LENGTHS["upper_arm"] + LENGTHS["forearm"] + GRIP - 0.001
        forward = place.number(0, 0.0)
        out = place.number(1, 0.0)
        drop = math.sqrt(reach * reach - forward * forward - out * out)
        return add(shoulder, (forward, -drop, out * side.sign))
    return part_point(body, place.part, side)


def _named(limb: dict[str, Segment], side: Side) -> dict[str, Segment]:
    return {name + side: part for name, part in limb.items()}


def _pin_point(pose: Pose, body: Mapping[str, Segment]) -> tuple[Vec, Vec]:
    """The body's point that is fixed, and where it goes."""
    x, y = pose.pin.number(0, 0.0), pose.pin.number(1, 0.0)
    side = pose.pin_side
    pelvis, chest = body["pelvis"], body["chest"]
    match pose.pin.hold:
        case Hold.FLAT:
            return body["foot" + side].start, (x, y + FOOT_HEIGHT, 0.0)
        case Hold.BALL | Hold.TOES:
            return ball_of(body["foot" + side]), (x, y + BALL_DEPTH, 0.0)
        case Hold.ANKLE:
            return body["foot" + side].start, (x, y, 0.0)
        case Hold.KNEE:
            return body["shank" + side].start, (x, y + KNEE_DEPTH, 0.0)
        case Hold.UPPER_BACK:
            return chest.point(-BACK_DEPTH, pose.pin.number(2, 0.165)), (x, y, 0.0)
        case Hold.BACK:
            return pelvis.point(-BUTTOCK_DEPTH, 0.0), (x, y, 0.0)
        case Hold.FRONT:
            return pelvis.point(0.056, 0.05), (x, y, 0.0)
        case Hold.OUTSIDE:
            return pelvis.point(0.0, 0.0, HIP_SIDE * side.sign), (x, y, 0.0)
        case Hold.HANG:
            hands = [grip_of(body["hand" + each]) for each in SIDES]
            return middle(*hands), (x, y, 0.0)
        case Hold.ELBOW:
            return body["forearm" + side].start, (x, y + 0.022, 0.0)
        case Hold.SEAT:
            return pelvis.start, (x, y + SEAT_DEPTH, 0.0)
        case _:
            return pelvis.start, (x, y, 0.0)


def _flat_frame(pelvis: Frame, side: Side, turn: float) -> Frame:
    """A foot flat on the ground, facing where the pelvis faces, toes turned out."""
    # Upright, the toes point where the pelvis faces; prone toward the head, supine away from it.
    over = -2.5 * pelvis.front[1]
    front = (pelvis.front[0] + over * pelvis.up[0], 0.0, pelvis.front[2] + over * pelvis.up[2])
    return frame_along(UPRIGHT.up, unit(front)).turned(UPRIGHT.up, -turn * side.sign)


def _grounded_foot(place: Place, flat: Frame, side: Side, hip: Vec) -> Segment:
    """A foot set down flat, or on its ball with the heel lifted."""
    x, y = place.numbers[0], place.numbers[1]
    if place.hold is Hold.FLAT:
        return foot_at((x, y + FOOT_HEIGHT, place.number(2, hip[2])), flat)
    if place.hold is Hold.ANKLE:
        return foot_at((x, y, place.number(2, hip[2])), flat)
    if place.hold is Hold.SOLE:
        tilted = flat.turned(flat.right, place.number(2, 0.0))
        return foot_at((x, y, place.number(3, hip[2])), tilted)
    tipped = flat.turned(flat.right, -place.number(2, 0.0))
    joint = (x, y + BALL_DEPTH, place.number(3, hip[2]))
    return foot_at(tipped.point(joint, -BALL, FOOT_HEIGHT - BALL_DEPTH), tipped)


def _set_feet(pose: Pose, segments: dict[str, Segment]) -> None:
    pelvis = segments["pelvis"]
    for side in SIDES:
        place = pose.feet.of(side)
        if place.hold is Hold.FREE:
            continue
        flat = _flat_frame(pelvis.frame, side, pose.foot_turn)
        foot = _grounded_foot(place, flat, side, hip_joint(pelvis, side))
        thigh, shank = reach_leg(pelvis, side, foot.start, pose.knee_pole)
        if place.hold is Hold.ANKLE:  # only the joint is held; the foot keeps its angle
            flat = shank.frame.turned(shank.frame.right, pose.ankle.of(side))
            foot = foot_at(shank.end, flat)
        elif place.hold is Hold.SOLE:
            flat = foot.frame
        found = {"thigh": thigh, "shank": shank, "foot": foot, "toes": toes_of(foot, flat)}
        segments.update(_named(found, side))


def _plant_pinned_foot(pose: Pose, segments: dict[str, Segment]) -> None:
    """Lay the pinned foot (and a free one beside it) as the pin says, whatever the shank does."""
    if pose.pin.hold not in (Hold.FLAT, Hold.BALL, Hold.TOES):
        return
    for side in SIDES:
        if side is not pose.pin_side and not _follows(pose, side):
            continue
        flat = frame = _flat_frame(segments["pelvis"].frame, side, pose.foot_turn)
        if pose.pin.hold is not Hold.FLAT:
            frame = frame.turned(frame.right, -pose.pin.number(2, 0.0))
        foot = foot_at(segments["shank" + side].end, frame)
        segments.update(_named({"foot": foot, "toes": toes_of(foot, flat)}, side))


def _follows(pose: Pose, side: Side) -> bool:
    """Whether the other leg does just what the pinned one does."""
    angles = (pose.hip, pose.hip_out, pose.hip_turn, pose.knee, pose.ankle)
    return pose.feet.of(side).hold is Hold.FREE and all(a.right == a.left for a in angles)


def _bar_place(pose: Pose, segments: dict[str, Segment]) -> Vec | None:
    if pose.bar is None or pose.bar.hold is Hold.FREE:
        return None
    if pose.bar.hold is Hold.AT:
        return (pose.bar.numbers[0], pose.bar.numbers[1], 0.0)
    return part_point(segments, pose.bar.part, Side.R)


def _set_hands(pose: Pose, segments: dict[str, Segment], bar: Vec | None) -> None:
    for side in SIDES:
        place = pose.hands.of(side)
        if place.hold is Hold.FREE:
            continue
        target = _hand_target(pose, segments, side, bar)
        off = OFF_THE_SKIN.get(place.hold)
        to = 0.0 if off else GRIP
        arm = reach_arm(pose, segments["chest"], side, add(target, off or (0.0, 0.0, 0.0)), to=to)
        if off:
            arm["hand"] = _flat_hand(place.hold, arm["forearm"], segments["chest"])
        segments.update(_named(arm, side))


def _flat_hand(hold: Hold, forearm: Segment, chest: Segment) -> Segment:
    """A hand laid flat, fingers pointing up a wall, the way the head does or the body faces."""
    if hold is Hold.WALL:
        return limb(forearm.end, frame_along((0.0, -1.0, 0.0), UPRIGHT.front), "hand")
    ahead = chest.frame.up if abs(chest.frame.up[1]) < 0.8 else chest.frame.front
    fingers = unit((ahead[0], 0.0, ahead[2]))
    frame = frame_along(scale(fingers, -1), UPRIGHT.up)
    return limb(forearm.end, frame, "hand")


def solve(pose: Pose) -> Body:
    """The body in the given pose, pinned in space.

    Raises ResourceError when a hand or foot is out of reach, saying which.
    """
    segments = trunk(pose)
    for side in SIDES:
        segments.update(_named(leg(pose, segments["pelvis"], side), side))
        segments.update(_named(arm_by_angles(pose, segments["chest"], side), side))
    _plant_pinned_foot(pose, segments)
    point, goal = _pin_point(pose, segments)
    shift = sub(goal, point)
    shift = (shift[0], shift[1], shift[2] if pose.pin.hold in (Hold.OUTSIDE, Hold.ELBOW) else 0.0)
    segments = dict(Body(segments, {}, None).moved(shift).segments)
    _set_feet(pose, segments)
    bar = _bar_place(pose, segments)
    _set_hands(pose, segments, bar)
    if pose.bar is not None and pose.bar.hold is Hold.FREE:
        bar = middle(*(grip_of(segments["hand" + side]) for side in SIDES))
    for side in SIDES:
        segments["seat" + side] = seat_of(segments["pelvis"], segments["thigh" + side])
    return Body(segments, joint_angles(pose, segments), bar)
