"""Sessions a week for a muscle, and hours between them."""

from __future__ import annotations

import pytest

from app.domain.client import Goal
from tests.builders import client
from tests.domain.checks.ask import findings, texts

ONCE = "Mon: leg_extension 8x12"
TWICE = "Mon: leg_extension 4x12 | Thu: leg_extension 4x12"


def test_an_emphasised_muscle_is_trained_twice() -> None:
    assert texts("weekly_frequency", ONCE) == ["Quadriceps 1 session, 1 short of 2"]
    assert texts("weekly_frequency", TWICE) == []


def test_helping_for_one_set_counts_as_a_session() -> None:
    # two sets of deadlifts are one fractional set for the quadriceps
    assert texts("weekly_frequency", f"{ONCE} | Thu: deadlift 2x5") == []
    assert len(texts("weekly_frequency", f"{ONCE} | Thu: deadlift 1x5")) == 1


def test_strength_needs_practice_twice_a_week() -> None:
    (finding,) = findings("weekly_frequency", ONCE, who=client(goal=Goal.STRENGTH))
    assert finding.source == "acsm2026"


def test_health_means_every_muscle_twice_told_in_one() -> None:
    week = TWICE + " | Fri: curl 3x12, crunch 3x12, calf_raise 2x12 | Sat: calf_raise 2x12"
    assert texts("weekly_frequency", week, who=client(goal=Goal.HEALTH)) == [
        "Abdominals and biceps 1 session, 1 short of 2"
    ]
    assert texts("weekly_frequency", week) == []


def test_a_light_week_may_skip_a_session() -> None:
    assert texts("weekly_frequency", "light | " + ONCE) == []


@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("Tue", ["Quadriceps again 24 h after Monday, 24 h short of 48"]),
        ("Wed", []),
    ],
)
def test_hard_sessions_are_48_hours_apart(day: str, said: list[str]) -> None:
    assert texts("spacing", f"Mon: leg_extension 4x12 | {day}: leg_extension 4x12") == said


@pytest.mark.parametrize(("sets", "count"), [(2, 0), (3, 1)])
def test_a_session_is_hard_from_three_sets(sets: int, count: int) -> None:
    week = f"Mon: leg_extension 4x12 | Tue: leg_extension {sets}x12"
    assert len(texts("spacing", week)) == count


def test_two_sessions_of_one_day_are_the_same_day() -> None:
    week = "Mon: leg_extension 4x12 | Mon: leg_extension 4x12"
    assert texts("spacing", week) == ["Quadriceps again the same day, 48 h short of 48"]


def test_muscles_of_one_pair_of_sessions_are_told_together() -> None:
    week = "Mon: leg_extension 4x12, leg_curl 4x12 | Tue: leg_extension 4x12, leg_curl 4x12"
    assert texts("spacing", week) == [
        "Quadriceps and hamstrings again 24 h after Monday, 24 h short of 48"
    ]


def test_sunday_and_the_next_monday_are_a_day_apart() -> None:
    weeks = ("Sun: leg_extension 4x12", "Mon: leg_extension 4x12")
    (finding,) = findings("spacing", *weeks)
    assert finding.text == "Quadriceps again 24 h after Sunday, 24 h short of 48"
    assert finding.place_text == "Monday"
    assert texts("spacing", "Sat: leg_extension 4x12", "Mon: leg_extension 4x12") == []
