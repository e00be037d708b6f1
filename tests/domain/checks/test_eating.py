"""The energy plan beside its ranges."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from app.domain.client import Client, EnergyGoal, Screening, Status
from app.domain.findings import Weight
from app.domain.ranges import RangeBook, range_book_from_mappings
from app.resources import range_book
from tests.builders import client
from tests.domain.checks.ask import findings, texts

WEEK = "Mon: curl 3x12"
GAINING = client(energy_goal=EnergyGoal.GAIN)


def book(rule: str, low: float | None, high: float | None) -> RangeBook:
    """A book with one range of that rule for everybody."""
    entry: dict[str, Any] = {"unit": "%", "source": "common practice"}
    edges = {"low": low, "high": high}
    entry |= {name: edge for name, edge in edges.items() if edge is not None}
    return range_book_from_mappings([{rule: [entry]}])


def test_a_heavy_body_is_counted_at_its_ordinary_mass() -> None:
    heavy = replace(GAINING, mass_kg=110.0)  # 37.6 kg/m2
    assert texts("protein", WEEK, who=heavy) == []


@pytest.mark.parametrize("goal", EnergyGoal)
@pytest.mark.parametrize("status", Status)
def test_the_usual_plan_lies_inside_every_range(goal: EnergyGoal, status: Status) -> None:
    who = client(energy_goal=goal, status=status)
    for rule in ("energy_advice", "energy_change", "energy_steps", "protein", "fat"):
        assert texts(rule, *[WEEK] * 12, who=who, plan_week=1) == []


def test_without_a_goal_energy_is_no_subject() -> None:
    young = client(born=date(2012, 1, 1))
    assert texts("energy_advice", WEEK, who=young) == []


@pytest.mark.parametrize(
    "who",
    [
        replace(GAINING, born=date(2012, 1, 1)),
        replace(GAINING, mass_kg=50.0),  # 17.1 kg/m2
        replace(GAINING, refer=("history of disordered eating",)),
        replace(GAINING, screenings=()),
        replace(
            GAINING,
            screenings=(Screening(date(2026, 10, 2), True, False, False, pregnant=True),),
        ),
    ],
)
def test_some_people_are_sent_to_a_practitioner(who: Client) -> None:
    (finding,) = findings("energy_advice", WEEK, who=who)
    assert finding.weight is Weight.CONFLICT
    assert finding.text.startswith("Energy numbers come from a practitioner.")
    assert findings("protein", WEEK, who=who, book=book("protein", 9, None)) == []


def test_what_is_missing_is_named() -> None:
    (finding,) = findings("energy_advice", WEEK, who=replace(GAINING, height_cm=None))
    assert "height" in finding.text
    assert finding.weight is Weight.REMARK


@pytest.mark.parametrize(("low", "high", "count"), [(None, 9, 1), (10, 10, 0), (11, None, 1)])
def test_a_surplus_is_ten_percent_of_the_need(
    low: float | None, high: float | None, count: int
) -> None:
    # iraki2019: 10 to 20 %; the plan takes the low end, rounded to ten kcal
    found = findings("energy_change", WEEK, who=GAINING, book=book("energy_change", low, high))
    assert len(found) == count


@pytest.mark.parametrize(("low", "high", "count"), [(None, 1.5, 1), (1.5, 1.7, 0), (1.7, None, 1)])
def test_protein_is_counted_for_each_kilogram(
    low: float | None, high: float | None, count: int
) -> None:
    # 1.6 g/kg (morton2018) in steps of 5 g: 105 g for 66.4 kg
    found = findings("protein", WEEK, who=GAINING, book=book("protein", low, high))
    assert len(found) == count


@pytest.mark.parametrize(("low", "high", "count"), [(None, 29, 1), (30, 30, 0), (31, None, 1)])
def test_fat_is_a_share_of_energy(low: float | None, high: float | None, count: int) -> None:
    assert len(findings("fat", WEEK, who=GAINING, book=book("fat", low, high))) == count


def test_a_target_out_of_reach_is_remarked() -> None:
    hungry = replace(GAINING, kcal_now=1200.0)
    (finding,) = findings("energy_ramp", *[WEEK] * 4, who=hungry, plan_week=1)
    # resting 1,402 (mifflin1990): from 1,410 on by a hundred a week
    assert finding.text.startswith("Energy comes to 1,710 kcal in 4 weeks, ")
    assert texts("energy_ramp", *[WEEK] * 30, who=hungry, plan_week=1) == []


@pytest.mark.parametrize(("eaten", "count"), [(1300.0, 1), (1401.0, 1), (1402.0, 0), (None, 0)])
def test_eating_below_the_resting_energy_is_a_conflict(eaten: float | None, count: int) -> None:
    # 10 x 66.4 + 6.25 x 171 - 5 x 34 - 161 is 1,401.75 (mifflin1990)
    found = findings("energy_intake", WEEK, who=replace(GAINING, kcal_now=eaten))
    assert len(found) == count
    for one in found:
        assert one.weight is Weight.CONFLICT
        assert one.text.startswith(f"{eaten:,.0f} kcal a day eaten now, ")


def test_eating_far_below_the_resting_energy_is_sent_to_a_practitioner() -> None:
    (finding,) = findings("energy_advice", WEEK, who=replace(GAINING, kcal_now=600.0))
    assert finding.weight is Weight.CONFLICT
    assert "far below the resting energy" in finding.text


@pytest.mark.parametrize(("high", "count"), [(99, 1), (100, 0)])
def test_steps_are_bounded(high: float, count: int) -> None:
    hungry = replace(GAINING, kcal_now=1200.0)
    steps = book("energy_steps", None, high)
    assert len(findings("energy_steps", *[WEEK] * 4, who=hungry, plan_week=1, book=steps)) == count


def test_the_shipped_book_knows_every_goal() -> None:
    for goal in EnergyGoal:
        for rule in ("energy_change", "protein"):
            assert range_book().find(rule, Status.NOVICE, goal=GAINING.goal, kind=goal)
