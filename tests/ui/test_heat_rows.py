"""Rows of the heat strip: the tally's numbers over all weeks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import weeks
from app.domain.exercise import Muscle
from app.domain.findings import edit
from app.ui.bench import Bench
from app.ui.heat_rows import (
    BOUNDS,
    STEPS,
    HeatRow,
    heat_rows,
    heat_sets,
    spoken_cell,
    spoken_week,
    step_of,
)
from app.ui.tally_rows import tally

NAMES = {muscle: muscle.value.capitalize() for muscle in Muscle}


def shown(bench: Bench) -> tuple[HeatRow, ...]:
    return heat_rows(bench.desk, bench.desk.program, NAMES)


def test_every_cell_holds_what_the_tally_of_its_week_says(bench: Bench) -> None:
    desk = bench.desk
    for index, week in enumerate(desk.program.weeks):
        line = {r.about: r for r in tally(desk.facts(week), desk.context, index, NAMES)}
        for row in shown(bench):
            cell = row.cells[index]
            if cell is None:
                assert line[row.about].sets == 0
            else:
                assert cell == line[row.about]


def test_the_emphasis_comes_first_in_its_order(bench: Bench) -> None:
    rows = shown(bench)
    first = [row.about for row in rows if row.emphasised]
    assert first == [muscle.value for muscle in bench.desk.context.emphasis]
    assert [row.about for row in rows][: len(first)] == first


def test_a_main_group_that_no_week_trains_has_an_empty_row_or_none(bench: Bench) -> None:
    idle = [row for row in shown(bench) if not any(row.cells)]
    assert {"back", "chest", "shoulders"} <= {row.about for row in idle}
    assert all(cell is None for row in idle for cell in row.cells)
    few = heat_rows(bench.desk, bench.desk.program, NAMES, untrained=False)
    assert few == tuple(row for row in shown(bench) if row not in idle or row.emphasised)


def test_a_tried_program_is_read_where_it_differs(bench: Bench) -> None:
    after = bench.desk.preview(edit("Clear", weeks.clear_weeks, indices=(1,))).after
    sets = heat_sets(bench.desk, after, [1])
    assert set(sets) == {1}
    assert set(sets[1].values()) == {0.0}


@given(st.floats(0, 60), st.floats(0, 60))
def test_more_sets_never_take_a_lighter_step(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert 0 <= step_of(low) <= step_of(high) < STEPS


@pytest.mark.parametrize("step", range(len(BOUNDS)))
def test_a_steps_upper_bound_belongs_to_it(step: int) -> None:
    assert step_of(BOUNDS[step]) == step
    assert step_of(BOUNDS[step] + 0.5) == step + 1


def test_a_cell_is_said_with_its_range_and_state(bench: Bench) -> None:
    for row in shown(bench):
        cell = row.cells[0]
        told = spoken_cell(row, 0)
        assert told.startswith(f"Week 1: {row.name.lower()} ")
        if cell is None:
            assert told.endswith("not trained")
        else:
            assert told.endswith(", below") is cell.below
            assert told.endswith(", above") is cell.above
    assert "range" not in spoken_cell(shown(bench)[0], 3, light=True)


def test_a_week_is_said_row_by_row(bench: Bench) -> None:
    told = spoken_week(shown(bench), 3, light=True)
    assert told.startswith("Week 4, light week: ")
    assert told.count(";") == len(shown(bench)) - 1
