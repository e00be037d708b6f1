"""What a drawn figure consists of: paths and circles with named roles, free of any paint library.

Units are fractions of stature, y up. Stroke weights are multiples of the contour of the detail
level, so lines keep their weight whatever the scale.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from app.domain.figure.space import Point


class Role(StrEnum):
    """What a colour stands for; screens and printers bring their own tones."""

    BODY = "body"
    FAR = "far"
    SHORTS = "shorts"
    FAR_SHORTS = "far_shorts"
    INK = "ink"
    HAIR = "hair"
    IMPLEMENT = "implement"
    RING = "ring"
    STEEL = "steel"
    WOOD = "wood"
    BAND = "band"
    MUSCLE_OUTER = "muscle_outer"
    MUSCLE_INNER = "muscle_inner"
    FLOOR = "floor"


@dataclass(frozen=True, slots=True)
class Path:
    """An outline. `curved`: a start point, then cubic spans of two handles and an end each."""

    points: tuple[Point, ...]
    fill: Role | None = None
    stroke: Role | None = None
    weight: float = 1.0
    curved: bool = False
    closed: bool = True
    dotted: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A disc or ring."""

    center: Point
    radius: float
    fill: Role | None = None
    stroke: Role | None = None
    weight: float = 1.0


Primitive = Path | Circle


@dataclass(frozen=True, slots=True)
class Bounds:
    """The upright box around a drawing, without line weights."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def joined(self, other: "Bounds") -> "Bounds":
        """The box around both."""
        return Bounds(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


def bounds(drawing: Iterable[Primitive]) -> Bounds:
    """The box around a drawing; a curve counts with its handles, which lie close to it.

    Raises ValueError for an empty drawing.
    """
    xs: list[float] = []
    ys: list[float] = []
    for item in drawing:
        if isinstance(item, Circle):
            xs += (item.center[0] - item.radius, item.center[0] + item.radius)
            ys += (item.center[1] - item.radius, item.center[1] + item.radius)
        else:
            xs += (x for x, _ in item.points)
            ys += (y for _, y in item.points)
    return Bounds(min(xs), min(ys), max(xs), max(ys))
