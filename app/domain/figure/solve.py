"""From a pose to a body in space: every segment's place, direction and joint angle.

Refuses to stretch: a hand or foot that cannot reach its target is an error, never a longer limb.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.domain.errors import ResourceError
from app.domain.figure.pose import Hold, Place, Pose, Side
from app.domain.figure.skeleton import (
    BALL,
    CHEST,
    GRIP,
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
    middle,
    scale,
    sub,
    unit,
)

SIDES = (Side.R, Side.L)
FOOT_HEIGHT = LENGTHS["foot_height"]
SEAT_DEPTH = 0.058  # from the hip joint down to what one sits on
BACK_DEPTH = 0.062  # from the trunk's axis to the skin of the back
BUTTOCK_DEPTH = 0.073
KNEE_DEPTH = 0.036
BALL_DEPTH = 0.026  # how far the ball's joint lies above the sole
REACH_SLACK = 1e-9

# Places on the body that hands and implements refer to: segment, then front, up, outward.
PARTS: dict[str, tuple[str, float, float, float]] = {
    "upper_back": ("chest", -0.066, 0.176, 0.0),
    "front_rack": ("chest", 0.062, 0.206, 0.0),
    "hips": ("pelvis", 0.074, -0.010, 0.0),
    "waist": ("pelvis", 0.006, 0.086, 0.088),
    "chest": ("chest", 0.074, 0.120, 0.0),
    "opposite": ("chest", 0.068, 0.140, -0.060),
    "temple": ("head", -0.010, 0.070, 0.052),
    "low_back": ("pelvis", -0.092, 0.070, 0.010),
    "nape": ("neck", -0.066, 0.010, 0.010),
    "belly": ("chest", 0.090, 0.010, 0.0),
    "thigh_top": ("pelvis", 0.072, -0.030, 0.045),
}


@dataclass(frozen=True, slots=True)
class Segment:
    """One rigid part: from `start` to `end`, facing as `frame`."""

    start: Vec
    end: Vec
    frame: Frame

    def point(self, front: float, up: float, right: float = 0.0) -> Vec:
        """A place given in this segment's own directions, from its start."""
        return self.frame.point(self.start, front, up, right)


@dataclass(frozen=True, slots=True)
class Body:
    """A solved pose: segments by name, the bar's middle, and the angle of every joint."""

    segments: Mapping[str, Segment]
    angles: Mapping[str, float]
    bar: Vec | None

    def moved(self, by: Vec) -> "Body":
        """This body shifted in space."""
        shifted = {
            name: replace(part, start=add(part.start, by), end=add(part.end, by))
            for name, part in self.segments.items()
        }
        return replace(self, segments=shifted, bar=None if self.bar is None else add(self.bar, by))


def _limb(start: Vec, frame: Frame, name: str) -> Segment:
    return Segment(start, add(start, scale(frame.up, -LENGTHS[name])), frame)


def _ball_joint(frame: Frame, side: Side, flex: float, out: float, turn: float) -> Frame:
    """`frame` flexed forward, then spread, then turned outward: the order the angles name."""
    flexed = frame.turned(frame.right, flex)
    spread = flexed.turned(flexed.front, -out * side.sign)
    return spread.turned(spread.up, -turn * side.sign)


def _trunk(pose: Pose) -> dict[str, Segment]:
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


def _hip_joint(pelvis: Segment, side: Side) -> Vec:
    return pelvis.point(0.0, 0.0, HIP_OFF * side.sign)


def _foot(ankle: Vec, frame: Frame) -> Segment:
    """The foot from the ankle; its frame faces the toes, with up away from the sole."""
    return Segment(ankle, add(ankle, scale(frame.front, BALL)), frame)


def _toes(foot: Segment, frame: Frame) -> Segment:
    """The toes from the ball of the foot; on the ground they lie flat whatever the foot does."""
    joint = _ball_of(foot)
    return Segment(joint, add(joint, scale(frame.front, TOE - BALL)), frame)


