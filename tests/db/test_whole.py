"""Rows out and rows in make the same file, of any released schema; what does not fit makes none."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from app.domain.program import Program
from db.canonical import decode
from db.engine import WAIT_S
from db.errors import Cause, StoreFailure
from db.passphrase import connect, looks_locked
from db.relock import contents
from db.schema import HEAD, REVISIONS
from db.store import Store
from db.whole import Row, build, columns_of, newest_columns, read_tables, whole
from tests.db.samples import DIARY, PLAN, RUNA, filled_file
from tests.db.test_migrate import SCHEMAS, thaw
from tests.db.test_passphrase import KEY


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.db")


def taken(path: Path) -> tuple[str, list[tuple[str, list[Row]]]]:
    with (
        closing(sqlite3.connect(path, isolation_level=None)) as raw,
        whole(raw) as (revision, found),
    ):
        return revision, [(name, list(rows)) for name, _, rows in found]


def sums(path: Path, key=None) -> dict[str, str]:
    with closing(connect(path, wait_s=WAIT_S, key=key)) as raw:
        return contents(raw)


@pytest.mark.parametrize("key", [None, KEY])
def test_every_table_comes_back_row_by_row(file, tmp_path, key):
    revision, tables = taken(file)
    assert revision == HEAD
    assert all(rows for _, rows in tables)
    made = tmp_path / "made.db"
    build(made, revision, tables, key=key)
    assert sums(made, key) == sums(file)
    assert looks_locked(made) == (key is not None)
    assert made.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("revision", REVISIONS)
def test_rows_of_every_released_schema_are_taken_in_and_upgraded(revision, tmp_path):
    old = thaw(revision, tmp_path / "old.db")
    told, tables = taken(old)
    assert told == revision
    made = tmp_path / "made.db"
    build(made, told, tables)
    Store.open(old).close()  # upgraded in its own way
    assert sums(made) == sums(old)
    store = Store.open(made)
    kept = decode(Program, (SCHEMAS / f"{revision}.program.json").read_text("utf-8"))
    assert store.load_program(PLAN.id) == kept
    assert store.check_integrity() == ()
    store.close()


def test_the_newest_tables_are_known_with_their_kinds(file):
    known = newest_columns()
    with closing(sqlite3.connect(file)) as raw:
        assert columns_of(raw) == known
        for name, columns, rows in read_tables(raw):
            kinds: dict[str, tuple[type, ...]] = {
                "text": (str,),
                "integer": (int,),
                "number": (int, float),
            }
            for row in rows:
                for column in columns:
                    value = row[column.name]
                    assert value is None if value is None else isinstance(value, kinds[column.kind])
                    assert column.optional or value is not None, (name, column)
    assert "alembic_version" not in known


def broken(tables: Iterable[tuple[str, list[Row]]], how: str) -> list[tuple[str, list[Row]]]:
    changed: list[tuple[str, list[Any]]] = [(n, [dict(row) for row in rows]) for n, rows in tables]
    of = dict(changed)
    match how:
        case "unknown table":
            changed.append(("sqlite_master", [{"name": "x"}]))
        case "lacking column":
            del of["clients"][0]["name"]
        case "unknown column":
            of["clients"][0]["shoe"] = 44
        case "nothing where something must be":
            of["clients"][0]["name"] = None
        case "twice":
            of["clients"].append(dict(of["clients"][0]))
        case "belongs to nothing":
            of["programs"][0]["client_id"] = "nobody"
    return changed


HOWS = (
    "unknown table",
    "lacking column",
    "unknown column",
    "nothing where something must be",
    "twice",
    "belongs to nothing",
)


@pytest.mark.parametrize("how", HOWS)
def test_rows_that_do_not_fit_make_no_file(file, tmp_path, how):
    revision, tables = taken(file)
    made = tmp_path / "new" / "made.db"
    with pytest.raises(StoreFailure) as refused:
        build(made, revision, broken(tables, how))
    assert refused.value.cause is Cause.DAMAGED
    assert list(made.parent.iterdir()) == []


def test_a_newer_schema_is_refused(tmp_path):
    with pytest.raises(StoreFailure) as refused:
        build(tmp_path / "made.db", "0999", [])
    assert refused.value.cause is Cause.TOO_NEW


def test_what_stands_there_is_not_replaced(file, tmp_path):
    revision, tables = taken(file)
    other = tmp_path / "other.db"
    other.write_text("mine", encoding="utf-8")
    with pytest.raises(StoreFailure) as refused:
        build(other, revision, tables)
    assert refused.value.cause is Cause.TAKEN
    assert other.read_text(encoding="utf-8") == "mine"


def test_what_the_rows_raise_leaves_nothing(tmp_path):
    def failing():
        yield "settings", iter([{"key": "a", "value": "b"}])
        raise OSError(5, "Input/output error")

    with pytest.raises(StoreFailure) as refused:
        build(tmp_path / "made.db", HEAD, failing())
    assert refused.value.cause is Cause.DEVICE
    assert list(tmp_path.iterdir()) == []


def test_the_values_are_the_same(file, tmp_path):
    build(tmp_path / "made.db", *taken(file))
    store = Store.open(tmp_path / "made.db")
    assert (store.load_client(RUNA.id), store.load_diary(RUNA.id)) == (RUNA, DIARY)
    store.close()
