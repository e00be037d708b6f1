"""Skill, likes, screening, age, pregnancy, unknown days."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from app.domain.client import NO_TIME, Client, Screening, Status
from app.domain.exercise import ExerciseKey
from app.domain.findings import Weight
from tests.builders import START, client
from tests.domain.checks.ask import findings, texts

WEEK = "Mon: curl 3x12 RIR 2"


def screened(**answers: Any) -> Client:
    usual = {"active": True, "known_disease": False, "symptoms": False}
    return client(screenings=(Screening(date(2026, 10, 2), **{**usual, **answers}),))


@pytest.mark.parametrize(
    ("status", "said"),
    [
        (Status.NOVICE, ["Front squat needs coaching, much for a novice"]),
        (Status.INTERMEDIATE, []),
        (Status.ADVANCED, []),
    ],
)
def test_novices_leave_what_needs_coaching(status: Status, said: list[str]) -> None:
    week = "Mon: front_squat 3x8, back_squat 3x8, curl 3x8"
    assert texts("skill", week, who=client(status=status)) == said


def test_what_is_not_liked_is_remarked() -> None:
    who = client(dislikes=frozenset({ExerciseKey("curl")}))
    assert texts("dislikes", "Mon: curl 3x8, crunch 3x8", who=who) == [
        "Curl is not liked by Runa Estvik"
    ]


def test_unknown_days_are_asked_for_once() -> None:
    assert len(texts("availability", WEEK, WEEK, who=client(free=NO_TIME))) == 1
    assert texts("availability", WEEK) == []


def test_a_client_nobody_screened_is_remarked() -> None:
    (finding,) = findings("screening", WEEK, who=client(screenings=()))
    assert finding.text == "Runa Estvik has not been screened yet"
    assert finding.weight is Weight.REMARK
    assert finding.place.week is None


def test_answers_that_call_for_a_practitioner_are_a_conflict() -> None:
    (finding,) = findings("screening", WEEK, who=screened(symptoms=True))
    assert finding.weight is Weight.CONFLICT
    assert "practitioner" in finding.text


def test_answers_that_allow_training_are_quiet() -> None:
    assert texts("screening", WEEK, who=screened()) == []


def test_an_empty_program_needs_no_screening() -> None:
    assert texts("screening", "", who=client(screenings=())) == []


@pytest.mark.parametrize(("rir", "count"), [(2.5, 1), (3, 0)])
def test_moderate_effort_keeps_three_in_reserve(rir: float, count: int) -> None:
    week = f"Mon: curl 3x12 RIR {rir}"
    found = findings("moderate_only", week, who=screened(known_disease=True))
    assert len(found) == count
    assert all(finding.weight is Weight.CONFLICT for finding in found)
    assert texts("moderate_only", week, who=screened()) == []


def test_a_clearance_runs_out_during_a_plan() -> None:
    # cleared 360 days before the second Monday: twelve months are over in the third week
    cleared = date.fromordinal(START.toordinal() + 7 - 360)
    who = screened(known_disease=True, cleared_on=cleared)
    found = findings("moderate_only", *[WEEK] * 3, who=who, plan_week=1)
    assert len(found) == 1


def test_a_beginners_clearance_that_runs_out_does_not_free_the_effort() -> None:
    cleared = date.fromordinal(START.toordinal() + 7 - 360)
    who = screened(active=False, known_disease=True, cleared_on=cleared)
    assert len(findings("moderate_only", *[WEEK] * 3, who=who, plan_week=1)) == 3


def test_pregnancy_waits_for_the_obstetric_provider() -> None:
    (finding,) = findings("pregnancy", WEEK, who=screened(pregnant=True))
    assert finding.weight is Weight.CONFLICT
    (finding,) = findings(
        "pregnancy", WEEK, who=screened(pregnant=True, cleared_on=date(2026, 10, 3))
    )
    assert finding.weight is Weight.REMARK
    assert "contractions" in finding.reason
    assert texts("pregnancy", WEEK, who=screened()) == []


@pytest.mark.parametrize("cleared", [date(2026, 10, 1), date(2099, 1, 1)])
def test_pregnancy_is_open_with_an_older_or_a_future_clearance(cleared: date) -> None:
    (finding,) = findings("pregnancy", WEEK, who=screened(pregnant=True, cleared_on=cleared))
    assert finding.weight is Weight.CONFLICT


@pytest.mark.parametrize(("years", "count"), [(17, 1), (18, 0), (64, 0), (65, 1)])
def test_ages_at_which_training_differs_are_remarked(years: int, count: int) -> None:
    who = client(born=date(START.year - years, 1, 1))
    assert len(texts("age", WEEK, who=who, plan_week=1)) == count


def test_an_unknown_age_is_no_finding() -> None:
    assert texts("age", WEEK, who=client(born=None)) == []


@pytest.mark.parametrize(
    ("status", "low", "high"),
    [(Status.NOVICE, 2, 3), (Status.INTERMEDIATE, 3, 4), (Status.ADVANCED, 4, 5)],
)
def test_training_days_follow_the_status(status: Status, low: int, high: int) -> None:
    # acsm2009: 2 to 3, 3 to 4, 4 to 5 days a week
    names = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

    def said(days: int) -> list[str]:
        week = " | ".join(f"{name}: curl 1x12" for name in names[:days])
        return texts("training_days", week, who=client(status=status))

    counts = [len(said(days)) for days in (low - 1, low, high, high + 1)]
    assert counts == [1, 0, 0, 1]


def test_a_usual_week_is_the_one_in_the_middle() -> None:
    full = "Mon: curl 1x12 | Wed: curl 1x12 | Fri: curl 1x12"
    assert texts("training_days", full, full, "Mon: curl 1x12", "light | Mon: curl 1x9") == []


@pytest.mark.parametrize(("days", "count"), [(-1, 1), (3, 0), (6, 0), (7, 1)])
def test_a_clearance_given_while_the_plan_runs_answers_its_symptoms(days: int, count: int) -> None:
    ill = Screening(
        START,
        active=True,
        known_disease=False,
        symptoms=True,
        cleared_on=START + timedelta(days=days),
    )
    found = findings("screening", WEEK, who=client(screenings=(ill,)), plan_week=1)
    assert len([f for f in found if f.weight is Weight.CONFLICT]) == count
