"""The new place holds all that can be read, or all that was held, or nothing."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from db import elsewhere
from db.elsewhere import Held, write_elsewhere
from db.engine import WAIT_S
from db.errors import Cause, StoreFailure
from db.passphrase import connect, looks_locked
from db.relock import contents
from db.store import Store
from tests.db.samples import PLAN, RUNA, STEP_OVER, filled_file
from tests.db.test_passphrase import KEY

NOW = datetime(2026, 11, 29, 20, tzinfo=UTC)
SECOND = replace(PLAN, id=ProgramId("second"), name="Second season")
ODA = replace(RUNA, id=ClientId("oda"), name="Oda Vik")
HELD = Held((Work(RUNA, PLAN), Work(RUNA, SECOND), Work(ODA)), (STEP_OVER,))


@pytest.fixture
def raw(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    with closing(connect(filled_file(tmp_path / "old.weekloom"), wait_s=WAIT_S, key=None)) as made:
        yield made


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "new folder" / "new.weekloom"


class Unreadable(sqlite3.Connection):
    """A connection whose file is out of reach."""

    def __init__(self) -> None:
        super().__init__(":memory:")

    def execute(self, *_: object) -> sqlite3.Cursor:
        error = sqlite3.OperationalError("disk I/O error")
        error.sqlite_errorcode = sqlite3.SQLITE_IOERR_READ
        raise error


def test_every_row_goes_over(raw, target):
    assert write_elsewhere(raw, target, held=HELD, key=None, at=NOW).whole
    with closing(connect(target, wait_s=WAIT_S, key=None)) as made:
        assert contents(made) == contents(raw)
    assert [path.name for path in target.parent.iterdir()] == [target.name]


@pytest.mark.parametrize("key", [None, KEY])
def test_what_is_held_goes_over_where_the_old_file_cannot_be_read(target, key):
    written = write_elsewhere(Unreadable(), target, held=HELD, key=key, at=NOW)
    assert not written.whole
    assert looks_locked(target) == (key is not None)
    store = Store.open(target, key=key)
    assert (store.load_client(RUNA.id), store.load_client(ODA.id)) == (RUNA, ODA)
    assert store.load_program(PLAN.id) == PLAN
    assert store.load_program(SECOND.id) == SECOND
    assert store.own_exercises() == (STEP_OVER,)
    assert store.check_integrity() == ()
    store.close()


def test_a_store_goes_on_with_what_was_held(tmp_path, target):
    path = filled_file(tmp_path / "old.weekloom")
    store = Store.open(path)
    store.load_client(RUNA.id)
    store._raw, readable = Unreadable(), store._raw
    assert not store.keep_elsewhere(target, HELD)
    readable.close()
    store.save(Work(RUNA, PLAN), Work(RUNA, replace(PLAN, name="Peak")), label="Rename")
    assert store.load_program(PLAN.id).name == "Peak"
    store.close()


def test_nothing_that_stands_there_is_replaced(raw, target):
    target.parent.mkdir()
    target.write_text("mine", encoding="utf-8")
    with pytest.raises(StoreFailure) as refused:
        write_elsewhere(raw, target, held=HELD, key=None, at=NOW)
    assert refused.value.cause is Cause.TAKEN
    assert target.read_text(encoding="utf-8") == "mine"


def test_a_name_that_is_taken_in_the_last_moment_is_left_alone(raw, target, monkeypatch):
    def meanwhile(*_: object) -> None:
        target.write_text("theirs", encoding="utf-8")

    monkeypatch.setattr(elsewhere, "refuse_unsound", meanwhile)
    with pytest.raises(StoreFailure) as refused:
        write_elsewhere(raw, target, held=HELD, key=None, at=NOW)
    assert refused.value.cause is Cause.TAKEN
    assert [path.name for path in target.parent.iterdir()] == [target.name]
    assert target.read_text(encoding="utf-8") == "theirs"


@pytest.mark.parametrize("name", ["backup", "held"])
def test_whatever_fails_leaves_nothing_at_the_new_place(raw, target, monkeypatch, name):
    def fail(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(elsewhere, {"backup": "_copy", "held": "_write_held"}[name], fail)
    source = raw if name == "backup" else Unreadable()
    with pytest.raises(StoreFailure) as refused:
        write_elsewhere(source, target, held=HELD, key=None, at=NOW)
    assert refused.value.cause is Cause.FULL
    assert list(target.parent.iterdir()) == []


def test_a_locked_file_never_goes_over_in_the_open(raw, target):
    with pytest.raises(ValueError, match="stays locked"):
        write_elsewhere(raw, target, held=HELD, key=KEY, at=NOW)
    assert not target.exists()
