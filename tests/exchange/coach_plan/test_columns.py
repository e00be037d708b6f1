"""How a table is read, as a value that can be kept."""

from __future__ import annotations

import json
from typing import Any

import pytest

from app.exchange.coach_plan.columns import LABELS, Column, Mapping, Part, mapping_of

MADE = Mapping((Column(Part.EXERCISE), Column(Part.REPS, 2), Column(Part.REST, unit="min")), head=1)


def test_every_part_has_a_label() -> None:
    assert set(LABELS) == set(Part)


def test_a_kept_mapping_comes_back() -> None:
    assert mapping_of(json.loads(json.dumps(MADE.record())), width=3) == MADE


@pytest.mark.parametrize(
    "record",
    [None, [], {}, {"columns": 3}, MADE.record() | {"columns": [["bogus", 0, ""]]}, "x"],
)
def test_what_is_no_mapping_is_none(record: Any) -> None:
    assert mapping_of(record, width=3) is None


def test_a_mapping_of_another_width_is_none() -> None:
    assert mapping_of(MADE.record(), width=4) is None


def test_a_part_can_be_changed() -> None:
    changed = MADE.with_part(1, Part.SETS)
    assert changed.columns[1] == Column(Part.SETS, 2)
    assert changed.holds(Part.SETS)
    assert not changed.holds(Part.REPS, Part.NOTE)


def test_the_week_of_a_column_can_be_changed() -> None:
    assert MADE.side_by_side
    every = MADE.with_week(1, 0)
    assert not every.side_by_side
    assert every.with_week(0, 4).columns[0] == Column(Part.EXERCISE, 4)
