"""A week counts as it was handed out by the time it ended, else as it stands in the plan."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from app.domain.edits.fields import set_field
from app.domain.findings import edit
from app.domain.program import Field, Span
from app.ui.bench import Bench
from app.ui.results.meant import meant_weeks
from tests.ui.desks import START, slot, slot_ids


def test_without_a_booklet_the_plan_and_its_loads_count(bench: Bench) -> None:
    weeks = meant_weeks(bench.desk)
    assert len(weeks) == len(bench.desk.program.weeks)
    assert {week.issued for week in weeks} == {None}
    squat = slot(bench)
    load = bench.desk.load(squat)
    assert load is not None
    session = weeks[0].sessions()[0]
    assert session.planned == START
    assert session.load_kg(squat) == load.load_kg


def test_a_booklet_counts_for_the_weeks_that_ended_after_it(bench: Bench) -> None:
    desk = bench.desk
    printed = desk.program
    desk.hand_out(desk.draft_issue(START + timedelta(days=10)))
    changed = edit(
        "Sets",
        set_field,
        slot_id=slot_ids(bench, 2)[0],
        field=Field.SETS,
        value=6,
        span=Span.THIS_WEEK,
    )
    bench.keep(changed)
    weeks = meant_weeks(desk)
    assert [week.issued for week in weeks[:2]] == [None, START + timedelta(days=10)]
    assert weeks[2].week == printed.weeks[2]
    assert weeks[2].sessions()[0].session.slots[0].sets == 4


def test_the_newest_booklet_by_then_counts(bench: Bench) -> None:
    desk = bench.desk
    for days in (-7, 9):
        desk.hand_out(desk.draft_issue(START + timedelta(days=days)))
    issued = [week.issued for week in meant_weeks(desk)]
    assert issued[0] == START - timedelta(days=7)
    assert set(issued[1:]) == {START + timedelta(days=9)}


def test_a_week_that_was_not_printed_stands_as_planned(bench: Bench) -> None:
    desk = bench.desk
    issue = desk.draft_issue(START - timedelta(days=7))
    desk.hand_out(replace(issue, program=replace(issue.program, weeks=issue.program.weeks[:2])))
    issued = [week.issued is not None for week in meant_weeks(desk)]
    assert issued == [True, True, False, False, False, False]
