"""Repetitions and loads, at both edges of their ranges."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

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


def test_an_exercise_keeps_to_its_own_zone() -> None:
    # curl: 8 to 20 in the catalogue of the tests
    assert texts("exercise_reps", "Mon: curl 3x7") == ["Curl 7 repetitions, 1 short of 8–20"]
    assert texts("exercise_reps", "Mon: curl 3x8-20") == []
    assert texts("exercise_reps", "Mon: curl 3x8-21") == ["Curl 21 repetitions, 1 over 8–20"]


def test_seconds_have_a_zone_too() -> None:
    assert texts("exercise_reps", "Mon: plank 3x10") == ["Plank 10 seconds, 5 short of 15–60"]


@pytest.mark.parametrize(("percent", "count"), [(79, 1), (80, 0)])
def test_strength_has_some_work_at_80_percent(percent: int, count: int) -> None:
    week = f"Mon: back_squat 3x5 {percent}% core, bench_press 3x8 60% core"
    assert len(texts("heavy_work", week, who=STRONG)) == count
    assert texts("heavy_work", week) == []


def test_the_first_weeks_and_light_weeks_need_no_heavy_work() -> None:
    week = "Mon: back_squat 3x5 60% core"
    assert texts("heavy_work", week, who=STRONG, plan_week=6) == []
    assert texts("heavy_work", "light | " + week, who=STRONG) == []
    assert len(texts("heavy_work", week, who=STRONG)) == 1


@pytest.mark.parametrize(
    ("light", "said"),
    [
        (1, []),
        (0, ["100 % of all sets are moderate (6 to 12), 10 over 90"]),
    ],
)
def test_a_long_program_visits_more_than_one_zone(light: int, said: list[str]) -> None:
    weeks = ["Mon: curl 3x10, crunch 6x10"] * 8
    # 8 of 80 sets are a tenth
    weeks = [week + ", calf_raise 1x20" if light else week for week in weeks]
    assert texts("rep_spread", *weeks, plan_week=1) == said


def test_a_short_program_need_not_vary() -> None:
    assert texts("rep_spread", *["Mon: curl 3x10"] * 7, plan_week=1) == []


def test_older_and_younger_people_have_their_own_sources() -> None:
    old, young = client(born=date(1950, 1, 1)), client(born=date(2011, 1, 1))
    (finding,) = findings("load_zone", "Mon: back_squat 3x5 86%", who=old)
    assert finding.source == "fragala2019"
    young = replace(young, status=Status.NOVICE)
    assert texts("rep_zone", "Mon: curl 3x6", who=young) == []
    (finding,) = findings("rep_zone", "Mon: curl 3x5", who=young)
    assert finding.source == "faigenbaum2009"
