"""A guess counts only once the coach has confirmed it, and says what it is."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.domain.loads import newest_test
from app.ui.bench import Bench
from app.ui.client.guess_sheet import GuessSheet
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY, with_client
from tests.ui.steps import kept, one_step, refused_with

FRONT = ExerciseKey("front_squat")


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench) -> GuessSheet:
    made = GuessSheet(bench, None, exercise=FRONT, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def test_the_range_its_source_and_what_it_comes_to_are_shown(sheet: GuessSheet) -> None:
    item = sheet.table.topLevelItem(0)
    cells = [item.text(column) for column in range(5)]
    assert cells[:3] == ["Back squat", "2 Oct 2026", "70–90 %"]
    assert cells[4] == "common practice"
    assert sheet.result_line.text().startswith("Kept as a guess: ")
    assert "no study stands behind it" in sheet.unpublished.text()
    assert sheet.unpublished.isVisible()


def test_it_waits_for_the_coachs_word(sheet: GuessSheet, bench: Bench) -> None:
    refused_with(sheet, bench, "only once you have confirmed it")
    sheet.sure.setChecked(True)
    with one_step(bench, "Guess Front squat from Back squat"):
        kept(sheet)
    test = newest_test(bench.desk.catalogue[FRONT], bench.desk.client)
    assert test.guessed_from == "back_squat"
    assert test.on == TODAY


def test_nothing_tested_leaves_nothing_to_guess_from(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, tests=())
    made = GuessSheet(bench, None, exercise=FRONT, today=TODAY)
    qtbot.addWidget(made)
    assert made.guesses == ()
    made.keep()
    assert bench.desk.client.tests == ()


def test_everybody_can_use_it(sheet: GuessSheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
