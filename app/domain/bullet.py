"""A measured value beside its range as a small picture: where its bed and its mark stand.

Pure geometry, for the window and for print alike; how it is painted is theirs to say.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.findings import Finding
from app.domain.ranges import Range


@dataclass(frozen=True, slots=True)
class Scale:
    """How long the picture is, half the width of its mark, and the least gap outside the bed.

    All in one unit, px or mm. The gap makes near misses show: a value that lies outside is never
    drawn touching the bed.
    """

    long: float
    half_mark: float
    gap: float


@dataclass(frozen=True, slots=True)
class Bullet:
    """Where bed and mark stand, from the left end of the scale, which begins at nought."""

    bed_left: float
    bed_right: float
    open_end: bool
    mark: float


def bullet_of(finding: Finding, scale: Scale) -> Bullet | None:
    """The picture of a finding; None where nothing was measured or there is no range.

    None as well where the range ends at nought: 'none at all' needs no scale.
    """
    value, band = finding.measured, finding.range
    if value is None or band is None or not (band.low or band.high):
        return None
    return place(value, band, scale)


def place(value: float, band: Range, scale: Scale) -> Bullet:
    """Bed and mark of a value (not below nought) beside a range."""
    edges = [edge for edge in (band.low, band.high) if edge is not None]
    head_room = 1.5 if band.high is None else 1.15
    top = max(max(edges) * head_room, value * 1.08, 1e-9)

    def x(amount: float) -> float:
        return scale.long * min(max(amount, 0.0), top) / top

    left = 0.0 if band.low is None else x(band.low)
    right = scale.long if band.high is None else x(band.high)
    least, most = scale.half_mark, scale.long - scale.half_mark
    mark = min(max(x(value), least), most)
    if band.short_by(value) > 0:
        left = max(left, least + scale.gap)
        mark = min(mark, left - scale.gap)
    elif band.over_by(value) > 0:
        right = min(right, most - scale.gap)
        mark = max(mark, right + scale.gap)
    return Bullet(left, right, band.high is None, mark)
