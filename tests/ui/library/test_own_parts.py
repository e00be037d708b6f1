"""The parts of the form for own exercises."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app import resources
from app.domain.exercise import Equipment, ExerciseKey, Muscle, Work
from app.ui.library.own_parts import (
    CheckList,
    DeafBox,
    KinField,
    LinesField,
    PoseBox,
    muscle_grid,
    stress_grid,
    work_values,
)
from tests.ui.library import scene

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}


@pytest.mark.parametrize("one", resources.catalogue().exercises[::11], ids=lambda one: one.key)
def test_the_work_of_any_exercise_can_be_shown_and_read(qtbot, one):
    grid = muscle_grid(NAMES)
    qtbot.addWidget(grid)
    grid.show_values(work_values(one.work))
    assert grid.values() == work_values(one.work), "before there are boxes"
    grid.build()
    assert len(grid.boxes) == len(NAMES)
    assert grid.values() == work_values(one.work)
    grid.show_values({})
    assert grid.values() == {}
    grid.show_values(work_values(one.work))
    assert grid.values() == work_values(one.work)


def test_boxes_are_made_once_and_making_them_changes_nothing(qtbot):
    grid = stress_grid()
    qtbot.addWidget(grid)
    grid.show_values({"knee": 3})
    with qtbot.assertNotEmitted(grid.changed):
        grid.build()
    made = dict(grid.boxes)
    made["knee"].choose(1)
    grid.build()
    assert grid.boxes == made
    assert grid.values() == {"knee": 1}


def test_an_unusual_part_is_not_rounded(qtbot):
    grid = muscle_grid(NAMES)
    qtbot.addWidget(grid)
    grid.show_values(work_values((Work(Muscle.CHEST, 0.3),)))
    assert grid.values() == {"chest": 0.3}


def test_prime_movers_come_first(qtbot):
    grid = muscle_grid(NAMES)
    qtbot.addWidget(grid)
    grid.show_values({"quadriceps": 0.5, "gluteals": 1.0})
    assert list(grid.values()) == ["gluteals", "quadriceps"]


def test_stress_is_graded_from_nothing_to_a_lot(qtbot):
    grid = stress_grid()
    qtbot.addWidget(grid)
    grid.build()
    with qtbot.waitSignal(grid.changed):
        grid.show_values({"knee": 3})
    assert grid.values() == {"knee": 3}


def test_ticks_are_read_in_the_order_of_the_list(qtbot):
    ticks = CheckList("Equipment", Equipment)
    qtbot.addWidget(ticks)
    ticks.show_values((Equipment.BENCH, Equipment.BARBELL))
    assert ticks.values() == ["barbell", "bench"]


def test_relatives_are_added_once_and_taken_out_by_del(qtbot):
    field = KinField(scene.nobody(), "Easier")
    qtbot.addWidget(field)
    field.box.choose(scene.shipped("step_up"))
    field.add()
    field.add()
    assert field.values() == ["step_up"]
    field.list.setCurrentRow(0)
    with qtbot.waitSignal(field.changed):
        qtbot.keyClick(field.list, Qt.Key.Key_Delete)
    assert field.values() == []


def test_relatives_that_are_gone_are_not_shown(qtbot):
    field = KinField(scene.nobody(), "Easier")
    qtbot.addWidget(field)
    field.show_values((ExerciseKey("step_up"), ExerciseKey("gone")))
    assert field.values() == ["step_up"]


def test_a_pose_is_shown_at_its_start_and_end(qtbot):
    field = PoseBox(scene.nobody())
    qtbot.addWidget(field)
    assert field.value() == ""
    with qtbot.waitSignal(field.changed):
        field.show_value("back_squat")
    assert field.value() == "back_squat"
    first, second = (label.pixmap().toImage() for label in field.pictures)
    assert first != second
    field.show_value("")
    assert all(label.pixmap().isNull() for label in field.pictures)


def test_figures_are_called_as_the_exercises_they_show(qtbot):
    field = PoseBox(scene.nobody())
    qtbot.addWidget(field)
    shown = {field.box.itemData(row): field.box.itemText(row) for row in range(field.box.count())}
    assert shown.pop("") == "No figure"
    assert shown["rear_foot_split_squat"] == scene.shipped("rear_foot_split_squat").name
    assert list(shown.values()) == sorted(shown.values(), key=str.casefold)


def test_an_unknown_value_falls_back_to_the_first(qtbot):
    box = DeafBox("Plane", (("Sagittal", "sagittal"), ("Frontal", "frontal")))
    qtbot.addWidget(box)
    box.choose("frontal")
    assert box.currentData() == "frontal"
    box.choose("nowhere")
    assert box.currentData() == "sagittal"


def test_tab_leaves_a_field_of_lines(qtbot):
    field = LinesField("Do it")
    qtbot.addWidget(field)
    assert field.tabChangesFocus()
    assert field.accessibleName() == "Do it"
