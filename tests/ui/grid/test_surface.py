"""The picture of the week: what makes it fresh, how it scrolls, where the keyboard stands."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from app.ui import theme
from app.ui.grid import WeekGrid
from app.ui.grid.paint import STRIP
from tests.ui.grid import scene


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


@pytest.fixture
def long(qtbot) -> WeekGrid:
    return scene.grid(qtbot, scene.bench("Mon: " + ", ".join(["curl 3x12"] * 14)), height=360)


def wheel(grid: WeekGrid, at: QPointF, by: int) -> bool:
    none, left = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.NoButton
    phase = Qt.ScrollPhase.NoScrollPhase
    there = QPointF(grid.mapToGlobal(at.toPoint()))
    event = QWheelEvent(at, there, QPoint(), QPoint(0, by), left, none, phase, False)
    QApplication.sendEvent(grid, event)
    return event.isAccepted()


def test_the_picture_is_kept_while_nothing_changes(grid):
    grid.grab()
    kept = grid._picture
    grid.update()
    grid.grab()
    assert grid._picture is kept
    grid.bench.select((scene.slot_id(grid.bench, 0, 0),))
    grid.grab()
    assert grid._picture is not kept


def test_aiming_repaints_the_overlay_alone(grid):
    from app.domain.exercise import ExerciseKey
    from app.ui.carry import Carried, Via

    grid.carrier.pick_up(Carried(exercise=ExerciseKey("curl")), Via.MOUSE)
    before = grid.grab().toImage()
    kept = grid._picture
    grid.carrier.point_at(scene.ground(grid, 3))
    after = grid.grab().toImage()
    assert grid._picture is kept
    assert before != after
    grid.carrier.put_back()


def test_the_wheel_scrolls_the_day_under_it_and_no_other(long):
    assert wheel(long, QPointF(80, 150), -120)
    assert long.scrolls[0] == 60
    assert not wheel(long, scene.ground(long, 3), -120)


def test_scrolling_stops_at_both_ends(long):
    wheel(long, QPointF(80, 150), 1200)
    assert long.scrolls[0] == 0
    wheel(long, QPointF(80, 150), -120_000)
    assert long.scrolls[0] == long.layout_now.days[0].longest_scroll


def test_going_to_a_card_scrolls_it_into_view(long):
    long.go_to(scene.slot_id(long.bench, 0, 13))
    shown = scene.card(long, 0, 13)
    assert long.layout_now.days[0].body.contains(shown)


def test_another_week_is_shown_from_its_top(long):
    bench = scene.bench(*["Mon: " + ", ".join(["curl"] * 14)] * 2)
    long.bench.desk.work = bench.desk.work
    long.refresh()
    long.scroll_day(0, 100)
    long.bench.show_week(1)
    assert long.scrolls[0] == 0


def test_a_card_that_is_gone_is_no_longer_stood_on(grid):
    grid.go_to(scene.slot_id(grid.bench, 0, 0))
    grid.acts.remove()
    assert grid.cursor_slot is None
    assert grid.cursor_day == 0


def test_days_without_a_session_can_be_hidden_and_shown(grid):
    wide = grid.layout_now.days[1].column.width()
    grid.hide_rest_days(True)
    assert grid.layout_now.days[1].column.width() < wide / 2
    grid.hide_rest_days(False)
    assert grid.layout_now.days[1].column.width() == wide


def test_the_grid_follows_the_theme(grid):
    light = grid.grab().toImage().pixelColor(5, 200)
    theme.force(theme.DARK)
    try:
        QApplication.setPalette(theme.palette(theme.DARK))
        dark = grid.grab().toImage().pixelColor(5, 200)
    finally:
        theme.force(None)
        QApplication.setPalette(theme.palette(theme.LIGHT))
    assert light == theme.LIGHT.sheet
    assert dark == theme.DARK.sheet


def test_an_empty_week_says_what_to_do(qtbot):
    empty = scene.grid(qtbot, scene.bench("", ""))
    blank = empty.grab().toImage()
    middle = [blank.pixelColor(x, 250) for x in range(empty.width())]
    assert len({colour.name() for colour in middle}) > 3, "there is writing in the middle"


def test_the_focus_ring_shows_while_the_grid_has_the_focus(grid):
    grid.go_to(scene.slot_id(grid.bench, 0, 0))
    grid.setFocus()
    ring = scene.card(grid, 0, 0).adjusted(-2, -2, 2, 2)
    at = QPoint(round(ring.center().x()), round(ring.top()))
    assert grid.grab().toImage().pixelColor(at) == theme.current().accent
    grid.clearFocus()
    assert grid.grab().toImage().pixelColor(at) != theme.current().accent


def test_a_day_pointed_out_shows_though_another_pane_has_the_focus(grid):
    grid.clearFocus()
    plain = grid.grab().toImage()
    grid.point_out(3)
    assert grid.cursor_day == 3
    assert grid.grab().toImage() != plain
    grid.go_to(scene.slot_id(grid.bench, 0, 0))
    assert grid.grab().toImage() == plain


def test_a_day_folded_to_a_strip_has_its_name_and_date_whole(grid):
    grid.hide_rest_days(True)
    image = grid.grab().toImage()
    strips = [box for box in grid.layout_now.days if box.head.width() < STRIP]
    assert strips
    ground = theme.current().rest.name()
    for box in strips:
        right, top = int(box.head.right()) - 3, int(box.head.top()) + 6
        edge = {image.pixelColor(right, y).name() for y in range(top, int(box.head.bottom()) - 4)}
        assert edge == {ground}, "no letter runs into the edge"
