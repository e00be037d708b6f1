"""Where things stand in the season, and that what is painted can be told apart."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.ui import theme
from app.ui.bench import Bench
from app.ui.season_columns import columns
from app.ui.season_paint import (
    TOP_SETS,
    Frame,
    Over,
    paint_columns,
    paint_frame,
    paint_over,
    season_height,
)
from tests.ui.desks import PROGRAM

WIDTH = 1000


def frame(*, compact: bool = False, count: int = 6) -> Frame:
    rect = QRectF(0, 0, WIDTH, season_height(compact=compact))
    return Frame(rect, count, program=PROGRAM, compact=compact)


def painted(bench: Bench, *, over: Over | None = None, colours=theme.LIGHT) -> QImage:
    made = QImage(WIDTH, season_height(compact=False), QImage.Format.Format_RGB32)
    made.fill(colours.sheet)
    painter = QPainter(made)
    shown = columns(bench.desk, bench.desk.program, bench.desk.findings)
    names = {m: n.trade for m, n in bench.shelf.muscles.items()}
    paint_frame(painter, frame(), names, theme=colours, empty=False)
    paint_columns(painter, frame(), shown.values(), theme=colours)
    if over is not None:
        paint_over(painter, frame(), shown, would={}, over=over, theme=colours)
    painter.end()
    return made


def test_a_compact_season_takes_less_height(qapp: QApplication) -> None:
    assert season_height(compact=True) < season_height(compact=False)


@pytest.mark.parametrize("compact", [False, True])
def test_columns_are_of_one_width_and_a_point_in_one_finds_it(qapp, compact: bool) -> None:
    where = frame(compact=compact)
    for index in range(6):
        rect = where.column(index)
        assert rect.width() == pytest.approx(where.width)
        assert where.column_at(rect.center()) == index
        assert rect.bottom() <= season_height(compact=compact)


def test_outside_the_columns_there_is_none(qapp: QApplication) -> None:
    where = frame()
    middle = where.column(0).center().y()
    assert where.column_at(QPointF(where.left - 1, middle)) is None
    assert where.column_at(QPointF(where.right, middle)) is None
    assert frame(count=0).column_at(where.column(0).center()) is None


def test_more_sets_stand_higher_up_to_the_top_of_the_stave(qapp: QApplication) -> None:
    where = frame()
    heights = [where.y(sets) for sets in (0, 5, 12, TOP_SETS)]
    assert heights == sorted(heights, reverse=True)
    assert where.y(0) == pytest.approx(where.stave.bottom())
    assert where.y(TOP_SETS + 9) == where.y(TOP_SETS) == pytest.approx(where.stave.top())


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_bars_are_drawn_in_the_ink_of_bars(bench: Bench, colours: theme.Theme) -> None:
    image = painted(bench, colours=colours)
    inks = {
        QColor(image.pixel(x, y)).name() for x in range(0, WIDTH, 2) for y in range(image.height())
    }
    assert colours.bar.name() in inks


def test_a_light_week_looks_unlike_an_ordinary_one(bench: Bench) -> None:
    image = painted(bench)
    where = frame()
    assert image.copy(where.column(2).toRect()) != image.copy(where.column(3).toRect())


def test_the_open_week_is_framed_and_only_it(bench: Bench) -> None:
    plain = painted(bench)
    marked = painted(bench, over=Over(1, range(0), range(1, 2), False))
    where = frame()
    assert plain.copy(where.column(1).toRect()) != marked.copy(where.column(1).toRect())
    assert plain.copy(where.column(4).toRect()) == marked.copy(where.column(4).toRect())


def test_a_chosen_run_is_marked(bench: Bench) -> None:
    alone = painted(bench, over=Over(0, range(0), range(1), False))
    chosen = painted(bench, over=Over(0, range(3, 5), range(1), False))
    where = frame()
    assert alone.copy(where.column(3).toRect()) != chosen.copy(where.column(3).toRect())
