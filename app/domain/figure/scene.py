"""A solved pose on paper: layers, named points, and the plain shapes that things are made of.

Furniture is given in paper coordinates (x, height); what is held follows the hands.
"""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from app.domain.figure.body import PARTS, Body, grip, part_point
from app.domain.figure.outline import around
from app.domain.figure.pose import Pose, Side
from app.domain.figure.primitive import Path, Primitive, Role
from app.domain.figure.space import Point, Vec, middle

LAYER_WORDS = {"behind", "mid", "front"}
SIDED_POINTS = ("hand", "knee", "ankle", "thigh", "foot", "elbow", "shoulder")


@dataclass(slots=True)
class Layers:
    """What is drawn behind the body, before the near arms, with each arm, and last."""

    back: list[Primitive] = field(default_factory=list)
    mid: list[Primitive] = field(default_factory=list)
    hand: dict[Side, list[Primitive]] = field(default_factory=lambda: {Side.R: [], Side.L: []})
    front: list[Primitive] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Scene:
    """A pose, its solved body, and whether small trimmings are drawn."""

    pose: Pose
    body: Body
    trimmings: bool

    @property
    def near(self) -> Side:
        """The side that looks at the eye in a picture from the side."""
        return Side.L if self.pose.mirrored else Side.R

    def paper(self, x: float, y: float) -> Point:
        """A furniture coordinate on paper."""
        return (-x if self.pose.mirrored else x, y)

    def project(self, place: Vec) -> Point:
        """A place in space on paper."""
        return self.pose.view.on_paper(place)

    def anchor(self, name: str) -> Point:
        """The paper place of a named point, or of `x,y`."""
        if "," in name:
            x, y = (float(number) for number in name.split(","))
            return self.paper(x, y)
        return self.project(named_point(self.body, name))


MIDDLES: dict[str, Callable[[Body], Vec]] = {
    "hands": lambda body: middle(grip(body, Side.R), grip(body, Side.L)),
    "knees": lambda body: middle(body.segments["thighR"].end, body.segments["thighL"].end),
    "hip": lambda body: body.segments["pelvis"].start,
    "neck": lambda body: body.segments["neck"].start,
    "head": lambda body: body.segments["head"].end,
}
POINTS = {"bar", *MIDDLES}


def named_point(body: Body, name: str) -> Vec:
    """The place in space of a point such as handR, kneeL, hip, hands, bar or ankleR."""
    parts = body.segments
    if name == "bar" and body.bar is not None:
        return body.bar
    if name in MIDDLES:
        return MIDDLES[name](body)
    if name in PARTS:
        return part_point(parts, name, Side.R)
    side = Side(name[-1])
    match name[:-1]:
        case "hand":
            return grip(body, side)
        case "knee":
            return parts["thigh" + side].end
        case "ankle":
            return parts["shank" + side].end
        case "thigh":
            return middle(parts["thigh" + side].start, parts["thigh" + side].end)
        case "foot":
            return parts["foot" + side].end
        case "elbow":
            return parts["upper_arm" + side].end
        case "shoulder":
            return parts["upper_arm" + side].start
        case _:
            return part_point(parts, name[:-1], side)


def is_point(name: str) -> bool:
    """Whether `named_point` knows the name."""
    sided = name[-1:] in ("R", "L") and name[:-1] in (*SIDED_POINTS, *PARTS)
    return name in POINTS or name in PARTS or sided


def solid(points: Iterable[Point], fill: Role) -> Path:
    """A filled shape with a contour."""
    return Path(tuple(points), fill=fill, stroke=Role.INK)


def strip(a: Point, b: Point, wide: float, fill: Role) -> Path:
    """A straight strip from a to b, `wide` across."""
    size = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / size * wide / 2, (b[0] - a[0]) / size * wide / 2
    return solid(
        (
            (a[0] + nx, a[1] + ny),
            (b[0] + nx, b[1] + ny),
            (b[0] - nx, b[1] - ny),
            (a[0] - nx, a[1] - ny),
        ),
        fill,
    )


def pad(a: Point, b: Point, wide: float, fill: Role) -> Path:
    """A strip with round ends."""
    return solid(around(((a, wide / 2), (b, wide / 2))), fill)


def rectangle(scene: Scene, corners: tuple[float, float, float, float], fill: Role) -> Path:
    """An upright rectangle: left, bottom, right, top."""
    x0, y0, x1, y1 = corners
    return solid((scene.paper(x, y) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))), fill)
