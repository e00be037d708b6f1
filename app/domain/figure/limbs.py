"""Trunk, legs and arms in space, by their joint angles or by reaching for a place.

Refuses to stretch: a hand or foot that cannot reach its target is an error, never a longer limb.
"""

import math

from app.domain.errors import ResourceError
from app.domain.figure.body import SIDES, Segment, ball_of
from app.domain.figure.pose import Pose, Side
from app.domain.figure.skeleton import (
    BALL,
    CHEST,
    HIP_OFF,
    LENGTHS,
    SHOULDER_OFF,
    SHOULDER_RISE,
    TOE,
    WAIST,
)
from app.domain.figure.space import (
    UPRIGHT,
    Frame,
    Vec,
    across,
    add,
    cross,
    dot,
    frame_along,
    length,
    scale,
    sub,
    unit,
)

REACH_SLACK = 1e-9


def limb(start: Vec, frame: Frame, name: str) -> Segment:
    """A segment of the named length, hanging down its frame from `start`."""
    return Segment(start, add(start, scale(frame.up, -LENGTHS[name])), frame)


def _ball_joint(frame: Frame, side: Side, flex: float, out: float, turn: float) -> Frame:
    """`frame` flexed forward, then spread, then turned outward: the order the angles name."""
    flexed = frame.turned(frame.right, flex)
    spread = flexed.turned(flexed.front, -out * side.sign)
    return spread.turned(spread.up, -turn * side.sign)


def trunk(pose: Pose) -> dict[str, Segment]:
    """Pelvis, chest, neck and head with the pelvis at the origin."""
    x, y, z = UPRIGHT.front, UPRIGHT.up, UPRIGHT.right
    pelvis = UPRIGHT.turned(x, pose.roll).turned(z, -pose.lean).turned(y, pose.turn)
    bent = pelvis.turned(pelvis.right, -pose.spine)
    bent = bent.turned(bent.front, pose.bend)
    chest = bent.turned(bent.up, pose.twist)
    neck = chest.turned(chest.right, -pose.neck / 2)
    head = chest.turned(chest.right, -pose.neck)
    head = head.turned(head.up, pose.face).turned(chest.front, pose.tilt)
    origin = (0.0, 0.0, 0.0)
    waist = scale(pelvis.up, WAIST)
    collar = add(waist, scale(chest.up, CHEST))
    chin = add(collar, scale(neck.up, LENGTHS["neck"]))
    return {
        "pelvis": Segment(origin, waist, pelvis),
        "chest": Segment(waist, collar, chest),
        "neck": Segment(collar, chin, neck),
        "head": Segment(chin, add(chin, scale(head.up, LENGTHS["head"])), head),
    }


def hip_joint(pelvis: Segment, side: Side) -> Vec:
    """The hip joint on one side."""
    return pelvis.point(0.0, 0.0, HIP_OFF * side.sign)


def foot_at(ankle: Vec, frame: Frame) -> Segment:
    """The foot from the ankle; its frame faces the toes, with up away from the sole."""
    return Segment(ankle, add(ankle, scale(frame.front, BALL)), frame)


def toes_of(foot: Segment, frame: Frame) -> Segment:
    """The toes from the ball of the foot; on the ground they lie flat whatever the foot does."""
    joint = ball_of(foot)
    return Segment(joint, add(joint, scale(frame.front, TOE - BALL)), frame)


def leg(pose: Pose, pelvis: Segment, side: Side) -> dict[str, Segment]:
    """Thigh, shank, foot and toes by their joint angles."""
    hip = hip_joint(pelvis, side)
    angles = (pose.hip.of(side), pose.hip_out.of(side), pose.hip_turn.of(side))
    thigh = limb(hip, _ball_joint(pelvis.frame, side, *angles), "thigh")
    shank_frame = thigh.frame.turned(thigh.frame.right, -pose.knee.of(side))
    shank = limb(thigh.end, shank_frame, "shank")
    foot = foot_at(shank.end, shank_frame.turned(shank_frame.right, pose.ankle.of(side)))
    return {"thigh": thigh, "shank": shank, "foot": foot, "toes": toes_of(foot, foot.frame)}


def shoulder_joint(pose: Pose, chest: Segment, side: Side, elevation: float) -> Vec:
    """The joint's place; it rises with the arm overhead."""
    overhead = max(0.0, min(1.0, (elevation - 80) / 80))
    off = SHOULDER_OFF - pose.shoulders_in - 0.012 * overhead
    up = CHEST + SHOULDER_RISE * overhead + pose.shoulders_up
    return chest.point(pose.shoulders_front, up, off * side.sign)


def _elevation(chest: Segment, upper_arm_down: Vec) -> float:
    """Degrees between the upper arm and the hanging position."""
    return math.degrees(math.acos(max(-1.0, min(1.0, -dot(upper_arm_down, chest.frame.up)))))


