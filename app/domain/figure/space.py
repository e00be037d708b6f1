"""Vectors and body frames in space: x forward, y up, z to the person's right.

Only the few operations a jointed figure needs. Lengths are fractions of stature, angles degrees.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

Vec: TypeAlias = tuple[float, float, float]
Point: TypeAlias = tuple[float, float]


def add(a: Vec, b: Vec) -> Vec:
    """The sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """The vector from `b` to `a`."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, factor: float) -> Vec:
    """`a` made `factor` times as long."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vec, b: Vec) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """The vector product."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def length(a: Vec) -> float:
    """The length of a vector."""
    return math.sqrt(dot(a, a))


def unit(a: Vec) -> Vec:
    """`a` at length 1; a zero vector stays zero."""
    size = length(a)
    return scale(a, 1 / size) if size > 1e-12 else a


def middle(a: Vec, b: Vec) -> Vec:
    """The point half-way between two points."""
    return scale(add(a, b), 0.5)


def rotate(a: Vec, axis: Vec, degrees: float) -> Vec:
    """`a` turned about a unit `axis` by the right-hand rule (Rodrigues)."""
    angle = math.radians(degrees)
    cos, sin = math.cos(angle), math.sin(angle)
    along = scale(axis, dot(axis, a) * (1 - cos))
    return add(add(scale(a, cos), scale(cross(axis, a), sin)), along)


def across(a: Vec, axis: Vec) -> Vec:
    """The part of `a` at right angles to a unit `axis`, at length 1."""
    return unit(sub(a, scale(axis, dot(a, axis))))


@dataclass(frozen=True, slots=True)
class Frame:
    """Which way a body segment faces: three unit vectors, front x up = right."""

    front: Vec
    up: Vec
    right: Vec

    def turned(self, axis: Vec, degrees: float) -> "Frame":
        """This frame turned about a unit axis."""
        if degrees == 0:
            return self
        return Frame(
            rotate(self.front, axis, degrees),
            rotate(self.up, axis, degrees),
            rotate(self.right, axis, degrees),
        )

    def point(self, origin: Vec, front: float, up: float, right: float = 0.0) -> Vec:
        """The place `front`, `up` and `right` of `origin` as this frame sees it."""
        return (
            origin[0] + self.front[0] * front + self.up[0] * up + self.right[0] * right,
            origin[1] + self.front[1] * front + self.up[1] * up + self.right[1] * right,
            origin[2] + self.front[2] * front + self.up[2] * up + self.right[2] * right,
        )


UPRIGHT = Frame((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def frame_along(up: Vec, front: Vec) -> Frame:
    """The frame with the given `up`, facing as nearly `front` as that allows."""
    facing = across(front, up)
    return Frame(facing, up, cross(facing, up))


@lru_cache(maxsize=64)  # asked for with every point, of very few views
def _axes(yaw_deg: float, pitch_deg: float) -> tuple[Vec, Vec]:
    """The two unit vectors that are right and up on paper."""
    yaw, pitch = math.radians(yaw_deg), math.radians(pitch_deg)
    rise, tilt = math.cos(pitch), -math.sin(pitch)
    across_paper = (math.cos(yaw), 0.0, -math.sin(yaw))
    return across_paper, (math.sin(yaw) * tilt, rise, math.cos(yaw) * tilt)


@dataclass(frozen=True, slots=True)
class View:
    """Where the onlooker stands: a parallel projection.

    yaw_deg: 0 at the person's right side, 90 in front, -90 behind, 180 at the left side.
    pitch_deg: how far from above.
    """

    yaw_deg: float = 0.0
    pitch_deg: float = 0.0

    def toward(self) -> Vec:
        """The unit vector from the figure to the eye."""
        yaw, pitch = math.radians(self.yaw_deg), math.radians(self.pitch_deg)
        flat = math.cos(pitch)
        return (math.sin(yaw) * flat, math.sin(pitch), math.cos(yaw) * flat)

    def axes(self) -> tuple[Vec, Vec]:
        """The two unit vectors that are right and up on paper."""
        return _axes(self.yaw_deg, self.pitch_deg)

    def on_paper(self, a: Vec) -> Point:
        """Where a point in space falls on paper."""
        right, up = self.axes()
        return (dot(a, right), dot(a, up))
