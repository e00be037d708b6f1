"""The lock of the file goes for the copies beside it too, where it is wanted and possible."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.domain.errors import CoachError
from app.locking import change_lock, copies_of, require_new, require_present
from app.picture_folder import PictureFolder
from db.backup import back_up, copy_aside
from db.passphrase import Passphrase, looks_locked
from db.relock import relock
from db.store import Store
from tests.db.samples import PLAN, filled_file
from tests.db.test_passphrase import KEY, OTHER

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    path = filled_file(tmp_path / "coach.db")
    back_up(path, at=datetime(2026, 11, 20, 20, tzinfo=UTC))
    copy_aside(path, "before-upgrade-from-0001")
    made = Store.open(path)
    yield made
    made.close()


def test_the_file_and_its_copies_are_locked_changed_and_unlocked(store):
    for new in (KEY, OTHER, None):
        told: list[int] = []
        changed = change_lock(store, new, copies=True, step=told.append)
        assert (changed.copies, changed.left, told) == (2, (), [1, 2, 3])
        assert {looks_locked(copy) for copy in copies_of(store)} == {new is not None}
        assert store.load_program(PLAN.id) == PLAN
        assert store.key == new


def test_copies_stay_as_they_are_where_that_is_wanted(store):
    assert change_lock(store, KEY, copies=False).copies == 0
    assert not any(looks_locked(copy) for copy in copies_of(store))


def test_a_copy_with_another_passphrase_stays_and_is_named(store):
    odd = copies_of(store)[0]
    relock(odd, old=None, new=OTHER)
    changed = change_lock(store, KEY, copies=True)
    assert (changed.copies, changed.left) == (1, (odd,))
    store.close()


def test_two_passphrases_that_differ_and_a_weak_one_are_refused():
    for first, second in (("a long ridge", "a long rigde"), ("short", "short")):
        with pytest.raises(CoachError):
            require_new(first, second)
    assert require_new("a long ridge", "a long ridge") == Passphrase("a long ridge")


def test_only_the_present_passphrase_passes(store):
    store.change_passphrase(KEY)
    require_present(store, KEY)
    with pytest.raises(CoachError):
        require_present(store, OTHER)


# ------------------------------------------------------------------------ pictures


def readable_pictures(store: Store) -> list[str]:
    folder = PictureFolder(store.path).path
    return [p.name for p in folder.iterdir() if b"zqpixelsqz" in p.read_bytes()]


def test_pictures_are_locked_changed_and_unlocked_with_the_file(store):
    name = PictureFolder.of(store).add(b"zqpixelsqz")
    for new in (KEY, OTHER, None):
        assert change_lock(store, new, copies=False).pictures_left == 0
        assert readable_pictures(store) == ([] if new else [name])
        assert PictureFolder.of(store).read(name) == b"zqpixelsqz"


@pytest.mark.parametrize(("old", "new"), [(None, KEY), (KEY, OTHER), (KEY, None)])
def test_whatever_write_fails_file_and_pictures_keep_their_lock(store, monkeypatch, old, new):
    """Every fsync and every change of names fails once: the lock is the old one, or wholly new."""
    name = PictureFolder.of(store).add(b"zqpixelsqz")
    change_lock(store, old, copies=False)
    path, calls = store.path, 0
    for failing in range(1, 40):
        calls = 0
        with monkeypatch.context() as patch:

            def counted(real, failing=failing):
                def call(*args, **kwargs):
                    nonlocal calls
                    calls += 1
                    if calls == failing:
                        raise OSError(28, "No space left on device")
                    return real(*args, **kwargs)

                return call

            patch.setattr(os, "fsync", counted(os.fsync))
            patch.setattr(os, "rename", counted(os.rename))
            patch.setattr(os, "replace", counted(os.replace))
            try:
                change_lock(store, new, copies=False)
            except CoachError:
                assert store.key == old
            else:
                assert store.key == new
        assert PictureFolder.of(store).read(name) == b"zqpixelsqz"
        assert PictureFolder.of(store).names() == {name}
        assert readable_pictures(store) == ([] if store.key else [name])
        with closing(Store.open(path, key=store.key)) as again:
            assert again.load_program(PLAN.id) == PLAN
        if calls < failing:
            break
        if store.key != old:
            change_lock(store, old, copies=False)
    assert failing > 2, "no write was ever made to fail"
    assert calls < failing, "the last run must go through untouched"


def test_a_file_in_memory_has_no_lock_to_change():
    with closing(Store.in_memory()) as nowhere, pytest.raises(CoachError):
        change_lock(nowhere, KEY, copies=False)


KILLED = """
import os, sys
from pathlib import Path
from app import locking
from db.passphrase import Passphrase
from db.store import Store
from db import locked_pictures
store = Store.open(Path(sys.argv[1]))
if sys.argv[2] == "before":
    Store.change_passphrase = lambda _self, _new: os._exit(9)
else:
    locked_pictures.drop = lambda path: path.name.startswith(".") or os._exit(9)
locking.change_lock(store, Passphrase("it's a ridge of Ömber"), copies=False)
"""


@pytest.mark.parametrize(("when", "key"), [("before", None), ("after", KEY)])
def test_killed_between_pictures_and_file_nothing_is_lost(store, when, key):
    name = PictureFolder.of(store).add(b"zqpixelsqz")
    path = store.path
    store.close()
    killed = subprocess.run(  # our own interpreter
        [sys.executable, "-c", KILLED, str(path), when], cwd=ROOT, check=False
    )
    assert killed.returncode == 9
    assert looks_locked(path) is (key is not None)
    with closing(Store.open(path, key=key)) as again:
        folder = PictureFolder.of(again)
        assert folder.read(name) == b"zqpixelsqz"
        folder.lock_in()
        assert readable_pictures(again) == ([] if key else [name])
        assert change_lock(again, KEY, copies=False).pictures_left == 0
        assert readable_pictures(again) == []
        assert len(list(folder.path.iterdir())) == 1