def _leg(pose: Pose, pelvis: Segment, side: Side) -> dict[str, Segment]:
    hip = _hip_joint(pelvis, side)
    angles = (pose.hip.of(side), pose.hip_out.of(side), pose.hip_turn.of(side))
    thigh = _limb(hip, _ball_joint(pelvis.frame, side, *angles), "thigh")
    shank_frame = thigh.frame.turned(thigh.frame.right, -pose.knee.of(side))
    shank = _limb(thigh.end, shank_frame, "shank")
    foot = _foot(shank.end, shank_frame.turned(shank_frame.right, pose.ankle.of(side)))
    return {"thigh": thigh, "shank": shank, "foot": foot, "toes": _toes(foot, foot.frame)}


def _shoulder_joint(pose: Pose, chest: Segment, side: Side, elevation: float) -> Vec:
    """The joint's place; it rises with the arm overhead."""
    overhead = max(0.0, min(1.0, (elevation - 80) / 80))
    off = SHOULDER_OFF - pose.shoulders_in - 0.012 * overhead
    return chest.point(0.0, CHEST + SHOULDER_RISE * overhead, off * side.sign)


def _elevation(chest: Segment, upper_arm_down: Vec) -> float:
    """Degrees between the upper arm and the hanging position."""
    return math.degrees(math.acos(max(-1.0, min(1.0, -dot(upper_arm_down, chest.frame.up)))))


def _arm_by_angles(pose: Pose, chest: Segment, side: Side) -> dict[str, Segment]:
    angles = (pose.shoulder.of(side), pose.shoulder_out.of(side), pose.shoulder_turn.of(side))
    frame = _ball_joint(chest.frame, side, *angles)
    joint = _shoulder_joint(pose, chest, side, _elevation(chest, scale(frame.up, -1)))
    upper = _limb(joint, frame, "upper_arm")
    forearm = _limb(upper.end, frame.turned(frame.right, pose.elbow.of(side)), "forearm")
    return {"upper_arm": upper, "forearm": forearm, "hand": _hand(forearm)}


def _hand(forearm: Segment) -> Segment:
    return _limb(forearm.end, forearm.frame, "hand")


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


def _reach_leg(pelvis: Segment, side: Side, ankle: Vec, pole: Vec) -> tuple[Segment, Segment]:
    hip = _hip_joint(pelvis, side)
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


def _reach_arm(
    pose: Pose, chest: Segment, side: Side, target: Vec, *, to: float
) -> dict[str, Segment]:
    """Upper arm, forearm and hand with the point `to` beyond the wrist at `target`."""
    bx, by, bz = pose.elbow_pole[SIDES.index(side)]
    pole = unit(chest.frame.point((0, 0, 0), bx, by, bz * side.sign))
    lower = LENGTHS["forearm"] + to
    elevation = 0.0
    for _ in range(6):  # the shoulder rises with the arm, the arm follows the shoulder
        joint = _shoulder_joint(pose, chest, side, elevation)
        who = "hand" + side
        elbow = _two_links(joint, target, LENGTHS["upper_arm"], lower, pole=pole, who=who)
        elevation = _elevation(chest, unit(sub(elbow, joint)))
    away = scale(pole, -1)
    frame = frame_along(unit(sub(joint, elbow)), _bent_front(joint, elbow, target, away))
    down = unit(sub(target, elbow))
    fore_frame = Frame(cross(scale(down, -1), frame.right), scale(down, -1), frame.right)
    forearm = _limb(elbow, fore_frame, "forearm")
    upper = Segment(joint, elbow, frame)
    return {"upper_arm": upper, "forearm": forearm, "hand": _hand(forearm)}


def _bent_front(joint: Vec, elbow: Vec, target: Vec, away: Vec) -> Vec:
    """The way the forearm leaves the upper arm's line; away from the pole when it is straight."""
    axis = unit(sub(elbow, joint))
    line = sub(target, elbow)
    aside = sub(line, scale(axis, dot(line, axis)))
    return aside if length(aside) > 1e-4 else away


def part_point(body: Mapping[str, Segment], part: str, side: Side) -> Vec:
    """The place of a named body part (see PARTS) on `side`."""
    segment, front, up, outward = PARTS[part]
    return body[segment].point(front, up, outward * side.sign)


