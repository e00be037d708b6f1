"""What the tally says of a week."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.exercise import Muscle
from app.domain.muscle_groups import GROUPS
from app.domain.ranges import Range
from app.ui.bench import Bench
from app.ui.tally_rows import TallyRow, range_text, scale_top, tally


def band(low: float | None, high: float | None) -> Range:
    return Range("weekly_sets", low, high, "sets", "common practice")


def row(sets: float, ranges: Range | None) -> TallyRow:
    return TallyRow("glutes", "Glutes", (Muscle.GLUTEALS,), sets, ranges, True)


@pytest.mark.parametrize(
    ("ranges", "text"),
    [
        (None, ""),
        (band(12, 20), "12–20"),
        (band(4, None), "from 4"),
        (band(None, 8), "up to 8"),
        (band(None, None), "from 0"),
        (band(2.5, 7.5), "2.5–7.5"),
    ],
)
def test_a_range_in_words(ranges, text: str) -> None:
    assert range_text(row(10, ranges)) == text


@pytest.mark.parametrize(
    ("sets", "below", "above"),
    [(11.9, True, False), (12, False, False), (20, False, False), (20.1, False, True)],
)
def test_both_ends_of_a_range_lie_in_it(sets: float, below: bool, above: bool) -> None:
    shown = row(sets, band(12, 20))
    assert (shown.below, shown.above) == (below, above)
    assert not row(sets, None).below


def rows_of(bench: Bench, week: int = 0) -> tuple[TallyRow, ...]:
    desk = bench.desk
    names = {m: n.trade for m, n in bench.shelf.muscles.items()}
    return tally(desk.facts(desk.program.weeks[week]), desk.context, week, names)


def test_the_emphasis_comes_first_in_its_order(bench: Bench) -> None:
    emphasis = bench.desk.program.emphasis
    rows = rows_of(bench)
    assert tuple(r.muscles[0] for r in rows[: len(emphasis)]) == emphasis
    assert [r.emphasised for r in rows] == [True] * len(emphasis) + [False] * (
        len(rows) - len(emphasis)
    )


def test_every_main_group_has_a_line_and_none_stands_twice(bench: Bench) -> None:
    rows = rows_of(bench)
    shown = [muscle for r in rows for muscle in r.muscles]
    assert len(set(shown)) == len(shown)
    for group in GROUPS:
        if group.main:
            assert set(group.muscles) & set(shown), group.key


def test_a_muscle_that_the_plan_leaves_alone_falls_short_of_nothing(bench: Bench) -> None:
    for shown in rows_of(bench):
        if not shown.sets and not shown.emphasised:
            assert shown.range is None


def test_sets_of_the_emphasis_are_those_of_the_week(bench: Bench) -> None:
    facts = bench.desk.facts(bench.desk.program.weeks[0])
    for shown in rows_of(bench):
        if shown.emphasised:
            assert shown.sets == facts.sets[shown.muscles[0]]


@given(st.lists(st.floats(0, 200), max_size=6))
def test_the_scale_reaches_over_every_value_in_steps_of_five(sets: list[float]) -> None:
    top = scale_top(row(s, None) for s in sets)
    assert top >= 24
    assert all(s <= top for s in sets)
    assert top == 24 or (top % 5 == 0 and top - 5 < max(sets))
