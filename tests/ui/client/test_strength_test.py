"""Strength tests: the estimate as it is typed, the test kept as one step."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.domain.client import StrengthTest
from app.domain.effort import Rir
from app.domain.exercise import ExerciseKey, Pattern
from app.domain.loads import newest_test
from app.domain.program import Reps
from app.ui.bench import Bench
from app.ui.client.strength_test import TERMS, TestSheet
from app.ui.grid.face import load_texts
from app.ui.words import full_date, qdate
from tests.ui.desks import TODAY, slot, with_client, without_program
from tests.ui.steps import choose, kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> TestSheet:
    made = TestSheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    return made


def name(sheet: TestSheet, text: str) -> None:
    """Type the name of an exercise, without leaving the field."""
    edit = sheet.exercise.lineEdit()
    edit.selectAll()
    QTest.keyClicks(edit, text)
    sheet.exercise.completer().popup().hide()


def enter(sheet: TestSheet, load: str, reps: str, rir: str = "0") -> None:
    retype(sheet.load, load)
    retype(sheet.reps, reps)
    retype(sheet.rir, rir)


def test_a_test_is_kept_as_one_step(sheet: TestSheet, bench: Bench) -> None:
    before = bench.desk.client.tests
    name(sheet, "Leg press")
    enter(sheet, "180", "6", "1")
    day = TODAY - timedelta(days=3)
    sheet.day.setDate(qdate(day))
    with one_step(bench, f"Test Leg press, {full_date(day)}"):
        kept(sheet)
    assert bench.desk.client.tests == (
        *before,
        StrengthTest(ExerciseKey("leg_press"), day, 180, 6, 1),
    )


@pytest.mark.parametrize("text", ["Romanian deadlift", "romanian DEADLIFT", " Romanian deadlift "])
def test_the_exercise_that_is_typed_is_the_one_tested(
    sheet: TestSheet, bench: Bench, text: str
) -> None:
    name(sheet, text)
    enter(sheet, "100", "5")
    kept(sheet)
    assert bench.desk.client.tests[-1].exercise == "romanian_deadlift"


def test_enter_in_the_last_field_keeps_the_typed_exercise(
    sheet: TestSheet, bench: Bench, qtbot: QtBot
) -> None:
    sheet.show()
    qtbot.waitExposed(sheet)
    name(sheet, "Leg press")
    enter(sheet, "180", "6")
    QTest.keyClick(sheet.rir.edit, Qt.Key.Key_Return)
    assert sheet.result() == TestSheet.DialogCode.Accepted
    assert bench.desk.client.tests[-1].exercise == "leg_press"


def test_an_exercise_that_is_not_there_is_named(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Log flip")
    enter(sheet, "100", "5")
    refused_with(sheet, bench, "There is no exercise 'Log flip'.", "Choose one from the list.")


def press_tests(bench: Bench) -> list[float]:
    """Loads of the tests of the leg press, in the order that counts."""
    return [t.load_kg for t in bench.desk.client.tests if t.exercise == "leg_press"]


@pytest.mark.parametrize(
    ("answer", "order", "counts"),
    [("the one entered", [185, 180], 185), ("the one of before", [180, 185], 180)],
)
def test_of_two_tests_of_a_day_the_coach_says_which_counts_and_both_are_kept(
    sheet: TestSheet, bench: Bench, qtbot: QtBot, answer: str, order: list[float], counts: float
) -> None:
    name(sheet, "Leg press")
    enter(sheet, "180", "6")
    assert not sheet.counts.isVisibleTo(sheet)
    kept(sheet)
    again = TestSheet(bench, None, today=TODAY)
    qtbot.addWidget(again)
    name(again, "Leg press")
    enter(again, "185", "6")
    assert again.counts.isVisibleTo(again)
    refused_with(again, bench, "180 kg", "Choose which of the two counts; both are kept.")
    choose(again.counts, answer)
    with one_step(bench, f"Test Leg press, {full_date(TODAY)}"):
        kept(again)
    assert press_tests(bench) == order
    press = bench.desk.catalogue[ExerciseKey("leg_press")]
    assert newest_test(press, bench.desk.client).load_kg == counts


def test_a_load_in_the_other_unit_is_questioned(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Back squat")
    enter(sheet, "198", "5")
    enter(sheet, "198", "")
    sheet.load.edit.editingFinished.emit()
    retype(sheet.reps, "5")
    sheet.reps.edit.editingFinished.emit()
    assert sheet.doubt.question.text().startswith("Is 198 kg right"), "asked as soon as it can be"
    refused_with(sheet, bench, "A question waits", "tick that it is right")
    QTest.mouseClick(sheet.doubt.change_button, Qt.MouseButton.LeftButton)
    assert sheet.load.value() == 89.8
    kept(sheet)
    assert bench.desk.client.tests[-1].load_kg == 89.8


def test_more_repetitions_with_less_are_no_slip(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Back squat")
    enter(sheet, "60", "15")
    kept(sheet)
    assert bench.desk.client.tests[-1].load_kg == 60


def test_a_test_is_corrected_as_one_step(bench: Bench, qtbot: QtBot) -> None:
    old = replace(bench.desk.client.tests[0], note="told")
    with_client(bench, tests=(old, *bench.desk.client.tests[1:]))
    sheet = TestSheet(bench, None, today=TODAY, changing=old)
    qtbot.addWidget(sheet)
    assert (sheet.load.value(), sheet.reps.value(), sheet.rir.value()) == (90, 5, 0)
    assert not sheet.exercise.isEnabled()
    retype(sheet.reps, "6")
    with one_step(bench, f"Change test Back squat, {full_date(old.on)}"):
        kept(sheet)
    assert replace(old, reps=6) in bench.desk.client.tests
    assert len(bench.desk.client.tests) == 2


def test_a_test_before_birth_is_refused(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Leg press")
    enter(sheet, "180", "6")
    sheet.day.setDate(qdate(date(1990, 1, 1)))
    refused_with(sheet, bench, "before the birth date 1992-03-14")


@pytest.mark.parametrize(
    ("load", "reps", "rir", "parts"),
    [
        ("", "5", "0", ("Load lifted: is missing.", "Enter 0.5 to 600.")),
        ("0", "5", "0", ("Load lifted: 0 is out of range.",)),
        ("100", "", "0", ("Repetitions: is missing.", "Enter 1 to 30.")),
        ("100", "31", "0", ("Repetitions: 31 is out of range.",)),
        ("100", "5.5", "0", ("Repetitions: 5.5 is not a whole number.",)),
        ("100", "5", "11", ("Left in reserve: 11 is out of range.", "Enter 0 to 10.")),
    ],
)
def test_a_wrong_number_keeps_the_sheet_open(
    sheet: TestSheet, bench: Bench, load: str, reps: str, rir: str, parts: tuple[str, ...]
) -> None:
    name(sheet, "Back squat")
    enter(sheet, load, reps, rir)
    refused_with(sheet, bench, *parts)


def test_who_counts_in_pounds_types_pounds(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, units="lb", tests=())
    sheet = TestSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    name(sheet, "Back squat")
    assert sheet.term.text() == "lb, bar and plates together"
    enter(sheet, "225", "1")
    assert sheet.estimate.text().startswith("About 225 lb for one repetition")
    kept(sheet)
    assert bench.desk.client.tests[-1].load_kg == pytest.approx(102.06, abs=0.01)
    again = TestSheet(bench, None, today=TODAY, changing=bench.desk.client.tests[-1])
    qtbot.addWidget(again)
    assert again.load.edit.text() == "225"
    before = bench.desk.client
    kept(again)
    assert bench.desk.client == before, "what nobody types over stays to the last place"


def test_own_weight_is_tested_with_nothing_added_or_with_help(
    sheet: TestSheet, bench: Bench
) -> None:
    name(sheet, "Pull-up")
    assert sheet.term.text() == "kg added to the body, 0 for none, below 0 for help"
    enter(sheet, "-15", "5")
    kept(sheet)
    assert bench.desk.client.tests[-1].load_kg == -15


def test_the_estimate_is_the_published_equations_and_follows_the_typing(
    sheet: TestSheet,
) -> None:
    # 90 kg for 5: from 101.25 (Brzycki 1993) to 107.1 (Mayhew 1992), the middle one 104.9 (Wathan)
    name(sheet, "Back squat")
    enter(sheet, "90", "5")
    assert sheet.estimate.text().startswith("About 105 kg for one repetition (101\N{EN DASH}107).")
    retype(sheet.reps, "")
    assert sheet.estimate.text() == ""
    name(sheet, "Back squats")
    assert sheet.term.text() == ""


def test_exercises_of_the_program_come_first(sheet: TestSheet, bench: Bench) -> None:
    used = {s.exercise for week in bench.desk.program.weeks for s in week.slots()}
    keys = [sheet.exercise.itemData(k) for k in range(sheet.exercise.count())]
    first = [key for key in keys if key in used]
    assert first
    assert keys[: len(first)] == first


def test_only_what_can_be_loaded_in_kg_is_offered(sheet: TestSheet, bench: Bench) -> None:
    for row in range(sheet.exercise.count()):
        exercise = bench.desk.catalogue[sheet.exercise.itemData(row)]
        assert exercise.load_kind in TERMS
        assert not exercise.timed
        assert exercise.pattern is not Pattern.DRILL


def test_without_a_program_every_exercise_is_in_order_of_its_name(
    qtbot: QtBot, bench: Bench
) -> None:
    without_program(bench)
    sheet = TestSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    names = [sheet.exercise.itemText(k) for k in range(sheet.exercise.count())]
    assert names == sorted(names)


def test_no_test_lies_in_the_future(sheet: TestSheet) -> None:
    sheet.day.setDate(qdate(date(2027, 5, 1)))
    assert sheet.day.date() == qdate(TODAY)


def test_a_test_brings_loads_to_the_cards(sheet: TestSheet, bench: Bench) -> None:
    press = next(s for s in bench.desk.program.weeks[0].slots() if s.exercise == "leg_press")
    assert bench.desk.load(press) is None
    name(sheet, "Leg press")
    enter(sheet, "180", "6")
    kept(sheet)
    assert bench.desk.load(press).load_kg > 0


def test_own_weight_for_eight_brings_a_load_to_the_card(sheet: TestSheet, bench: Bench) -> None:
    chin_up = bench.desk.catalogue[ExerciseKey("chin_up")]
    here = replace(slot(bench), exercise=chin_up.key, reps=Reps(3, 3), effort=Rir(0), load_kg=None)
    eights = replace(here, reps=Reps(8, 8))
    assert bench.desk.load(here) is None
    name(sheet, "Chin-up")
    enter(sheet, "0", "8")
    assert ", own weight included" in sheet.estimate.text()
    kept(sheet)
    added, unit = load_texts(bench.desk.load(here), chin_up, "kg")
    assert added.startswith("+")
    assert unit == "kg"
    assert load_texts(bench.desk.load(eights), chin_up, "kg") == ("own weight", "")


def test_help_that_leaves_nothing_of_the_body_is_refused(sheet: TestSheet, bench: Bench) -> None:
    with_client(bench, mass_kg=70.0)
    name(sheet, "Chin-up")
    enter(sheet, "-70", "8")
    refused_with(sheet, bench, "70 kg of help leave nothing", "Enter less help")


def test_why_own_weight_has_no_estimate_is_said(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Crunch")
    enter(sheet, "0", "8")
    assert "no source says how much of the body" in sheet.estimate.text()
    with_client(bench, mass_kg=None)
    name(sheet, "Chin-up")
    retype(sheet.reps, "7")
    assert "body mass is missing" in sheet.estimate.text()


def test_half_a_number_is_not_called_wrong(sheet: TestSheet, bench: Bench) -> None:
    name(sheet, "Back squat")
    enter(sheet, "0.1", "5")
    assert not sheet.load.is_wrong
    assert sheet.estimate.text() == ""
    refused_with(sheet, bench, "Load lifted: 0.1 is out of range.")
    assert sheet.load.is_wrong


def test_what_the_load_means_is_never_cut(qtbot: QtBot, dressed, bench: Bench) -> None:
    sheet = TestSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    sheet.show()
    for exercise in ("Back squat", "Pull-up"):
        name(sheet, exercise)
        enter(sheet, "203", "5")
        sheet.try_keep()
        qtbot.wait(10)
        assert sheet.term.height() >= sheet.term.heightForWidth(sheet.term.width())
