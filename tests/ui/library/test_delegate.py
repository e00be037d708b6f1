"""What a row paints."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor

from app.ui import theme
from app.ui.library.delegate import FIGURE
from tests.ui.library import scene


def colours_in(image, left: int, width: int, tall: int) -> set[str]:
    """Colours of a strip at the top of an image."""
    return {
        QColor(image.pixel(x, y)).name()
        for x in range(left, min(left + width, image.width()))
        for y in range(min(tall, image.height()))
    }


@pytest.fixture
def pane(qtbot):
    theme.force(theme.LIGHT)
    made = scene.pane(qtbot)
    scene.type_in(made, "step-up")
    made.delegate.figures.finish()
    yield made
    theme.force(None)


def row_of(pane):
    """The first row as an image."""
    pane.list.viewport().repaint()
    pane.delegate.figures.finish()
    rect = pane.list.visualRect(pane.model.index(0))
    return pane.list.viewport().grab(rect).toImage()


def test_figure_and_name_are_painted(pane):
    image = row_of(pane)
    assert len(colours_in(image, 0, FIGURE[0], image.height())) > 5
    assert len(colours_in(image, FIGURE[0] + 8, 120, 20)) > 5


def test_a_selected_row_stands_on_the_wash(pane):
    pane.list.setCurrentIndex(pane.model.index(0))
    image = row_of(pane)
    assert theme.LIGHT.wash.name() in colours_in(image, 60, 100, image.height())


def test_a_star_is_painted_beside_the_name(pane):
    before = row_of(pane)
    pane.acts.turn_star("step_up")
    assert row_of(pane) != before


def test_compact_rows_are_no_taller(pane):
    index = pane.model.index(0)
    full = pane.list.visualRect(index).height()
    pane.set_compact(True)
    assert pane.list.visualRect(index).height() <= full
