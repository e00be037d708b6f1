"""The list: keys, drags and its menu."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication

from app.ui.library.listing import ExerciseList
from app.ui.library.model import ExerciseModel
from tests.ui.library import scene

STEP_UP = scene.shipped("step_up")


@pytest.fixture
def view(qtbot) -> ExerciseList:
    bench = scene.bench()
    made = ExerciseList(bench)
    model = ExerciseModel(bench, made)
    model.show_exercises([STEP_UP, scene.shipped("back_squat")])
    made.setModel(model)
    qtbot.addWidget(made)
    made.resize(240, 200)
    made.show()
    return made


@pytest.mark.parametrize(
    ("key", "modifier", "signal", "said"),
    [
        (Qt.Key.Key_Return, Qt.KeyboardModifier.NoModifier, "place_wanted", STEP_UP.key),
        (Qt.Key.Key_Space, Qt.KeyboardModifier.NoModifier, "pick_wanted", STEP_UP.key),
        (Qt.Key.Key_F2, Qt.KeyboardModifier.NoModifier, "detail_wanted", STEP_UP),
        (Qt.Key.Key_F3, Qt.KeyboardModifier.NoModifier, "compare_wanted", STEP_UP),
        (Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier, "star_wanted", STEP_UP.key),
    ],
)
def test_a_key_asks_for_what_it_says(qtbot, view, key, modifier, signal, said):
    view.setCurrentIndex(view.model().index(0))
    with qtbot.waitSignal(getattr(view, signal)) as asked:
        qtbot.keyClick(view, key, modifier)
    assert asked.args == [said]


def test_in_an_empty_list_keys_ask_for_nothing(qtbot, view):
    view.model().show_exercises([])
    with qtbot.assertNotEmitted(view.place_wanted):
        qtbot.keyClick(view, Qt.Key.Key_Return)
    assert view.exercise() is None


def test_letters_go_to_a_name_that_begins_with_them(qtbot, view):
    qtbot.keyClicks(view, "back")
    assert view.exercise().key == "back_squat"


def test_the_menu_key_opens_the_menu_of_the_current_row(qtbot, view):
    view.setCurrentIndex(view.model().index(1))
    event = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(0, 0), QPoint(0, 0))
    with qtbot.waitSignal(view.menu_wanted) as asked:
        QApplication.sendEvent(view.viewport(), event)
    assert asked.args[0].key == "back_squat"


def test_a_click_opens_the_menu_of_the_row_under_it(qtbot, view):
    where = view.visualRect(view.model().index(1)).center()
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, where, where)
    with qtbot.waitSignal(view.menu_wanted) as asked:
        QApplication.sendEvent(view.viewport(), event)
    assert asked.args[0].key == "back_squat"
    assert view.exercise().key == "back_squat"
