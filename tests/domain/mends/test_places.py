"""Another exercise, another place, another week."""

from __future__ import annotations

import pytest

from app.domain.client import Client, FreeTime
from app.domain.exercise import Equipment, ExerciseKey
from tests.builders import client, program
from tests.domain.mends.settle import KNEE, NOVICE, assert_settles, offered

CASES = [
    ("limitation", ["Mon: split_squat 3x10"], client(limitations=(KNEE,)), "Step up"),
    ("equipment", ["Mon: bench_press 3x10"], client(equipment=frozenset()), "Push up"),
    ("skill", ["Mon: front_squat 3x10"], NOVICE, "Back squat"),
    (
        "dislikes",
        ["Mon: curl 3x10, chin_up 3x8"],
        client(dislikes=frozenset({ExerciseKey("chin_up")})),
        "Barbell row",
    ),
    ("time_since_change", ["Mon: leg_press 3x10"] * 7, client(), "Back squat"),
    (
        "exercise_order",
        ["Mon: leg_extension 3x12, back_squat 3x8"],
        client(),
        "Move before leg extension",
    ),
    ("warm_up", ["Mon: back_squat 3x8 core"], client(), "Add a warm-up"),
    (
        "spacing",
        ["Mon: leg_extension 4x12 | Tue: leg_extension 4x12"],
        client(),
        "Move to Wednesday",
    ),
    ("spinal_load", ["Mon: back_squat 3x8 | Tue: deadlift 3x5"], client(), "Move to Wednesday"),
    (
        "light_weeks",
        ["Mon: leg_extension 5x12 rest 90 | Thu: leg_extension 4x12 rest 90"] * 10,
        client(),
        "Make week 9 light",
    ),
]


@pytest.mark.parametrize(("rule", "weeks", "who", "label"), CASES)
def test_a_change_settles_the_finding(rule: str, weeks: list[str], who: Client, label: str) -> None:
    assert_settles(rule, program(*weeks), who, label=label)


def test_what_nobody_could_do_is_not_offered() -> None:
    who = client(equipment=frozenset({Equipment.BODY}))
    assert offered("equipment", program("Mon: leg_press 3x10"), who) is None


def test_a_swap_reaches_from_this_week_on() -> None:
    plan = program("Mon: split_squat 3x10", times=3)
    after = assert_settles("limitation", plan, client(limitations=(KNEE,)), label="Step up")
    assert {slot.exercise for week in after.weeks for slot in week.slots()} == {"step_up"}


def test_a_session_only_moves_to_a_free_day() -> None:
    who = client(free=(FreeTime(60), FreeTime(60), *(FreeTime(),) * 3, FreeTime(60), FreeTime()))
    plan = program("Mon: leg_extension 4x12 | Tue: leg_extension 4x12")
    assert_settles("spacing", plan, who, label="Move to Saturday")
    busy = client(free=(FreeTime(60), FreeTime(60), *(FreeTime(),) * 5))
    assert offered("spacing", plan, busy) is None
