from __future__ import annotations

from app.domain.edits.weeks import make_light
from app.domain.effort import Rir
from app.domain.program import Field
from app.domain.progression import (
    EffortPath,
    Light,
    Scheme,
    Series,
    Stepwise,
    apply,
    table,
)
from tests.domain.progression.plans import CATALOGUE, SQUAT, pin, plan, slots_of


def test_the_table_shows_every_week_before_it_is_applied():
    before = plan(21)
    rows = table(before, Scheme(Stepwise(15, 3), effort=EffortPath(Rir(3), Rir(1))), CATALOGUE)
    assert [row.index for row in rows] == list(range(21))
    assert [row.target[0].low for row in rows][::10] == [15, 9, 3]
    assert rows[0].cells[0].text == "4 × 15 RIR 3"
    assert rows[-1].cells[0].text == "4 × 3 RIR 1"
    assert before == plan(21)


def test_the_table_says_what_applying_does():
    before = plan(8)
    scheme = Scheme(Stepwise(12, 8), first=2, last=5, light=Light(every=4))
    after = apply(before, scheme, CATALOGUE)
    rows = table(before, scheme, CATALOGUE)
    assert [row.index for row in rows] == [2, 3, 4, 5]
    for row in rows:
        slots = list(after.weeks[row.index].slots())
        assert [(c.sets, c.reps, c.effort) for c in row.cells] == [
            (s.sets, s.reps, s.effort) for s in slots
        ]
        assert row.sets == sum(s.sets for s in slots)
    assert [row.light for row in rows] == [False, False, False, True]


def test_pinned_and_unchanged_cells_are_marked():
    before = plan(2)
    slot = slots_of(before, SQUAT)[0][0]
    before = pin(before, frozenset({slot.id}), frozenset({Field.REPS}))
    rows = table(before, Scheme(Stepwise(6, 6)), CATALOGUE)
    first = rows[0].cells[0]
    assert (first.pinned, first.changed, first.reps.low) == (True, False, 10)
    assert rows[1].cells[0].changed
    assert rows[0].changed


def test_an_empty_week_still_shows_its_target():
    rows = table(plan(3, days=()), Scheme(Stepwise(12, 8)), CATALOGUE)
    assert [row.target[0].low for row in rows] == [12, 10, 8]
    assert all(row.cells == () for row in rows)


def test_a_series_shows_the_weeks_of_all_its_schemes():
    series = Series((Scheme(Stepwise(12, 11), last=1), Scheme(Stepwise(6, 5), first=4)))
    assert [row.index for row in table(plan(6), series, CATALOGUE)] == [0, 1, 4, 5]


def test_a_week_that_only_stops_being_light_is_a_change():
    before = make_light(plan(5), 1)
    rows = table(before, Scheme(Stepwise(10, 10), light=Light(every=5)), CATALOGUE)
    assert [row.was_light for row in rows] == [False, True, False, False, False]
    assert [row.light for row in rows] == [False, False, False, False, True]
    assert rows[1].changed
