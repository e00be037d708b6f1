"""A new file has exactly what an upgraded one has."""

from __future__ import annotations

import re

from alembic.script import ScriptDirectory

from db.engine import APPLICATION_ID, connect_memory, disconnect, link_memory, writing
from db.migrate import configuration, run
from db.models import Model
from db.schema import (
    COLUMNS_SUM,
    HEAD,
    REVISIONS,
    SCHEMA,
    create,
    lacks,
    stored_revision,
    sum_of,
)


def objects(connection) -> dict[str, str]:
    """Every table and index with its SQL, the order of constraints and white space aside."""
    rows = connection.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
    return {name: normal(sql) for name, sql in rows}


def normal(sql: str) -> str:
    sql = re.sub(r"\s+", " ", sql).strip()
    head, _, rest = sql.partition("(")
    body, _, tail = rest.rpartition(")")
    parts, depth = [""], 0
    for letter in body:
        depth += (letter == "(") - (letter == ")")
        if letter == "," and depth == 0:
            parts.append("")
        else:
            parts[-1] += letter
    columns = [p.strip() for p in parts if not p.strip().startswith("CONSTRAINT")]
    constraints = sorted(p.strip() for p in parts if p.strip().startswith("CONSTRAINT"))
    return f"{head.strip()} ({', '.join(columns + constraints)}) {tail.strip()}"


def test_a_new_file_equals_an_empty_one_that_ran_every_migration():
    new, migrated = connect_memory(), connect_memory()
    create(new)
    with writing(migrated):
        run(migrated)
    assert objects(new) == objects(migrated)
    for connection in (new, migrated):
        assert stored_revision(connection.connection.driver_connection) == HEAD
        assert connection.exec_driver_sql("PRAGMA user_version").scalar() == SCHEMA
        disconnect(connection)


def test_the_known_revisions_are_those_of_the_scripts_in_one_line():
    connection = connect_memory()
    scripts = ScriptDirectory.from_config(configuration(connection))
    assert scripts.get_heads() == [HEAD]
    walked = [script.revision for script in scripts.walk_revisions()]
    assert tuple(reversed(walked)) == REVISIONS
    disconnect(connection)


def test_a_new_file_bears_our_mark():
    connection = connect_memory()
    create(connection)
    assert connection.exec_driver_sql("PRAGMA application_id").scalar() == APPLICATION_ID
    disconnect(connection)


def test_the_check_sum_is_that_of_the_columns_in_the_models():
    meant = {str(c) for table in Model.metadata.tables.values() for c in table.columns}
    assert sum_of(meant | {"alembic_version.version_num"}) == COLUMNS_SUM


def test_a_file_that_lacks_a_column_is_told_by_the_name_of_it():
    link = link_memory()
    create(link.sql)
    assert lacks(link.raw) == ()
    link.raw.execute("ALTER TABLE weeks DROP COLUMN note")
    link.raw.execute("CREATE TABLE more (x)")
    assert lacks(link.raw) == ("weeks.note",)
    link.close()
