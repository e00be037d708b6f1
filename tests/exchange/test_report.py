"""The report on a program: one line for each cause, or a record of every finding."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from app.domain.findings import Finding, Place, Weight
from app.domain.program import Acceptance
from app.domain.ranges import Range
from app.exchange.report import Checked, day_text, report_record, report_text, weeks_text
from tests.builders import client, program

PLAN = program("Mon: back_squat 3x5", times=4)
BAND = Range("weekly_sets", 12, 20, "sets/week", "bazvalle2022")


def finding(week: int, **changes: Any) -> Finding:
    plain = Finding(
        "weekly_sets",
        Weight.OUTSIDE,
        Place(PLAN.weeks[week].id),
        "quadriceps",
        "Quadriceps 10 sets, 2 short of 12-20",
        measured=10,
        range=BAND,
        below=True,
        reason="More grows more.",
        source="bazvalle2022",
    )
    return replace(plain, **changes)


def checked(*findings: Finding, accepted: tuple[Acceptance, ...] = ()) -> Checked:
    plan = replace(PLAN, accepted=accepted)
    return Checked(client(), plan, findings, {"bazvalle2022": "Baz-Valle 2022"})


def test_the_same_cause_in_several_weeks_is_one_line() -> None:
    text = report_text(checked(finding(0), finding(1), finding(3)))
    assert text.splitlines() == [
        "Ridge season, Runa Estvik",
        "4 weeks from 23 November 2026",
        "0 conflicts, 3 outside, 0 remarks, 0 accepted",
        "",
        "Outside",
        "  Quadriceps 10 sets, 2 short of 12-20 (weeks 1–2, 4)",
        "    More grows more. Baz-Valle 2022.",
    ]


def test_a_cause_that_changes_shows_its_first() -> None:
    text = report_text(checked(finding(0), finding(1, text="Quadriceps 11 sets")))
    assert "Quadriceps 10 sets, 2 short of 12-20 (weeks 1–2; the first is shown)" in text
    assert "11 sets" not in text


def test_weights_stand_in_their_order_and_accepted_ones_last_with_their_reason() -> None:
    remark = finding(1, weight=Weight.REMARK, about="calves", text="Calves 2 sets")
    conflict = finding(0, weight=Weight.CONFLICT, rule="limitation", text="Bends the knee")
    kept = (Acceptance(remark.id, "Runs hills."),)
    lines = report_text(checked(remark, conflict, finding(2), accepted=kept)).splitlines()
    titles = [line for line in lines if line in ("Conflict", "Outside", "Remark", "Accepted")]
    assert titles == ["Conflict", "Outside", "Accepted"]
    assert lines[2] == "1 conflict, 1 outside, 0 remarks, 1 accepted"
    assert lines[-1] == "    Accepted: Runs hills."


def test_the_record_holds_every_finding_with_its_numbers() -> None:
    record = report_record(checked(finding(2)))
    assert record["counts"] == {"conflict": 0, "outside": 1, "remark": 0, "accepted": 0}
    (one,) = record["findings"]
    assert (one["week"], one["day"], one["measured"]) == (3, None, 10)
    assert (one["low"], one["high"], one["unit"]) == (12, 20, "sets/week")
    assert one["source"] == "bazvalle2022"


def test_a_program_without_findings_says_so_in_numbers() -> None:
    assert report_text(checked()).splitlines()[2] == "0 conflicts, 0 outside, 0 remarks, 0 accepted"


@pytest.mark.parametrize(
    ("weeks", "text"),
    [([], ""), ([3], "week 3"), ([1, 2, 3], "weeks 1–3"), ([1, 3, 4], "weeks 1, 3–4")],
)
def test_weeks_are_told_as_runs(weeks: list[int], text: str) -> None:
    assert weeks_text(weeks) == text


def test_a_day_is_told_in_full() -> None:
    assert day_text(date(2026, 10, 12)) == "12 October 2026"
