"""The plan as a table: every slot, in its own units."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.wording import tr
from app.exchange.tables.plan_table import HEADS, plan_table
from tests.builders import CATALOGUE, client, program

PLAN = program(
    "Mon: back_squat 3x5 RIR 2 rest 180 60kg core, leg_extension 3x12-15 80% pair A"
    " | Thu: back_squat 5x3 95%RM tempo 3-0-1-0",
    "light | Mon: back_squat 2x5",
)


def column(name: str, **fields: object) -> list[object]:
    table = plan_table(PLAN, client(**fields), CATALOGUE)
    at = HEADS.index(name)
    return [row[at] for row in table.rows]


def test_each_slot_has_a_row_as_long_as_the_heads() -> None:
    table = plan_table(PLAN, client(), CATALOGUE)
    assert len(table.rows) == 4
    assert {len(row) for row in table.rows} == {len(table.heads)} == {len(HEADS)}


def test_where_and_when_each_stands() -> None:
    assert column("Week") == [1, 1, 1, 2]
    assert column("Light week") == [None, None, None, "light"]
    assert column("Day") == ["Monday", "Monday", "Thursday", "Monday"]
    assert column("Date")[2:] == [date(2026, 11, 26), date(2026, 11, 30)]


def test_what_is_prescribed() -> None:
    assert column("Sets") == [3, 3, 5, 2]
    assert (column("Reps from"), column("Reps to")) == ([5, 12, 3, 5], [5, 15, 3, 5])
    assert column("RIR") == [2, None, None, 2]
    assert column("% 1RM") == [None, 80, None, None]
    assert column("% of RM") == [None, None, 95, None]
    assert column("Rest, s")[0] == 180
    assert column("Tempo")[2] == "3-0-1-0"
    assert column("Pair")[1] == "A"
    assert column("Role")[0] == "core"


@pytest.mark.parametrize(("unit", "load"), [("kg", 60), ("lb", 132.3)])
def test_a_load_is_in_the_client_s_unit(unit: str, load: float) -> None:
    assert column("Load, {unit}", units=unit)[0] == load
    assert tr("Load, {unit}", unit=unit) in plan_table(PLAN, client(units=unit), CATALOGUE).heads
    assert column("Load set by hand")[:2] == ["yes", None]
