"""A large export runs beside the window, can be stopped, and says what went wrong."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui.export_sheet import ExportSheet, with_ending


def test_what_the_work_gave_is_there_when_it_closes(qtbot: QtBot, dressed):
    sheet = ExportSheet("Export everything", "all.zip", lambda _cancelled: 42, None)
    qtbot.addWidget(sheet)
    if sheet.given is None:
        with qtbot.waitSignal(sheet.accepted, timeout=10_000):
            pass
    assert sheet.given == 42


def test_a_failure_is_said_and_can_be_tried_again(qtbot: QtBot, dressed):
    tries: list[int] = []

    def work(_cancelled: Callable[[], bool]) -> str:
        tries.append(1)
        if len(tries) == 1:
            raise CoachError("There is no room left.", mend="Free some space.")
        return "written"

    sheet = ExportSheet("Export everything", "all.zip", work, None)
    qtbot.addWidget(sheet)
    sheet.show()
    qtbot.waitUntil(lambda: bool(sheet.wrong.text()), timeout=10_000)
    assert "no room left" in sheet.wrong.text()
    assert sheet.keep_button.isVisible()
    with qtbot.waitSignal(sheet.accepted, timeout=10_000):
        sheet.keep_button.click()
    assert sheet.given == "written"


def test_it_stops_when_asked_and_only_closes_once_the_work_has_ended(qtbot: QtBot, dressed):
    go_on = threading.Event()
    asked: list[bool] = []

    def work(cancelled: Callable[[], bool]) -> str:
        go_on.wait(10)
        asked.append(cancelled())
        return "half"

    sheet = ExportSheet("Export everything", "all.zip", work, None)
    qtbot.addWidget(sheet)
    sheet.show()
    sheet.close()
    assert sheet.isVisible()
    with qtbot.waitSignal(sheet.rejected, timeout=10_000):
        go_on.set()
    assert (asked, sheet.given) == ([True], None)


def test_a_name_without_an_ending_gets_one():
    assert with_ending("all", ".weekloom.zip") == Path("all.weekloom.zip")
    assert with_ending("all.zip", ".weekloom.zip") == Path("all.zip")
