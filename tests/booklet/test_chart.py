"""Axes and marks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet.chart import Axis, ticks


@given(st.integers(1, 52), st.floats(50, 200))
def test_weeks_fill_the_axis_side_by_side(weeks, width):
    axis = Axis(10.0, width, weeks)
    assert axis.start(0) == 10.0
    assert axis.start(weeks) == pytest.approx(10.0 + width)
    assert axis.middle(0) == pytest.approx(10.0 + axis.pitch / 2)


@given(st.floats(1, 480))
def test_marks_begin_at_zero_are_few_and_do_not_pass_the_most(most):
    marks = ticks(most)
    assert marks[0] == 0
    assert len(marks) <= 6
    assert marks[-1] <= most
