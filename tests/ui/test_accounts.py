"""Every number the window shows has an account, and the account holds that very number."""

from __future__ import annotations

import pytest

from app.domain.edits.fields import set_ramp
from app.domain.edits.place import add_session
from app.domain.findings import edit
from app.domain.muscle_groups import muscle_name
from app.domain.program import Span
from app.domain.ramp import NO_RAMP
from app.domain.session_time import whole_minutes
from app.domain.working import Line, Working
from app.ui import accounts
from app.ui.bench import Bench
from app.ui.season_columns import columns
from app.ui.words import number
from tests.ui.desks import slot


def lines(working: Working) -> dict[str, str]:
    return {line.label: line.value for line in working.lines}


def test_a_card_tells_its_load_and_where_it_begins(bench: Bench):
    one = slot(bench, 1)
    load = bench.desk.load(one)
    assert load is not None
    account = accounts.of_card(bench, one.id)
    working = load.working(bench.desk.client.units)
    assert account.working.lines[: len(working.lines)] == working.lines
    assert account.working.title == working.title
    card = bench.desk.program.weeks[0].days[0].sessions[0].slots[1]
    assert card.id == one.id
    assert "Begins at minute" in account.extra


def test_a_card_tells_its_ramp_sets_and_who_set_them(bench: Bench):
    one = slot(bench, 0)
    (worked_out,) = (ln for ln in accounts.of_card(bench, one.id).working.lines if ramps(ln))
    assert "worked out from the load" in worked_out.remark
    bench.keep(edit("Ramp", set_ramp, slot_id=one.id, ramp=NO_RAMP))
    (off,) = (ln for ln in accounts.of_card(bench, one.id).working.lines if ramps(ln))
    assert (off.value, off.remark) == ("none", "set by the coach")


def ramps(line: Line) -> bool:
    return line.label == "Ramp sets"


def test_a_card_without_a_load_tells_why(bench: Bench):
    untested = next(s for s in bench.open_week.slots() if bench.desk.load(s) is None)
    account = accounts.of_card(bench, untested.id)
    assert "No strength test yet" in account.working.about
    assert f"{untested.sets} x {untested.reps.low}" in lines(account.working)["Prescription"]


@pytest.mark.parametrize("day", range(7))
def test_a_day_tells_the_minutes_and_sets_at_its_foot(bench: Bench, day: int):
    account = accounts.of_day(bench, day)
    facts = bench.desk.facts(bench.open_week)
    sessions = bench.open_week.days[day].sessions
    free = bench.desk.client.free[day].minutes
    assert (f"{free} minutes are free." in account.extra) == bool(free)
    if not sessions:
        assert "Nothing" in account.working.title
        return
    assert account.working.title.startswith(f"{whole_minutes(facts.minutes_by_day[day])} min")
    sets = sum(one.sets for session in sessions for one in session.slots)
    assert lines(account.working)["Sets of the day"] == str(sets)
    assert account.working.sources


@pytest.mark.parametrize("week", range(6))
def test_a_column_tells_what_it_draws(bench: Bench, week: int):
    desk = bench.desk
    column = columns(desk, desk.program, desk.findings)[week]
    told = lines(accounts.of_week(bench, week).working)
    for bar in column.bars:
        assert told[muscle_name(bar.muscle).capitalize()] == f"{number(bar.sets)} sets"
    if column.reps:
        assert told["Rep target"] == column.reps
    for count, weight in zip(column.counts, ("conflict", "outside", "remark"), strict=True):
        assert (f"{count} {weight}" in told["Findings"]) == bool(count)


def test_a_column_of_the_heat_strip_tells_every_muscle(bench: Bench):
    account = accounts.of_week(bench, 0, whole=True)
    told = lines(account.working)
    for row in accounts.rows_of(bench, 0):
        assert told[row.name] == f"{number(row.sets)} sets"


def test_sets_of_a_row_are_told_exercise_by_exercise(bench: Bench):
    for row in accounts.rows_of(bench, 0):
        account = accounts.of_row(bench, row, bench.open_week)
        assert account.working.title == f"{row.sets:g} sets"
        assert (row.range is not None) == bool(account.extra)


def test_every_finding_tells_its_measure_beside_its_range(bench: Bench):
    counted = 0
    for finding in bench.desk.findings:
        account = accounts.of_finding(bench, finding)
        told = lines(account.working)
        assert account.working.title == finding.text
        assert account.extra == finding.reason
        assert account.working.sources or told.get("Said by") or not finding.source
        if finding.measured is not None:
            assert told["Measured"].startswith(number(finding.measured, places=2))
        if finding.range is not None and finding.range.text:
            assert told["Range"].startswith(finding.range.text)
        counted += len(account.working.lines) > 4
    assert counted, "none of the findings tells how it was counted"


def test_a_day_whose_session_is_still_empty_tells_that_too(bench: Bench):
    free = next(d for d in range(7) if not bench.open_week.days[d].sessions)
    bench.keep(edit("Add a session", add_session, week=0, day=free, span=Span.THIS_WEEK))
    account = accounts.of_day(bench, free)
    assert lines(account.working)["Sets of the day"] == "0"
