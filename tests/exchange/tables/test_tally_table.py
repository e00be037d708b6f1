"""Sets per muscle and week as a table."""

from __future__ import annotations

from app.domain.dose import weekly_sets
from app.domain.exercise import Muscle
from app.exchange.tables.tally_table import tally_table
from tests.builders import CATALOGUE, program

PLAN = program("Mon: leg_extension 3x12", "Mon: leg_extension 4x12, back_squat 3x5")


def test_each_week_has_a_column_and_each_trained_muscle_a_row() -> None:
    table = tally_table(PLAN, CATALOGUE, name_of=lambda m: m.value)
    assert table.heads == ("Muscle", "Week 1", "Week 2")
    rows = {row[0]: row[1:] for row in table.rows}
    assert rows["quadriceps"] == (3, 7)
    assert set(rows) == {m.value for w in PLAN.weeks for m in weekly_sets(w, CATALOGUE)}
    assert rows["gluteals"][0] == 0


def test_emphasised_muscles_stand_first() -> None:
    plan = program("Mon: back_squat 3x5", emphasis=(Muscle.GLUTEALS,))
    assert tally_table(plan, CATALOGUE, name_of=lambda m: m.value).rows[0][0] == "gluteals"
