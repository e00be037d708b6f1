"""One client's diary is one stretch of the file, read without looking at another's."""

from __future__ import annotations

import pytest

from db import diary_models as models
from db.rows import key_names, table_of
from db.store import Store
from tests.db.samples import RUNA, fill

TABLES = [
    table_of(model)
    for model in (
        models.CheckInRow,
        models.GirthRow,
        models.CheckInPictureRow,
        models.ResultRow,
        models.ResultSetRow,
    )
]


@pytest.mark.parametrize("table", TABLES, ids=[table.name for table in TABLES])
def test_rows_lie_by_client_and_then_by_day(table):
    assert key_names(table)[:2] == ("client_id", "on_date")
    assert table.dialect_options["sqlite"]["with_rowid"] is False
    assert not table.indexes


@pytest.mark.parametrize("table", TABLES, ids=[table.name for table in TABLES])
def test_reading_a_diary_never_scans_or_sorts(table):
    store = Store.in_memory()
    fill(store)
    seen: list[str] = []
    store._raw.set_trace_callback(seen.append)
    store.load_diary(RUNA.id)
    store._raw.set_trace_callback(None)
    (query,) = (q for q in seen if f"FROM {table.name} " in q)
    steps = [row[3] for row in store._raw.execute(f"EXPLAIN QUERY PLAN {query}")]
    assert [step for step in steps if step.startswith("SCAN")] == []
    if table.name in ("results", "result_sets", "check_ins"):
        assert steps == [f"SEARCH {table.name} USING PRIMARY KEY (client_id=?)"]
    store.close()


def test_removing_a_client_removes_the_diary_and_a_program_leaves_it():
    store = Store.in_memory()
    work = fill(store)
    store.remove_program(work.program.id)
    assert store.load_diary(RUNA.id) == work.diary
    store.remove_client(RUNA.id)
    for table in TABLES:
        count = store._raw.execute(f"SELECT count(*) FROM {table.name}").fetchone()
        assert count == (0,)
    store.close()
