"""The end of keeping is told and asked about; nothing goes unless the coach says so, twice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtWidgets import QDialog

from app.domain.due import Need
from app.ui import file_actions, keeping_sheet
from app.ui.client import open_form
from app.ui.erase_dialog import EraseDialog
from app.ui.keeping_sheet import ANSWERS, Answer, KeepingSheet, propose
from app.ui.window import Window
from tests.ui.desks import RUNA

TODAY = date(2026, 11, 29)


@pytest.fixture
def done(monkeypatch) -> list[str]:
    """What the answers opened."""
    opened: list[str] = []
    monkeypatch.setattr(keeping_sheet, "this_day", lambda: TODAY)
    monkeypatch.setattr(open_form, "record", lambda *_: opened.append("record"))
    for name in ("erase", "save_held"):
        monkeypatch.setattr(file_actions, name, lambda _w, name=name: opened.append(name))
    return opened


def kept_until(window: Window, day: date) -> None:
    client = replace(window.bench.desk.client, keep_until=day, consent=None)
    window.bench.keep_client("Change the record", client)


def answer(monkeypatch, *answers: Answer | None) -> list[str]:
    left, shown = list(answers), []

    def run(sheet: KeepingSheet) -> int:
        shown.append(sheet.windowTitle())
        chosen = left.pop(0)
        if chosen is None:
            sheet.reject()
        else:
            sheet.choices[chosen].setChecked(True)
            sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(KeepingSheet, "exec", run)
    return shown


@pytest.mark.parametrize(
    ("answers", "opened"),
    [
        ([None], []),
        ([Answer.ERASE], ["erase"]),
        ([Answer.LONGER], ["record"]),
        ([Answer.SAVE, None], ["save_held"]),
        ([Answer.SAVE, Answer.ERASE], ["save_held", "erase"]),
    ],
)
@pytest.mark.parametrize("late", [0, 40])
def test_each_answer_opens_what_does_it(window, done, monkeypatch, answers, opened, late):
    kept_until(window, TODAY - timedelta(days=late))
    shown = answer(monkeypatch, *answers)
    propose(window)
    assert done == opened
    assert set(shown) == {"Records of the client"}
    assert window.store.load_client(RUNA.id).name == RUNA.name


@pytest.mark.parametrize("until", [TODAY + timedelta(days=1), None])
def test_before_the_end_what_was_agreed_is_shown(window, done, monkeypatch, until):
    kept_until(window, until)
    shown = answer(monkeypatch)
    propose(window)
    assert (done, shown) == (["record"], [])


def test_the_due_list_leads_there(window, done, monkeypatch):
    kept_until(window, TODAY)
    answer(monkeypatch, Answer.ERASE)
    window.home.need_chosen.emit(RUNA.id, Need.KEEP_UNTIL)
    assert done == ["erase"]


def test_erasing_asks_by_itself_and_cancelling_keeps_all(window, monkeypatch):
    monkeypatch.setattr(keeping_sheet, "this_day", lambda: TODAY)
    kept_until(window, TODAY)
    answer(monkeypatch, Answer.ERASE)
    asked: list[str] = []

    def look(dialog: EraseDialog) -> int:
        asked.append(dialog.windowTitle())
        return 0

    monkeypatch.setattr(EraseDialog, "exec", look)
    propose(window)
    assert asked == ["Erase the client"]
    assert window.store.load_client(RUNA.id).name == RUNA.name


def test_it_says_how_late_it_is_and_saving_comes_first(qtbot):
    client = replace(RUNA, keep_until=TODAY - timedelta(days=3), consent=None)
    sheet = KeepingSheet(client, TODAY - timedelta(days=3), None, today=TODAY)
    qtbot.addWidget(sheet)
    words = " ".join(label.text() for label in sheet.findChildren(type(sheet.wrong)))
    assert "Records kept 3 days longer than agreed" in words
    assert sheet.answer is Answer.SAVE
    assert list(sheet.choices) == list(ANSWERS)
    sheet.try_keep()
    assert sheet.result() == QDialog.DialogCode.Accepted
