"""A table is a plain value."""

from __future__ import annotations

from app.exchange.tables.table import Table


def test_equal_tables_are_equal() -> None:
    assert Table("Plan", ("A",), ((1,),)) == Table("Plan", ("A",), ((1,),))
