"""The coach's name is kept for booklets, and an empty one is refused in the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.work import Coach
from app.ui.coach_sheet import MARK, CoachSheet, kept_mark
from db.store import Store
from tests.booklet.test_mark import picture


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


def test_a_picture_becomes_the_mark_and_can_be_taken_away(qtbot: QtBot, tmp_path: Path) -> None:
    store = Store.in_memory()
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    sheet.name.setText("Tavi Hellmark")
    path = tmp_path / "mark.png"
    path.write_bytes(picture())
    sheet.take_mark(path)
    assert not sheet.picture.pixmap().isNull()
    assert kept_mark(store) == b""
    sheet.keep()
    assert kept_mark(store).startswith(b"\x89PNG")
    again = CoachSheet(store, None)
    qtbot.addWidget(again)
    assert again.remove_button.isEnabled()
    again.remove_button.click()
    again.keep()
    assert kept_mark(store) == b""
    store.close()


def test_what_is_no_picture_is_said_and_the_mark_stays(qtbot: QtBot, tmp_path: Path) -> None:
    store = Store.in_memory()
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    path = tmp_path / "mark.svg"
    path.write_text("<svg/>", encoding="utf-8")
    sheet.take_mark(path)
    assert "neither a PNG nor a JPEG" in sheet.wrong.text()
    assert sheet.mark == b""
    store.close()


def test_a_mark_that_cannot_be_read_is_none(qtbot: QtBot) -> None:
    store = Store.in_memory()
    store.set_setting(MARK, "not base64 at all")
    assert kept_mark(store) == b""
    store.close()


def test_cancelled_nothing_changes(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store.in_memory()
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    sheet.choose_button.click()
    assert sheet.mark == b""
    store.close()
