"""Outlines on paper: from stations along a segment to one smooth closed curve.

A segment's half width on paper is the support of its elliptic section across the drawn axis, so one
set of measures serves every view.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.domain.figure.skeleton import Station
from app.domain.figure.space import Frame, Point, Vec, View, add, dot, scale

FORESHORTENED = 0.32  # drawn shorter than this share, a segment is outlined as a hull
SECTION_STEPS = 12
DISC_STEPS = 20
DISC = tuple(
    (math.cos(2 * math.pi * k / DISC_STEPS), math.sin(2 * math.pi * k / DISC_STEPS))
    for k in range(DISC_STEPS)
)


@dataclass(frozen=True, slots=True)
class Section:
    """One cross-section in space: its middle, its frame, its half widths, the axis through it."""

    center: Vec
    frame: Frame
    axis: Vec
    front: float
    back: float
    side: float


@dataclass(frozen=True, slots=True)
class Edge:
    """Where a section's outline falls on paper: middle, normal, widths to either side of it."""

    middle: Point
    normal: Point
    plus: float
    minus: float

    @property
    def points(self) -> tuple[Point, Point]:
        """The outline's two points."""
        (x, y), (nx, ny) = self.middle, self.normal
        plus = (x + nx * self.plus, y + ny * self.plus)
        return plus, (x - nx * self.minus, y - ny * self.minus)


def sections(
    stations: Sequence[Station], start: Vec, axis: Vec, frame: Frame, *, size: float
) -> tuple[Section, ...]:
    """A segment's cross-sections in space; `axis` points along it, `size` is its length."""
    return tuple(
        Section(
            add(start, scale(axis, station.at * size)),
            frame,
            axis,
            station.front,
            station.back,
            station.side,
        )
        for station in stations
    )


def _support(section: Section, normal: Point, view: View, sign: int) -> float:
    """How far the section reaches along `sign` times the paper normal."""
    fx, fy = view.on_paper(section.frame.front)
    rx, ry = view.on_paper(section.frame.right)
    front = (fx * normal[0] + fy * normal[1]) * sign
    right = rx * normal[0] + ry * normal[1]
    depth = section.front if front > 0 else section.back
    return math.hypot(depth * front, section.side * right)


def edge(section: Section, view: View, fallback: Point = (0.0, 1.0)) -> Edge:
    """The section's outline points on paper."""
    ax, ay = view.on_paper(section.axis)
    size = math.hypot(ax, ay)
    if size < 1e-6:
        (ax, ay), size = fallback, 1.0
    normal = (-ay / size, ax / size)
    return Edge(
        view.on_paper(section.center),
        normal,
        _support(section, normal, view, 1),
        _support(section, normal, view, -1),
    )


def limb_outline(
    parts: Sequence[Section], view: View, *, roundness: float = 1.0
) -> tuple[Point, ...]:
    """A closed curve (start and cubic spans) around a segment, round at both ends.

    roundness: how far the ends bulge, as a share of their half width.
    """
    first, last = parts[0], parts[-1]
    axis = view.on_paper(first.axis)
    if math.hypot(*axis) < FORESHORTENED:
        return smooth(_thinned(hull(_section_points(parts, view))))
    edges = [edge(part, view) for part in parts]
    plus = [each.points[0] for each in edges]
    minus = [each.points[1] for each in edges]
    head = _cap(edges[0], view.on_paper(first.axis), -roundness)
    tail = _cap(edges[-1], view.on_paper(last.axis), roundness)
    return smooth([*plus, tail, *reversed(minus), head])


def _cap(end: Edge, axis: Point, bulge: float) -> Point:
    """The round end's farthest point."""
    size = math.hypot(*axis) or 1.0
    out = 0.5 * (end.plus + end.minus) * bulge * min(1.0, 0.4 + 0.6 * size)
    (px, py), (mx, my) = end.points
    return ((px + mx) / 2 + axis[0] / size * out, (py + my) / 2 + axis[1] / size * out)


