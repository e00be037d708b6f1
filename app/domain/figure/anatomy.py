"""The body's shapes on paper: limbs, trunk, head, shorts and hair from a solved body."""

import math
from dataclasses import replace

from app.domain.figure.body import BALL_DEPTH, FOOT_HEIGHT, Body, Segment
from app.domain.figure.outline import (
    Section,
    around,
    edge,
    limb_outline,
    sampled,
    sections,
    smooth,
)
from app.domain.figure.pose import Side
from app.domain.figure.primitive import Circle, Path, Primitive, Role
from app.domain.figure.skeleton import (
    BALL,
    CHEST,
    HEEL,
    LENGTHS,
    THICKNESS,
    TOE,
    WAIST,
    Station,
)
from app.domain.figure.space import Point, Vec, View, dot, scale

Shape = Path | Circle

SHORTS_ON_THIGH = 0.40
SHORTS_ON_PELVIS = 0.42
HEAD_ROUNDNESS = 0.42
HEAD_HALF_DEPTH = 0.05
LIMB_ROUNDNESS = 0.55  # joints have discs of their own
INSET = 0.997  # shorts stay a hair inside the contour


def _curve(points: tuple[Point, ...]) -> Path:
    return Path(points, curved=True)


def _limb_sections(
    segment: Segment, name: str, stations: tuple[Station, ...]
) -> tuple[Section, ...]:
    axis = scale(segment.frame.up, -1)
    return sections(stations, segment.start, axis, segment.frame, size=LENGTHS[name])


def _limb_shape(segment: Segment, name: str, view: View) -> Path:
    parts = _limb_sections(segment, name, THICKNESS[name])
    return _curve(limb_outline(parts, view, roundness=LIMB_ROUNDNESS))


def _joint(place: Vec, radius: float, view: View) -> Circle:
    return Circle(view.on_paper(place), radius)


def _foot_shapes(body: Body, side: Side, view: View) -> list[Path]:
    """Heel to ball and ball to toes, each a band drawn tight around discs."""
    foot, toe = body.segments["foot" + side], body.segments["toes" + side]

    def disc(front: float, up: float, out: float, radius: float) -> tuple[Point, float]:
        return view.on_paper(foot.point(front, up, out * side.sign)), radius

    low = -FOOT_HEIGHT
    ball = [disc(BALL - 0.004, low + 0.016, out, 0.016) for out in (-0.012, 0.014)]
    heel = disc(0.019 - HEEL, low + 0.019, 0.0, 0.019)
    toes = [
        (view.on_paper(toe.point(TOE - BALL - 0.012, 0.012 - BALL_DEPTH, out * side.sign)), 0.012)
        for out in (-0.010, 0.012)
    ]
    ankle = disc(0.001, 0.002, 0.0, 0.0205)
    instep = disc(0.030, -0.010, 0.0, 0.017)
    return [
        Path(around((heel, ankle, instep))),
        Path(around((heel, *ball, instep))),
        Path(around((*ball, *toes))),
    ]


def _hand_shape(hand: Segment, view: View, *, gripping: bool) -> Path:
    def disc(front: float, down: float, radius: float) -> tuple[Point, float]:
        return view.on_paper(hand.point(front, -down)), radius

    if gripping:
        return Path(around((disc(0.0, 0.004, 0.0165), disc(0.0, 0.036, 0.0225))))
    return Path(
        around((disc(0.0, 0.004, 0.0165), disc(0.0, 0.040, 0.0185), disc(0.0, 0.092, 0.011)))
    )


def _buttock(body: Body, side: Side, view: View) -> Circle:
    """The roundness behind the hip."""
    return _joint(
        body.segments["seat" + side].point(-0.021, 0.006, -0.011 * side.sign), 0.0525, view
    )


def leg_shapes(body: Body, side: Side, view: View) -> list[Shape]:
    """Buttock, thigh, knee, shank and foot of one side."""
    thigh, shank = body.segments["thigh" + side], body.segments["shank" + side]
    return [
        _buttock(body, side, view),
        _limb_shape(thigh, "thigh", view),
        _joint(thigh.end, 0.0325, view),
        _limb_shape(shank, "shank", view),
        *_foot_shapes(body, side, view),
    ]


def arm_shapes(body: Body, side: Side, view: View, *, gripping: bool) -> list[Shape]:
    """Shoulder, upper arm, elbow, forearm and hand of one side."""
    upper, forearm = body.segments["upper_arm" + side], body.segments["forearm" + side]
    return [
        _joint(upper.start, 0.031, view),
        _limb_shape(upper, "upper_arm", view),
        _joint(upper.end, 0.0225, view),
        _limb_shape(forearm, "forearm", view),
        _hand_shape(body.segments["hand" + side], view, gripping=gripping),
    ]


def _trunk_sections(body: Body) -> tuple[Section, ...]:
    pelvis, chest = body.segments["pelvis"], body.segments["chest"]
    lower = sections(THICKNESS["pelvis"], pelvis.start, pelvis.frame.up, pelvis.frame, size=WAIST)
    upper = sections(THICKNESS["chest"], chest.start, chest.frame.up, chest.frame, size=CHEST)
    return (*lower, *upper)


