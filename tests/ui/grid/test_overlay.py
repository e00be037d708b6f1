"""What moves over the week at rest."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QImage, QPainter

from app.domain.exercise import ExerciseKey
from app.ui.carry import Carried, Via
from app.ui.grid import WeekGrid, overlay
from app.ui.grid.geometry import Target, mark_of
from app.ui.grid.pens import make_pens
from app.ui.theme import LIGHT
from tests.ui.grid import scene


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


def painted(grid: WeekGrid) -> QImage:
    image = QImage(grid.size(), QImage.Format.Format_ARGB32)
    image.fill(0)
    painter = QPainter(image)
    overlay.paint_hand(
        painter, grid.carrier.hand, grid.layout_now, scroll=grid.scrolls, pens=make_pens(LIGHT)
    )
    painter.end()
    return image


def carry(grid: WeekGrid, target: Target) -> QImage:
    grid.carrier.pick_up(Carried(exercise=ExerciseKey("curl")), Via.MOUSE)
    grid.carrier.aim_at(target)
    return painted(grid)


def test_the_day_aimed_at_is_framed_and_the_mark_lies_between_its_cards(grid):
    box = grid.layout_now.days[3]
    target = Target(3, box.sessions[0].id, 1)
    image = carry(grid, target)
    left, right, y = mark_of(box, target)
    middle = round((left + right) / 2)
    assert image.pixelColor(middle, round(y + box.body.top())) == LIGHT.accent
    assert image.pixelColor(round(box.column.left()) + 1, 60) == LIGHT.accent
    assert image.pixelColor(round(box.column.left()) - 5, 60).alpha() == 0


def test_a_card_to_be_replaced_has_a_ring_and_no_mark(grid):
    box = grid.layout_now.days[3]
    image = carry(grid, Target(3, box.sessions[0].id, onto=box.cards[1].slot_id))
    ring = scene.card(grid, 3, 1).adjusted(-2, -2, 2, 2)
    assert image.pixelColor(round(ring.center().x()), round(ring.top())) == LIGHT.accent
    gap = round(scene.card(grid, 3, 0).bottom()) + 1
    assert image.pixelColor(round(ring.left()) - 8, gap).alpha() == 0


def test_other_days_say_their_verdicts_and_the_aimed_one_its_own_foot(grid):
    box = grid.layout_now.days[3]
    grid.carrier.pick_up(Carried(exercise=ExerciseKey("curl")), Via.MOUSE)
    grid.carrier.judge()
    grid.carrier.aim_at(Target(3, box.sessions[0].id))
    image = painted(grid)
    for day in grid.layout_now.days:
        at = day.foot.center().toPoint()
        assert image.pixelColor(at.x(), grid.height() - 4).alpha() > 0
    assert image.pixelColor(round(box.foot.left()) + 6, grid.height() - 6) == LIGHT.wash


def test_a_refused_aim_shows_no_place(grid):
    box = grid.layout_now.days[3]
    strange = Carried(slots=(scene.slot_id(grid.bench, 0, 0),), source="other")
    grid.carrier.pick_up(strange, Via.MOUSE)
    target = Target(3, box.sessions[0].id, 1)
    grid.carrier.aim_at(target)
    left, right, y = mark_of(box, target)
    at = painted(grid).pixelColor(round((left + right) / 2), round(y + box.body.top()))
    assert at.alpha() == 0


def test_an_empty_day_says_what_is_missing_what_to_do_and_what_time_there_is(grid):
    assert overlay.empty_day_sentence(grid.face, 4) == (
        "Nothing on Friday yet. Drag an exercise here, or press Insert and choose one. "
        "There are 45 minutes."
    )
    assert overlay.empty_day_sentence(grid.face, 1).endswith("choose one.")
