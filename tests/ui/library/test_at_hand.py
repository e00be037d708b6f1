"""What is kept at hand."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.domain.exercise import ExerciseKey
from app.ui.library.at_hand import SETTING, keep_at_hand, kept_at_hand, paint_star, star_icon
from db.store import Store


def test_what_is_kept_comes_back(qapp):
    store = Store.in_memory()
    assert kept_at_hand(store) == frozenset()
    keys = frozenset({ExerciseKey("step_up"), ExerciseKey("back_squat")})
    keep_at_hand(store, keys)
    assert kept_at_hand(store) == keys


@pytest.mark.parametrize("text", ["{", "7", '{"a": 1}', "[1, null]"])
def test_a_setting_that_makes_no_sense_keeps_nothing(text):
    store = Store.in_memory()
    store.set_setting(SETTING, text)
    assert kept_at_hand(store) == frozenset()


def test_an_outline_and_a_filled_star_differ(qapp):
    def inked(filled: bool) -> int:
        image = QImage(32, 32, QImage.Format.Format_ARGB32)
        image.fill(Qt.GlobalColor.transparent)
        painter = QPainter(image)
        paint_star(painter, QRectF(0, 0, 32, 32), colour=QColor("black"), filled=filled)
        painter.end()
        every = ((x, y) for x in range(32) for y in range(32))
        return sum(image.pixelColor(x, y).alpha() > 128 for x, y in every)

    assert 0 < inked(False) < inked(True) < 32 * 32
    assert not star_icon().isNull()
