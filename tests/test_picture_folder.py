from __future__ import annotations

import os
import stat
import time

import pytest

from app.domain.errors import CoachError
from app.exchange.files import FileTrouble
from app.picture_folder import PictureFolder, relocked
from db import locked_pictures
from tests.db.test_passphrase import KEY, OTHER
from tests.kept import KeptFile


@pytest.fixture
def folder(tmp_path):
    file = tmp_path / "coach.weekloom"
    file.write_bytes(b"file")
    return PictureFolder.of(KeptFile(file))


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
        PictureFolder.of(KeptFile(None))


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


def test_what_a_writer_left_in_the_middle_is_no_picture_and_is_swept_away(folder):
    kept = folder.add(b"picture")
    part = folder.path / ".ended.jpg"
    part.write_bytes(b"half")
    now = part.stat().st_mtime
    assert folder.names() == {kept}
    folder.sweep(frozenset({kept}), now=now)
    assert part.exists()
    folder.sweep(frozenset({kept}), now=now + 7200)
    assert not part.exists()


# ------------------------------------------------------------------------ under a passphrase


@pytest.fixture
def sealed(tmp_path):
    return PictureFolder(tmp_path / "coach.weekloom", KEY)


def readable(folder):
    """Files of the folder in which one sees a picture."""
    return [p.name for p in folder.path.rglob("*") if p.is_file() and b"picture" in p.read_bytes()]


def test_a_locked_folder_does_all_that_a_plain_one_does_and_shows_nothing(sealed):
    assert sealed.names() == frozenset()
    first, second = sealed.add(b"picture one"), sealed.add(b"picture two")
    assert sealed.read(first) == b"picture one"
    assert sealed.has(second)
    assert sealed.names() == {first, second}
    assert readable(sealed) == []
    assert len(list(sealed.path.iterdir())) == 1
    sealed.remove([first])
    assert sealed.names() == {second}
    with pytest.raises(FileTrouble):
        sealed.read(first)
    assert PictureFolder(sealed.path.parent / "coach.weekloom", OTHER).names() == frozenset()


def test_the_sweep_knows_the_age_of_locked_pictures(sealed, monkeypatch):
    monkeypatch.setattr(time, "time", lambda: 1_000_000.0)
    old, kept = sealed.add(b"picture"), sealed.add(b"picture")
    monkeypatch.setattr(time, "time", lambda: 1_007_000.0)
    new = sealed.add(b"picture")
    assert sealed.sweep(frozenset({kept}), now=1_007_200.0) == 1
    assert sealed.names() == {kept, new}
    assert old not in sealed.names()


def test_plain_pictures_beside_a_locked_file_are_shown_and_locked_in(folder, sealed):
    name = folder.add(b"picture")
    other = sealed.add(b"a picture too")
    (folder.path / ".half.jpg").write_bytes(b"picture")
    assert sealed.read(name) == b"picture"
    assert sealed.names() == {name, other}
    assert sealed.lock_in() == 1
    assert readable(folder) == []
    assert (sealed.read(name), sealed.read(other)) == (b"picture", b"a picture too")
    assert sealed.lock_in() == 0


def test_pictures_go_from_no_lock_to_one_to_another_and_back(folder):
    file = folder.path.parent / "coach.weekloom"
    name = folder.add(b"picture")
    for old, new in ((None, KEY), (KEY, OTHER), (OTHER, OTHER), (OTHER, None)):
        with relocked(file, old=old, new=new) as left:
            for key in (old, new):  # whichever lock the file has, its pictures are there
                assert PictureFolder(file, key).read(name) == b"picture"
        assert left == []
        assert PictureFolder(file, new).read(name) == b"picture"
        assert len(list(folder.path.iterdir())) == 1
        assert (readable(folder) == []) is (new is not None)


@pytest.mark.parametrize(("old", "new"), [(None, KEY), (KEY, OTHER), (KEY, None)])
def test_where_the_file_keeps_its_lock_so_do_the_pictures(tmp_path, old, new):
    file = tmp_path / "coach.weekloom"
    name = PictureFolder(file, old).add(b"picture")
    before = sorted(p.name for p in PictureFolder(file).path.iterdir())
    with pytest.raises(RuntimeError), relocked(file, old=old, new=new):
        raise RuntimeError
    assert sorted(p.name for p in PictureFolder(file).path.iterdir()) == before
    assert PictureFolder(file, old).read(name) == b"picture"


def test_a_picture_that_cannot_be_read_stops_everything(folder, monkeypatch):
    file = folder.path.parent / "coach.weekloom"
    names = [folder.add(b"picture"), folder.add(b"picture")]
    read = PictureFolder.read

    def failing(self, name):
        if name == max(names):
            raise FileTrouble("gone away")
        return read(self, name)

    monkeypatch.setattr(PictureFolder, "read", failing)
    reached = []
    with pytest.raises(FileTrouble), relocked(file, old=None, new=KEY):
        reached.append(True)
    assert reached == []
    assert sorted(p.name for p in folder.path.iterdir()) == sorted(names)


def test_what_cannot_be_removed_afterwards_is_told(folder, monkeypatch):
    file = folder.path.parent / "coach.weekloom"
    name = folder.add(b"picture")
    drop = locked_pictures.drop

    def refusing(path):
        if path.name == name:
            raise PermissionError(13, "Permission denied")
        drop(path)

    monkeypatch.setattr(locked_pictures, "drop", refusing)
    with relocked(file, old=None, new=KEY) as left:
        pass
    assert len(left) == 1
    monkeypatch.undo()
    assert PictureFolder(file, KEY).lock_in() == 1
    assert readable(folder) == []


def test_pictures_of_an_earlier_lock_come_back_with_its_passphrase(tmp_path):
    """A copy without a lock was put back: its file has none, the pictures have."""
    file = tmp_path / "coach.weekloom"
    before = PictureFolder(file, KEY).add(b"picture before")
    plain = PictureFolder(file)
    assert plain.sealed() == tuple(plain.path.iterdir())
    since = plain.add(b"picture since")
    with relocked(file, old=None, new=KEY):
        pass
    again = PictureFolder(file, KEY)
    assert again.names() == {before, since}
    assert again.sealed() == ()
    assert len(list(again.path.iterdir())) == 1
