"""The questions on training status answer as they are answered."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import Status
from app.ui.client.status_sheet import StatusSheet
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.steps import retype


@pytest.fixture
def sheet(qtbot: QtBot) -> StatusSheet:
    made = StatusSheet(None, status=Status.INTERMEDIATE, years=1.0)
    qtbot.addWidget(made)
    made.show()
    return made


def test_what_was_known_stands_there_already(sheet: StatusSheet) -> None:
    assert sheet.years_trained.value() == 1.0
    assert sheet.regular.isChecked()
    assert sheet.answer.text() == "intermediate"


def test_the_answer_follows_every_question(sheet: StatusSheet) -> None:
    retype(sheet.years_trained, "3")
    assert sheet.answer.text() == "advanced"
    retype(sheet.off, "0.5")
    assert "one step lower" in sheet.why.text()
    retype(sheet.off, "4")
    assert sheet.answer.text() == "novice"
    retype(sheet.off, "0")
    sheet.regular.setChecked(False)
    assert sheet.answer.text() == "novice"
    retype(sheet.years_trained, "two")
    assert sheet.answer.text() == ""
    sheet.try_keep()
    assert sheet.decision is None
    assert "'two' is not a number" in sheet.wrong.text()


def test_the_answer_is_taken_over(sheet: StatusSheet) -> None:
    sheet.try_keep()
    assert sheet.result() == StatusSheet.DialogCode.Accepted
    assert sheet.decision.status is Status.INTERMEDIATE


def test_everybody_can_use_it(sheet: StatusSheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
