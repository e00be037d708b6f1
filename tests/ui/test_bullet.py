"""The small picture of a value beside its range: where the bed and the mark stand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.domain.findings import Finding, Place, Weight
from app.domain.ranges import Range
from app.ui.bullet import TALL, WIDE, bullet_of, paint_bullet, place
from app.ui.theme import DARK, LIGHT, Theme

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
    drawn = place(value, band, wide=WIDE)
    if value < band.low:
        assert drawn.mark < drawn.bed_left
    elif value > band.high:
        assert drawn.mark > drawn.bed_right
    assert 0 <= drawn.mark <= WIDE


@given(value=amounts, low=edges)
def test_a_range_without_an_upper_end_has_an_open_bed(value: float, low: float) -> None:
    drawn = place(value, replace(TWELVE_TO_TWENTY, low=low, high=None), wide=WIDE)
    assert drawn.open_end
    assert drawn.bed_right == WIDE
    assert (drawn.mark < drawn.bed_left) or value >= low


@given(value=amounts, high=edges)
def test_a_range_without_a_lower_end_begins_at_nought(value: float, high: float) -> None:
    drawn = place(value, replace(TWELVE_TO_TWENTY, low=None, high=high), wide=WIDE)
    assert drawn.bed_left == 0
    assert (drawn.mark > drawn.bed_right) or value <= high


def test_a_near_miss_can_be_seen() -> None:
    drawn = place(11.9, TWELVE_TO_TWENTY, wide=WIDE)
    assert drawn.bed_left - drawn.mark >= 4


def test_more_lies_further_right() -> None:
    marks = [place(v, TWELVE_TO_TWENTY, wide=WIDE).mark for v in (2, 8, 13, 16, 19)]
    assert marks == sorted(marks)


@pytest.mark.parametrize(
    "without",
    [
        {"measured": None},
        {"range": None},
        {"range": replace(TWELVE_TO_TWENTY, low=None, high=None)},
    ],
)
def test_without_a_measure_or_a_range_there_is_no_picture(without) -> None:
    assert bullet_of(FINDING) is not None
    assert bullet_of(replace(FINDING, **without)) is None


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_the_mark_is_painted_in_its_colour_left_of_the_bed(
    qapp: QApplication, theme: Theme
) -> None:
    image = QImage(round(WIDE), round(TALL), QImage.Format.Format_ARGB32)
    image.fill(theme.sheet)
    drawn = place(10, TWELVE_TO_TWENTY, wide=WIDE)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_bullet(painter, QRectF(0, 0, WIDE, TALL), drawn, colour=theme.outside, theme=theme)
    assert painter.brush().style() is Qt.BrushStyle.NoBrush
    painter.end()
    middle = round(TALL / 2)
    assert QColor(image.pixel(round(drawn.mark), middle)) == theme.outside
    bed = round((drawn.bed_left + drawn.bed_right) / 2)
    assert QColor(image.pixel(bed, middle)) == theme.band
