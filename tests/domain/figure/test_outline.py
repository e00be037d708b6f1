"""Outlines from stations, hulls and splines."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.figure.outline import (
    around,
    edge,
    faces,
    hull,
    limb_outline,
    sampled,
    sections,
    shrunk,
    smooth,
    spindle,
)
from app.domain.figure.skeleton import Station
from app.domain.figure.space import UPRIGHT, View

ROD = (Station(0.0, 0.03, 0.05, 0.02), Station(1.0, 0.03, 0.05, 0.02))
# Thousandths: no figure has finer points, and the tests stay clear of rounding.
PART = st.integers(-1000, 1000).map(lambda k: k / 1000)
POINT = st.tuples(PART, PART)


def rod(view: View) -> tuple[float, float]:
    """The half widths of an upright rod on paper."""
    parts = sections(ROD, (0.0, 0.0, 0.0), (0.0, 1.0, 0.0), UPRIGHT, size=0.3)
    found = edge(parts[0], view)
    return found.plus, found.minus


def test_a_section_shows_front_and_back_from_the_side() -> None:
    assert sorted(rod(View(0, 0))) == pytest.approx([0.03, 0.05])


def test_a_section_shows_its_sides_from_the_front() -> None:
    assert rod(View(90, 0)) == pytest.approx((0.02, 0.02))


@given(st.floats(-180, 180))
def test_a_section_is_never_wider_than_its_ellipse(yaw: float) -> None:
    assert 0.02 - 1e-9 <= max(rod(View(yaw, 0))) <= 0.05 + 1e-9


def test_a_limb_seen_end_on_is_still_drawn() -> None:
    parts = sections(ROD, (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), UPRIGHT, size=0.3)
    outline = limb_outline(parts, View(0, 0))
    assert max(x for x, _ in outline) - min(x for x, _ in outline) > 0.05


@given(st.lists(POINT, min_size=3, max_size=30))
def test_a_hull_leaves_no_point_outside(points: list[tuple[float, float]]) -> None:
    ring = hull(points)
    if len(ring) < 3:
        return
    for px, py in points:
        for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True):
            assert (bx - ax) * (py - ay) - (by - ay) * (px - ax) > -1e-9


def test_a_band_around_discs_touches_their_far_sides() -> None:
    ring = around((((0.0, 0.0), 0.1), ((1.0, 0.0), 0.2)))
    assert min(x for x, _ in ring) == pytest.approx(-0.1)
    assert max(x for x, _ in ring) == pytest.approx(1.2)


def test_a_smooth_curve_goes_through_its_points() -> None:
    ring = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
    curve = smooth(ring)
    assert set(ring) <= set(curve)
    assert len(curve) == 1 + 3 * len(ring)
    assert curve[0] == curve[-1]


def test_samples_of_a_circle_stay_near_it() -> None:
    ring = [(math.cos(k * math.pi / 6), math.sin(k * math.pi / 6)) for k in range(12)]
    assert all(math.hypot(x, y) == pytest.approx(1, abs=0.01) for x, y in sampled(smooth(ring)))


def test_a_spindle_is_widest_in_the_middle_and_pointed_at_the_ends() -> None:
    line = [(x / 4, 0.0) for x in range(5)]
    shape = spindle(line, 0.1)
    assert max(y for _, y in shape) == pytest.approx(0.1, abs=0.005)
    assert (0.0, 0.0) in shape
    assert (1.0, 0.0) in shape


def test_a_shrunk_outline_keeps_its_middle() -> None:
    small = shrunk([(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)], 0.5)
    assert small[0] == pytest.approx((0.5, 0.5))
    assert small[2] == pytest.approx((1.5, 1.5))


def test_a_front_faces_the_eye_only_from_the_front() -> None:
    assert faces(UPRIGHT, 1, 0, View(90, 0)) == pytest.approx(1)
    assert faces(UPRIGHT, 1, 0, View(-90, 0)) == pytest.approx(-1)
    assert faces(UPRIGHT, 0, 1, View(0, 0)) == pytest.approx(1)
