"""Fonts and measures for all that is painted."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage, QPainter

from app.ui.grid.pens import Pens, make_pens, sharp
from app.ui.theme import DARK, LIGHT

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture(scope="module")
def pens(qapp) -> Pens:
    return make_pens(LIGHT)


def test_text_that_fits_is_left_alone_and_longer_text_is_cut(pens):
    assert pens.cut("Back squat", "medium", 500) == "Back squat"
    cut = pens.cut("Split squat, rear foot raised", "medium", 90)
    assert cut.endswith("…")
    assert pens.width(cut, "medium") <= 90


@given(st.text(max_size=80), st.floats(30, 400))
def test_wrapped_lines_are_no_wider_than_asked_and_lose_no_word_that_fits(text, width):
    pens = make_pens(LIGHT)
    lines = pens.wrapped(text, "body", width)
    assert all(pens.width(line, "body") <= width + 1 for line in lines)
    words = text.split()
    if all(pens.width(word, "body") <= width for word in words):
        assert " ".join(lines).split() == words


def test_writing_returns_where_the_text_ends(pens):
    image = QImage(200, 40, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    end = pens.write(painter, QPointF(10, 20), "70 kg", step="number", colour=LIGHT.ink)
    begin = pens.write_right(painter, QPointF(190, 20), "70 kg", step="number", colour=LIGHT.ink)
    painter.end()
    assert end - 10 == pytest.approx(190 - begin)


def test_the_theme_can_be_named_or_follows_the_platform(qapp):
    assert make_pens(DARK).theme is DARK
    assert make_pens().theme in (LIGHT, DARK)


def test_heights_come_from_the_fonts_in_use(pens):
    heights = pens.heights()
    assert heights.small < heights.body <= heights.number < heights.head + 1


def test_an_outline_falls_on_whole_pixels():
    rect = QRectF(3, 4, 10, 12)
    assert sharp(rect) == QRectF(3.5, 4.5, 9, 11)
    assert rect == QRectF(3, 4, 10, 12)


def test_a_word_that_is_too_long_breaks_in_itself_and_loses_no_letter(pens):
    lines = pens.wrapped("on Wednesdayishness", "body", pens.width("Wednesday", "body"))
    assert len(lines) > 2
    assert "".join(lines) == "onWednesdayishness"
