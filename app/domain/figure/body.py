"""The solved body: its segments in space, named points on it, and the angle of every joint."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.domain.figure.pose import Pose, Side
from app.domain.figure.skeleton import BALL, GRIP, LENGTHS
from app.domain.figure.space import Frame, Vec, add, dot, scale, sub, unit

SIDES = (Side.R, Side.L)
FOOT_HEIGHT = LENGTHS["foot_height"]
SEAT_DEPTH = 0.065  # from the hip joint down to what one sits on
BACK_DEPTH = 0.062  # from the trunk's axis to the skin of the back
BUTTOCK_DEPTH = 0.073
HIP_SIDE = 0.098  # from the middle to the skin of the hip
KNEE_DEPTH = 0.036
BALL_DEPTH = 0.026  # how far the ball's joint lies above the sole

# Places on the body that hands and implements refer to: segment, then front, up, outward.
PARTS: dict[str, tuple[str, float, float, float]] = {
    "upper_back": ("chest", -0.070, 0.148, 0.0),
    "front_rack": ("chest", 0.062, 0.206, 0.0),
    "hips": ("pelvis", 0.074, -0.010, 0.0),
    "waist": ("pelvis", 0.006, 0.086, 0.088),
    "chest": ("chest", 0.074, 0.120, 0.0),
    "opposite": ("chest", 0.068, 0.140, -0.060),
    "temple": ("head", -0.010, 0.070, 0.052),
    "low_back": ("pelvis", -0.092, 0.070, 0.010),
    "nape": ("neck", -0.066, 0.010, 0.010),
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


def part_point(body: Mapping[str, Segment], part: str, side: Side) -> Vec:
    """The place of a named body part (see PARTS) on `side`."""
    segment, front, up, outward = PARTS[part]
    return body[segment].point(front, up, outward * side.sign)


def ball_of(foot: Segment) -> Vec:
    """The joint at the ball of the foot, a little above the sole."""
    return foot.point(BALL, BALL_DEPTH - FOOT_HEIGHT)


def grip_of(hand: Segment) -> Vec:
    """The middle of a fist."""
    return add(hand.start, scale(hand.frame.up, -GRIP))


def grip(body: Body, side: Side) -> Vec:
    """The middle of the fist."""
    return grip_of(body.segments["hand" + side])


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
        found["hip" + side], found["hip_out" + side] = _swing(segments["pelvis"].frame, thigh, side)
        found["hip_turn" + side] = pose.hip_turn.of(side)
        found["knee" + side] = _between(thigh.frame.up, shank.frame.up)
        found["ankle" + side] = _ankle_angle(shank, segments["foot" + side])
        shoulder, out = _swing(segments["chest"].frame, upper, side)
        # Overhead and behind the ear reads as flexion past 180, not as extension.
        found["shoulder" + side] = shoulder + 360 if shoulder < -120 else shoulder
        found["shoulder_out" + side] = out
        found["elbow" + side] = _between(upper.frame.up, forearm.frame.up)
        found["wrist" + side] = pose.wrist.of(side)
    return found
