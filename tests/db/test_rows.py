"""The difference between two sets of rows is what is written, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from sqlalchemy import Connection, select

from db.engine import connect_memory, disconnect, writing
from db.errors import Cause, StoreFailure
from db.program_rows import SESSIONS, WEEKS
from db.rows import Rows, Values, key_names, put, write_difference
from db.schema import create


@pytest.fixture
def connection() -> Iterator[Connection]:
    connection = connect_memory()
    create(connection)
    connection.exec_driver_sql("PRAGMA foreign_keys = OFF")  # weeks without a program, here
    yield connection
    disconnect(connection)


def weeks(*positions: tuple[int, int]) -> Rows:
    """Rows of weeks, from pairs of id and position."""
    rows: Rows = {}
    found: list[Values] = [
        {"program_id": "p", "id": number, "position": position, "light": False, "note": ""}
        for number, position in positions
    ]
    put(rows, WEEKS, found)
    return rows


def stored(connection: Connection) -> list[tuple[int, int]]:
    query = select(WEEKS.c.id, WEEKS.c.position).order_by(WEEKS.c.position)
    return [(row.id, row.position) for row in connection.execute(query)]


def test_rows_are_kept_under_their_keys():
    assert key_names(WEEKS) == ("program_id", "id")
    assert list(weeks((7, 0))[WEEKS]) == [("p", 7)]


def test_rows_come_change_places_and_go(connection):
    first, second = weeks((1, 0), (2, 1), (3, 2)), weeks((2, 0), (4, 1), (1, 2))
    with writing(connection):
        assert write_difference(connection, {}, first) == 3
    with writing(connection):
        assert write_difference(connection, first, second) == 4  # 1 and 2 move, 4 comes, 3 goes
    assert stored(connection) == [(2, 0), (4, 1), (1, 2)]


def test_equal_rows_are_not_written(connection):
    with writing(connection):
        write_difference(connection, {}, weeks((1, 0)))
        assert write_difference(connection, weeks((1, 0)), weeks((1, 0))) == 0


@pytest.mark.parametrize("after", [weeks((9, 5)), weeks()], ids=["changed", "removed"])
def test_a_row_that_is_no_longer_there_is_noticed(connection, after):
    with pytest.raises(StoreFailure) as refused, writing(connection):
        write_difference(connection, weeks((9, 0)), after)
    assert refused.value.cause is Cause.CHANGED_OUTSIDE


def test_a_child_can_move_to_a_new_parent_while_its_old_one_goes(connection):
    connection.exec_driver_sql("PRAGMA foreign_keys = ON")
    connection.exec_driver_sql("PRAGMA defer_foreign_keys = OFF")
    connection.exec_driver_sql(
        "INSERT INTO clients SELECT 'c', 1, 'C', NULL, NULL, NULL, NULL, 'novice', 'health', 0, "
        "'', '', '', NULL, NULL, 1.55, 'kg', 0, 20, 2, 2, 40, 5, 2.5, "
        "'active', NULL, '', NULL, '', '', '', 1, NULL"
    )
    connection.exec_driver_sql(
        "INSERT INTO programs VALUES ('p', 'c', 1, 'P', '2026-01-05', 'textbook', 99, 0)"
    )

    def session_in(week: int) -> Rows:
        rows = weeks((week, 0))
        session: Values = {"day": 0, "position": 0, "strand": 1, "title": "", "note": ""}
        put(rows, SESSIONS, [{"program_id": "p", "id": 50, "week_id": week, **session}])
        return rows

    with writing(connection):
        write_difference(connection, {}, session_in(1))
    with writing(connection):
        write_difference(connection, session_in(1), session_in(2))
    assert stored(connection) == [(2, 0)]
    assert connection.execute(select(SESSIONS.c.week_id)).scalars().all() == [2]
