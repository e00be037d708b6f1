"""The small picture of a value beside its range, painted."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.domain.bullet import place
from app.domain.ranges import Range
from app.ui.bullet import SCALE, TALL, WIDE, paint_bullet
from app.ui.theme import DARK, LIGHT, Theme


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_the_mark_is_painted_in_its_colour_left_of_the_bed(
    qapp: QApplication, theme: Theme
) -> None:
    image = QImage(round(WIDE), round(TALL), QImage.Format.Format_ARGB32)
    image.fill(theme.sheet)
    drawn = place(10, Range("weekly_sets", 12, 20, "sets/week", "common practice"), SCALE)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    paint_bullet(painter, QRectF(0, 0, WIDE, TALL), drawn, colour=theme.outside, theme=theme)
    assert painter.brush().style() is Qt.BrushStyle.NoBrush
    painter.end()
    middle = round(TALL / 2)
    assert QColor(image.pixel(round(drawn.mark), middle)) == theme.outside
    bed = round((drawn.bed_left + drawn.bed_right) / 2)
    assert QColor(image.pixel(bed, middle)) == theme.band
