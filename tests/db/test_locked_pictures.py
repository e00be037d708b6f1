"""Locked pictures: none is seen without the passphrase, none comes back other than it was kept."""

from __future__ import annotations

import os
import random
import stat
from pathlib import Path

import pytest

from db import locked_pictures as locked
from db.errors import Cause, StoreFailure
from db.passphrase import PAGE_BYTES, looks_locked
from tests.db.test_passphrase import KEY, OTHER

ONE, TWO = b"\xff\xd8 zq one " * 900, b"\xff\xd8 zq two " * 700


@pytest.fixture
def made(tmp_path: Path) -> Path:
    return locked.make(tmp_path, KEY, [("one.jpg", ONE), ("two.jpg", TWO)])


def test_pictures_come_back_by_name_and_only_with_the_passphrase(tmp_path, made):
    assert locked.find(tmp_path, KEY) == made
    assert locked.find(tmp_path, OTHER) is None
    assert locked.read(made, KEY, "one.jpg") == ONE
    assert locked.read(made, KEY, "none.jpg") is None
    assert set(locked.added(made, KEY)) == {"one.jpg", "two.jpg"}
    with pytest.raises(StoreFailure):
        locked.read(made, OTHER, "one.jpg")


def test_no_byte_of_a_picture_or_its_name_can_be_read(made):
    assert looks_locked(made)
    for word in (b"zq one", b"one.jpg", b"pictures", b"SQLite"):
        assert word not in made.read_bytes()


def test_adding_replaces_and_removing_leaves_no_room_behind(made):
    locked.add(made, KEY, "one.jpg", TWO)
    assert locked.read(made, KEY, "one.jpg") == TWO
    before = made.stat().st_size
    locked.remove(made, KEY, ["one.jpg", "none.jpg"])
    assert set(locked.added(made, KEY)) == {"two.jpg"}
    assert made.stat().st_size < before
    assert list(made.parent.iterdir()) == [made]


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_the_file_is_for_its_owner_whatever_the_mask(tmp_path):
    before = os.umask(0)
    try:
        made = locked.make(tmp_path / "new", KEY)
    finally:
        os.umask(before)
    assert stat.S_IMODE(made.stat().st_mode) == 0o600
    assert stat.S_IMODE(made.parent.stat().st_mode) == 0o700


def test_nothing_is_left_of_one_that_could_not_be_made_whole(tmp_path, monkeypatch):
    def broken():
        yield "one.jpg", ONE
        raise OSError(5, "Input/output error")

    with pytest.raises(StoreFailure) as failure:
        locked.make(tmp_path, KEY, broken())
    assert failure.value.cause is Cause.DEVICE
    monkeypatch.setattr(locked, "_sums", lambda _raw: {})
    with pytest.raises(StoreFailure):
        locked.make(tmp_path, KEY, [("one.jpg", ONE)])
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_file_never_gives_another_picture(made):
    sound = made.read_bytes()
    chance = random.Random(20261129)  # no secret
    refused = []
    for _ in range(500):
        bytes_now = bytearray(sound)
        if chance.random() < 0.2:
            bytes_now = bytes_now[: chance.randrange(PAGE_BYTES, len(sound))]
        else:
            for _flip in range(chance.choice((1, 8, 64))):
                at = chance.randrange(PAGE_BYTES, len(sound))
                bytes_now[at] ^= 1 << chance.randrange(8)
        made.write_bytes(bytes_now)
        for name, picture in (("one.jpg", ONE), ("two.jpg", TWO)):
            try:
                assert locked.read(made, KEY, name) == picture
            except StoreFailure as failure:
                refused.append(failure)
    assert len(refused) >= 500
    assert {failure.cause for failure in refused} == {Cause.DAMAGED}
    assert all("pictures" in failure.what for failure in refused)
    made.write_bytes(sound)
    assert locked.read(made, KEY, "two.jpg") == TWO


def test_a_damaged_first_page_is_told_from_another_passphrase(tmp_path, made):
    bytes_now = bytearray(made.read_bytes())
    bytes_now[100] ^= 1
    made.write_bytes(bytes_now)
    assert locked.find(tmp_path, KEY) == made
    with pytest.raises(StoreFailure) as failure:
        locked.added(made, KEY)
    assert failure.value.cause is Cause.DAMAGED
