"""The commands on the file stand in the menu of the file."""

from __future__ import annotations

import zipfile

from PySide6.QtWidgets import QFileDialog

from app.erasure import put_away
from app.ui import erase_dialog, export_sheet, file_actions, forms, lock_sheet, take_in_sheet
from app.ui.actions import ACTIONS
from app.ui.file_actions import FILE_ACTIONS, PERSON_ACTIONS


def test_they_are_among_the_commands_of_the_window():
    assert {*FILE_ACTIONS, *PERSON_ACTIONS} <= set(ACTIONS)
    for action in (*FILE_ACTIONS, *PERSON_ACTIONS):
        assert action.tip


def test_a_file_in_memory_has_nothing_to_lock(window):
    file_actions.lock(window)
    assert "nothing to lock" in window.statusBar().currentMessage()


def test_what_the_sheet_did_is_said(window, monkeypatch, tmp_path):
    said: list[str] = []

    def run(sheet: lock_sheet.LockSheet) -> int:
        sheet.said = "The file is locked with its passphrase."
        return 1

    monkeypatch.setattr(window.store, "path", tmp_path / "coach.db")
    monkeypatch.setattr(lock_sheet.LockSheet, "exec", run)
    monkeypatch.setattr(forms, "tell", lambda _parent, _title, sentence: said.append(sentence))
    file_actions.lock(window)
    assert said == ["The file is locked with its passphrase."]


def test_an_erased_client_is_off_the_lists(window, monkeypatch):
    said: list[str] = []

    def run(dialog: erase_dialog.EraseDialog) -> int:
        window.store.erase_client(dialog.client_id)
        put_away(window.bench.desk, dialog.client_id)
        dialog.said = "The client is erased from the file."
        return 1

    monkeypatch.setattr(erase_dialog.EraseDialog, "exec", run)
    monkeypatch.setattr(forms, "tell", lambda _parent, _title, sentence: said.append(sentence))
    file_actions.erase(window)
    assert said == ["The client is erased from the file."]
    assert window.bench.desk.work is None
    assert window.store.clients() == ()


def test_all_that_is_held_goes_into_one_file(window, monkeypatch, tmp_path, qtbot):
    target = tmp_path / "runa"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, **__: (str(target), ""))
    monkeypatch.setattr(export_sheet.ExportSheet, "exec", lambda sheet: until_done(qtbot, sheet))
    written = file_actions.save_held(window)
    assert written == tmp_path / "runa.held.zip"
    with zipfile.ZipFile(written) as packed:
        assert {"person.json", "everything.pdf", "README.txt"} <= set(packed.namelist())
    assert "read by whoever" in window.statusBar().currentMessage()


def test_everything_goes_into_one_file(window, monkeypatch, tmp_path, qtbot):
    target = tmp_path / "all.zip"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, **__: (str(target), ""))
    monkeypatch.setattr(export_sheet.ExportSheet, "exec", lambda sheet: until_done(qtbot, sheet))
    assert file_actions.save_whole(window) == target
    with zipfile.ZipFile(target) as packed:
        assert "tables/clients.jsonl" in packed.namelist()


def test_nothing_is_written_where_no_file_was_chosen(window, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, **__: ("", ""))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_, **__: ("", ""))
    assert file_actions.save_held(window) is None
    assert file_actions.save_whole(window) is None
    assert not file_actions.take_in_whole(window)


def test_an_export_that_is_taken_in_is_said(window, monkeypatch, tmp_path):
    said: list[str] = []

    def run(sheet: take_in_sheet.TakeInSheet) -> int:
        sheet.said = "The file now holds 1 client."
        return 1

    monkeypatch.setattr(window.store, "path", tmp_path / "coach.db")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_, **__: ("all.zip", ""))
    monkeypatch.setattr(take_in_sheet.TakeInSheet, "exec", run)
    monkeypatch.setattr(forms, "tell", lambda _parent, _title, sentence: said.append(sentence))
    assert file_actions.take_in_whole(window)
    assert said == ["The file now holds 1 client."]


def until_done(qtbot, sheet: export_sheet.ExportSheet) -> int:
    qtbot.addWidget(sheet)
    qtbot.waitUntil(lambda: sheet.given is not None, timeout=60_000)
    return sheet.result()
