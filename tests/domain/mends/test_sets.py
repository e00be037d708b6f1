"""Sets added and taken off."""

from __future__ import annotations

import pytest

from app.domain.client import Client, FreeTime
from tests.builders import client, program
from tests.domain.mends.settle import NOVICE, assert_settles, offered

CASES = [
    ("weekly_sets", ["Mon: leg_extension 3x12 | Thu: leg_extension 2x12"], NOVICE, "Add 1 set"),
    ("weekly_sets", ["Mon: leg_press 9x12 | Thu: leg_press 6x12"], client(), "Take off 1 set"),
    ("session_sets", ["Mon: leg_extension 12x12"], client(), "Take off 2 sets"),
    ("exercise_sets", ["Mon: leg_extension 8x12"], client(), "Take off 2 sets"),
    (
        "set_rise",
        ["Mon: leg_extension 2x12", "Mon: leg_extension 8x12"],
        client(),
        "Take off 2 sets",
    ),
]


@pytest.mark.parametrize(("rule", "weeks", "who", "label"), CASES)
def test_sets_settle_the_finding(rule: str, weeks: list[str], who: Client, label: str) -> None:
    assert_settles(rule, program(*weeks), who, label=label)


def test_sets_are_shared_where_one_exercise_has_no_room() -> None:
    plan = program(*[""] * 6, "Mon: leg_extension 2x12, leg_press 4x10")  # 6 short of 12
    after = assert_settles("weekly_sets", plan, client(), label="Add 6 sets")
    assert [slot.sets for slot in after.weeks[6].slots()] == [6, 6]


def test_no_exercise_gets_more_than_six_sets() -> None:
    plan = program(*[""] * 6, "Mon: leg_extension 5x12")  # 7 short of 12
    assert offered("weekly_sets", plan, client()) is None


def test_too_many_minutes_lose_sets_of_assistance() -> None:
    # 6 min, ramp 4; squat 3 x (40 + 120) s and 1 min; curl 4 x (40 + 60) s and 1 min: 26.7 min
    plan = program("Mon: back_squat 3x10 rest 120 core, curl 4x10 rest 60")
    who = client(free=(FreeTime(24), *(FreeTime(),) * 6))
    after = assert_settles("session_minutes", plan, who, label="Take off 2 sets")
    assert [slot.sets for slot in after.weeks[0].slots()] == [3, 2]


def test_a_day_that_is_not_free_has_no_obvious_mend() -> None:
    who = client(free=(*(FreeTime(),) * 6, FreeTime(60)))
    assert offered("session_minutes", program("Mon: curl 4x10"), who) is None
