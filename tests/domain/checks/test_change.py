"""From week to week, at both edges."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.exercise import Muscle
from tests.builders import client
from tests.domain.checks.ask import findings, texts


@pytest.mark.parametrize(
    ("sets", "said"),
    [
        (10, []),
        (11, ["Quadriceps 5 sets more than in week 7, 1 over 4"]),
        (3, []),
    ],
)
def test_sets_of_the_emphasis_rise_by_four_at_most(sets: int, said: list[str]) -> None:
    assert texts("set_rise", "Mon: leg_extension 6x12", f"Mon: leg_extension {sets}x12") == said


def test_sets_may_come_back_after_a_light_or_an_empty_week() -> None:
    assert texts("set_rise", "light | Mon: leg_extension 2x12", "Mon: leg_extension 9x12") == []
    assert texts("set_rise", "", "Mon: leg_extension 9x12") == []


def test_other_muscles_are_not_watched() -> None:
    assert texts("set_rise", "Mon: curl 2x12", "Mon: curl 9x12") == []


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("50%", "55%", []),
        ("50%", "56%", ["Curl 12 % more load than in week 7, 2 over 10"]),
        ("60kg", "66kg", []),
        ("60kg", "67kg", ["Curl 11.7 % more load than in week 7, 1.7 over 10"]),
        ("55%", "50%", []),
    ],
)
def test_loads_rise_by_ten_percent_at_most(before: str, after: str, said: list[str]) -> None:
    assert texts("load_rise", f"Mon: curl 3x8 {before}", f"Mon: curl 3x8 {after}") == said


def test_fewer_repetitions_are_another_load() -> None:
    assert texts("load_rise", "Mon: curl 3x12 50%", "Mon: curl 3x6 80%") == []


def test_after_a_light_week_loads_may_come_back() -> None:
    assert texts("load_rise", "light | Mon: curl 3x8 50%", "Mon: curl 3x8 70%") == []


def test_young_peoples_loads_name_their_own_source() -> None:
    young = client(born=date(2011, 1, 1))
    (finding,) = findings("load_rise", "Mon: curl 3x8 50%", "Mon: curl 3x8 60%", who=young)
    assert finding.source == "faigenbaum2009"


@pytest.mark.parametrize(("weeks", "count"), [(8, 0), (9, 1)])
def test_eight_weeks_may_go_by_without_a_light_one(weeks: int, count: int) -> None:
    plan = ["Mon: curl 3x12"] * weeks
    found = findings("light_weeks", *plan, "light | Mon: curl 1x12", *plan, plan_week=1)
    assert len(found) == 2 * count


def test_a_run_without_a_light_week_is_told_once_at_its_end() -> None:
    (finding,) = findings("light_weeks", *["Mon: curl 3x12"] * 10, plan_week=1)
    assert finding.text == "Weeks 1 to 10 without a light week: 10 weeks, 2 over 8"
    assert finding.place_text == "week 10"


def test_an_empty_week_is_a_rest() -> None:
    plan = ["Mon: curl 3x12"] * 5
    assert texts("light_weeks", *plan, "", *plan, plan_week=1) == []


@pytest.mark.parametrize(("sets", "count"), [(7, 0), (8, 1)])
def test_a_light_week_has_seven_tenths_of_the_sets_at_most(sets: int, count: int) -> None:
    week = f"light | Mon: curl {sets}x12"
    assert len(texts("light_week_dose", "Mon: curl 10x12", week)) == count


def test_a_light_week_is_held_against_an_ordinary_one_only() -> None:
    assert texts("light_week_dose", "light | Mon: curl 5x12", "light | Mon: curl 5x12") == []
    assert texts("light_week_dose", "", "light | Mon: curl 5x12") == []


def test_an_exercise_stays_the_same_for_six_weeks_at_most() -> None:
    week = "Mon: curl 3x12"
    assert texts("time_since_change", *[week] * 6) == []
    (finding,) = findings("time_since_change", *[week] * 9, plan_week=1)
    assert finding.text == "Curl the same for 7 weeks"
    assert finding.place_text == "Monday"


def test_a_change_starts_the_count_again() -> None:
    plan = ["Mon: curl 3x12"] * 6
    assert texts("time_since_change", *plan, "Mon: crunch 3x12", *plan) == []


def test_each_run_is_told_once() -> None:
    plan = ["Mon: curl 3x12 | Thu: curl 3x12"] * 7
    said = texts("time_since_change", *plan, "Mon: crunch 3x12", *plan)
    assert said == ["Curl the same for 7 weeks"] * 2


def test_more_sets_for_another_emphasis_are_watched_too() -> None:
    weeks = ("Mon: curl 2x12", "Mon: curl 9x12")
    assert len(texts("set_rise", *weeks, emphasis=(Muscle.BICEPS,))) == 1
