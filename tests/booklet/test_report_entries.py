"""Findings as a colleague reads them: alike ones together, by weight and weeks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet.report_entries import counts_text, initials, sections, weeks_title
from app.domain.findings import Finding, Place, Weight
from app.domain.program import Acceptance
from tests.booklet.sample import season

PROGRAM = season(6)


def finding(weight: Weight = Weight.OUTSIDE, week: int | None = 1, **changed) -> Finding:
    """A finding in a week counted from 1; None for the whole program."""
    place = Place() if week is None else Place(week=PROGRAM.weeks[week - 1].id)
    plain = Finding("weekly_sets", weight, place, "calves", "Calves 3 sets, 1 short of 4")
    return replace(plain, **changed)


def test_weights_come_heaviest_first_and_what_is_accepted_last() -> None:
    resting = finding(Weight.CONFLICT, about="knee", text="Lunge bends the knee")
    program = replace(PROGRAM, accepted=(Acceptance(resting.id, "agreed with her physio"),))
    found = sections(
        program, (finding(Weight.REMARK), finding(), finding(Weight.CONFLICT), resting)
    )
    assert [section.title for section in found] == ["Conflict", "Outside", "Remark", "Accepted"]
    assert found[-1].parts[0].entries[0].accepted == "agreed with her physio"
    assert counts_text(found) == "1 conflict, 1 outside, 1 remark and 1 accepted"


def test_alike_findings_of_several_weeks_are_one_entry() -> None:
    (section,) = sections(PROGRAM, tuple(finding(week=week) for week in (1, 2, 5)))
    (part,) = section.parts
    assert part.weeks == (1, 2, 5)
    assert len(part.entries) == 1
    assert section.count == 3


def test_another_amount_is_another_entry() -> None:
    more = finding(week=2, text="Calves 2 sets, 2 short of 4")
    (section,) = sections(PROGRAM, (finding(), more))
    assert [part.weeks for part in section.parts] == [(1,), (2,)]


def test_what_concerns_the_whole_program_comes_before_the_weeks() -> None:
    (section,) = sections(PROGRAM, (finding(week=2), finding(week=None, about="days")))
    assert [part.weeks for part in section.parts] == [(), (2,)]


@given(st.lists(st.tuples(st.sampled_from(Weight), st.integers(1, 6), st.sampled_from("abc"))))
def test_no_finding_is_lost_or_told_twice(told: list[tuple[Weight, int, str]]) -> None:
    findings = tuple({finding(w, week, about=about) for w, week, about in told})
    found = sections(PROGRAM, findings)
    assert sum(section.count for section in found) == len(findings)
    entries = [e for section in found for part in section.parts for e in part.entries]
    places = sorted((e.finding.weight, week, e.finding.about) for e in entries for week in e.weeks)
    assert places == sorted(set(told))


@pytest.mark.parametrize(
    ("weeks", "title"),
    [
        ((), ("The whole program", "")),
        ((1,), ("Week 1", "from 16\u00a0November\u00a02026")),
        ((3,), ("Week 3", "from 30\u00a0November\u00a02026")),
        ((1, 2, 3), ("Weeks 1–3", "")),
        ((1, 2, 4, 6, 7), ("Weeks 1–2, 4, 6–7", "")),
    ],
)
def test_weeks_are_told_as_runs_with_the_first_day_of_one(weeks, title) -> None:
    assert weeks_title(weeks, date(2026, 11, 16)) == title


@pytest.mark.parametrize(
    ("name", "letters"),
    [("Runa Estvik", "R. E."), ("jorunn", "J."), ("Ása Łuk Öst", "Á. Ł. Ö."), ("", "the client")],
)
def test_initials(name: str, letters: str) -> None:
    assert initials(name) == letters
