"""A form that works: it cannot be left meanwhile, says what was done, and stays with an error."""

from __future__ import annotations

from threading import Event

import pytest
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui.busy_sheet import BusySheet


@pytest.fixture
def sheet(qtbot: QtBot, dressed) -> BusySheet:
    made = BusySheet(None, "Work", verb="Work", progress="Working")
    qtbot.addWidget(made)
    made.show()
    return made


def test_it_can_neither_be_left_nor_asked_again_until_it_is_over(
    sheet: BusySheet, qtbot: QtBot
) -> None:
    let_go = Event()
    sheet.work(lambda: let_go.wait(10), lambda went: f"It went: {went}.")
    try:
        assert sheet.progress.isVisible()
        assert not any(verb.isEnabled() for verb in sheet.verbs())
        sheet.reject()
        sheet.close()
        assert sheet.isVisible()
    finally:
        let_go.set()
    qtbot.waitUntil(lambda: not sheet.isVisible())
    assert sheet.result() == BusySheet.DialogCode.Accepted
    assert sheet.said == "It went: True."


def test_an_error_stands_and_it_can_be_tried_again(sheet: BusySheet, qtbot: QtBot) -> None:
    def fail() -> str:
        raise CoachError("The disk is full.", mend="Make room.")

    sheet.work(fail, str)
    qtbot.waitUntil(sheet.wrong.isVisible)
    assert "The disk is full." in sheet.wrong.text()
    assert sheet.said == ""
    assert not sheet.progress.isVisible()
    assert all(verb.isEnabled() for verb in sheet.verbs())
    sheet.work(lambda: 3, str)
    assert not sheet.wrong.isVisible()
    qtbot.waitUntil(lambda: sheet.said == "3")
