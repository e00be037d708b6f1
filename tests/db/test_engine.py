"""Every connection has the same switches; a transaction happens whole or not at all."""

from __future__ import annotations

import sqlite3
from contextlib import closing, suppress

import pytest

from db.engine import connect_file, connect_memory, disconnect, link_file, reading, writing
from db.store import Store
from tests.db.samples import filled_file

PRAGMAS = {
    "foreign_keys": 1,
    "synchronous": 3,  # EXTRA
    "secure_delete": 1,
    "trusted_schema": 0,
    "cell_size_check": 1,
    "busy_timeout": 5000,
    "journal_mode": "delete",
}


def pragma(connection, name: str) -> object:
    return connection.exec_driver_sql(f"PRAGMA {name}").scalar()


@pytest.mark.parametrize("writable", [True, False])
def test_every_connection_to_a_file_has_all_switches(tmp_path, writable):
    connection = connect_file(filled_file(tmp_path / "a.weekloom"), writable=writable)
    assert {name: pragma(connection, name) for name in PRAGMAS} == PRAGMAS
    disconnect(connection)


def test_a_store_after_an_upgrade_or_a_new_file_has_foreign_keys_on(tmp_path):
    for store in (Store.in_memory(), Store.open(tmp_path / "new.weekloom")):
        assert pragma(store._connection, "foreign_keys") == 1
        store.close()


def test_a_file_left_in_another_journal_mode_is_brought_back(tmp_path):
    path = filled_file(tmp_path / "a.weekloom")
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA journal_mode = WAL")
    store = Store.open(path)
    assert pragma(store._connection, "journal_mode") == "delete"
    store.close()
    assert list(tmp_path.iterdir()) == [path]


def test_a_block_that_raises_leaves_nothing_behind():
    connection = connect_memory()
    connection.exec_driver_sql("CREATE TABLE t (x)")
    with suppress(ZeroDivisionError), writing(connection):
        connection.exec_driver_sql("INSERT INTO t VALUES (1)")
        _ = 1 / 0
    assert connection.exec_driver_sql("SELECT x FROM t").all() == []
    with writing(connection):
        connection.exec_driver_sql("INSERT INTO t VALUES (2)")
    assert connection.exec_driver_sql("SELECT x FROM t").scalars().all() == [2]
    disconnect(connection)


def test_several_reads_see_one_moment_while_another_window_writes(tmp_path):
    path = filled_file(tmp_path / "a.weekloom")
    here, there = link_file(path), connect_file(path, wait_s=0.01)

    def name() -> str:
        return here.raw.execute("SELECT name FROM clients").fetchone()[0]

    with reading(here.raw):
        before = name()
        with pytest.raises(Exception, match="locked"), writing(there):
            there.exec_driver_sql("UPDATE clients SET name = 'other'")
        assert name() == before
    with writing(there):
        there.exec_driver_sql("UPDATE clients SET name = 'other'")
    assert name() == "other"
    here.close()
    disconnect(there)


def test_both_connections_of_a_link_are_one_and_closing_it_twice_is_harmless(tmp_path):
    link = link_file(filled_file(tmp_path / "a.weekloom"))
    with writing(link.sql):
        link.sql.exec_driver_sql("UPDATE clients SET name = 'other'")
        assert link.raw.in_transaction
        assert link.raw.execute("SELECT name FROM clients").fetchone() == ("other",)
    assert not link.raw.in_transaction
    link.close()
    link.close()
    with pytest.raises(sqlite3.ProgrammingError, match="closed"):
        link.raw.execute("SELECT 1")