def _head_sections(body: Body) -> tuple[Section, ...]:
    head = body.segments["head"]
    return sections(THICKNESS["head"], head.start, head.frame.up, head.frame, size=LENGTHS["head"])


def trunk_shapes(body: Body, view: View) -> list[Shape]:
    """Trunk, neck and head."""
    neck = body.segments["neck"]
    throat = sections(
        THICKNESS["neck"], neck.start, neck.frame.up, neck.frame, size=LENGTHS["neck"]
    )
    return [
        _curve(limb_outline(_trunk_sections(body), view)),
        _curve(limb_outline(throat, view)),
        _curve(limb_outline(_head_sections(body), view, roundness=HEAD_ROUNDNESS)),
    ]


def _cut(stations: tuple[Station, ...], upto: float) -> tuple[Station, ...]:
    """The stations up to a fraction of the length, with one made up at the cut."""
    kept = [station for station in stations if station.at < upto]
    after = next(station for station in stations if station.at >= upto)
    last = kept[-1]
    share = (upto - last.at) / (after.at - last.at)

    def mix(a: float, b: float) -> float:
        return a + (b - a) * share

    made = Station(
        upto,
        mix(last.front, after.front),
        mix(last.back, after.back),
        mix(last.side, after.side),
    )
    return (*kept, made)


def _tube(parts: tuple[Section, ...], view: View) -> Path:
    """The straight-cut outline of a run of sections, a hair inside the contour."""
    edges = [edge(_thinner(part), view) for part in parts]
    plus = [each.points[0] for each in edges]
    minus = [each.points[1] for each in edges]
    return Path((*plus, *reversed(minus)))


def crease(body: Body, view: View) -> list[Primitive]:
    """A fine line down the spine, which tells a back from a front."""
    pelvis, chest = body.segments["pelvis"], body.segments["chest"]
    if dot(chest.frame.front, view.toward()) > -0.7:
        return []
    places = (chest.point(-0.06, 0.15), chest.point(-0.05, 0.07), pelvis.point(-0.05, 0.075))
    line = smooth([view.on_paper(place) for place in places], closed=False)
    return [Path(line, stroke=Role.INK, weight=0.6, curved=True, closed=False)]


def _thinner(part: Section) -> Section:
    """The section a hair thinner."""
    return replace(part, front=part.front * INSET, back=part.back * INSET, side=part.side * INSET)


def shorts_on_trunk(body: Body, view: View) -> list[Shape]:
    """The shorts' part around the pelvis."""
    pelvis = body.segments["pelvis"]
    stations = _cut(THICKNESS["pelvis"], SHORTS_ON_PELVIS)
    parts = sections(stations, pelvis.start, pelvis.frame.up, pelvis.frame, size=WAIST)
    return [_tube(parts, view)]


def shorts_on_leg(body: Body, side: Side, view: View) -> list[Shape]:
    """The shorts' part around one upper thigh."""
    thigh = body.segments["thigh" + side]
    buttock = _buttock(body, side, view)
    if math.hypot(*view.on_paper(thigh.frame.up)) < 0.32:
        return [replace(buttock, radius=buttock.radius * INSET)]
    parts = _limb_sections(thigh, "thigh", _cut(THICKNESS["thigh"], SHORTS_ON_THIGH))
    return [replace(buttock, radius=buttock.radius * INSET), _tube(parts, view)]


def hair_shapes(body: Body, view: View, *, nose: bool) -> list[Primitive]:
    """A dark cap that shows where the face looks, and a nose seen from the front."""
    head = body.segments["head"]
    at_eye = dot(head.frame.front, view.toward())
    outline = sampled(limb_outline(_head_sections(body), view, roundness=HEAD_ROUNDNESS))
    cap = [point for point in outline if _has_hair(point, head, view, at_eye)]
    drawn: list[Primitive] = [Path(tuple(cap), fill=Role.HAIR)] if len(cap) > 2 else []
    if nose and at_eye > 0.7:
        ends = (view.on_paper(head.point(0.05, 0.046)), view.on_paper(head.point(0.05, 0.060)))
        drawn.append(Path(ends, stroke=Role.INK, weight=0.7, closed=False))
    return drawn


def _has_hair(point: Point, head: Segment, view: View, at_eye: float) -> bool:
    """Whether a point of the head's outline lies above the hairline.

    The line is high over the face, low at the nape.
    """
    x0, y0 = view.on_paper(head.start)
    (ux, uy), (fx, fy) = view.on_paper(head.frame.up), view.on_paper(head.frame.front)
    x, y = point[0] - x0, point[1] - y0
    up = x * ux + y * uy
    forward = x * fx + y * fy
    line = 0.58 + 0.18 * forward / HEAD_HALF_DEPTH + 0.14 * at_eye
    return up / LENGTHS["head"] >= line * (ux * ux + uy * uy)
