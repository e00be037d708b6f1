"""A real mouse drags in a real window; each case ends like its twin by keys."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt

from app.domain.exercise import ExerciseKey
from app.domain.program import Span
from app.ui.grid import WeekGrid
from tests.real_drag.conftest import RealWindow
from tests.real_drag.window import state
from tests.ui.grid import scene

pytestmark = pytest.mark.real_drag

Key = Qt.Key
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def by_keys(qtbot) -> Callable[..., dict[str, object]]:
    """What the same plan becomes by keys: pick up a card or an exercise, press keys, Enter."""

    def play(carried: tuple[int, int] | str, *keys: Qt.Key, ctrl: bool = False, focus=(0, 0)):
        grid = scene.grid(qtbot)
        grid.bench.choose_span(Span.FROM_HERE)
        _pick_up(grid, qtbot, carried, focus)
        for key in keys:
            qtbot.keyClick(grid, key)
        if ctrl:
            qtbot.keyPress(grid, Key.Key_Control)
        qtbot.keyClick(grid, Key.Key_Return, Qt.KeyboardModifier.ControlModifier if ctrl else NONE)
        return state(grid.bench)

    return play


def _pick_up(grid: WeekGrid, qtbot, carried: tuple[int, int] | str, focus: tuple[int, int]) -> None:
    if isinstance(carried, str):
        grid.go_to(scene.slot_id(grid.bench, *focus))
        grid.pick_up_exercise(ExerciseKey(carried))
        return
    slot = scene.slot_id(grid.bench, *carried)
    grid.go_to(slot)
    grid.bench.select((slot,))
    qtbot.keyClick(grid, Key.Key_Space)


def untouched() -> dict[str, object]:
    return state(scene.bench())


def test_from_the_library_to_a_day(window: RealWindow, by_keys):
    window.drag(("row", "leg_extension"), ("between", 3, 1))
    twin = by_keys("leg_extension", Key.Key_Home, *(Key.Key_Down,) * 2, focus=(3, 0))
    assert window.state() == twin
    assert twin["labels"] == ["Place Leg extension on Thursday"]
    assert not twin["preview"]


def test_from_the_library_to_a_free_day(window: RealWindow, by_keys):
    window.drag(("row", "leg_extension"), ("ground", 4))
    assert window.state() == by_keys("leg_extension", Key.Key_Right, focus=(3, 0))


def test_from_day_to_day(window: RealWindow, by_keys):
    window.drag(("card", 0, 1), ("ground", 3))
    twin = by_keys((0, 1), *(Key.Key_Right,) * 3, Key.Key_End)
    assert window.state() == twin
    assert twin["labels"] == ["Move Romanian deadlift to Thursday"]


def test_onto_a_card_substitutes(window: RealWindow, by_keys):
    window.drag(("row", "step_up"), ("card", 3, 1))
    twin = by_keys("step_up", Key.Key_Home, *(Key.Key_Down,) * 3, focus=(3, 0))
    assert window.state() == twin
    assert twin["labels"] == ["Substitute Step up for Split squat"]


def test_with_ctrl_it_copies(window: RealWindow, by_keys):
    window.drag(("card", 0, 0), ("ground", 5), ctrl=True)
    twin = by_keys((0, 0), *(Key.Key_Right,) * 5, Key.Key_End, ctrl=True)
    assert window.state() == twin
    assert twin["labels"] == ["Copy Back squat to Saturday"]


def test_within_a_session_it_changes_the_order(window: RealWindow, by_keys):
    window.drag(("card", 0, 2), ("between", 0, 0))
    twin = by_keys((0, 2), Key.Key_Home)
    assert window.state() == twin
    assert twin["labels"] == ["Move Leg curl within Monday"]


def test_escape_takes_all_of_it_back(window: RealWindow):
    window.drag(("card", 0, 0), ("ground", 3), escape=True)
    assert window.state() == untouched()


def test_let_go_off_the_window_nothing_happens(window: RealWindow):
    window.drag(("card", 0, 0), (700, 820))
    assert window.state() == untouched()


def test_cards_of_another_window_are_refused(window: RealWindow):
    window.drag(("row", "elsewhere"), ("ground", 3))
    assert window.state() == untouched()


def test_after_a_refusal_the_next_drag_works(window: RealWindow, by_keys):
    window.drag(("row", "elsewhere"), ("ground", 3))
    window.drag(("card", 0, 1), ("ground", 3))
    assert window.state() == by_keys((0, 1), *(Key.Key_Right,) * 3, Key.Key_End)
