"""What a client needs next, at both edges of every threshold."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Stage
from app.domain.due import TERMS, Due, Need, Standing, Terms, dues

TODAY = date(2026, 11, 25)


def ago(days: int) -> date:
    return TODAY - timedelta(days=days)


FINE = Standing(
    screened=ago(30),
    tested=ago(10),
    checked_in=ago(3),
    issue_end=ago(-60),
    program_start=ago(20),
    program_end=ago(-60),
    consent=ago(30),
    keep_until=ago(-400),
)


def with_day(field: str, day: date, *, of: Standing = FINE) -> Standing:
    changes: dict[str, Any] = {field: day}
    return replace(of, **changes)


def needs(standing: Standing) -> list[Need]:
    return [due.need for due in dues(standing, TODAY)]


def test_who_has_everything_needs_nothing() -> None:
    assert dues(FINE, TODAY) == ()


@pytest.mark.parametrize(
    ("field", "just_fine", "due", "need"),
    [
        ("screened", ago(TERMS.screening - 1), ago(TERMS.screening), Need.SCREENING),
        ("tested", ago(TERMS.test - 1), ago(TERMS.test), Need.TEST),
        ("checked_in", ago(TERMS.check_in - 1), ago(TERMS.check_in), Need.CHECK_IN),
        ("issue_end", ago(-TERMS.issue - 1), ago(-TERMS.issue), Need.ISSUE),
        ("program_end", ago(-TERMS.program - 1), ago(-TERMS.program), Need.PROGRAM),
        ("keep_until", ago(-TERMS.keep - 1), ago(-TERMS.keep), Need.KEEP_UNTIL),
    ],
)
def test_each_threshold_at_its_edge(field: str, just_fine: date, due: date, need: Need) -> None:
    fine = with_day(field, just_fine)
    if field == "program_end":
        fine = replace(fine, issue_end=just_fine)
    assert needs(fine) == []
    late = with_day(field, due, of=fine)
    if field == "program_end":
        late = replace(late, issue_end=due)
    assert needs(late) == [need]


def test_screening_comes_before_all_else() -> None:
    assert needs(Standing()) == [Need.SCREENING]
    assert needs(Standing(stage=Stage.ENQUIRY)) == [Need.SCREENING]
    assert needs(Standing(stage=Stage.ENQUIRY, screened=TODAY)) == []


def test_a_screened_client_without_a_plan_needs_one() -> None:
    assert needs(Standing(screened=TODAY)) == [Need.PROGRAM, Need.CONSENT]


def test_a_plan_that_is_over_is_followed_by_the_next_and_nothing_else() -> None:
    over = replace(FINE, program_end=ago(4), issue_end=ago(4), tested=None, checked_in=ago(90))
    assert needs(over) == [Need.PROGRAM]
    assert dues(over, TODAY)[0].late(TODAY) == 4


def test_a_booklet_that_ends_with_the_plan_is_no_matter_of_its_own() -> None:
    both = replace(FINE, program_end=ago(-5), issue_end=ago(-5))
    assert needs(both) == [Need.PROGRAM]


def test_a_first_booklet_is_due_when_the_plan_begins() -> None:
    fresh = replace(FINE, issue_end=None, checked_in=None, program_start=ago(-20))
    assert needs(fresh) == []
    assert needs(replace(fresh, program_start=ago(-7))) == [Need.ISSUE]


def test_the_first_check_in_waits_for_the_plan() -> None:
    fresh = replace(FINE, checked_in=None, program_start=ago(13))
    assert needs(fresh) == []
    assert needs(replace(fresh, program_start=ago(14))) == [Need.CHECK_IN]


@pytest.mark.parametrize("stage", [Stage.PAUSED, Stage.ENDED])
def test_who_rests_is_left_alone_but_for_the_time_to_keep_records(stage: Stage) -> None:
    assert needs(Standing(stage=stage)) == []
    assert needs(Standing(stage=stage, keep_until=ago(3))) == [Need.KEEP_UNTIL]
    assert needs(Standing(archived=True, keep_until=ago(3))) == [Need.KEEP_UNTIL]


@pytest.mark.parametrize(
    ("due", "text"),
    [
        (Due(Need.CHECK_IN, ago(1)), "Check-in 1 day overdue"),
        (Due(Need.CHECK_IN, TODAY), "Check-in due today"),
        (Due(Need.ISSUE, ago(-5)), "Booklet runs out in 5 days"),
        (Due(Need.ISSUE, ago(2)), "Booklet ran out 2 days ago"),
        (Due(Need.TEST, None), "No strength test yet"),
        (Due(Need.CONSENT, None), "No consent noted"),
    ],
)
def test_it_is_told_in_days(due: Due, text: str) -> None:
    assert due.text(TODAY) == text


DAYS = st.none() | st.dates(date(2024, 1, 1), date(2028, 1, 1))
STANDINGS = st.builds(
    Standing,
    stage=st.sampled_from(Stage),
    archived=st.booleans(),
    screened=DAYS,
    tested=DAYS,
    checked_in=DAYS,
    issue_end=DAYS,
    program_start=DAYS,
    program_end=DAYS,
    consent=DAYS,
    keep_until=DAYS,
)


@given(STANDINGS, st.integers(0, 400))
def test_waiting_makes_nothing_less_due(standing: Standing, days: int) -> None:
    found = dues(standing, TODAY)
    assert len({due.need for due in found}) == len(found)
    for due in found:
        assert due.text(TODAY)
    later = TODAY + timedelta(days=days)
    still = {due.need for due in dues(standing, later)}
    for due in found:
        plan_over = standing.program_end is not None and standing.program_end <= later
        assert due.need in still or plan_over
    assert Terms().source == "common practice"
