"""Order, warm-up, opposing patterns, load on the spine, sets of one exercise."""

from __future__ import annotations

import pytest

from app.domain.client import Status
from tests.builders import client
from tests.domain.checks.ask import texts

NOVICE = client(status=Status.NOVICE)


@pytest.mark.parametrize(("sets", "novice", "trained"), [(4, 0, 0), (5, 1, 0), (7, 1, 1)])
def test_one_exercise_has_so_many_sets(sets: int, novice: int, trained: int) -> None:
    week = f"Mon: curl {sets}x12"
    assert len(texts("exercise_sets", week, who=NOVICE)) == novice
    assert len(texts("exercise_sets", week)) == trained


def test_big_lifts_come_before_small_ones_for_the_same_muscle() -> None:
    said = texts("exercise_order", "Mon: leg_extension 3x12, curl 3x12, back_squat 3x8")
    assert said == ["Back squat after leg extension, which tires the same muscle"]
    assert texts("exercise_order", "Mon: back_squat 3x8, leg_extension 3x12") == []
    assert texts("exercise_order", "Mon: curl 3x12, back_squat 3x8") == []


def test_the_order_of_two_sessions_is_their_own() -> None:
    assert texts("exercise_order", "Mon: leg_extension 3x12 | Mon: back_squat 3x8") == []


def test_a_pair_has_no_order() -> None:
    pair = "Mon: leg_extension 3x12 pair A, leg_press 3x8 pair A"
    assert texts("exercise_order", pair) == []


def test_heavy_sessions_have_drills_that_fit() -> None:
    assert texts("warm_up", "Mon: back_squat 3x8 core") == ["Monday: no warm-up drills"]
    assert texts("warm_up", "Mon (band_walk): bench_press 3x8 core") == [
        "Monday: no drill that leads up to bench press"
    ]
    assert texts("warm_up", "Mon (band_walk): back_squat 3x8 core") == []


def test_drills_may_stand_among_the_exercises() -> None:
    assert texts("warm_up", "Mon: band_walk 2x15, back_squat 3x8 core") == []


def test_light_sessions_need_no_drills() -> None:
    assert texts("warm_up", "Mon: curl 3x12, push_up 3x10 core") == []


@pytest.mark.parametrize(
    ("pulls", "said"),
    [
        (4, []),
        (3, ["3 pulling sets to 8 pushing: 38 %, 12 short of 50"]),
        (16, []),
        (17, ["8 pushing sets to 17 pulling: 47 %, 3 short of 50"]),
    ],
)
def test_opposing_patterns_are_within_half(pulls: int, said: list[str]) -> None:
    assert texts("pattern_balance", f"Mon: bench_press 8x8, chin_up {pulls}x8") == said


def test_a_side_left_out_is_not_a_matter_of_balance() -> None:
    assert texts("pattern_balance", "Mon: bench_press 8x8, back_squat 3x8") == []


def test_knee_led_and_hip_led_work_balance_each_other() -> None:
    assert texts("pattern_balance", "Mon: back_squat 5x8, leg_curl 2x12") == [
        "2 hip-led sets to 5 knee-led: 40 %, 10 short of 50"
    ]


def test_the_spine_has_a_day_between_heavy_loads() -> None:
    assert texts("spinal_load", "Mon: back_squat 3x8 | Tue: deadlift 3x5") == [
        "Spine loaded by deadlift 24 h after back squat, 24 h short of 48"
    ]
    assert texts("spinal_load", "Mon: back_squat 3x8 | Wed: deadlift 3x5") == []
    assert texts("spinal_load", "Mon: back_squat 3x8 | Tue: barbell_row 3x8") == []


def test_the_spine_rests_over_sunday_too() -> None:
    assert len(texts("spinal_load", "Sun: back_squat 3x8", "Mon: deadlift 3x5")) == 1
    assert texts("spinal_load", "Sat: back_squat 3x8", "Mon: deadlift 3x5") == []


def test_a_light_session_between_does_not_hide_heavy_neighbours() -> None:
    week = "Mon: back_squat 3x8 | Mon: curl 3x8 | Tue: deadlift 3x5"
    assert len(texts("spinal_load", week)) == 1
