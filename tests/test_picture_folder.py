from __future__ import annotations

import os
import stat

import pytest

from app.domain.errors import CoachError
from app.exchange.files import FileTrouble
from app.picture_folder import PictureFolder


@pytest.fixture
def folder(tmp_path):
    file = tmp_path / "coach.weekloom"
    file.write_bytes(b"file")
    return PictureFolder.beside(str(file))


def test_a_picture_comes_back_under_its_name(folder):
    name = folder.add(b"picture")
    assert folder.read(name) == b"picture"
    assert folder.has(name)
    assert folder.names() == {name}
    assert folder.path.name == "coach.weekloom-pictures"


def test_folder_and_pictures_are_for_their_owner_whatever_the_mask(folder):
    before = os.umask(0)
    try:
        name = folder.add(b"picture")
    finally:
        os.umask(before)
    assert stat.S_IMODE(folder.path.stat().st_mode) == 0o700
    assert stat.S_IMODE((folder.path / name).stat().st_mode) == 0o600


def test_nothing_half_written_stays(folder, monkeypatch):
    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FileTrouble, match="No space"):
        folder.add(b"picture")
    assert list(folder.path.iterdir()) == []


def test_removing_twice_is_no_trouble(folder):
    name = folder.add(b"picture")
    folder.remove([name])
    folder.remove([name])
    assert not folder.has(name)
    with pytest.raises(FileTrouble):
        folder.read(name)


@pytest.mark.parametrize("name", ["", "..", "../coach.weekloom", "a/b.jpg", "a\\b.jpg", ".hidden"])
def test_a_name_never_leads_out_of_the_folder(folder, name):
    with pytest.raises(CoachError, match="no name of a picture"):
        folder.read(name)


def test_without_a_file_there_is_no_folder():
    with pytest.raises(CoachError, match="beside the coach's file"):
        PictureFolder.beside("the file in memory")


def test_there_are_none_before_the_first(folder):
    assert folder.names() == frozenset()


def test_a_picture_that_has_its_name_already_is_taken_in_under_it(tmp_path):
    folder = PictureFolder(tmp_path / "coach.db")
    folder.take_in("front.jpg", b"one")
    folder.take_in("front.jpg", b"two")
    assert folder.read("front.jpg") == b"two"
    with pytest.raises(CoachError):
        folder.take_in("../front.jpg", b"three")
    assert folder.names() == {"front.jpg"}


def test_what_nobody_names_is_swept_away_but_not_what_is_new(folder):
    kept, old, new = (folder.add(b"picture") for _ in range(3))
    now = (folder.path / new).stat().st_mtime
    os.utime(folder.path / old, (now - 7200, now - 7200))
    os.utime(folder.path / kept, (now - 7200, now - 7200))
    assert folder.sweep(frozenset({kept}), now=now) == 1
    assert folder.names() == {kept, new}
