"""A week was meant as the booklet says that the client had when it began."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from app.domain.exercise import ExerciseKey
from app.domain.handed_out import HandedOut, PrintedWeek, printed_weeks
from app.domain.program import WeekId
from app.domain.work import Coach, Issue, IssueId, PrintedLoad
from tests.builders import START, client, program

PLAN = program("Mon: back_squat 3x5, goblet_squat 2x10", times=4)
IDS = tuple(week.id for week in PLAN.weeks)
FIRST = tuple(next(week.slots()) for week in PLAN.weeks)


def issue(days: int, *, weeks: slice = slice(None), kg: float = 60.0) -> Issue:
    """A booklet handed out so many days after the start, with these weeks of the plan."""
    loads = (*(PrintedLoad(slot.id, kg) for slot in FIRST),)
    held = replace(PLAN, weeks=PLAN.weeks[weeks])
    on = START + timedelta(days=days)
    return Issue(IssueId(f"{days}/{weeks}"), on, Coach(), client(), held, loads)


def handed(*issues: Issue) -> HandedOut:
    """Those booklets, given in the order they were handed out."""
    by_id = {each.id: each for each in issues}
    return HandedOut(tuple(reversed(issues)), lambda key: printed_weeks(by_id[key]))


def days(found: HandedOut) -> list[int | None]:
    """For each week, how long after the start its booklet was handed out."""
    starts = ((each, PLAN.week_start(at)) for at, each in enumerate(IDS))
    printed = [found.at_start(each, first) for each, first in starts]
    return [None if one is None else (one.on - START).days for one in printed]


def test_the_newest_booklet_on_or_before_the_weeks_first_day_counts():
    assert days(handed(issue(-7), issue(7), issue(15))) == [-7, 7, 7, 15]


def test_a_week_that_began_before_any_booklet_takes_the_first_that_has_it():
    assert days(handed(issue(9), issue(15))) == [9, 9, 9, 15]
    assert days(handed(issue(9, weeks=slice(2, 4)), issue(15))) == [15, 15, 9, 15]


def test_a_booklet_without_the_week_is_passed_over():
    assert days(handed(issue(-7), issue(7, weeks=slice(0, 1)))) == [-7, -7, -7, -7]
    assert days(handed(issue(-7, weeks=slice(0, 2)))) == [-7, -7, None, None]
    assert days(handed()) == [None] * 4


def test_by_a_day_means_that_day_too():
    found = handed(issue(-7), issue(7))
    assert found.newest_by(IDS[0], START + timedelta(days=6)).on == START - timedelta(days=7)
    assert found.newest_by(IDS[0], START + timedelta(days=7)).on == START + timedelta(days=7)
    assert found.newest_by(IDS[0], START - timedelta(days=8)) is None


@given(st.lists(st.integers(-10, 40), max_size=5), st.integers(0, 3))
def test_what_is_newer_than_the_weeks_start_counts_only_where_nothing_was_there(on, at):
    issues = [issue(day) for day in sorted(set(on))]
    found = handed(*issues).at_start(IDS[at], PLAN.week_start(at))
    before = [each.on for each in issues if each.on <= PLAN.week_start(at)]
    if before:
        assert found.on == max(before)
    else:
        assert (found is None) == (not issues)
        assert found is None or found.on == min(each.on for each in issues)


def test_only_weeks_that_have_begun_are_told_of():
    found = handed(issue(-7))
    assert list(found.begun(PLAN, PLAN.week_start(2))) == list(IDS[:3])
    assert list(found.begun(PLAN, START - timedelta(days=1))) == []
    assert list(handed().begun(PLAN, date(2100, 1, 1))) == []


def test_an_issue_is_opened_once_and_only_when_it_is_asked_for():
    opened: list[IssueId] = []
    issues = {each.id: each for each in (issue(-7), issue(40))}

    def open_issue(issue_id: IssueId) -> Mapping[WeekId, PrintedWeek]:
        opened.append(issue_id)
        return printed_weeks(issues[issue_id])

    found = HandedOut(tuple(reversed(issues.values())), open_issue)
    for at, each in enumerate(IDS):
        found.at_start(each, PLAN.week_start(at))
    assert opened == [issue(-7).id]


def test_the_printed_week_has_its_own_loads_and_knows_its_slots():
    printed = printed_weeks(issue(-7, kg=62.5))
    week = printed[IDS[1]]
    assert dict(week.loads) == {FIRST[1].id: 62.5}
    assert week.has(FIRST[1])
    assert not week.has(FIRST[0])
    assert not week.has(replace(FIRST[1], exercise=ExerciseKey("hip_thrust")))
