"""The commands on the file stand in the menu of the file."""

from __future__ import annotations

from app.erasure import put_away
from app.ui import erase_dialog, file_actions, forms, lock_sheet
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
