"""Sets a week and a session, at both edges of their ranges."""

from __future__ import annotations

import pytest

from app.domain.client import Status
from app.domain.exercise import Muscle
from app.domain.findings import Weight
from tests.builders import client
from tests.domain.checks.ask import findings, texts


def quadriceps(sets: int) -> str:
    """A week with so many sets for the quadriceps alone, shared over two days."""
    return f"Mon: leg_extension {sets // 2}x12 | Thu: leg_extension {sets - sets // 2}x12"


@pytest.mark.parametrize(
    ("sets", "said"),
    [
        (11, ["Quadriceps 11 sets, 1 short of 12–20"]),
        (12, []),
        (20, []),
        (21, ["Quadriceps 21 sets, 1 over 12–20"]),
    ],
)
def test_emphasised_muscles_get_12_to_20_sets(sets: int, said: list[str]) -> None:
    assert texts("weekly_sets", quadriceps(sets)) == said


@pytest.mark.parametrize(("sets", "count"), [(7, 1), (8, 0), (14, 0), (15, 1)])
def test_a_plan_starts_lower(sets: int, count: int) -> None:
    assert len(texts("weekly_sets", quadriceps(sets), plan_week=6)) == count


@pytest.mark.parametrize(("sets", "count"), [(9, 1), (10, 0), (16, 0), (17, 1)])
def test_novices_get_fewer(sets: int, count: int) -> None:
    assert len(texts("weekly_sets", quadriceps(sets), who=client(status=Status.NOVICE))) == count


@pytest.mark.parametrize(("sets", "count"), [(5, 1), (6, 0), (12, 0), (13, 1)])
def test_novices_begin_with_fewer_still(sets: int, count: int) -> None:
    who = client(status=Status.NOVICE)
    assert len(texts("weekly_sets", quadriceps(sets), who=who, plan_week=1)) == count


@pytest.mark.parametrize(
    ("sets", "said"), [(3, ["Calves 3 sets, 1 short of 4"]), (4, []), (30, [])]
)
def test_other_muscles_get_four(sets: int, said: list[str]) -> None:
    calves = f"{quadriceps(12)} | Fri: calf_raise {min(sets, 20)}x12"
    assert texts("weekly_sets", calves) == said


def test_a_row_counts_once_for_the_back() -> None:
    # three sets each for latissimus and upper back are three sets for the back
    said = texts("weekly_sets", f"{quadriceps(12)} | Fri: barbell_row 3x8")
    assert "Back 3 sets, 1 short of 4" in said


def test_light_weeks_may_have_fewer_but_not_more() -> None:
    assert texts("weekly_sets", "light | " + quadriceps(4)) == []
    assert len(texts("weekly_sets", "light | " + quadriceps(21))) == 1


def test_an_empty_week_is_not_scolded() -> None:
    assert texts("weekly_sets", "") == []


def test_an_emphasised_muscle_without_a_set_is_told() -> None:
    said = texts("weekly_sets", "Mon: curl 4x12", emphasis=(Muscle.QUADRICEPS,))
    assert said == ["Quadriceps 0 sets, 12 short of 12–20"]


def test_the_finding_carries_its_numbers_and_source() -> None:
    (finding,) = findings("weekly_sets", quadriceps(10))
    assert (finding.measured, finding.below, finding.source) == (10, True, "bazvalle2022")
    assert (finding.weight, finding.about) == (Weight.OUTSIDE, "quadriceps")
    assert finding.range is not None
    assert finding.range.text == "12–20"
    assert finding.reason


@pytest.mark.parametrize(
    ("sets", "said"),
    [(10, []), (11, ["Quadriceps 11 sets in one session, 1 over 10"])],
)
def test_one_session_holds_ten_sets_for_a_muscle(sets: int, said: list[str]) -> None:
    assert texts("session_sets", f"Mon: leg_extension {sets}x12") == said


@pytest.mark.parametrize(("sets", "count"), [(8, 0), (9, 1)])
def test_a_novices_session_holds_eight(sets: int, count: int) -> None:
    who = client(status=Status.NOVICE)
    assert len(texts("session_sets", f"Mon: leg_extension {sets}x12", who=who)) == count


def test_sets_of_two_sessions_are_not_added_up() -> None:
    assert texts("session_sets", "Mon: leg_extension 8x12 | Tue: leg_extension 8x12") == []


def test_groups_without_any_set_are_told_together() -> None:
    (said,) = texts("left_out", quadriceps(12))
    assert said == (
        "Gluteals, hamstrings, calves, spinal erectors, abdominals, back, chest, shoulders, "
        "biceps and triceps without a set in the whole program"
    )


def test_a_group_missing_in_some_weeks_is_told_by_itself() -> None:
    full = "Mon: back_squat 3x8, leg_curl 3x8, calf_raise 3x8, crunch 3x8, barbell_row 3x8, "
    full += "bench_press 3x8, lateral_raise 3x8, curl 3x8, triceps_extension 3x8"
    assert texts("left_out", full, full) == []
    short = full.replace(", calf_raise 3x8", "")
    assert texts("left_out", full, short, full, "light | Mon: curl 1x9") == [
        "Calves without a set in 1 of 3 weeks"
    ]
