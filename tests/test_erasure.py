"""Erasing reaches file, pictures, copies and the steps of undo, and names what it cannot reach."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from app import resources
from app.desk import Desk
from app.domain.client import ClientId
from app.domain.work import Work
from app.erasure import (
    Wish,
    copies_with,
    erase,
    held_on,
    pictures_of,
    put_away,
    spared_pictures,
)
from app.locking import change_lock
from app.picture_folder import PictureFolder
from db.backup import all_copies, back_up, copy_aside
from db.errors import StoreFailure
from db.relock import relock
from db.store import Store
from tests.db.samples import RUNA, fill
from tests.db.test_passphrase import OTHER
from tests.marked import PICTURE, add_marked, found_in, marked_client, marked_program

MARKED = marked_client()
BEFORE = datetime(2026, 1, 11, 8, tzinfo=UTC)
"""Copies of one hour are thinned out, so those of the tests are hours apart."""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A file with two clients and their pictures, a copy from before, and two from after."""
    path = tmp_path / "coach.db"
    made = Store.open(path)
    fill(made)
    back_up(path, at=BEFORE)
    add_marked(made)
    folder = PictureFolder(path)
    folder.take_in(PICTURE, b"zqpixelsqz")
    folder.take_in("2026-01-11-front.jpg", b"Runa")
    folder.take_in("nobodys.jpg", b"left behind")
    back_up(path, at=BEFORE + timedelta(hours=3))
    copy_aside(path, "before-restore")
    yield made
    made.close()


def test_only_copies_that_hold_the_client_are_listed(store):
    found = copies_with(store, MARKED.id)
    assert len(found) == 2
    assert len(all_copies(store.path)) == 3
    assert all(copy.readable for copy in found)


def test_everything_is_gone_from_file_pictures_and_rewritten_copies(store):
    copies = copies_with(store, MARKED.id)
    told: list[int] = []
    done = erase(store, MARKED.id, copies=copies, wish=Wish.REWRITE, step=told.append)
    assert len(done.rewritten) == 2
    assert (done.deleted, done.left, done.pictures_left, done.mentions) == ((), (), 0, 0)
    assert told == [1, 2, 3]
    assert found_in(store.path.parent) == {}
    assert PictureFolder(store.path).names() == {"2026-01-11-front.jpg"}
    assert copies_with(store, MARKED.id) == ()
    assert store.load_client(RUNA.id) == RUNA


def test_copies_are_deleted_where_that_is_wanted(store):
    done = erase(store, MARKED.id, copies=copies_with(store, MARKED.id), wish=Wish.DELETE)
    assert len(done.deleted) == 2
    assert len(all_copies(store.path)) == 1
    assert found_in(store.path.parent) == {}


def test_copies_that_are_left_are_named(store):
    copies = copies_with(store, MARKED.id)
    done = erase(store, MARKED.id, copies=copies, wish=Wish.LEAVE)
    assert done.left == tuple(copy.path for copy in copies)
    assert set(found_in(store.path.parent)) == {copy.path.name for copy in copies}


def test_a_copy_nobody_can_look_into_is_listed_and_left(store):
    odd = all_copies(store.path)[0]
    relock(odd, old=None, new=OTHER)
    broken = all_copies(store.path)[1]
    broken.write_bytes(b"SQLite format 3\0 and nothing else")
    copies = copies_with(store, MARKED.id)
    assert {copy.path for copy in copies if not copy.readable} == {odd, broken}
    done = erase(store, MARKED.id, copies=copies, wish=Wish.REWRITE)
    assert set(done.left) == {odd, broken}


def test_a_name_in_somebody_elses_note_is_told(store):
    partner = replace(RUNA, note=f"ropes with {MARKED.name}")
    store.save(Work(RUNA), Work(partner), label="Note")
    assert erase(store, MARKED.id).mentions == 1


def test_steps_of_the_client_are_dropped_and_those_of_others_stay(store):
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id)
    desk.keep_client("Note", replace(desk.client, note="rings on Sunday"))
    desk.open(MARKED.id, marked_program().id)
    desk.keep_client("Note", replace(desk.client, note="other"))
    erase(store, MARKED.id)
    put_away(desk, MARKED.id)
    assert desk.work is None
    assert all(work.client.id == RUNA.id for work in desk.seen())
    desk.open(RUNA.id)
    assert desk.undo() is not None


def test_pictures_that_undo_could_bring_back_are_spared(store):
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id)
    desk.keep_diary("Remove", desk.diary.without_check_in(desk.diary.check_ins[0].on))
    spare = spared_pictures(desk, MARKED.id)
    assert "2026-01-11-front.jpg" in spare
    erase(store, MARKED.id, spare=spare)
    assert PictureFolder(store.path).has("2026-01-11-front.jpg")


def test_what_is_held_can_be_told_before(store):
    held = held_on(store, MARKED.id)
    assert (held.name, held.programs, held.check_ins) == (MARKED.name, 1, 1)
    assert pictures_of(store, MARKED.id) == {PICTURE}
    with pytest.raises(StoreFailure):
        held_on(store, ClientId("nobody"))


def test_a_file_in_memory_has_no_copies_and_no_pictures():
    store = Store.in_memory()
    add_marked(store)
    assert copies_with(store, MARKED.id) == ()
    assert erase(store, MARKED.id).pictures_left == 0
    store.close()


def test_locked_pictures_of_the_client_go_and_those_of_others_stay(store):
    change_lock(store, OTHER, copies=False)
    copies = copies_with(store, MARKED.id)
    erase(store, MARKED.id, copies=copies, wish=Wish.DELETE)
    assert PictureFolder.of(store).names() == {"2026-01-11-front.jpg"}
    assert found_in(store.path.parent) == {}


def test_pictures_under_a_forgotten_lock_are_listed_and_deleted_as_wished(store):
    folder = PictureFolder(store.path, OTHER)
    folder.take_in(PICTURE, b"zqpixelsqz")
    copies = copies_with(store, MARKED.id)
    (sealed,) = (copy for copy in copies if copy.path.parent == folder.path)
    assert not sealed.readable
    done = erase(store, MARKED.id, copies=copies, wish=Wish.REWRITE)
    assert sealed.path in done.left
    assert sealed.path.exists()
