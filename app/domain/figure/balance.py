"""Where a body's mass lies, and what it stands on: for telling a figure that would fall over.

Masses: see skeleton.MASS_SOURCE. Loads in the hands are left out.
"""

from app.domain.figure.body import BALL_DEPTH, FOOT_HEIGHT, Body
from app.domain.figure.pose import Hold, Pose, Side
from app.domain.figure.skeleton import BALL, HEEL, MASSES, TOE
from app.domain.figure.space import Vec, add, scale, sub

RESTING = 0.04  # an elbow this low lies on the floor
STANDING_HOLDS = {Hold.FLAT, Hold.BALL, Hold.TOES}


def mass_centre(body: Body) -> Vec:
    """The centre of mass of the body alone."""
    parts = body.segments
    trunk, head = parts["pelvis"].start, parts["head"].end
    total: Vec = scale(_along(trunk, parts["chest"].end, MASSES["trunk"][1]), MASSES["trunk"][0])
    total = add(total, scale(_along(parts["neck"].start, head, 0.5), MASSES["head"][0]))
    for name in ("upper_arm", "forearm", "hand", "thigh", "shank", "foot"):
        share, along = MASSES[name]
        for side in Side:
            segment = parts[name + side]
            total = add(total, scale(_along(segment.start, segment.end, along), share))
    return total


def _along(start: Vec, end: Vec, share: float) -> Vec:
    return add(start, scale(sub(end, start), share))


def soles(body: Body, side: Side) -> tuple[Vec, Vec]:
    """The rear and front end of one foot's sole, as far as the foot is flat."""
    foot, toes = body.segments["foot" + side], body.segments["toes" + side]
    heel = foot.point(-HEEL, -FOOT_HEIGHT)
    tip = toes.point(TOE - BALL, -BALL_DEPTH)
    if foot.frame.up[1] < 0.999:  # on the ball: the heel carries nothing
        heel = toes.point(-0.02, -BALL_DEPTH)
    return heel, tip


def base_of_support(pose: Pose, body: Body) -> tuple[float, float] | None:
    """From where to where, along x, feet, flat hands and resting elbows reach.

    None when nobody stands freely: a pose that something outside holds (`held`), or one that is
    not pinned by a foot.
    """
    if pose.held or pose.pin.hold not in STANDING_HOLDS:
        return None
    xs = [point[0] for side in Side if _bears(pose, body, side) for point in soles(body, side)]
    for side in Side:
        if pose.hands.of(side).hold is Hold.PALM:
            xs.append(body.segments["hand" + side].start[0])
        if body.segments["forearm" + side].start[1] < RESTING:
            xs.append(body.segments["forearm" + side].start[0])
    return min(xs), max(xs)


def _bears(pose: Pose, body: Body, side: Side) -> bool:
    """Whether a foot is set down: pinned, placed, or level with the pinned one."""
    if side is pose.pin_side or pose.feet.of(side).hold is not Hold.FREE:
        return True
    pinned = body.segments["toes" + pose.pin_side].start[1]
    return abs(body.segments["toes" + side].start[1] - pinned) < 0.02
