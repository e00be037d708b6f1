"""Feet while something is carried."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QImage, QPainter

from app.domain.exercise import ExerciseKey
from app.ui.carry import Carried, Via
from app.ui.grid import WeekGrid, feet
from app.ui.grid.geometry import Target
from app.ui.grid.pens import make_pens
from app.ui.grid.verdict import Verdict, Word
from app.ui.theme import LIGHT
from tests.ui.grid import scene


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


def blank(grid: WeekGrid) -> QImage:
    image = QImage(grid.size(), QImage.Format.Format_ARGB32)
    image.fill(0)
    return image


def inked(image: QImage) -> set[tuple[int, int]]:
    return {
        (x, y)
        for x in range(image.width())
        for y in range(image.height())
        if image.pixelColor(x, y).alpha()
    }


@pytest.mark.parametrize("day", [3, 4], ids=["full day", "narrow day"])
@pytest.mark.parametrize("exercise", ["leg_extension", "back_squat"])
def test_an_open_foot_is_at_least_104_high_and_stays_in_its_column(grid, day, exercise):
    hand = grid.carrier.pick_up(Carried(exercise=ExerciseKey(exercise)), Via.MOUSE)
    box = grid.layout_now.days[day]
    grid.carrier.aim_at(Target(day, box.sessions[0].id if box.sessions else None))
    image = blank(grid)
    painter = QPainter(image)
    feet.paint_open_foot(painter, box, hand, measures=grid.layout_now.sizes, pens=make_pens(LIGHT))
    painter.end()
    ink = inked(image)
    assert min(y for _, y in ink) <= grid.height() - 104
    assert min(x for x, _ in ink) >= box.column.left()
    assert max(x for x, _ in ink) < box.column.right()
    grid.carrier.put_back()


def test_a_refusal_stands_where_totals_stand_with_the_crossed_square(grid):
    strange = Carried(slots=(scene.slot_id(grid.bench, 0, 0),), source="other")
    hand = grid.carrier.pick_up(strange, Via.MOUSE)
    box = grid.layout_now.days[3]
    grid.carrier.aim_at(Target(3, box.sessions[0].id))
    image = blank(grid)
    painter = QPainter(image)
    feet.paint_open_foot(painter, box, hand, measures=grid.layout_now.sizes, pens=make_pens(LIGHT))
    painter.end()
    colours = {image.pixelColor(x, y).name() for x, y in inked(image)}
    assert LIGHT.conflict.name() in colours
    grid.carrier.put_back()


def test_without_an_aim_no_foot_opens(grid):
    hand = grid.carrier.pick_up(Carried(exercise=ExerciseKey("curl")), Via.MOUSE)
    image = blank(grid)
    painter = QPainter(image)
    box = grid.layout_now.days[3]
    feet.paint_open_foot(painter, box, hand, measures=grid.layout_now.sizes, pens=make_pens(LIGHT))
    painter.end()
    assert inked(image) == set()
    grid.carrier.put_back()


def test_only_the_day_that_fits_better_has_the_accent_edge(grid):
    box = grid.layout_now.days[0]
    edges = {}
    for word in Word:
        image = blank(grid)
        painter = QPainter(image)
        verdict = Verdict(0, word, ("Quadriceps 10 → 13 of 12–20", "Minutes 52 → 59 of 60"))
        feet.paint_verdict(painter, box, verdict, make_pens(LIGHT))
        painter.end()
        edges[word] = image.pixelColor(1, grid.height() - 5).name()
    accented = [word for word, colour in edges.items() if colour == LIGHT.accent.name()]
    assert accented == [Word.FITS_BETTER]
