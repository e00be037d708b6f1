"""From a pose to a list of primitives, the same for the screen and for print.

Each group of limbs is given twice: first in ink with a fat stroke, then filled. One contour
results around all its shapes, without a geometry library.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from functools import lru_cache

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle
from app.domain.figure.anatomy import (
    Shape,
    arm_shapes,
    crease,
    hair_shapes,
    leg_shapes,
    shorts_on_leg,
    shorts_on_trunk,
    trunk_shapes,
)
from app.domain.figure.blend import between, can_blend
from app.domain.figure.body import Body
from app.domain.figure.muscles import PATCHES, patches
from app.domain.figure.pose import Hold, Pose, PosePair, Side, Thing, swap_sides
from app.domain.figure.primitive import Circle, Path, Primitive, Role, bounds
from app.domain.figure.scene import Layers, Scene, named_point
from app.domain.figure.solve import solve
from app.domain.figure.space import Point
from app.domain.figure.things import arrange

INK_PASS = 2.0  # half of the fat stroke shows outside the fill
FRONTAL = 0.5  # a view counts as from the side while |sin(yaw)| is below this
FLOOR_BEYOND = 0.07
SHORT_TRACE = 0.035  # a way shorter than this is not drawn
SIDE_ORDER = ("armL", "legL", "trunk+legR", "armR")
FRONT_ORDER = ("trunk+legR+legL", "armL", "armR")
SIDE_FAR = ("armL", "legL")
HOLDING = {"barbell", "handle", "dumbbell", "upright_dumbbell", "hexbar"}
BY_POINT = {"kettlebell", "cable", "band", "link"}  # they name the hand that they hang from


class Detail(Enum):
    """How much is drawn at which size. `contour` is in points in print, in pixels for icons."""

    FULL = (1.05, True, True, True)
    PRINT22 = (0.70, True, True, False)
    ROW17 = (0.62, True, True, False)
    ICON48 = (0.90, False, False, False)

    def __init__(self, contour: float, two_tones: bool, trimmings: bool, path: bool) -> None:
        self.contour = contour
        self.two_tones = two_tones
        self.trimmings = trimmings
        self.path = path


class Phase(Enum):
    """Which of the two positions of an exercise."""

    START = "start"
    END = "end"


@dataclass(frozen=True, slots=True)
class _Drawing:
    """What all groups of one figure need."""

    pose: Pose
    body: Body
    detail: Detail
    work: Mapping[Muscle, int]

    @property
    def sideways(self) -> bool:
        """Whether the figure is seen from one of its sides."""
        return abs(math.sin(math.radians(self.pose.view.yaw_deg))) < FRONTAL

    def order(self) -> tuple[str, ...]:
        """The groups from back to front."""
        if self.pose.order:
            return self.pose.order
        return self._turned_over(SIDE_ORDER if self.sideways else FRONT_ORDER)

    def far(self) -> tuple[str, ...]:
        """The limbs in the far tone."""
        if self.pose.far:
            return self.pose.far
        return self._turned_over(SIDE_FAR) if self.sideways else ()

    def _turned_over(self, groups: tuple[str, ...]) -> tuple[str, ...]:
        if not self.pose.mirrored:
            return groups
        return tuple(swap_sides(group) for group in groups)


def _is_open(pose: Pose, side: Side) -> bool:
    hold = pose.hands.of(side).hold
    if pose.pin.hold is Hold.HANG:
        return False
    if hold in (Hold.PALM, Hold.WALL):
        return True
    if hold in (Hold.FREE, Hold.FROM, Hold.HANGING):
        return not any(_is_held(thing, side) for thing in pose.things)
    return False


def _is_held(thing: Thing, side: Side) -> bool:
    """Whether the hand on `side` closes on the thing."""
    if thing.kind in BY_POINT:
        return bool({"hands", "hand" + side} & set(thing.words))
    named = [word for word in thing.words if word in tuple(Side)]
    return thing.kind in HOLDING and (not named or side in named)


def _shapes(drawing: _Drawing, part: str) -> list[Shape]:
    pose, body = drawing.pose, drawing.body
    if part == "trunk":
        return trunk_shapes(body, pose.view)
    side = Side(part[-1])
    if part.startswith("leg"):
        return leg_shapes(body, side, pose.view)
    return arm_shapes(body, side, pose.view, gripping=not _is_open(pose, side))


def _inked(shape: Shape) -> Shape:
    return replace(shape, fill=Role.INK, stroke=Role.INK, weight=INK_PASS)


def _dressed(drawing: _Drawing, part: str, *, far: bool) -> list[Primitive]:
    """Shorts on one part."""
    if not drawing.detail.trimmings:
        return []
    tone = Role.FAR_SHORTS if far else Role.SHORTS
    view = drawing.pose.view
    if part == "trunk":
        return [replace(shape, fill=tone) for shape in shorts_on_trunk(drawing.body, view)]
    if part.startswith("leg"):
        return [
            replace(shape, fill=tone) for shape in shorts_on_leg(drawing.body, Side(part[-1]), view)
        ]
    return []


def _worked(drawing: _Drawing, part: str, whole: Iterable[str]) -> list[Primitive]:
    """The muscle patches that are painted with one part."""
    drawn: list[Primitive] = []
    for muscle, weight in drawing.work.items():
        patch = PATCHES[muscle]
        for side in drawing.pose.work_sides:
            home = "trunk" if patch.group == "trunk" else patch.group + side
            if home != part or (patch.group == "trunk" and "leg" + side not in whole):
                continue
            main = weight == 1 and drawing.detail.two_tones
            drawn += patches(muscle, drawing.body, side, drawing.pose.view, main=main)
    return drawn


def _group(drawing: _Drawing, group: str) -> list[Primitive]:
    parts = group.split("+")
    far = drawing.far()
    shapes = [(part, shape) for part in parts for shape in _shapes(drawing, part)]
    drawn: list[Primitive] = [_inked(shape) for _, shape in shapes]
    for part, shape in shapes:
        drawn.append(replace(shape, fill=Role.FAR if part in far else Role.BODY))
    for part in sorted(parts, key=lambda name: name == "trunk"):
        drawn += _dressed(drawing, part, far=part in far)
    if "trunk" in parts and drawing.detail.trimmings:
        drawn += crease(drawing.body, drawing.pose.view)
    for part in parts:
        if part not in far:
            drawn += _worked(drawing, part, _seen_legs(drawing))
    if "trunk" in parts:
        drawn += hair_shapes(drawing.body, drawing.pose.view, nose=drawing.detail.trimmings)
    return drawn


def _seen_legs(drawing: _Drawing) -> tuple[str, ...]:
    """The sides whose trunk muscles are shaded: both from the front, else the near one."""
    far = drawing.far()
    return tuple("leg" + side for side in Side if "leg" + side not in far)


def _floor(drawn: list[Primitive]) -> Path:
    box = bounds(drawn)
    level = min(0.0, box.bottom)
    ends = ((box.left - FLOOR_BEYOND, level), (box.right + FLOOR_BEYOND, level))
    return Path(ends, stroke=Role.FLOOR, weight=0.9, closed=False)


def _assemble(drawing: _Drawing, layers: Layers) -> list[Primitive]:
    drawn: list[Primitive] = list(layers.back)
    waiting = list(layers.mid)
    for group in drawing.order():
        parts = group.split("+")
        arms = [Side(part[-1]) for part in parts if part.startswith("arm")]
        if arms and waiting and _is_near(drawing, parts):
            drawn += waiting
            waiting = []
        drawn += _group(drawing, group)
        for side in arms:
            drawn += layers.hand[side]
    return [*drawn, *waiting, *layers.front]


def _is_near(drawing: _Drawing, parts: list[str]) -> bool:
    """Whether a group of arms lies in front of the trunk, so that held things go before it."""
    order = drawing.order()
    trunk = next(i for i, group in enumerate(order) if "trunk" in group)
    here = next(i for i, group in enumerate(order) if parts[0] in group.split("+"))
    return here >= trunk


@lru_cache(maxsize=1024)
def _figure(
    pose: Pose, detail: Detail, *, work: tuple[tuple[Muscle, int], ...]
) -> tuple[Primitive, ...]:
    body = solve(pose)
    drawing = _Drawing(pose, body, detail, dict(work))
    drawn = _assemble(drawing, arrange(Scene(pose, body, detail.trimmings)))
    return (_floor(drawn), *drawn) if pose.floor else tuple(drawn)


def primitives(
    pose: Pose,
    *,
    detail: Detail = Detail.FULL,
    muscles: bool = True,
    work: Mapping[Muscle, int] | None = None,
) -> tuple[Primitive, ...]:
    """The drawing of a pose, back to front, in fractions of stature with y up.

    work: muscles to shade, 1 most of the work and 2 helps; without it the pose's own.
    Raises ResourceError when the pose asks for what a body cannot do.
    """
    shaded = pose.work if work is None else tuple(work.items())
    return _figure(pose, detail, work=shaded if muscles else ())


@lru_cache(maxsize=512)
def _trace(pair: PosePair, steps: int = 8) -> tuple[Primitive, ...]:
    """Ring at the start, dots along the way, arrow at the end, all beside the body."""
    trace = pair.trace
    if trace is None:
        return ()
    points = [_traced(pair, step / steps) for step in range(steps + 1)]
    way = [(x + trace.right, y + trace.up) for x, y in points]
    if math.dist(way[0], way[-1]) < SHORT_TRACE:
        return ()
    way = _without_start(way, 0.016)
    (bx, by), (tx, ty) = way[-2], way[-1]
    size = math.dist(way[-2], way[-1]) or 1.0
    ux, uy = (tx - bx) / size, (ty - by) / size
    arrow = (
        (tx, ty),
        (tx - ux * 0.026 - uy * 0.0105, ty - uy * 0.026 + ux * 0.0105),
        (tx - ux * 0.026 + uy * 0.0105, ty - uy * 0.026 - ux * 0.0105),
    )
    start = (points[0][0] + trace.right, points[0][1] + trace.up)
    return (
        Circle(start, 0.013, stroke=Role.INK),
        Path(
            (*way[:-1], (tx - ux * 0.02, ty - uy * 0.02)),
            stroke=Role.INK,
            closed=False,
            dotted=True,
        ),
        Path(arrow, fill=Role.INK),
    )


def _without_start(way: list[Point], gap: float) -> list[Point]:
    """The way without the part inside the ring at its start."""
    kept = [point for point in way[1:] if math.dist(point, way[0]) > gap]
    size = math.dist(way[0], kept[0]) or 1.0
    (ax, ay), (bx, by) = way[0], kept[0]
    first = (ax + (bx - ax) / size * gap, ay + (by - ay) / size * gap)
    return [first, *kept]


def _traced(pair: PosePair, share: float) -> Point:
    """Where the traced point is on paper, part of the way through the movement."""
    if not can_blend(pair.start, pair.end):
        (ax, ay), (bx, by) = (_point_in(pose, pair) for pose in (pair.start, pair.end))
        return (ax + (bx - ax) * share, ay + (by - ay) * share)
    try:
        return _point_in(between(pair.start, pair.end, share), pair)
    except ResourceError:  # a half-way pose out of reach: the nearer real one will do
        return _point_in(pair.start if share < 0.5 else pair.end, pair)


def _point_in(pose: Pose, pair: PosePair) -> Point:
    assert pair.trace is not None
    return pose.view.on_paper(named_point(solve(pose), pair.trace.point))


def draw(
    pair: PosePair,
    phase: Phase,
    *,
    detail: Detail = Detail.FULL,
    muscles: bool = True,
    work: Mapping[Muscle, int] | None = None,
) -> tuple[Primitive, ...]:
    """The drawing of one position of an exercise; the end, at full detail, with its trace."""
    pose = pair.start if phase is Phase.START else pair.end
    drawn = primitives(pose, detail=detail, muscles=muscles, work=work)
    if phase is Phase.END and detail.path:
        drawn += _trace(pair)
    return drawn
