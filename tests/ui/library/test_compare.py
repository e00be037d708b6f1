"""Two exercises side by side."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QLabel

from app import resources
from app.ui.library.compare import (
    CompareDialog,
    ExerciseBox,
    both_measured,
    differences,
    nearest,
)
from tests.ui.library import scene

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
SQUAT, THRUST = scene.shipped("back_squat"), scene.shipped("hip_thrust")


def test_the_second_is_the_nearest_and_can_be_chosen(qtbot):
    bench = scene.bench()
    dialog = CompareDialog(bench, SQUAT, None)
    qtbot.addWidget(dialog)
    assert dialog.right.exercise() == nearest(bench, SQUAT)
    dialog.right.choose(THRUST)
    says = [label.text() for label in dialog.page_area.widget().findChildren(QLabel)]
    assert "barbell, rack" in says
    assert "barbell, bench" in says


def test_every_fact_of_either_has_a_row():
    rows = {label: (left, right) for label, left, right in differences(SQUAT, THRUST, NAMES)}
    assert rows["Equipment"] == ("barbell, rack", "barbell, bench")
    assert rows["Sides"] == ("both together", "both together")
    only_one = scene.shipped("step_up")
    assert set(rows) <= {label for label, _, _ in differences(SQUAT, only_one, NAMES)} | {
        "Own mass"
    }


def test_activation_is_compared_only_where_one_study_has_both():
    lines = both_measured(scene.nobody(), SQUAT, THRUST, NAMES)
    assert any(
        line.startswith("Gluteals: Back squat 29.4, 45.4 %, Hip thrust 69.5, 86.8 % MVIC")
        and "Contreras 2015b" in line
        for line in lines
    )
    # a review holds figures of many studies, so it measured nothing of both
    assert not any("Neto" in line for line in lines)


def test_where_no_study_has_both_it_says_so():
    lines = both_measured(scene.nobody(), SQUAT, scene.shipped("wrist_circles"), NAMES)
    assert lines == ("No study known to us measured both.",)


@pytest.mark.parametrize(
    ("typed", "key"),
    [("hip thurst", "hip_thrust"), ("Hip thrust", "hip_thrust"), ("qzxqzx", "back_squat")],
)
def test_a_typed_name_is_chosen_even_with_a_slip(qtbot, typed, key):
    box = ExerciseBox(scene.nobody(), "Second exercise")
    qtbot.addWidget(box)
    box.choose(SQUAT)
    box.lineEdit().clear()
    qtbot.keyClicks(box.lineEdit(), typed)
    box.lineEdit().editingFinished.emit()
    assert box.exercise().key == key
    assert box.currentText() == box.exercise().name
