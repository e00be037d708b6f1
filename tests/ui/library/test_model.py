"""The model of the list."""

from __future__ import annotations

from PySide6.QtCore import Qt

from app.domain.exercise import Muscle
from app.ui.carry import from_mime
from app.ui.library.model import AT_HAND, EXERCISE, LINES, USED, ExerciseModel
from tests.ui.library import scene

STEP_UP, SQUAT = scene.shipped("step_up"), scene.shipped("back_squat")


def model() -> ExerciseModel:
    made = ExerciseModel(scene.bench())
    made.show_exercises([STEP_UP, SQUAT])
    return made


def test_it_keeps_the_rules_of_models(qtbot, qtmodeltester):
    made = model()
    qtmodeltester.check(made, force_py=True)


def test_a_row_tells_its_exercise_and_words(qtbot):
    made = model()
    index = made.index(1)
    assert index.data(EXERCISE) is SQUAT
    assert index.data(Qt.ItemDataRole.DisplayRole) == "Back squat"
    assert index.data(LINES)[1] == "barbell, rack"


def test_rows_tell_activation_when_they_are_ordered_by_it(qtbot):
    made = model()
    made.show_exercises([SQUAT], about=Muscle.GLUTEALS)
    assert "% MVIC" in made.index(0).data(LINES)[1]
    made.show_exercises([SQUAT])
    assert made.index(0).data(LINES)[1] == "barbell, rack"


def test_use_and_star_are_told_when_they_change(qtbot):
    made = model()
    with qtbot.waitSignal(made.dataChanged):
        made.show_used({STEP_UP.key: "in Mon"})
    with qtbot.waitSignal(made.dataChanged):
        made.show_at_hand({STEP_UP.key})
    assert made.index(0).data(USED) == "in Mon"
    assert made.index(0).data(AT_HAND) is True
    assert made.index(1).data(AT_HAND) is False


def test_a_row_is_spoken_with_all_it_shows(qtbot):
    made = model()
    made.show_used({STEP_UP.key: "in Mon"})
    made.show_at_hand({STEP_UP.key})
    spoken = made.index(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("Step-up, ")
    assert spoken.endswith("in Mon, kept at hand")


def test_a_tooltip_is_never_taken_for_markup(qtbot):
    made = ExerciseModel(scene.bench())
    made.show_exercises([scene.own(name="Press & hold")])
    assert "Press &amp; hold" in made.index(0).data(Qt.ItemDataRole.ToolTipRole)


def test_a_drag_carries_the_exercise_of_its_row(qtbot):
    made = model()
    carried = from_mime(made.mimeData([made.index(1)]))
    assert carried is not None
    assert carried.exercise == SQUAT.key


def test_a_row_that_is_gone_says_nothing(qtbot):
    made = model()
    index = made.index(1)
    made.show_exercises([])
    assert made.data(index) is None