def _hand_target(pose: Pose, body: dict[str, Segment], side: Side, bar: Vec | None) -> Vec:
    place = pose.hands.of(side)
    shoulder = _shoulder_joint(pose, body["chest"], side, 0.0)
    if place.hold is Hold.BAR and bar is not None:
        return (bar[0], bar[1], bar[2] + place.number(0, SHOULDER_OFF) * side.sign)
    if place.hold in (Hold.AT, Hold.PALM):
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
            return _ball_of(body["foot" + side]), (x, y + BALL_DEPTH, 0.0)
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
            return pelvis.point(0.0, 0.0, 0.093 * side.sign), (x, y, 0.0)
        case Hold.HANG:
            hands = [_grip_of(body["hand" + each]) for each in SIDES]
            return middle(*hands), (x, y, 0.0)
        case Hold.ELBOW:
            return body["forearm" + side].start, (x, y + 0.022, 0.0)
        case Hold.SEAT:
            return pelvis.start, (x, y + SEAT_DEPTH, 0.0)
        case _:
            return pelvis.start, (x, y, 0.0)


def _ball_of(foot: Segment) -> Vec:
    """The joint at the ball of the foot, a little above the sole."""
    return foot.point(BALL, BALL_DEPTH - FOOT_HEIGHT)


def _grip_of(hand: Segment) -> Vec:
    return add(hand.start, scale(hand.frame.up, -GRIP))


def grip(body: Body, side: Side) -> Vec:
    """The middle of the fist."""
    return _grip_of(body.segments["hand" + side])


def ball(body: Body, side: Side) -> Vec:
    """The joint at the ball of the foot."""
    return _ball_of(body.segments["foot" + side])


def _flat_frame(pelvis: Frame, side: Side, turn: float) -> Frame:
    """A foot flat on the ground, facing where the pelvis faces, toes turned out."""
    front = (pelvis.front[0], 0.0, pelvis.front[2])
    if abs(pelvis.front[1]) > 0.7:  # on the back the toes point away from the head, else to it
        way = -1 if pelvis.front[1] > 0 else 1
        front = (way * pelvis.up[0], 0.0, way * pelvis.up[2])
    return frame_along(UPRIGHT.up, unit(front)).turned(UPRIGHT.up, -turn * side.sign)


def _grounded_foot(place: Place, flat: Frame, side: Side, hip: Vec) -> Segment:
    """A foot set down flat, or on its ball with the heel lifted."""
    x, y = place.numbers[0], place.numbers[1]
    if place.hold is Hold.FLAT:
        return _foot((x, y + FOOT_HEIGHT, place.number(2, hip[2])), flat)
    if place.hold is Hold.ANKLE:
        return _foot((x, y, place.number(2, hip[2])), flat)
    if place.hold is Hold.SOLE:
        tilted = flat.turned(flat.right, place.number(2, 0.0))
        return _foot((x, y, place.number(3, hip[2])), tilted)
    tipped = flat.turned(flat.right, -place.number(2, 0.0))
    joint = (x, y + BALL_DEPTH, place.number(3, hip[2]))
    return _foot(tipped.point(joint, -BALL, FOOT_HEIGHT - BALL_DEPTH), tipped)


def _set_feet(pose: Pose, segments: dict[str, Segment]) -> None:
    pelvis = segments["pelvis"]
    for side in SIDES:
        place = pose.feet.of(side)
        if place.hold is Hold.FREE:
            continue
        flat = _flat_frame(pelvis.frame, side, pose.foot_turn)
        foot = _grounded_foot(place, flat, side, _hip_joint(pelvis, side))
        thigh, shank = _reach_leg(pelvis, side, foot.start, pose.knee_pole)
        if place.hold is Hold.ANKLE:  # only the joint is held; the foot keeps its angle
            flat = shank.frame.turned(shank.frame.right, pose.ankle.of(side))
            foot = _foot(shank.end, flat)
        elif place.hold is Hold.SOLE:
            flat = foot.frame
        leg = {"thigh": thigh, "shank": shank, "foot": foot, "toes": _toes(foot, flat)}
        segments.update(_named(leg, side))


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
        foot = _foot(segments["shank" + side].end, frame)
        segments.update(_named({"foot": foot, "toes": _toes(foot, flat)}, side))


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
        to = 0.0 if place.hold is Hold.PALM else GRIP
        if place.hold is Hold.PALM:
            target = add(target, (0.0, 0.02, 0.0))
        arm = _reach_arm(pose, segments["chest"], side, target, to=to)
        if place.hold is Hold.PALM:
            arm["hand"] = _flat_hand(pose, arm["forearm"], segments["chest"])
        segments.update(_named(arm, side))


