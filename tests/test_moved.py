"""The next start knows where a file is kept since its place was lost."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from app.moved import forget_move, is_settled, moved_to, note_move, settle_move


@pytest.fixture
def note(tmp_path: Path) -> Path:
    return tmp_path / "state" / "kept-elsewhere.json"


def made(path: Path) -> Path:
    path.write_bytes(b"")
    return path


def test_a_move_is_found_again_until_it_is_forgotten(tmp_path, note):
    old, new = tmp_path / "old.db", made(tmp_path / "new.db")
    assert moved_to(old, note=note) is None
    assert note_move(old, new, note=note)
    assert moved_to(old, note=note) == new
    assert moved_to(new, note=note) is None
    forget_move(old, note=note)
    assert moved_to(old, note=note) is None


def test_a_file_that_was_lost_twice_is_followed(tmp_path, note):
    first, second, third = (tmp_path / name for name in ("1.db", "2.db", "3.db"))
    note_move(first, second, note=note)
    note_move(second, made(third), note=note)
    assert moved_to(first, note=note) == third


def test_a_ring_and_a_new_place_that_is_gone_lead_nowhere(tmp_path, note):
    one, two = made(tmp_path / "1.db"), made(tmp_path / "2.db")
    note_move(one, two, note=note)
    note_move(two, one, note=note)
    assert moved_to(one, note=note) is None
    note_move(one, tmp_path / "nowhere.db", note=note)
    assert moved_to(one, note=note) is None


def test_what_was_settled_is_not_asked_again_but_a_new_loss_is(tmp_path, note):
    old, new = tmp_path / "old.db", made(tmp_path / "new.db")
    note_move(old, new, note=note)
    assert not is_settled(old, note=note)
    settle_move(old, note=note)
    assert is_settled(old, note=note)
    note_move(old, new, note=note)
    assert not is_settled(old, note=note)


@pytest.mark.parametrize("text", ["", "[1]", '{"a": 1}', "not json", '{"a": {"to": 3}}'])
def test_a_note_that_cannot_be_read_is_no_note(tmp_path, note, text):
    note.parent.mkdir()
    note.write_text(text, encoding="utf-8")
    assert moved_to(tmp_path / "old.db", note=note) is None
    assert note_move(tmp_path / "old.db", made(tmp_path / "new.db"), note=note)


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_the_note_is_the_owners_alone(tmp_path, note):
    mask = os.umask(0)
    try:
        note_move(tmp_path / "old.db", tmp_path / "new.db", note=note)
    finally:
        os.umask(mask)
    assert note.stat().st_mode & 0o777 == 0o600
    assert note.parent.stat().st_mode & 0o777 == 0o700


def test_a_place_that_takes_no_note_is_no_failure(tmp_path):
    (tmp_path / "state").write_text("", encoding="utf-8")
    note = tmp_path / "state" / "kept-elsewhere.json"
    assert not note_move(tmp_path / "old.db", tmp_path / "new.db", note=note)