def arm_by_angles(pose: Pose, chest: Segment, side: Side) -> dict[str, Segment]:
    """Upper arm, forearm and hand by their joint angles."""
    angles = (pose.shoulder.of(side), pose.shoulder_out.of(side), pose.shoulder_turn.of(side))
    frame = _ball_joint(chest.frame, side, *angles)
    joint = shoulder_joint(pose, chest, side, _elevation(chest, scale(frame.up, -1)))
    upper = limb(joint, frame, "upper_arm")
    forearm = limb(upper.end, frame.turned(frame.right, pose.elbow.of(side)), "forearm")
    return {"upper_arm": upper, "forearm": forearm, "hand": _hand(forearm, pose.wrist.of(side))}


def _hand(forearm: Segment, wrist: float = 0.0) -> Segment:
    return limb(forearm.end, forearm.frame.turned(forearm.frame.right, wrist), "hand")


def _two_links(root: Vec, target: Vec, first: float, second: float, *, pole: Vec, who: str) -> Vec:
    """The middle joint of two links from `root` to `target`, bent toward `pole`."""
    line = sub(target, root)
    far = length(line)
    if far > first + second + REACH_SLACK or far < abs(first - second) - REACH_SLACK:
        raise ResourceError(
            f"{who} cannot reach its target: {far:.3f} away,"
            f" limb {abs(first - second):.3f} to {first + second:.3f}.",
            mend="Move the target or the body.",
        )
    far = max(1e-9, min(far, first + second))
    along = (first * first - second * second + far * far) / (2 * far)
    aside = math.sqrt(max(0.0, first * first - along * along))
    axis = unit(line)
    return add(root, add(scale(axis, along), scale(across(pole, axis), aside)))


def reach_leg(pelvis: Segment, side: Side, ankle: Vec, pole: Vec) -> tuple[Segment, Segment]:
    """Thigh and shank with the ankle at a place, the knee toward `pole`."""
    hip = hip_joint(pelvis, side)
    facing = pelvis.frame.point((0, 0, 0), pole[0], pole[1], pole[2] * side.sign)
    who = "foot" + side
    thigh_length, shank_length = LENGTHS["thigh"], LENGTHS["shank"]
    knee = _two_links(hip, ankle, thigh_length, shank_length, pole=facing, who=who)
    line = sub(ankle, knee)
    axis = unit(sub(hip, knee))
    behind = sub(line, scale(axis, dot(line, axis)))
    front = scale(behind, -1) if length(behind) > 1e-4 else facing
    thigh = Segment(hip, knee, frame_along(axis, front))
    # The knee is a hinge: both links share their sideways axis.
    up, hinge = unit(sub(knee, ankle)), thigh.frame.right
    return thigh, Segment(knee, ankle, Frame(cross(up, hinge), up, hinge))


def reach_arm(
    pose: Pose, chest: Segment, side: Side, target: Vec, *, to: float
) -> dict[str, Segment]:
    """Upper arm, forearm and hand with the point `to` beyond the wrist at `target`."""
    bx, by, bz = pose.elbow_pole[SIDES.index(side)]
    pole = unit(chest.frame.point((0, 0, 0), bx, by, bz * side.sign))
    lower = LENGTHS["forearm"] + to
    elevation = 0.0
    for _ in range(6):  # the shoulder rises with the arm, the arm follows the shoulder
        joint = shoulder_joint(pose, chest, side, elevation)
        who = "hand" + side
        elbow = _two_links(joint, target, LENGTHS["upper_arm"], lower, pole=pole, who=who)
        elevation = _elevation(chest, unit(sub(elbow, joint)))
    away = scale(pole, -1)
    frame = frame_along(unit(sub(joint, elbow)), _bent_front(joint, elbow, target, away))
    down = unit(sub(target, elbow))
    fore_frame = Frame(cross(scale(down, -1), frame.right), scale(down, -1), frame.right)
    forearm = limb(elbow, fore_frame, "forearm")
    upper = Segment(joint, elbow, frame)
    return {"upper_arm": upper, "forearm": forearm, "hand": _hand(forearm)}


def _bent_front(joint: Vec, elbow: Vec, target: Vec, away: Vec) -> Vec:
    """The way the forearm leaves the upper arm's line; away from the pole when it is straight."""
    axis = unit(sub(elbow, joint))
    line = sub(target, elbow)
    aside = sub(line, scale(axis, dot(line, axis)))
    return aside if length(aside) > 1e-4 else away


def seat_of(pelvis: Segment, thigh: Segment) -> Segment:
    """The buttock: at the hip joint, facing half-way between pelvis and thigh."""
    up = unit(add(pelvis.frame.up, thigh.frame.up))
    frame = frame_along(up, add(pelvis.frame.front, thigh.frame.front))
    return Segment(thigh.start, add(thigh.start, scale(up, -LENGTHS["thigh"] / 2)), frame)
