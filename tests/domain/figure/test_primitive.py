"""Boxes around drawings."""

from __future__ import annotations

import pytest

from app.domain.figure.primitive import Bounds, Circle, Path, bounds


def test_the_box_holds_circles_and_paths() -> None:
    drawing = (Circle((0.0, 0.0), 0.5), Path(((1.0, 2.0), (-1.0, 0.0))))
    box = bounds(drawing)
    assert box == Bounds(-1.0, -0.5, 1.0, 2.0)
    assert (box.width, box.height) == (2.0, 2.5)


def test_joined_boxes_hold_both() -> None:
    assert Bounds(0, 0, 1, 1).joined(Bounds(2, -1, 3, 0)) == Bounds(0, -1, 3, 1)


def test_an_empty_drawing_has_no_box() -> None:
    with pytest.raises(ValueError, match="min"):
        bounds(())
