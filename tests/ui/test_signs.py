"""The signs read by their form alone, and leave the painter as they found it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QImage, QPainter

from app.domain.findings import Weight
from app.ui import signs
from app.ui.theme import DARK, LIGHT, Theme

SIDE = 26


def picture(draw, side: int = SIDE) -> QImage:
    image = QImage(side, side, QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    draw(painter)
    painter.end()
    return image


def weight_picture(weight: Weight, theme: Theme = LIGHT, **more: bool) -> QImage:
    rect = QRectF(0, 0, SIDE, SIDE)
    return picture(lambda p: signs.paint_weight(p, rect, weight=weight, theme=theme, **more))


def inked(image: QImage) -> frozenset[tuple[int, int]]:
    return frozenset(
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).alpha() > 127
    )


@pytest.fixture(autouse=True)
def _application(qapp):
    return qapp


def test_the_three_weights_differ_by_form_and_not_only_by_colour():
    forms = [inked(weight_picture(weight)) for weight in Weight]
    for number, one in enumerate(forms):
        for other in forms[number + 1 :]:
            assert len(one ^ other) > len(one | other) / 3


def test_above_is_the_mirror_of_below():
    below = inked(weight_picture(Weight.OUTSIDE, below=True))
    above = inked(weight_picture(Weight.OUTSIDE, below=False))
    mirrored = {(SIDE - 1 - x, y) for x, y in below}
    assert len(mirrored ^ above) <= len(above) / 20
    leftmost = min(below)
    assert abs(leftmost[1] - SIDE // 2) <= 1, "the lozenge's tip lies left of the brackets"


def test_an_accepted_sign_keeps_its_form_and_takes_the_colour_of_labels():
    for weight in Weight:
        plain, accepted = weight_picture(weight), weight_picture(weight, accepted=True)
        assert inked(plain) == inked(accepted)
        colours = {accepted.pixelColor(x, y).name() for x, y in inked(accepted)}
        assert LIGHT.ink3.name() in colours


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_a_conflict_is_drawn_in_the_themes_own_colour(theme: Theme):
    image = weight_picture(Weight.CONFLICT, theme)
    assert image.pixelColor(SIDE // 2, 4).name() == theme.conflict.name()
    assert image.pixelColor(SIDE // 2, SIDE // 2).alpha() == 0, "the cross shows the ground"


def test_signs_stay_inside_their_rectangle():
    rect = QRectF(10, 10, 13, 13)
    for weight in Weight:
        image = picture(
            lambda p, w=weight: signs.paint_weight(p, rect, weight=w, theme=LIGHT), side=40
        )
        assert all(9 <= x <= 23 and 9 <= y <= 23 for x, y in inked(image))


def test_every_painter_is_left_as_it_was_found():
    image = QImage(60, 60, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    painter.setPen(QColor("#123456"))
    before = (painter.pen(), painter.brush(), painter.transform(), painter.hasClipping())
    rect = QRectF(5, 5, 40, 20)
    ink = LIGHT.ink
    signs.paint_weight(painter, rect, weight=Weight.OUTSIDE, theme=LIGHT)
    signs.paint_pin(painter, rect, colour=ink)
    signs.paint_note(painter, rect, colour=ink)
    signs.paint_hatch(painter, rect, colour=ink)
    signs.paint_bed(painter, rect, theme=LIGHT, open_end=True)
    signs.paint_dots(painter, left=0, right=20, y=5, colour=ink)
    signs.paint_link(
        painter, x=8, top=5, bottom=50, letter="A", theme=LIGHT, font=QFont(painter.font())
    )
    signs.paint_insertion(painter, left=4, right=40, y=9, colour=ink)
    signs.paint_wedge(painter, QPointF(9, 9), colour=ink)
    signs.paint_ring(painter, rect, colour=ink)
    assert before == (painter.pen(), painter.brush(), painter.transform(), painter.hasClipping())
    painter.end()


def test_hatch_is_clipped_to_its_rectangle():
    rect = QRectF(10, 10, 12, 20)
    image = picture(lambda p: signs.paint_hatch(p, rect, colour=LIGHT.ink), side=40)
    ink = inked(image)
    assert ink
    assert all(10 <= x < 22 and 10 <= y < 30 for x, y in ink)


def test_dots_lead_up_to_the_near_edge_and_never_past_it():
    image = picture(
        lambda p: signs.paint_dots(p, left=4, right=21, y=10, colour=LIGHT.outside), side=40
    )
    columns = {x for x, _ in inked(image)}
    assert min(columns) == 4
    assert max(columns) <= 20


def test_an_open_range_has_no_far_bracket():
    rect = QRectF(4, 4, 30, 17)
    closed = picture(lambda p: signs.paint_bed(p, rect, theme=LIGHT), side=40)
    open_end = picture(lambda p: signs.paint_bed(p, rect, theme=LIGHT, open_end=True), side=40)
    assert closed.pixelColor(33, 12) != open_end.pixelColor(33, 12)
    assert closed.pixelColor(4, 12) == open_end.pixelColor(4, 12)


def test_a_sign_as_a_picture_is_as_sharp_as_the_screen():
    pixmap = signs.weight_pixmap(Weight.REMARK, LIGHT, side=13, ratio=2.0)
    assert (pixmap.width(), pixmap.deviceIndependentSize().width()) == (26, 13)
