"""The words of a row."""

from __future__ import annotations

from dataclasses import replace

from app import resources
from app.domain.exercise import Activation, ExerciseKey, Muscle, Work
from app.ui.library import rows
from tests import builders

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
SQUAT = builders.CATALOGUE[ExerciseKey("back_squat")]


def test_helpers_are_told_with_their_part() -> None:
    work = (
        Work(Muscle.QUADRICEPS, 1.0),
        Work(Muscle.GLUTEALS, 0.5),
        Work(Muscle.CALVES, 0.25),
        Work(Muscle.CHEST, 0.3),
    )
    one = replace(SQUAT, work=work)
    assert rows.muscles_text(one, NAMES) == "Quadriceps, gluteals ½, calves ¼, chest 0.3"


def test_a_drill_without_muscles_says_what_it_is() -> None:
    assert rows.muscles_text(replace(SQUAT, work=()), NAMES) == "Warm-up drill"


def test_equipment_leaves_out_the_body() -> None:
    shipped = resources.catalogue()
    assert rows.equipment_text(shipped[ExerciseKey("glute_bridge")]) == "own weight"
    assert rows.equipment_text(shipped[ExerciseKey("back_squat")]) == "barbell, rack"


def test_the_days_of_the_open_week_are_told_once_each() -> None:
    week = builders.week("Mon: back_squat 3x5, back_squat 1x10 | Thu: back_squat 3x5, curl 2x12")
    assert rows.days_used(week) == {"back_squat": "in Mon, Thu", "curl": "in Thu"}
    assert rows.days_used(None) == {}


def test_weeks_in_a_row_with_the_same_days_are_one_run() -> None:
    mon, both = "Mon: back_squat 3x5", "Mon: back_squat 3x5 | Thu: back_squat 3x5"
    program = builders.program(mon, mon, "", both, mon)
    assert rows.weeks_used(program, ExerciseKey("back_squat")) == (
        "Mon in weeks 1 to 2",
        "Mon, Thu in week 4",
        "Mon in week 5",
    )
    assert rows.weeks_used(program, ExerciseKey("curl")) == ()


def test_reported_activation_names_its_study() -> None:
    one = replace(
        SQUAT,
        activation=(
            Activation(Muscle.GLUTEALS, 29.4, 29.4, "contreras2015-thrust"),
            Activation(Muscle.GLUTEALS, 27, 60, "neto2020"),
        ),
    )
    references = resources.references()
    expected = "27\N{EN DASH}60 % MVIC, Neto 2020"
    assert rows.reported_text(one, Muscle.GLUTEALS, references) == expected
    assert rows.reported_text(one, Muscle.CHEST, references) == "no figure known"
