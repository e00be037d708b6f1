"""The small picture of a value beside its range: where the bed and the mark stand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.bullet import Scale, bullet_of, place
from app.domain.findings import Finding, Place, Weight
from app.domain.ranges import Range

SCALE = Scale(long=56, half_mark=3.6, gap=4.5)
TWELVE_TO_TWENTY = Range("weekly_sets", 12, 20, "sets/week", "common practice")
FINDING = Finding(
    "weekly_sets",
    Weight.OUTSIDE,
    Place(),
    "quadriceps",
    "Quadriceps 10 sets, 2 short of 12–20",
    measured=10.0,
    range=TWELVE_TO_TWENTY,
)

amounts = st.floats(0, 500)
edges = st.floats(0.5, 200)


@given(value=amounts, low=edges, more=st.floats(0, 100))
def test_the_mark_stands_beside_or_in_the_bed_as_the_value_does(value, low, more) -> None:
    band = replace(TWELVE_TO_TWENTY, low=low, high=low + more)
    drawn = place(value, band, SCALE)
    if value < band.low:
        assert drawn.mark < drawn.bed_left
    elif value > band.high:
        assert drawn.mark > drawn.bed_right
    assert 0 <= drawn.mark <= SCALE.long


@given(value=amounts, low=edges)
def test_a_range_without_an_upper_end_has_an_open_bed(value: float, low: float) -> None:
    drawn = place(value, replace(TWELVE_TO_TWENTY, low=low, high=None), SCALE)
    assert drawn.open_end
    assert drawn.bed_right == SCALE.long
    assert (drawn.mark < drawn.bed_left) or value >= low


@given(value=amounts, high=edges)
def test_a_range_without_a_lower_end_begins_at_nought(value: float, high: float) -> None:
    drawn = place(value, replace(TWELVE_TO_TWENTY, low=None, high=high), SCALE)
    assert drawn.bed_left == 0
    assert (drawn.mark > drawn.bed_right) or value <= high


def test_a_near_miss_can_be_seen() -> None:
    drawn = place(11.9, TWELVE_TO_TWENTY, SCALE)
    assert drawn.bed_left - drawn.mark >= 4


def test_more_lies_further_right() -> None:
    marks = [place(v, TWELVE_TO_TWENTY, SCALE).mark for v in (2, 8, 13, 16, 19)]
    assert marks == sorted(marks)


@pytest.mark.parametrize(
    "without",
    [
        {"measured": None},
        {"range": None},
        {"range": replace(TWELVE_TO_TWENTY, low=None, high=None)},
        {"range": replace(TWELVE_TO_TWENTY, low=None, high=0)},
    ],
)
def test_without_a_measure_or_a_range_there_is_no_picture(without) -> None:
    assert bullet_of(FINDING, SCALE) is not None
    assert bullet_of(replace(FINDING, **without), SCALE) is None
