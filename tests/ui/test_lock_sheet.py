"""Locking by the sheet: what it says first, what it refuses, and what it leaves."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.locking import Changed
from app.picture_folder import PictureFolder
from app.ui import lock_sheet
from app.ui.lock_sheet import LockSheet
from db.backup import back_up
from db.passphrase import looks_locked
from db.store import Store
from tests.db.samples import PLAN, filled_file
from tests.db.test_passphrase import KEY, OTHER


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    path = filled_file(tmp_path / "coach.db")
    back_up(path)
    made = Store.open(path)
    yield made
    made.close()


def opened(qtbot: QtBot, store: Store) -> LockSheet:
    sheet = LockSheet(store, None)
    qtbot.addWidget(sheet)
    sheet.show()
    qtbot.waitExposed(sheet)
    return sheet


def finish(qtbot: QtBot, sheet: LockSheet) -> None:
    with qtbot.waitSignal(sheet.accepted, timeout=60_000):
        sheet.keep_button.click()


def texts(sheet: LockSheet) -> str:
    from PySide6.QtWidgets import QLabel

    return " ".join(label.text() for label in sheet.findChildren(QLabel) if label.isVisible())


def test_a_forgotten_passphrase_is_spoken_of_before_the_first_use(qtbot, store):
    said = texts(opened(qtbot, store))
    assert "forgotten passphrase cannot be found out" in said
    assert "stay readable" in said


def test_it_is_locked_by_keyboard_with_its_copies(qtbot, store):
    sheet = opened(qtbot, store)
    assert sheet.copies.isVisible()
    for field in (sheet.first, sheet.second):
        field.setFocus()
        qtbot.keyClicks(field.edit, KEY.text)
    finish(qtbot, sheet)
    assert "locked" in sheet.said
    assert "1 copy" in sheet.said
    assert looks_locked(store.path)
    assert (sheet.first.text, sheet.second.text) == ("", "")
    assert store.load_program(PLAN.id) == PLAN


@pytest.mark.parametrize(
    ("first", "second"), [("short", "short"), ("a long ridge", "a long rigde")]
)
def test_weak_and_differing_passphrases_are_said_and_nothing_happens(qtbot, store, first, second):
    sheet = opened(qtbot, store)
    before = store.path.read_bytes()
    qtbot.keyClicks(sheet.first.edit, first)
    qtbot.keyClicks(sheet.second.edit, second)
    sheet.keep_button.click()
    assert sheet.wrong.text()
    assert first not in sheet.wrong.text()
    assert sheet.isVisible()
    assert store.path.read_bytes() == before


def test_another_passphrase_needs_the_present_one(qtbot, store):
    store.change_passphrase(KEY)
    sheet = opened(qtbot, store)
    qtbot.keyClicks(sheet.present.edit, "not the one")
    for field in (sheet.first, sheet.second):
        qtbot.keyClicks(field.edit, OTHER.text)
    sheet.keep_button.click()
    assert "not the passphrase" in sheet.wrong.text()
    sheet.present.edit.setText(KEY.text)
    finish(qtbot, sheet)
    assert store.key == OTHER


def test_the_lock_is_taken_away(qtbot, store):
    store.change_passphrase(KEY)
    sheet = opened(qtbot, store)
    qtbot.keyClicks(sheet.present.edit, KEY.text)
    sheet.remove.click()
    assert not sheet.first.isEnabled()
    assert sheet.keep_button.text() == "Take the lock away"
    finish(qtbot, sheet)
    assert not looks_locked(store.path)
    assert "no lock" in sheet.said


def test_a_failure_is_said_and_the_sheet_stays(qtbot, store):
    sheet = opened(qtbot, store)
    for field in (sheet.first, sheet.second):
        qtbot.keyClicks(field.edit, KEY.text)
    store.path.rename(store.path.with_name("moved.db"))
    sheet.keep_button.click()
    qtbot.waitUntil(lambda: bool(sheet.wrong.text()), timeout=60_000)
    assert "no longer where it was" in sheet.wrong.text()
    assert sheet.keep_button.isEnabled()


def test_it_cannot_be_closed_while_it_works(qtbot, store):
    sheet = opened(qtbot, store)
    for field in (sheet.first, sheet.second):
        qtbot.keyClicks(field.edit, KEY.text)
    sheet.keep_button.click()
    sheet.reject()
    sheet.close()
    assert sheet.isVisible()
    with qtbot.waitSignal(sheet.accepted, timeout=60_000):
        pass


def test_pictures_go_under_the_lock_with_the_file(qtbot, store):
    name = PictureFolder.of(store).add(b"zqpixelsqz")
    sheet = opened(qtbot, store)
    for field in (sheet.first, sheet.second):
        qtbot.keyClicks(field.edit, KEY.text)
    finish(qtbot, sheet)
    folder = PictureFolder.of(store)
    assert folder.read(name) == b"zqpixelsqz"
    assert [p for p in folder.path.iterdir() if b"zqpixelsqz" in p.read_bytes()] == []


def test_what_could_not_be_removed_is_said(qtbot, store, monkeypatch):
    monkeypatch.setattr(
        lock_sheet, "change_lock", lambda *_args, **_named: Changed(pictures_left=2)
    )
    sheet = opened(qtbot, store)
    for field in (sheet.first, sheet.second):
        qtbot.keyClicks(field.edit, KEY.text)
    finish(qtbot, sheet)
    assert "2 files of pictures could not be removed" in sheet.said
