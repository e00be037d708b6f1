"""The heat strip painted: an ordered ramp, numbers that can be read, states by form."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.domain.exercise import Muscle
from app.ui.bench import Bench
from app.ui.heat_paint import (
    HeatFrame,
    heat_height,
    ink_on,
    paint_heat,
    paint_heat_changes,
    ramp,
)
from app.ui.heat_rows import STEPS, HeatRow, heat_rows, step_of
from app.ui.season_paint import Frame
from app.ui.theme import DARK, LIGHT, Theme
from tests.ui.desks import PROGRAM
from tests.ui.test_theme import contrast, luminance

WIDE = 1000
NAMES = {muscle: muscle.value.capitalize() for muscle in Muscle}


def frame_of(rows: tuple[HeatRow, ...], *, compact: bool = False, wide: int = WIDE) -> HeatFrame:
    rect = QRectF(0, 0, wide, heat_height(len(rows), compact=compact))
    names = tuple(row.name for row in rows)
    return HeatFrame(rect, 6, program=PROGRAM, compact=compact, names=names)


def painted(bench: Bench, theme: Theme, *, would=None, light: bool = False) -> QImage:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    frame = frame_of(rows)
    image = QImage(WIDE, heat_height(len(rows), compact=False), QImage.Format.Format_RGB32)
    image.fill(theme.sheet)
    painter = QPainter(image)
    paint_heat(painter, frame, rows, light=[light] * 6, theme=theme)
    paint_heat_changes(painter, frame, rows, would or {}, theme=theme)
    painter.end()
    return image


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_the_ramp_runs_in_one_direction_from_the_sheet_to_the_bar(theme: Theme) -> None:
    steps = ramp(theme)
    assert len(steps) == STEPS
    lights = [luminance(theme.sheet), *map(luminance, steps)]
    for one, next_one in pairwise(lights):
        assert (one < next_one) is theme.dark
        assert one != next_one
    assert steps[-1] == theme.bar


@pytest.mark.parametrize("theme", [LIGHT, DARK])
@pytest.mark.parametrize("step", range(STEPS))
def test_a_number_can_be_read_on_every_step(theme: Theme, step: int) -> None:
    assert contrast(ink_on(step, theme), ramp(theme)[step]) >= 4.5


@pytest.mark.parametrize("compact", [False, True])
def test_rows_and_columns_are_found_again_by_a_point(qapp, bench: Bench, compact: bool) -> None:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    frame = frame_of(rows, compact=compact)
    for row in range(len(rows)):
        for week in range(6):
            middle = frame.cell(row, week).center()
            assert frame.row_at(middle) == row
            assert frame.column_at(middle) == week
    assert frame.row_at(QPointF(500, frame.numbers.center().y())) is None
    assert frame.row_at(QPointF(500, 0)) is None
    assert frame.numbers.bottom() <= heat_height(len(rows), compact=compact)


def test_columns_end_where_those_of_the_score_end(qapp: QApplication, bench: Bench) -> None:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    score = Frame(QRectF(0, 0, WIDE, 150), 6, program=PROGRAM, compact=False)
    assert frame_of(rows).column(5).right() == pytest.approx(score.column(5).right())


@pytest.mark.parametrize("theme", [LIGHT, DARK])
def test_a_cell_has_the_colour_of_its_step(qapp, bench: Bench, theme: Theme) -> None:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    frame, image = frame_of(rows), painted(bench, theme)
    for at, row in enumerate(rows):
        cell = row.cells[0]
        rect = frame.cell(at, 0)
        spot = image.pixelColor(round(rect.right()) - 4, round(rect.center().y()))
        if cell is not None and cell.sets:
            assert spot == ramp(theme)[step_of(cell.sets)]


def test_below_and_above_are_dots_at_other_heights(qapp: QApplication, bench: Bench) -> None:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    frame, image = frame_of(rows), painted(bench, LIGHT)
    seen = set()
    for at, row in enumerate(rows):
        cell, rect = row.cells[0], frame.cell(at, 0)
        if cell is None or not (cell.below or cell.above):
            continue
        seen.add(cell.below)
        y = rect.bottom() - 3.5 if cell.below else rect.top() + 3.5
        found = image.pixelColor(round(rect.left() + 4.5), round(y))
        assert contrast(found, LIGHT.outside) < 1.6, row.name
    assert seen, "the plan of the tests leaves a range"


def test_a_light_week_shows_no_state_and_another_form(qapp: QApplication, bench: Bench) -> None:
    assert painted(bench, LIGHT, light=True) != painted(bench, LIGHT)


def test_a_tried_change_is_framed_in_the_accent(qapp: QApplication, bench: Bench) -> None:
    rows = heat_rows(bench.desk, bench.desk.program, NAMES)
    sets = {row.about: 1.0 for row in rows}
    image = painted(bench, LIGHT, would={0: sets})
    assert image != painted(bench, LIGHT)
    rect = frame_of(rows).cell(0, 0)
    assert image.pixelColor(round(rect.right()) - 4, round(rect.center().y())) == LIGHT.wash
