"""Fields for a drill's dose and for ramp sets: what is worked out, what is set, what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.program import Drill, DrillDose, Reps
from app.domain.ramp import NO_RAMP, read_ramp
from app.ui.warmup_fields import DoseFields, RampFields, dose_text
from tests.builders import CATALOGUE

WALK = CATALOGUE[ExerciseKey("band_walk")]  # 5 to 10 repetitions by its zone
TIMED = replace(WALK, timed=True, rep_low=30, rep_high=60)
OWN = DrillDose(2, Reps(12, 15))


@pytest.fixture
def dose(qtbot: QtBot) -> DoseFields:
    made = DoseFields()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def ramp(qtbot: QtBot) -> RampFields:
    made = RampFields("kg")
    qtbot.addWidget(made)
    made.show_ramp(None, begin_with="50 % × 5")
    return made


def show(dose: DoseFields, own: DrillDose | None = None, exercise: Exercise = WALK) -> None:
    dose.show_drill(Drill(exercise.key, own), exercise)


def typed(dose: DoseFields, rounds: str, low: str, high: str) -> None:
    for field, text in ((dose.rounds, rounds), (dose.low, low), (dose.high, high)):
        field.edit.setText(text)
        field.edit.textEdited.emit(text)


def figures(dose: DoseFields) -> tuple[str, str, str]:
    return dose.rounds.edit.text(), dose.low.edit.text(), dose.high.edit.text()


@pytest.mark.parametrize(
    ("made", "timed", "said"),
    [
        (DrillDose(1, Reps(8, 10)), False, "8–10 reps"),
        (OWN, False, "2 × 12–15 reps"),
        (DrillDose(1, Reps(180, 180)), True, "3 minutes"),
        (DrillDose(3, Reps(20, 30)), True, "3 × 20–30 s"),
    ],
)
def test_a_dose_is_told_in_a_few_words(made: DrillDose, timed: bool, said: str) -> None:
    assert dose_text(made, timed=timed) == said


def test_a_drill_begins_with_what_its_zone_says(dose: DoseFields) -> None:
    show(dose)
    assert figures(dose) == ("1", "5", "10")
    assert dose.source.text() == "5–10 reps, as the zone of the drill says."
    assert not dose.back.isEnabled()


def test_what_is_typed_is_taken_at_once_and_can_go_back(dose: DoseFields, qtbot: QtBot) -> None:
    show(dose)
    with qtbot.waitSignal(dose.changed):
        typed(dose, "2", "12", "15")
    assert dose.dose == OWN
    assert dose.source.text() == "2 × 12–15 reps, set by the coach; its zone says 5–10 reps."
    dose.back.click()
    assert dose.dose is None
    assert figures(dose) == ("1", "5", "10")


def test_typing_what_the_zone_says_sets_nothing(dose: DoseFields) -> None:
    show(dose, OWN)
    typed(dose, "1", "5", "10")
    assert dose.dose is None


@pytest.mark.parametrize(
    ("figures_", "said"),
    [
        (("11", "5", "10"), "Rounds: 11 is out of range. Enter 1 to 10."),
        (("1.5", "5", "10"), "Rounds: 1.5 is not a whole number. Enter 1 to 10."),
        (("1", "5", "101"), "To: 101 is out of range. Enter 1 to 100."),
        (("1", "", "10"), "From: is missing. Enter 1 to 100."),
        (("1", "12", "8"), "The dose runs from 12 down to 8. Enter the smaller figure first"),
    ],
)
def test_a_wrong_figure_says_what_is_accepted_and_changes_nothing(
    dose: DoseFields, figures_: tuple[str, str, str], said: str
) -> None:
    show(dose, OWN)
    typed(dose, "2", "12", "15")
    typed(dose, *figures_)
    wrong = [f.wrong.text() for f in (dose.rounds, dose.low, dose.high) if f.is_wrong]
    assert len(wrong) == 1
    assert said in wrong[0]
    with pytest.raises(CoachError):
        dose.read()
    dose.back.click()
    assert not dose.is_wrong


def test_seconds_may_go_further_than_repetitions(dose: DoseFields) -> None:
    show(dose, exercise=TIMED)
    typed(dose, "1", "300", "300")
    assert dose.dose == DrillDose(1, Reps(300, 300))


def test_without_a_drill_nothing_can_be_typed(dose: DoseFields) -> None:
    dose.show_drill(None, None)
    assert not dose.rounds.isEnabled()
    assert not dose.back.isEnabled()
    dose.read()
    assert dose.dose is None


def test_steps_of_ones_own_begin_with_what_is_worked_out(ramp: RampFields) -> None:
    assert not ramp.steps.isEnabled()
    ramp.way.setCurrentIndex(2)
    assert ramp.steps.text() == "50 % × 5"
    assert ramp.ramp == read_ramp("50 % x 5")
    ramp.way.setCurrentIndex(1)
    assert ramp.ramp == NO_RAMP
    ramp.way.setCurrentIndex(0)
    assert ramp.ramp is None


@pytest.mark.parametrize(
    ("line", "way"), [(None, 0), ("", 1), ("50 % × 5, 60 kg × 3", 2)], ids=["none", "off", "own"]
)
def test_ramp_sets_are_shown_as_they_are_set(ramp: RampFields, line: str | None, way: int) -> None:
    kept = None if line is None else read_ramp(line) if line else NO_RAMP
    ramp.show_ramp(kept, begin_with="")
    assert ramp.way.currentIndex() == way
    assert ramp.steps.text() == (line or "")
    ramp.read()
    assert ramp.ramp == kept


def test_a_line_is_not_blamed_while_it_is_typed_and_then_says_what_is_accepted(
    ramp: RampFields, qtbot: QtBot
) -> None:
    ramp.way.setCurrentIndex(2)
    ramp.steps.setText("60")
    ramp.steps.textEdited.emit("60")
    assert ramp.wrong.text() == ""
    ramp.steps.editingFinished.emit()
    assert "'60' is no ramp set. Write ramp sets like '50 % x 5" in ramp.wrong.text()
    assert ramp.ramp == read_ramp("50 % x 5"), "what was right before stays"
    ramp.steps.setText("60 kg x 3")
    with qtbot.waitSignal(ramp.changed):
        ramp.steps.textEdited.emit("60 kg x 3")
    assert ramp.wrong.text() == ""
    assert ramp.ramp == read_ramp("60 kg x 3")
