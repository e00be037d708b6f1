"""Vectors, frames and views."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.figure.space import (
    UPRIGHT,
    View,
    cross,
    dot,
    frame_along,
    length,
    middle,
    rotate,
    unit,
)

DEGREES = st.floats(-180, 180)


@given(first=DEGREES, second=DEGREES, third=DEGREES)
def test_a_turned_frame_keeps_its_right_angles(first: float, second: float, third: float) -> None:
    frame = UPRIGHT.turned(UPRIGHT.front, first).turned(UPRIGHT.up, second)
    frame = frame.turned(frame.right, third)
    assert dot(frame.front, frame.up) == pytest.approx(0, abs=1e-9)
    assert cross(frame.front, frame.up) == pytest.approx(frame.right, abs=1e-9)


def test_turning_follows_the_right_hand() -> None:
    assert rotate((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 90) == pytest.approx((0, 1, 0))


def test_a_frame_along_a_line_faces_as_nearly_as_it_can() -> None:
    frame = frame_along((0.0, 1.0, 0.0), (3.0, 4.0, 0.0))
    assert frame.front == pytest.approx((1, 0, 0))
    assert frame.right == pytest.approx((0, 0, 1))


def test_from_the_right_side_forward_is_right_on_paper() -> None:
    view = View(0, 0)
    assert view.on_paper((1.0, 2.0, 5.0)) == pytest.approx((1, 2))
    assert view.toward() == pytest.approx((0, 0, 1))


def test_from_the_front_the_right_hand_is_left_on_paper() -> None:
    assert View(90, 0).on_paper((5.0, 0.0, 1.0)) == pytest.approx((-1, 0))


def test_from_behind_the_right_hand_is_right_on_paper() -> None:
    assert View(-90, 0).on_paper((5.0, 0.0, 1.0)) == pytest.approx((1, 0))


@given(yaw=DEGREES, pitch=st.floats(-80, 80))
def test_the_paper_lies_square_to_the_line_of_sight(yaw: float, pitch: float) -> None:
    view = View(yaw, pitch)
    right, up = view.axes()
    assert dot(right, up) == pytest.approx(0, abs=1e-9)
    assert dot(right, view.toward()) == pytest.approx(0, abs=1e-9)
    assert dot(up, view.toward()) == pytest.approx(0, abs=1e-9)


def test_a_unit_vector_has_length_one_and_zero_stays_zero() -> None:
    assert length(unit((3.0, 4.0, 12.0))) == pytest.approx(1)
    assert unit((0.0, 0.0, 0.0)) == (0.0, 0.0, 0.0)


def test_the_middle_lies_half_way() -> None:
    assert middle((0.0, 0.0, 2.0), (2.0, 4.0, 4.0)) == (1.0, 2.0, 3.0)
