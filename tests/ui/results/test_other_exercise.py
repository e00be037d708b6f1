"""Asking which exercise was done instead."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.ui.bench import Bench
from app.ui.results.other_exercise import OtherExerciseSheet


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> OtherExerciseSheet:
    catalogue = bench.desk.catalogue
    made = OtherExerciseSheet(
        None,
        catalogue[ExerciseKey("back_squat")],
        catalogue=catalogue,
        first=(ExerciseKey("leg_press"),),
    )
    qtbot.addWidget(made)
    return made


def test_what_is_prepared_stands_first(sheet: OtherExerciseSheet) -> None:
    assert [sheet.field.itemText(n) for n in range(2)] == ["Back squat", "Leg press"]
    sheet.field.setEditText("front squat")
    sheet.try_keep()
    assert sheet.found is not None
    assert sheet.found.key == "front_squat"


def test_a_name_that_there_is_not_is_said(sheet: OtherExerciseSheet) -> None:
    sheet.field.setEditText("moon walk")
    sheet.try_keep()
    assert sheet.found is None
    assert "There is no exercise 'moon walk'" in sheet.wrong.text()
