"""The coach's name is kept for booklets, and an empty one is refused in the sheet."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from app.domain.work import Coach
from app.ui.coach_sheet import CoachSheet
from db.store import Store


def test_what_is_entered_is_kept(qtbot: QtBot) -> None:
    store = Store.in_memory()
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    sheet.name.setText("  Tavi   Hellmark ")
    sheet.contact.setText("gear room")
    sheet.team.setText("Ombrel Valley")
    sheet.keep_button.click()
    assert sheet.result() == CoachSheet.DialogCode.Accepted
    assert store.coach() == Coach("Tavi Hellmark", "gear room", "Ombrel Valley")
    again = CoachSheet(store, None)
    qtbot.addWidget(again)
    assert again.name.text() == "Tavi Hellmark"
    store.close()


def test_an_empty_name_keeps_the_sheet_open_with_a_sentence(qtbot: QtBot) -> None:
    store = Store.in_memory()
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    sheet.show()
    sheet.keep_button.click()
    assert sheet.isVisible()
    assert sheet.wrong.text().startswith("The coach has no name.")
    assert store.coach() == Coach()
    store.close()
