"""A table as a value: a title, headings and rows of cells, whatever file it goes into."""

from __future__ import annotations

from dataclasses import dataclass

from app.exchange.tables.cell import Cell

Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """One table. name: what its sheet and file are called; every row is as long as `heads`."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
