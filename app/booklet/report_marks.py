"""Signs of the three weights and the small range picture, drawn on paper as in the window."""

from __future__ import annotations

from math import cos, pi, sin

from app.booklet.pen import Box, Pen
from app.domain.bullet import Bullet, Scale
from app.domain.findings import Weight

PICTURE_MM, TALL_MM = 24.0, 4.2
SCALE = Scale(long=PICTURE_MM, half_mark=1.3, gap=1.7)
_REACH = 1.9  # half a sign's side, mm


def draw_weight(pen: Pen, x: float, y: float, weight: Weight, *, below: bool | None) -> None:
    """The sign with its middle at a place: crossed square, brackets with a lozenge, asterisk."""
    match weight:
        case Weight.CONFLICT:
            _conflict(pen, x, y)
        case Weight.OUTSIDE:
            _outside(pen, x, y, turn=-1 if below is False else 1)
        case Weight.REMARK:
            _remark(pen, x, y)


def _conflict(pen: Pen, x: float, y: float) -> None:
    ink, r = pen.palette.ink, _REACH
    pen.box(Box(x - r, y - r, 2 * r, 2 * r), fill=ink)
    for rise in (1, -1):
        pen.rule(x - 1.1, y - rise * 1.1, x + 1.1, to_y=y + rise * 1.1, weight=1.1, tone="#FFFFFF")


def _outside(pen: Pen, x: float, y: float, *, turn: int) -> None:
    """turn: 1 for a lozenge on the left, -1 on the right."""
    unit = _REACH * turn / 8  # the window's sign stands on a grid of 16
    for upright, foot in ((7.4, 9.4), (14.4, 12.0)):
        at, end = x + (upright - 8) * unit, x + (foot - 8) * unit
        pen.polygon(
            ((end, y - _REACH), (at, y - _REACH), (at, y + _REACH), (end, y + _REACH)),
            stroke=pen.palette.ink,
            weight=0.9,
            closed=False,
        )
    _lozenge(pen, x - 5 * unit, y, 0.75)


def _lozenge(pen: Pen, x: float, y: float, half: float) -> None:
    pen.polygon(
        ((x - half, y), (x, y - half * 1.3), (x + half, y), (x, y + half * 1.3)),
        fill=pen.palette.ink,
    )


def _remark(pen: Pen, x: float, y: float) -> None:
    for arm in range(3):
        dx, dy = 1.7 * sin(arm * pi / 3), 1.7 * cos(arm * pi / 3)
        pen.rule(x - dx, y - dy, x + dx, to_y=y + dy, weight=0.9, tone=pen.palette.ink)


def draw_bullet(pen: Pen, x: float, y: float, picture: Bullet) -> None:
    """A measured value beside its range, its upper left corner at a place."""
    p, bottom = pen.palette, y + TALL_MM
    pen.rule(x, bottom, x + PICTURE_MM, weight=0.4, tone=p.cell)
    left, right = x + picture.bed_left, x + picture.bed_right
    pen.box(Box(left, y, max(0.6, right - left), TALL_MM), fill=p.tint2)
    edges = ((left, 1),) if picture.open_end else ((left, 1), (right, -1))
    for at, inward in edges:
        foot = at + inward * min(1.0, max(0.3, (right - left) / 2))
        pen.polygon(
            ((foot, y), (at, y), (at, bottom), (foot, bottom)),
            stroke=p.ink,
            weight=0.8,
            closed=False,
        )
    if picture.open_end:
        for gap in range(3):
            pen.box(Box(right - 0.8 - 1.3 * gap, y, 0.5, TALL_MM), fill=p.paper)
    _lozenge(pen, x + picture.mark, y + TALL_MM / 2, 1.2)
