"""Painting findings: the measure where there is room, the tooltip, the colours of the weights."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QStyleOptionViewItem
from pytestqt.qtbot import QtBot

from app.domain.bullet import bullet_of
from app.domain.findings import Weight
from app.ui.bench import Bench
from app.ui.bullet import SCALE
from app.ui.finding_delegate import ROW, FindingDelegate, weight_colour
from app.ui.finding_rows import Row, measured_text
from app.ui.findings_pane import FindingsPane
from app.ui.theme import DARK, LIGHT
from tests.ui.test_theme import contrast


@pytest.fixture
def pane(qtbot: QtBot, dressed, bench: Bench) -> FindingsPane:
    made = FindingsPane(bench)
    qtbot.addWidget(made)
    return made


def measured_row(pane: FindingsPane) -> int:
    return next(
        k
        for k in range(pane.list.count())
        if bullet_of(pane.list.item(k).data(ROW).finding, SCALE) is not None
    )


def painted(pane: FindingsPane, at: int, wide: int) -> QImage:
    """One row of that width."""
    delegate = pane.list.itemDelegate()
    option = QStyleOptionViewItem()
    option.rect = QRect(0, 0, wide, 40)
    image = QImage(wide, 40, QImage.Format.Format_ARGB32)
    image.fill(LIGHT.sheet)
    painter = QPainter(image)
    delegate.paint(painter, option, pane.list.model().index(at, 0))
    painter.end()
    return image


def has_bed(image: QImage) -> bool:
    """True if the ground of a range is painted: letters have no five such pixels in a row."""
    for y in range(image.height()):
        run = 0
        for x in range(image.width()):
            run = run + 1 if image.pixelColor(x, y) == LIGHT.band else 0
            if run == 5:
                return True
    return False


def test_a_wide_row_shows_the_measure_and_a_narrow_one_keeps_its_sentence(pane) -> None:
    at = measured_row(pane)
    assert has_bed(painted(pane, at, 900))
    assert not has_bed(painted(pane, at, 210))


def test_a_finding_without_a_measure_has_no_picture(pane: FindingsPane) -> None:
    at = measured_row(pane)
    item = pane.list.item(at)
    finding = item.data(ROW).finding
    for without in (replace(finding, measured=None), replace(finding, range=None)):
        item.setData(ROW, Row(without))
        assert not has_bed(painted(pane, at, 900))


def test_the_tip_says_measure_reason_source_and_keys(pane: FindingsPane) -> None:
    finding = pane.list.item(measured_row(pane)).data(ROW).finding
    delegate = pane.list.itemDelegate()
    assert isinstance(delegate, FindingDelegate)
    told = delegate.told(Row(finding))
    measured = measured_text(finding)
    assert told[:4] == (finding.text, finding.place_text, measured, finding.reason)
    assert "M mends" in told[-1]
    assert delegate.told(Row(finding, "would go"))[-1] == ""
    accepted = delegate.told(Row(finding, "", "asked for it"))
    assert "Accepted: asked for it" in accepted
    assert "A takes it back" in accepted[-1]


@pytest.mark.parametrize("theme", [LIGHT, DARK])
@pytest.mark.parametrize("weight", list(Weight))
def test_the_words_of_the_weights_can_be_read(theme, weight: Weight) -> None:
    assert contrast(weight_colour(weight, theme), theme.sheet) >= 4.5
