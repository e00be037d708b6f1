"""What a table file holds."""

from __future__ import annotations

from app.exchange.sheets.sheet import Sheet, too_many_cells


def test_a_sheet_is_as_wide_as_its_longest_row() -> None:
    assert Sheet("A", (("a",), ("a", "b"), ())).width == 2
    assert Sheet("A", ()).width == 0


def test_the_refusal_says_how_many_cells_there_may_be() -> None:
    assert "1,000,000" in too_many_cells("a.csv").sentence
