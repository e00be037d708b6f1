"""The typed tables are those of the migrations, and every rule in them has a name."""

from __future__ import annotations

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext

from db.engine import connect_memory, disconnect, writing
from db.migrate import run
from db.models import Model
from db.store import Store
from tests.db.samples import fill

TABLES = sorted(Model.metadata.tables.values(), key=lambda table: table.name)


def test_models_and_migrations_agree():
    connection = connect_memory()
    with writing(connection):
        run(connection)
    context = MigrationContext.configure(connection, opts={"compare_type": True})
    assert compare_metadata(context, Model.metadata) == []
    disconnect(connection)


@pytest.mark.parametrize("table", TABLES, ids=[table.name for table in TABLES])
def test_every_constraint_and_index_has_a_name(table):
    named = [*table.constraints, *table.indexes]
    assert all(part.name for part in named)
    names = [part.name for part in named]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("table", TABLES, ids=[table.name for table in TABLES])
def test_every_table_says_what_it_holds(table):
    (model,) = (m.class_ for m in Model.registry.mappers if m.local_table is table)
    assert model.__doc__


def test_a_filled_file_has_rows_in_every_table():
    store = Store.in_memory()
    fill(store)
    empty = [
        table.name
        for table in TABLES
        if not store._connection.exec_driver_sql(f"SELECT count(*) FROM {table.name}").scalar()
    ]
    assert empty == []
    store.close()


@pytest.mark.parametrize(
    "breach",
    [
        "UPDATE slots SET sets = 0",
        "UPDATE slots SET reps_high = reps_low - 1",
        "UPDATE slots SET rest_s = -1",
        "UPDATE slots SET effort_kind = 'hard'",
        "UPDATE slots SET load_kg = -2.5",
        "UPDATE sessions SET day = 7",
        "UPDATE weeks SET position = -1",
        "UPDATE blocks SET weeks = 0",
        "UPDATE clients SET name = ''",
        "UPDATE strength_tests SET reps = 0",
        "UPDATE strength_tests SET load_kg = -101",
        "UPDATE free_times SET minutes = -1",
        "UPDATE coach SET id = 2",
        "UPDATE slots SET session_id = 999",
        "UPDATE sessions SET week_id = 999",
        "UPDATE programs SET client_id = 'nobody'",
        "INSERT INTO days VALUES ('ridge', 999, 0, '')",
        "UPDATE places SET name = ''",
        "UPDATE check_ins SET adherence = 1.5",
        "UPDATE girths SET cm = 0",
        "UPDATE result_sets SET reps = -1",
        "UPDATE result_sets SET rir = -1",
        "UPDATE result_sets SET program_id = 'other'",
        "UPDATE results SET client_id = 'nobody'",
    ],
)
def test_a_row_that_breaks_a_law_is_refused(breach):
    store = Store.in_memory()
    fill(store)
    with pytest.raises(Exception, match=r"CHECK|FOREIGN KEY"):
        store._connection.exec_driver_sql(breach)
    store.close()
