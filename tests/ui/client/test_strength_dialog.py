"""The sheet of strength tests: what there is, how old, what rests on it, and what is next."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtWidgets import QTreeWidget
from pytestqt.qtbot import QtBot
from scipy.stats import theilslopes

from app.domain.client import StrengthTest
from app.domain.exercise import ExerciseKey
from app.ui.bench import Bench
from app.ui.client.guess_sheet import GuessSheet
from app.ui.client.strength_dialog import StrengthDialog
from app.ui.client.strength_test import TestSheet
from app.ui.lines_table import choose, chosen
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY, with_client, without_program
from tests.ui.steps import one_step, retype

SQUAT = ExerciseKey("back_squat")
LONG_AGO = StrengthTest(SQUAT, TODAY - timedelta(days=200), 70, 5)


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> StrengthDialog:
    with_client(bench, tests=(*bench.desk.client.tests, LONG_AGO))
    made = StrengthDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def rows(table: QTreeWidget) -> list[list[str]]:
    items = [table.topLevelItem(row) for row in range(table.topLevelItemCount())]
    return [[item.text(column) for column in range(table.columnCount())] for item in items]


def test_each_exercise_says_its_estimate_its_test_and_its_cards(dialog: StrengthDialog) -> None:
    squat, thrust = rows(dialog.exercises)
    assert squat[0] == "Back squat"
    assert squat[1].startswith("10")
    assert "–" in squat[1]
    assert squat[2] == "2 Oct 2026"
    assert int(squat[4]) > 0
    assert thrust[0] == "Hip thrust"


def test_the_tests_say_which_one_counts_and_which_are_old(dialog: StrengthDialog) -> None:
    new, old = rows(dialog.tests)
    assert new[0] == "2 Oct 2026"
    assert "loads rest on it" in new[2]
    assert old[2].endswith("old")
    assert "rest on it" not in old[2]


def test_pounds_are_said_where_the_client_counts_in_them(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, units="lb")
    sheet = StrengthDialog(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    assert sheet.exercises.headerItem().text(1) == "1RM, lb"
    assert int(rows(sheet.exercises)[0][1].split()[0]) > 200
    assert rows(sheet.tests)[0][2].startswith("1RM about 2")
    assert " lb" in rows(sheet.tests)[0][2]


def test_without_a_test_it_says_so(qtbot: QtBot, bench: Bench, dialog: StrengthDialog) -> None:
    assert dialog.untested.isHidden()
    with_client(bench, tests=())
    assert not dialog.untested.isHidden()


def test_a_test_is_removed_and_undo_brings_it_back(dialog: StrengthDialog, bench: Bench) -> None:
    choose(dialog.tests, 1)
    with one_step(bench, "Remove test Back squat, 9 May 2026"):
        dialog.remove()
    assert LONG_AGO not in bench.desk.client.tests
    assert len(rows(dialog.tests)) == 1


def test_a_test_is_corrected_from_here(
    dialog: StrengthDialog, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer(sheet: TestSheet) -> int:
        retype(sheet.load, "72.5")
        sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(TestSheet, "exec", answer)
    choose(dialog.tests, 1)
    dialog.change()
    assert replace(LONG_AGO, load_kg=72.5) in bench.desk.client.tests
    assert rows(dialog.tests)[1][1].startswith("72.5 kg")


def test_the_plans_tests_are_proposed_and_entered(
    dialog: StrengthDialog, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = dialog.proposals()
    assert found
    assert rows(dialog.next)[0][0] == found[0].name
    assert "rest" in rows(dialog.next)[0][1]
    assert "left in reserve" in rows(dialog.next)[0][2]
    named: list[str] = []

    def look(sheet: TestSheet) -> int:
        named.append(sheet.exercise.currentText())
        return 0

    monkeypatch.setattr(TestSheet, "exec", look)
    choose(dialog.next, found[1].exercise)
    dialog.enter_proposed()
    dialog.try_keep()
    assert named == [found[1].name, "Back squat"]
    assert dialog.result() == 0, "it stays open for the next test"


def test_a_guess_is_shown_as_what_it_is(
    dialog: StrengthDialog, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer(sheet: GuessSheet) -> int:
        sheet.sure.setChecked(True)
        sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(GuessSheet, "exec", answer)
    choose(dialog.next, ExerciseKey("romanian_deadlift"))
    assert chosen(dialog.next) == "romanian_deadlift"
    dialog.guess()
    line = next(row for row in rows(dialog.exercises) if row[0] == "Romanian deadlift")
    assert line[2].startswith("guess of ")
    choose(dialog.exercises, ExerciseKey("romanian_deadlift"))
    assert "a guess from Back squat, no test" in rows(dialog.tests)[0][2]
    assert not dialog.change_button.isEnabled()
    proposal = next(p for p in dialog.proposals() if p.exercise == "romanian_deadlift")
    assert "rest on a guess" in proposal.text
    choose(dialog.next, ExerciseKey("plank"))


def test_where_nothing_is_related_a_sentence_says_so(dialog: StrengthDialog, bench: Bench) -> None:
    with_client(bench, tests=())
    choose(dialog.next, ExerciseKey("leg_press"))
    dialog.guess()
    assert "No related exercise was tested" in dialog.wrong.text()


def test_nobody_unscreened_is_sent_to_a_test(dialog: StrengthDialog, bench: Bench) -> None:
    with_client(bench, screenings=())
    assert "Screen the client" in dialog.no_tests.text()
    assert dialog.next.isHidden()
    assert not dialog.enter_next.isEnabled()


def test_without_a_program_nothing_is_proposed(qtbot: QtBot, bench: Bench) -> None:
    without_program(bench)
    made = StrengthDialog(bench, None, today=TODAY, exercise=SQUAT)
    qtbot.addWidget(made)
    assert "once there is a program" in made.no_tests.text()
    assert made.key == SQUAT


def test_the_trend_follows_off_the_first_paint(qtbot: QtBot, bench: Bench) -> None:
    assert callable(theilslopes), "it is read here, so that a busy machine does not wait for it"
    tests = tuple(
        StrengthTest(SQUAT, date(2026, 9, 1) + timedelta(weeks=week), 80 + week, 5)
        for week in range(5)
    )
    with_client(bench, tests=tests)
    made = StrengthDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    assert rows(made.exercises)[0][3] == ""
    qtbot.waitUntil(lambda: rows(made.exercises)[0][3] != "", timeout=60_000)
    assert rows(made.exercises)[0][3].startswith("+1")


def test_everybody_can_use_it(dialog: StrengthDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
