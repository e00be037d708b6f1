"""One field of a prescription brought into its range."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.client import Client, Screening
from tests.builders import client, program
from tests.domain.mends.settle import NOVICE, assert_settles, offered

ILL = client(
    screenings=(Screening(date(2026, 10, 2), active=True, known_disease=True, symptoms=False),)
)
CASES = [
    ("rep_zone", "curl 3x5-9", NOVICE, "Set 8–9 repetitions"),
    ("exercise_reps", "plank 3x10", client(), "Set 15 seconds"),
    ("load_zone", "back_squat 3x3 90%", NOVICE, "Set 85 %"),
    ("effort", "curl 3x10 RIR 0", NOVICE, "Set RIR 2"),
    ("reserve", "curl 3x10 RIR 8", client(), "Set RIR 5"),
    ("moderate_only", "curl 3x10 RIR 1", ILL, "Set RIR 3"),
    ("rest", "curl 3x10 rest 33", client(), "Rest 1:03"),
    ("tempo", "curl 3x10 tempo 6-0-6-0", client(), "Set tempo 2-0-2-0"),
]


@pytest.mark.parametrize(("rule", "slot", "who", "label"), CASES)
def test_a_field_settles_the_finding(rule: str, slot: str, who: Client, label: str) -> None:
    assert_settles(rule, program(f"Mon: {slot}"), who, label=label)


def test_a_load_that_follows_from_repetitions_is_left_to_the_coach() -> None:
    assert offered("load_zone", program("Mon: back_squat 3x3 RIR 0"), NOVICE) is None


def test_a_rest_that_is_too_long_gets_shorter() -> None:
    from app.domain.client import Goal

    plan = program("Mon: back_squat 5x3 core rest 400")
    assert_settles("rest", plan, client(goal=Goal.STRENGTH), label="Rest 5:00")
