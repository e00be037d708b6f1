"""What keys mean on the grid."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.domain.program import Span
from app.ui.grid import WeekGrid, keys
from tests.ui.grid import scene

Key = Qt.Key
NONE = Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier
CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    made = scene.grid(qtbot)
    made.bench.choose_span(Span.THIS_WEEK)
    made.setFocus()
    made.go_to(scene.slot_id(made.bench, 0, 0))
    made.bench.select((scene.slot_id(made.bench, 0, 0),))
    return made


def test_arrows_walk_over_cards_and_days_and_the_selection_follows(grid, qtbot):
    where = []
    for key in (Key.Key_Down, Key.Key_Right, Key.Key_Right, Key.Key_Right, Key.Key_End):
        qtbot.keyClick(grid, key)
        where.append((grid.cursor_day, grid.cursor_slot))
    bench = grid.bench
    assert where[0] == (0, scene.slot_id(bench, 0, 1))
    assert where[1:3] == [(1, None), (2, None)]
    assert where[3][0] == 3
    assert where[4] == (3, scene.slot_id(bench, 3, 2))
    assert bench.selection == (scene.slot_id(bench, 3, 2),)


def test_walking_stops_at_the_ends(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_Left)
    qtbot.keyClick(grid, Key.Key_Up)
    assert grid.cursor_slot == scene.slot_id(grid.bench, 0, 0)


def test_shift_extends_and_ctrl_a_takes_the_day(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_Down, SHIFT)
    assert len(grid.bench.selection) == 2
    qtbot.keyClick(grid, Key.Key_A, CTRL)
    assert len(grid.bench.selection) == 3
    qtbot.keyClick(grid, Key.Key_Escape)
    assert grid.bench.selection == ()


@pytest.mark.parametrize(
    ("key", "held", "label"),
    [
        (Key.Key_Delete, NONE, "Remove Back squat"),
        (Key.Key_X, CTRL, "Cut Back squat"),
        (Key.Key_D, CTRL, "Copy Back squat to Monday"),
        (Key.Key_Right, ALT, "Move Back squat to Tuesday"),
        (Key.Key_Down, ALT, "Move Back squat within Monday"),
        (Key.Key_Plus, SHIFT, "Add 1 set to Back squat"),
        (Key.Key_Minus, NONE, "Take 1 off Back squat"),
    ],
)
def test_a_key_is_one_named_step(grid, qtbot, key, held, label):
    qtbot.keyClick(grid, key, held)
    assert [step.label for step in grid.bench.desk.history.steps] == [label]


def test_p_pairs_the_selection(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_Down, SHIFT)
    qtbot.keyClick(grid, Key.Key_P)
    assert {card.slot.pair for card in grid.face.days[0].cards[:2]} == {"A"}


def test_pages_turn_weeks(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_PageDown)
    assert grid.bench.week == grid.face.index == 1
    qtbot.keyClick(grid, Key.Key_PageUp)
    assert grid.bench.week == 0


def test_f2_edits_in_place(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_F2)
    assert grid._editor is not None
    grid._editor.reject()


def test_foreign_keys_are_left_to_the_window(grid):
    for carrying in (False, True):
        event = QKeyEvent(QKeyEvent.Type.KeyPress, Key.Key_F5, NONE)
        assert keys.act_for(event, carrying=carrying) is None


def test_while_carrying_ctrl_shows_a_copy_and_letting_go_a_move(grid, qtbot):
    qtbot.keyClick(grid, Key.Key_Space)
    qtbot.keyClick(grid, Key.Key_Right)
    qtbot.keyPress(grid, Key.Key_Control)
    assert grid.carrier.hand.aim.copy
    qtbot.keyRelease(grid, Key.Key_Control)
    assert not grid.carrier.hand.aim.copy
    qtbot.keyClick(grid, Key.Key_Escape)


def test_every_key_that_carries_has_an_entry_for_going_back():
    assert (Key.Key_Escape, NONE) in keys.CARRYING
    assert set(keys.CARRYING) >= {(Key.Key_Return, NONE), (Key.Key_Space, NONE)}
