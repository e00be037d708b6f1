"""For whom a program is checked."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.checks import Context
from app.domain.checks.context import breaches, missing_equipment
from app.domain.client import NO_TIME, Client, FreeTime, Limitation
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Muscle
from app.domain.program import Program
from app.domain.ranges import range_book_from_mappings
from tests.builders import CATALOGUE, client, program

ENTRY = {"unit": "sets", "source": "common practice"}
BOOK = range_book_from_mappings(
    [
        {
            "weekly_sets": [
                ENTRY | {"low": 1, "who": {"week_high": 6}},
                ENTRY | {"low": 2, "who": {"week_low": 7}},
                ENTRY | {"low": 3, "who": {"age_low": 35, "week_low": 7}},
            ],
            "session_minutes": [ENTRY],
        }
    ]
)
PLAN = program("Mon: curl 3x10", times=21)


def context(who: Client | None = None, plan: Program = PLAN) -> Context:
    return Context(plan, who or client(), CATALOGUE, BOOK)


def low(asked: Context, index: int) -> float | None:
    band = asked.band("weekly_sets", index=index)
    return None if band is None else band.low


def test_a_range_follows_the_plans_week_and_the_clients_age() -> None:
    # 35 on Monday of the sixteenth week, 8 March 2027
    asked = context(client(born=date(1992, 3, 8)))
    assert [low(asked, index) for index in (0, 5, 6, 14, 15, 20)] == [1, 1, 2, 2, 3, 3]


def test_asking_in_another_order_changes_nothing() -> None:
    forwards, backwards = context(), context()
    there = [low(forwards, index) for index in range(21)]
    back = [low(backwards, index) for index in reversed(range(21))]
    assert there == back[::-1]


def test_a_rule_without_a_range_has_none() -> None:
    assert context().band("rest") is None


def test_the_emphasis_of_the_program_comes_before_the_clients() -> None:
    who = client(emphasis=(Muscle.CHEST,))
    assert context(who).emphasis == (Muscle.QUADRICEPS,)
    bare = program("Mon: curl 3x10", emphasis=())
    assert context(who, bare).emphasis == (Muscle.CHEST,)


def test_minutes_of_a_day_are_the_clients() -> None:
    asked = context(client(free=(FreeTime(45), *(FreeTime(),) * 6)))
    caps = [band.high for day in (0, 1) if (band := asked.cap(day))]
    assert caps == [45, 0]
    assert context(client(free=NO_TIME)).cap(0) is None


@pytest.mark.parametrize(
    ("limitation", "count"),
    [
        (Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=109), 1),
        (Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=110), 0),
        (Limitation(Joint.KNEE, Motion.FLEXION), 1),
        (Limitation(Joint.KNEE, Motion.EXTENSION), 0),
        (Limitation(Joint.HIP, Motion.FLEXION), 0),
    ],
)
def test_a_reach_breaks_a_limitation_past_its_angle(limitation: Limitation, count: int) -> None:
    exercise = CATALOGUE[ExerciseKey("split_squat")]  # bends the knee to 110 degrees
    assert len(breaches(exercise, client(limitations=(limitation,)))) == count


def test_everything_missing_is_named_but_the_body() -> None:
    who = client(equipment=frozenset({Equipment.RACK}))
    assert missing_equipment(CATALOGUE[ExerciseKey("back_squat")], who) == (Equipment.BARBELL,)
    assert missing_equipment(CATALOGUE[ExerciseKey("push_up")], who) == ()
