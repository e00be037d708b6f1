"""Headings over rows and columns."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.coach_plan.heading import Heading, day_in, heading_of, weeks_in
from app.exchange.sheets.sheet import Cell
from tests.exchange.coach_plan.shipped import WORDS


@pytest.mark.parametrize(
    ("text", "heading"),
    [
        ("Week 2", Heading((2,))),
        ("WEEK 2 - Monday: Lower", Heading((2,), 0, title="Lower")),
        ("Woche 3", Heading((3,))),
        ("Weeks 1-4", Heading((1, 2, 3, 4))),
        ("W3", Heading((3,))),
        ("Semana 5 – miércoles", Heading((5,), 2)),
        ("Day 3", Heading(nth=3)),
        ("Tag 2: Rücken", Heading(nth=2, title="Rücken")),
        ("Session B", Heading(nth=2)),
        ("Thursday", Heading(day=3)),
        ("Mon", Heading(day=0)),
        ("Upper body", Heading(title="Upper body")),
        ("Week 4 (light)", Heading((4,), title="light", light=True)),
        ("Week 99", Heading(title="Week 99")),
        ("Warm-up", Heading(title="Warm-up")),
        ("Lower body, heavy Sun", Heading(title="Lower body, heavy Sun")),
    ],
)
def test_a_heading_is_read(text: str, heading: Heading) -> None:
    assert heading_of(text, WORDS) == heading
    assert heading.places == bool(heading.weeks or heading.day is not None or heading.nth)


@pytest.mark.parametrize(
    ("cell", "weeks"),
    [
        (1, (1,)),
        (2.0, (2,)),
        ("W2", (2,)),
        ("1-3", (1, 2, 3)),
        ("Woche 7", (7,)),
        ("x", ()),
        (60, ()),
    ],
)
def test_a_cell_of_weeks_is_read(cell: Cell, weeks: tuple[int, ...]) -> None:
    assert weeks_in(cell, WORDS) == weeks


@pytest.mark.parametrize(
    ("cell", "heading"),
    [
        ("Mo", Heading(day=0)),
        ("2", Heading(nth=2)),
        (3, Heading(nth=3)),
        ("B", Heading(nth=2, title="B")),
        ("Lower", Heading(title="Lower")),
        (99, Heading(title="99")),
    ],
)
def test_a_cell_of_days_is_read(cell: Cell, heading: Heading) -> None:
    assert day_in(cell, WORDS) == heading


@given(st.text(max_size=40))
def test_any_text_is_read(text: str) -> None:
    heading_of(text, WORDS)
    day_in(text, WORDS)
    assert all(1 <= week <= 52 for week in weeks_in(text, WORDS))
