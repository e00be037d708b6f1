"""A locked file asks for its passphrase; a file that was lost is opened where it is kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QDialog, QMessageBox

from app import moved
from app.moved import is_settled, moved_to, note_move
from app.ui import open_store as module
from app.ui.open_store import UnlockSheet, open_store, place_of
from db.relock import relock
from db.store import Store
from tests.db.samples import PLAN, filled_file
from tests.db.test_passphrase import KEY


@pytest.fixture(autouse=True)
def note(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "state" / "kept-elsewhere.json"
    monkeypatch.setattr(moved, "note_path", lambda: path)
    return path


@pytest.fixture
def locked(tmp_path: Path) -> Path:
    path = filled_file(tmp_path / "coach.db")
    relock(path, old=None, new=KEY)
    return path


def answer(monkeypatch, act) -> None:
    """Lets `act` answer the sheet that asks for the passphrase."""

    def run(sheet: QDialog) -> int:
        act(sheet)
        return sheet.result()

    monkeypatch.setattr(QDialog, "exec", run)
    monkeypatch.setattr(UnlockSheet, "exec", run)


def test_a_plain_file_opens_without_a_question(tmp_path):
    store = open_store(filled_file(tmp_path / "coach.db"))
    assert store.load_program(PLAN.id) == PLAN
    store.close()


def test_a_locked_file_opens_with_its_passphrase_typed_and_enter(qtbot, locked, monkeypatch):
    def type_it(sheet: UnlockSheet) -> None:
        qtbot.addWidget(sheet)
        qtbot.keyClicks(sheet.field.edit, KEY.text)
        assert sheet.keep_button.isDefault()
        sheet.keep_button.click()

    answer(monkeypatch, type_it)
    store = open_store(locked)
    assert store.load_program(PLAN.id) == PLAN
    assert store.key == KEY
    store.close()


def test_a_wrong_passphrase_is_said_and_never_called_damage(qtbot, locked, monkeypatch):
    def type_wrong_then_right(sheet: UnlockSheet) -> None:
        qtbot.addWidget(sheet)
        qtbot.keyClicks(sheet.field.edit, "another ridge")
        sheet.try_keep()
        assert "does not open" in sheet.wrong.text()
        assert "damage" not in sheet.wrong.text()
        assert "ridge" not in sheet.wrong.text()
        assert sheet.field.edit.selectedText()
        qtbot.keyClicks(sheet.field.edit, KEY.text)
        sheet.try_keep()

    answer(monkeypatch, type_wrong_then_right)
    store = open_store(locked)
    assert store is not None
    store.close()


def test_nothing_opens_where_nobody_knows_the_passphrase(qtbot, locked, monkeypatch):
    answer(monkeypatch, lambda sheet: sheet.reject())
    before = locked.read_bytes()
    assert open_store(locked) is None
    assert locked.read_bytes() == before


def test_what_is_no_file_of_ours_is_said(tmp_path, monkeypatch):
    path = tmp_path / "letter.txt"
    path.write_text("Dear Runa", encoding="utf-8")
    said: list[str] = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: said.append(box.text()))
    assert open_store(path) is None
    assert len(said) == 1
    assert "not a Weekloom file" in said[0]


def test_a_lost_file_is_opened_where_it_is_kept(tmp_path):
    new = filled_file(tmp_path / "new.db")
    note_move(tmp_path / "old.db", new)
    assert place_of(tmp_path / "old.db") == new
    store = open_store(tmp_path / "old.db")
    assert store.path == new
    store.close()


def test_of_two_places_the_coach_chooses_and_is_asked_once(tmp_path, monkeypatch):
    old, new = filled_file(tmp_path / "old.db"), filled_file(tmp_path / "new.db")
    asked: list[tuple[Path, Path]] = []

    def choose_new(one: Path, other: Path) -> bool:
        asked.append((one, other))
        return True

    note_move(old, new)
    monkeypatch.setattr(module, "ask_new", choose_new)
    assert (place_of(old), place_of(old)) == (new, new)
    assert asked == [(old, new)]
    assert is_settled(old)


def test_the_old_place_counts_again_where_it_is_chosen(tmp_path, monkeypatch):
    old, new = filled_file(tmp_path / "old.db"), filled_file(tmp_path / "new.db")
    note_move(old, new)
    monkeypatch.setattr(module, "ask_new", lambda *_: False)
    assert place_of(old) == old
    assert moved_to(old) is None


def test_the_question_names_both_places_and_offers_the_new_one_first(qapp, monkeypatch):
    seen: list[str] = []

    def press_default(box: QMessageBox) -> None:
        seen.append(box.informativeText())
        box.defaultButton().click()

    monkeypatch.setattr(QMessageBox, "exec", press_default)
    assert module.ask_new(Path("old.db"), Path("new.db"))
    assert "old.db" in seen[0]
    assert "new.db" in seen[0]


def test_the_sheet_holds_no_store_it_could_not_open(qtbot, locked):
    sheet = UnlockSheet(locked, lambda key: Store.open(locked, key=key))
    qtbot.addWidget(sheet)
    sheet.try_keep()
    assert sheet.store is None
    assert sheet.wrong.text()
