"""Repetitions, load, effort and rest of a slot, at both edges."""

from __future__ import annotations

import pytest

from app.domain.client import Goal, Status
from tests.builders import client
from tests.domain.checks.ask import findings, texts

NOVICE = client(status=Status.NOVICE)
STRONG = client(goal=Goal.STRENGTH)
STRONG_NOVICE = client(goal=Goal.STRENGTH, status=Status.NOVICE)


@pytest.mark.parametrize(
    ("reps", "said"),
    [
        ("7", ["Curl 7 repetitions, 1 short of 8–15"]),
        ("8", []),
        ("15", []),
        ("16", ["Curl 16 repetitions, 1 over 8–15"]),
        ("6-10", ["Curl 6 repetitions, 2 short of 8–15"]),
        ("12-20", ["Curl 20 repetitions, 5 over 8–15"]),
    ],
)
def test_novices_do_8_to_15_repetitions(reps: str, said: list[str]) -> None:
    assert texts("rep_zone", f"Mon: curl 3x{reps}", who=NOVICE) == said


@pytest.mark.parametrize(("reps", "count"), [(1, 0), (30, 0), (31, 1)])
def test_trained_people_have_a_wide_zone(reps: int, count: int) -> None:
    assert len(texts("rep_zone", f"Mon: curl 3x{reps}")) == count


@pytest.mark.parametrize(("reps", "count"), [(12, 0), (13, 1)])
def test_core_lifts_for_strength_stay_at_12_or_fewer(reps: int, count: int) -> None:
    assert len(texts("rep_zone", f"Mon: back_squat 3x{reps} core", who=STRONG)) == count
    assert texts("rep_zone", f"Mon: back_squat 3x{reps}", who=STRONG) == []


def test_seconds_are_no_repetitions() -> None:
    assert texts("rep_zone", "Mon: plank 3x60", who=NOVICE) == []


@pytest.mark.parametrize(
    ("percent", "said"),
    [
        (29, ["Back squat 29 % of 1RM, 1 short of 30–85"]),
        (30, []),
        (85, []),
        (86, ["Back squat 86 % of 1RM, 1 over 30–85"]),
    ],
)
def test_novices_lift_30_to_85_percent(percent: int, said: list[str]) -> None:
    assert texts("load_zone", f"Mon: back_squat 3x5 {percent}%", who=NOVICE) == said


@pytest.mark.parametrize(("percent", "count"), [(59, 1), (60, 0), (80, 0), (81, 1)])
def test_novices_gain_strength_from_60_to_80_percent(percent: int, count: int) -> None:
    week = f"Mon: back_squat 3x5 {percent}% core"
    assert len(texts("load_zone", week, who=STRONG_NOVICE)) == count


def test_the_load_follows_from_repetitions_and_reserve() -> None:
    # 4 repetitions and 1 in reserve are a 5RM: 87 % in the textbook table (haff2016)
    (finding,) = findings("load_zone", "Mon: back_squat 3x4 RIR 1", who=NOVICE)
    assert finding.measured == 87.0


def test_bands_and_seconds_have_no_load() -> None:
    assert texts("load_zone", "Mon: plank 3x60 20%, band_walk 2x10 20%") == []


OFTEN = "Mon: {0} | Thu: {0}"


@pytest.mark.parametrize(("rir", "count"), [(1.5, 1), (2, 0), (5, 0)])
def test_novices_keep_two_in_reserve(rir: float, count: int) -> None:
    assert len(texts("effort", f"Mon: curl 3x12 RIR {rir}", who=NOVICE)) == count


def test_big_lifts_stop_short_of_failure_where_they_come_back_soon() -> None:
    to_failure = "back_squat 3x8 RIR 0"
    said = texts("effort", OFTEN.format(to_failure))
    assert said == ["Back squat RIR 0, 1 short of 1"] * 2
    assert texts("effort", OFTEN.format("back_squat 3x8 RIR 1")) == []


def test_once_a_week_a_big_lift_may_go_to_failure() -> None:
    assert texts("effort", "Mon: back_squat 3x8 RIR 0") == []


def test_single_joint_work_may_go_to_failure() -> None:
    assert texts("effort", OFTEN.format("curl 3x12 RIR 0")) == []


def test_effort_is_understood_however_it_is_written() -> None:
    # all of the 8RM load is failure; 80 % of 1RM for 8 is the same (haff2016)
    for effort in ("100%RM", "80%"):
        assert len(texts("effort", OFTEN.format(f"back_squat 3x8 {effort}"))) == 2


def test_a_load_that_cannot_be_lifted_so_often_is_told() -> None:
    assert texts("effort", "Mon: curl 3x10 95%") == ["Curl too heavy for 10 repetitions"]
    assert texts("effort", "Mon: curl 3x10 105%") == ["Curl too heavy for 10 repetitions"]


@pytest.mark.parametrize(
    ("slot", "edge", "source"),
    [
        ("curl 3x12", 60, "singer2024"),
        ("back_squat 3x8", 90, "singer2024"),
        ("back_squat 3x7 core", 90, "singer2024"),
        ("back_squat 3x6 core", 120, "acsm2009"),
    ],
)
def test_rest_has_a_low_end(slot: str, edge: int, source: str) -> None:
    (finding,) = findings("rest", f"Mon: {slot} rest {edge - 1}")
    assert (finding.source, finding.below) == (source, True)
    assert f"1 s short of {edge}" in finding.text
    assert texts("rest", f"Mon: {slot} rest {edge}") == []


@pytest.mark.parametrize(("rest", "count"), [(179, 1), (180, 0), (300, 0), (301, 1)])
def test_heavy_work_for_strength_rests_three_to_five_minutes(rest: int, count: int) -> None:
    assert len(texts("rest", f"Mon: back_squat 5x3 core rest {rest}", who=STRONG)) == count


def test_a_partners_set_counts_as_rest() -> None:
    pair = "Mon: curl 3x10 rest 30 pair A, crunch 3x10 rest 30 pair A"
    assert texts("rest", pair) == []
    assert len(texts("rest", pair.replace(" pair A", ""))) == 2


def test_a_single_set_has_no_rest() -> None:
    assert texts("rest", "Mon: curl 1x10 rest 0") == []