def _section_points(parts: Iterable[Section], view: View) -> list[Point]:
    found = []
    for part in parts:
        for step in range(SECTION_STEPS):
            angle = 2 * math.pi * step / SECTION_STEPS
            depth = part.front if math.cos(angle) > 0 else part.back
            place = part.frame.point(
                part.center, math.cos(angle) * depth, 0.0, math.sin(angle) * part.side
            )
            found.append(view.on_paper(place))
    return found


def hull(points: Iterable[Point]) -> list[Point]:
    """The convex hull, counter-clockwise (Andrew's monotone chain)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered

    def half(run: Iterable[Point]) -> list[Point]:
        chain: list[Point] = []
        for x, y in run:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], (x, y)) <= 1e-12:
                chain.pop()
            chain.append((x, y))
        return chain[:-1]

    return half(ordered) + half(reversed(ordered))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _thinned(points: list[Point], gap: float = 0.012) -> list[Point]:
    """The same ring without points that crowd each other."""
    kept = [points[0]]
    for point in points[1:]:
        if math.dist(point, kept[-1]) >= gap:
            kept.append(point)
    return kept if len(kept) > 3 else points


def around(discs: Iterable[tuple[Point, float]]) -> tuple[Point, ...]:
    """The polygon of a band drawn tight around discs (centre, radius)."""
    return tuple(
        hull((x + radius * c, y + radius * s) for (x, y), radius in discs for c, s in DISC)
    )


def smooth(ring: Sequence[Point], *, closed: bool = True) -> tuple[Point, ...]:
    """A curve through the points (Catmull and Rom's spline) as a start and cubic spans."""
    count = len(ring)
    result = [ring[0]]
    for index in range(count if closed else count - 1):
        before, here, there, after = (
            _at(ring, index + offset, closed=closed) for offset in (-1, 0, 1, 2)
        )
        result += (
            (here[0] + (there[0] - before[0]) / 6, here[1] + (there[1] - before[1]) / 6),
            (there[0] - (after[0] - here[0]) / 6, there[1] - (after[1] - here[1]) / 6),
            there,
        )
    return tuple(result)


def _at(ring: Sequence[Point], index: int, *, closed: bool) -> Point:
    if closed:
        return ring[index % len(ring)]
    return ring[max(0, min(index, len(ring) - 1))]


def sampled(curve: Sequence[Point], steps: int = 6) -> list[Point]:
    """Points along a closed curve given as a start and cubic spans, without repeating its start."""
    found = []
    for index in range(1, len(curve), 3):
        span = (curve[index - 1], *curve[index : index + 3])
        found += [_bezier(span, step / steps) for step in range(steps)]
    return found


def _bezier(span: tuple[Point, ...], share: float) -> Point:
    rest = 1 - share
    weights = (rest**3, 3 * rest * rest * share, 3 * rest * share * share, share**3)
    return (
        sum(weight * point[0] for weight, point in zip(weights, span, strict=True)),
        sum(weight * point[1] for weight, point in zip(weights, span, strict=True)),
    )


def spindle(middle: Sequence[Point], widest: float) -> tuple[Point, ...]:
    """A closed curve around a line of points, pointed at both ends, `widest` to either side."""
    left, right = [], []
    last = len(middle) - 1
    for index in range(1, last):
        (ax, ay), (bx, by) = middle[index - 1], middle[index + 1]
        size = math.hypot(bx - ax, by - ay) or 1.0
        wide = widest * math.sin(math.pi * index / last) ** 0.8
        nx, ny = -(by - ay) / size * wide, (bx - ax) / size * wide
        x, y = middle[index]
        left.append((x + nx, y + ny))
        right.append((x - nx, y - ny))
    return smooth([middle[0], *left, middle[last], *reversed(right)])


def shrunk(points: Sequence[Point], factor: float) -> tuple[Point, ...]:
    """The outline made smaller about its middle."""
    x = sum(p[0] for p in points) / len(points)
    y = sum(p[1] for p in points) / len(points)
    return tuple((x + (px - x) * factor, y + (py - y) * factor) for px, py in points)


def faces(frame: Frame, front: float, right: float, view: View) -> float:
    """How much a direction of a section looks at the eye: 1 straight at it, -1 away."""
    toward = view.toward()
    size = math.hypot(front, right) or 1.0
    return (dot(frame.front, toward) * front + dot(frame.right, toward) * right) / size