def _flat_hand(pose: Pose, forearm: Segment, chest: Segment) -> Segment:
    """A hand laid flat, fingers pointing the way the head does or the body faces."""
    ahead = chest.frame.up if abs(chest.frame.up[1]) < 0.8 else chest.frame.front
    fingers = unit((ahead[0], 0.0, ahead[2]))
    frame = frame_along(scale(fingers, -1), UPRIGHT.up)
    return _limb(forearm.end, frame, "hand")


def solve(pose: Pose) -> Body:
    """The body in the given pose, pinned in space.

    Raises ResourceError when a hand or foot is out of reach, saying which.
    """
    segments = _trunk(pose)
    for side in SIDES:
        segments.update(_named(_leg(pose, segments["pelvis"], side), side))
        segments.update(_named(_arm_by_angles(pose, segments["chest"], side), side))
    _plant_pinned_foot(pose, segments)
    point, goal = _pin_point(pose, segments)
    shift = sub(goal, point)
    shift = (shift[0], shift[1], shift[2] if pose.pin.hold in (Hold.OUTSIDE, Hold.ELBOW) else 0.0)
    segments = dict(Body(segments, {}, None).moved(shift).segments)
    _set_feet(pose, segments)
    bar = _bar_place(pose, segments)
    _set_hands(pose, segments, bar)
    if pose.bar is not None and pose.bar.hold is Hold.FREE:
        bar = middle(*(_grip_of(segments["hand" + side]) for side in SIDES))
    for side in SIDES:
        segments["seat" + side] = _seat(segments["pelvis"], segments["thigh" + side])
    return Body(segments, joint_angles(pose, segments), bar)


def _seat(pelvis: Segment, thigh: Segment) -> Segment:
    """The buttock: at the hip joint, facing half-way between pelvis and thigh."""
    up = unit(add(pelvis.frame.up, thigh.frame.up))
    frame = frame_along(up, add(pelvis.frame.front, thigh.frame.front))
    return Segment(thigh.start, add(thigh.start, scale(up, -LENGTHS["thigh"] / 2)), frame)


def _between(a: Vec, b: Vec) -> float:
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(a, b)))))


def _swing(parent: Frame, limb: Segment, side: Side) -> tuple[float, float]:
    """Flexion and spread of a limb in its parent's frame, degrees."""
    down = unit(sub(limb.end, limb.start))
    front, up, right = (dot(down, way) for way in (parent.front, parent.up, parent.right))
    out = math.degrees(math.asin(max(-1.0, min(1.0, right * side.sign))))
    # A limb straight out to the side has no flexion of its own.
    flex = math.degrees(math.atan2(front, -up)) if math.hypot(front, up) > 0.05 else 0.0
    return flex, out


def _ankle_angle(shank: Segment, foot: Segment) -> float:
    toes = foot.frame.front
    return math.degrees(math.atan2(dot(toes, shank.frame.up), dot(toes, shank.frame.front)))


def joint_angles(pose: Pose, segments: Mapping[str, Segment]) -> dict[str, float]:
    """Every joint's angle as the body stands, degrees, named as in the skeleton's limits."""
    found = {
        "spine": pose.spine,
        "neck": pose.neck,
        "bend": pose.bend,
        "twist": pose.twist,
    }
    for side in SIDES:
        thigh, shank = segments["thigh" + side], segments["shank" + side]
        upper, forearm = segments["upper_arm" + side], segments["forearm" + side]
        found["hip" + side], found["hip_out" + side] = _swing(
            segments["pelvis"].frame, thigh, side
        )
        found["hip_turn" + side] = pose.hip_turn.of(side)
        found["knee" + side] = _between(thigh.frame.up, shank.frame.up)
        found["ankle" + side] = _ankle_angle(shank, segments["foot" + side])
        shoulder, out = _swing(segments["chest"].frame, upper, side)
        # Overhead and behind the ear reads as flexion past 180, not as extension.
        found["shoulder" + side] = shoulder + 360 if shoulder < -120 else shoulder
        found["shoulder_out" + side] = out
        found["elbow" + side] = _between(upper.frame.up, forearm.frame.up)
    return found
