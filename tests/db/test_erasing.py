"""What is erased is gone from the bytes of the file, and of its copies of any schema."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from app.calendars import SENT_KEY
from app.domain.client import ClientId
from db.backup import back_up
from db.erasing import build_anew, footprint, holds, mentions, rewrite
from db.errors import Cause, StoreFailure
from db.passphrase import looks_locked
from db.relock import relock
from db.schema import REVISIONS
from db.store import Store
from tests.db.samples import ISSUE, PLAN, RUNA, fill, filled_file
from tests.db.test_migrate import thaw
from tests.db.test_passphrase import KEY, OTHER
from tests.marked import MARKERS, add_marked, found_in, marked_client

MARKED = marked_client()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A file with the marked client and another one."""
    file = tmp_path / "coach.db"
    store = Store.open(file)
    fill(store)
    add_marked(store)
    store.close()
    return file


def test_every_marker_stands_in_the_file_before(path):
    (found,) = found_in(path.parent).values()
    assert len(found) == len(MARKERS) + 1


def test_no_byte_of_the_client_is_left_and_the_others_are_whole(path):
    store = Store.open(path)
    store.erase_client(MARKED.id)
    assert found_in(path.parent) == {}
    assert [line.id for line in store.clients()] == [RUNA.id]
    assert store.load_client(RUNA.id) == RUNA
    assert store.load_program(PLAN.id) == PLAN
    assert store.load_issue(ISSUE.id) == ISSUE
    assert store.check_integrity() == ()
    store.close()
    assert found_in(path.parent) == {}
    assert [file.name for file in path.parent.iterdir()] == [path.name]


def test_what_calendars_of_the_client_were_told_goes_and_that_of_others_stays(path):
    store = Store.open(path)
    (program,) = store.programs(RUNA.id)[:1]
    store.set_setting(SENT_KEY + program.id, "{}x")
    store.set_setting(SENT_KEY + "other", "{}y")
    store.erase_client(RUNA.id)
    assert store.setting(SENT_KEY + program.id) == ""
    assert store.setting(SENT_KEY + "other") == "{}y"
    store.close()


def test_a_locked_file_holds_nothing_either_once_it_is_opened(path):
    relock(path, old=None, new=KEY)
    store = Store.open(path, key=KEY)
    store.erase_client(MARKED.id)
    store.close()
    assert looks_locked(path)
    relock(path, old=KEY, new=None)
    assert found_in(path.parent) == {}


def test_the_bytes_are_written_over_even_if_the_file_cannot_be_built_anew(path, monkeypatch):
    def fail(raw: sqlite3.Connection) -> None:
        raise sqlite3_full()

    monkeypatch.setattr("db.erasing.build_anew", fail)
    store = Store.open(path)
    store.erase_client(MARKED.id)
    store.close()
    assert found_in(path.parent) == {}


def sqlite3_full() -> sqlite3.OperationalError:
    error = sqlite3.OperationalError("database or disk is full")
    error.sqlite_errorcode = sqlite3.SQLITE_FULL
    return error


def test_an_unknown_client_is_said_and_nothing_changes(path):
    before = path.read_bytes()
    store = Store.open(path)
    with pytest.raises(StoreFailure) as refused:
        store.erase_client(ClientId("nobody"))
    assert refused.value.cause is Cause.MISSING
    store.close()
    assert path.read_bytes() == before


def test_what_is_held_is_counted(path):
    with closing(sqlite3.connect(path)) as raw:
        held = footprint(raw, MARKED.id)
    assert held.name == MARKED.name
    assert (held.programs, held.issues, held.tests, held.screenings) == (1, 1, 1, 1)
    assert (held.check_ins, held.results, held.edits) == (1, 1, 1)


def test_a_name_in_the_texts_of_others_is_counted(path):
    with closing(sqlite3.connect(path)) as raw:
        assert mentions(raw, "rope partner") == 2  # Runa's note, and the issue that froze it
        assert mentions(raw, "nobody of that name") == 0


def test_a_copy_is_rewritten_without_the_client(path):
    copy = back_up(path)
    assert holds(copy, MARKED.id, key=None)
    rewrite(copy, MARKED.id, key=None)
    assert not holds(copy, MARKED.id, key=None)
    assert found_in(copy.parent) == {}
    store = Store.open(copy)
    assert store.load_client(RUNA.id) == RUNA
    store.close()


def test_a_locked_copy_is_rewritten_and_stays_locked(path):
    relock(path, old=None, new=KEY)
    copy = back_up(path, key=KEY)
    rewrite(copy, MARKED.id, key=KEY)
    assert looks_locked(copy)
    assert not holds(copy, MARKED.id, key=KEY)
    with pytest.raises(StoreFailure) as refused:
        holds(copy, MARKED.id, key=OTHER)
    assert refused.value.cause is Cause.WRONG_PASSPHRASE


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_copy_of_any_schema_can_be_rewritten(revision, tmp_path):
    old = thaw(revision, tmp_path / "old.db")
    with closing(sqlite3.connect(old)) as raw:
        (client_id, name) = raw.execute("SELECT id, name FROM clients").fetchone()
    assert holds(old, client_id, key=None)
    rewrite(old, client_id, key=None)
    assert not holds(old, client_id, key=None)
    assert name.encode() not in old.read_bytes()


def test_a_copy_that_another_program_holds_stays_as_it_is(path, monkeypatch):
    copy = back_up(path)
    before = copy.read_bytes()

    def fail(raw: sqlite3.Connection) -> None:
        raise sqlite3_full()

    monkeypatch.setattr("db.erasing._deletions", lambda *_: (("NONSENSE", ()),))
    with pytest.raises(sqlite3.OperationalError):
        rewrite(copy, MARKED.id, key=None)
    assert copy.read_bytes() == before


def test_building_anew_gives_the_room_back(tmp_path):
    path = filled_file(tmp_path / "coach.db")
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("INSERT INTO settings VALUES ('long', hex(zeroblob(200000)))")
        raw.execute("DELETE FROM settings")
        before = path.stat().st_size
        build_anew(raw)
    assert path.stat().st_size < before
