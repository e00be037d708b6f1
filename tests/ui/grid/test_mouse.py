"""Clicks on the grid: what they select, and when a press becomes a drag."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtWidgets import QApplication

from app.ui.grid import WeekGrid
from app.ui.grid import drag as dragging
from app.ui.grid.mouse import Press
from tests.ui.grid import scene

LEFT = Qt.MouseButton.LeftButton
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


def at(grid: WeekGrid, day: int, number: int) -> QPoint:
    return scene.card(grid, day, number).center().toPoint()


def chosen(grid: WeekGrid) -> list[tuple[int, int]]:
    """Selected cards as day and number."""
    return [
        (day.number, number)
        for day in grid.face.days
        for number, card in enumerate(day.cards)
        if card.slot.id in grid.bench.selection
    ]


def test_a_click_selects_and_another_one_selects_instead(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    assert chosen(grid) == [(0, 0)]
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 3, 1))
    assert chosen(grid) == [(3, 1)]
    assert grid.cursor_slot == scene.slot_id(grid.bench, 3, 1)


def test_ctrl_adds_and_takes_away(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    qtbot.mouseClick(grid, LEFT, CTRL, pos=at(grid, 3, 1))
    assert chosen(grid) == [(0, 0), (3, 1)]
    qtbot.mouseClick(grid, LEFT, CTRL, pos=at(grid, 0, 0))
    assert chosen(grid) == [(3, 1)]


def test_shift_selects_the_run_between(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 1))
    qtbot.mouseClick(grid, LEFT, SHIFT, pos=at(grid, 3, 0))
    assert chosen(grid) == [(0, 1), (0, 2), (3, 0)]


def test_a_click_on_ground_selects_nothing_and_goes_to_the_day(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    qtbot.mouseClick(grid, LEFT, pos=scene.ground(grid, 4).toPoint())
    assert chosen(grid) == []
    assert (grid.cursor_day, grid.cursor_slot) == (4, None)


def test_a_press_on_one_of_several_keeps_them_for_a_drag(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    qtbot.mouseClick(grid, LEFT, CTRL, pos=at(grid, 0, 1))
    qtbot.mousePress(grid, LEFT, pos=at(grid, 0, 1))
    assert chosen(grid) == [(0, 0), (0, 1)]
    qtbot.mouseRelease(grid, LEFT, pos=at(grid, 0, 1))
    assert chosen(grid) == [(0, 1)]


@pytest.fixture
def drags(monkeypatch) -> list:
    """What would be dragged; the platform of the tests has no drags."""
    started = []
    monkeypatch.setattr(
        dragging, "start_drag", lambda source, bench, carried: started.append(carried)
    )
    return started


def drag(grid: WeekGrid, qtbot, start: QPoint, by: int) -> None:
    qtbot.mousePress(grid, LEFT, pos=start)
    from PySide6.QtGui import QMouseEvent

    there = QPointF(start) + QPointF(by, 0)
    none = Qt.KeyboardModifier.NoModifier
    global_there = QPointF(grid.mapToGlobal(there.toPoint()))
    event = QMouseEvent(QMouseEvent.Type.MouseMove, there, global_there, LEFT, LEFT, none)
    QApplication.sendEvent(grid, event)


def test_a_press_becomes_a_drag_past_the_platforms_distance(grid, qtbot, drags):
    far = QApplication.startDragDistance()
    drag(grid, qtbot, at(grid, 0, 0), far - 1)
    assert drags == []
    drag(grid, qtbot, at(grid, 0, 0), far)
    assert [carried.slots for carried in drags] == [(scene.slot_id(grid.bench, 0, 0),)]
    assert drags[0].source == grid.bench.source


def test_a_head_is_the_handle_of_its_whole_session(grid, qtbot, drags):
    head = grid.layout_now.days[0].head.center().toPoint()
    drag(grid, qtbot, head, 20)
    assert drags[0].slots == tuple(card.slot.id for card in grid.face.days[0].cards)


def test_ground_is_no_handle(grid, qtbot, drags):
    drag(grid, qtbot, scene.ground(grid, 0).toPoint(), 20)
    assert drags == []


def test_a_press_without_cards_is_never_a_drag(qapp):
    assert not Press(QPointF(0, 0), ()).is_drag(QPointF(100, 100))


def test_the_right_button_puts_back_what_clicks_carry(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    grid.pick_up_by_click()
    before = grid.bench.desk.program
    qtbot.mouseClick(grid, Qt.MouseButton.RightButton, pos=at(grid, 3, 0))
    assert not grid.carrier.is_carrying
    assert grid.bench.desk.program is before


def test_while_cards_are_gathered_a_click_adds_and_takes_away(grid, qtbot):
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    grid.toggle_gathering()
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 1))
    assert chosen(grid) == [(0, 0), (0, 1)]
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    assert chosen(grid) == [(0, 1)]
    qtbot.mouseClick(grid, Qt.MouseButton.RightButton, pos=at(grid, 0, 2))
    assert chosen(grid) == [(0, 1), (0, 2)]
    grid.toggle_gathering()
    qtbot.mouseClick(grid, LEFT, pos=at(grid, 0, 0))
    assert chosen(grid) == [(0, 0)]
