"""Sets per muscle, sessions per muscle, zones and tonnage."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.dose import (
    Counting,
    RepZone,
    extra_gain_percent,
    frequency,
    frequency_working,
    group_working,
    hours_between,
    intensity_distribution,
    load_serves,
    minutes_working,
    program_intensity,
    program_minutes,
    program_rep_zones,
    program_sets,
    rep_zone,
    rep_zones,
    session_minutes,
    session_sets,
    sets_working,
    strength_effect,
    tonnage_kg,
    volume_band,
    weekly_sets,
)
from app.domain.edits.fields import add_sets
from app.domain.errors import CoachError, QuantityError
from app.domain.exercise import Muscle, UnknownExercise
from app.domain.muscle_groups import GROUPS
from tests.builders import CATALOGUE, program, session, slot, week

SHOULDERS = next(group for group in GROUPS if group.key == "shoulders")
BENCH_AND_ARMS = "Mon: bench_press 4x8, triceps_extension 3x12"


@pytest.mark.parametrize(
    ("counting", "sets"),
    [(Counting.FRACTIONAL, 5.0), (Counting.DIRECT, 3.0), ("total", 7.0)],
)
def test_helping_sets_count_a_part_nothing_or_whole(counting: str, sets: float) -> None:
    # pelland2024's three ways of counting
    assert weekly_sets(week(BENCH_AND_ARMS), CATALOGUE, counting)[Muscle.TRICEPS] == sets


def test_two_equal_days_count_twice() -> None:
    # hip thrust 4 and squat 3 direct, Romanian deadlift 3 helping, twice a week: 17 (pelland2024)
    day = "hip_thrust 4x8, back_squat 3x8, romanian_deadlift 3x8"
    sets = weekly_sets(week(f"Mon: {day} | Thu: {day}"), CATALOGUE)
    assert sets[Muscle.GLUTEALS] == 17.0


def test_muscles_without_sets_are_left_out() -> None:
    assert set(weekly_sets(week("Mon: curl 3x12"), CATALOGUE)) == {Muscle.BICEPS}
    assert weekly_sets(week(), CATALOGUE) == {}


def test_drills_are_no_working_sets() -> None:
    assert session_sets(session("band_walk 2x15"), CATALOGUE) == {}


def test_an_unknown_exercise_is_named() -> None:
    with pytest.raises(UnknownExercise, match="sled_drag"):
        weekly_sets(week("Mon: sled_drag 3x8"), CATALOGUE)


def test_a_session_trains_a_muscle_from_one_fractional_set_on() -> None:
    built = week("Mon: bench_press 2x8 | Wed: bench_press 1x8 | Fri: curl 1x12")
    count = frequency(built, CATALOGUE)
    assert count[Muscle.TRICEPS] == 1  # 1.0 on Monday, 0.5 on Wednesday
    assert count[Muscle.CHEST] == 2
    assert Muscle.QUADRICEPS not in count


def test_every_week_of_a_program_is_counted() -> None:
    built = program("Mon: curl 3x12", "Mon: curl 4x12")
    assert [sets[Muscle.BICEPS] for sets in program_sets(built, CATALOGUE)] == [3, 4]


def test_hours_run_from_session_to_session_and_round_the_week() -> None:
    built = week("Mon: curl 3x12 | Thu: curl 3x12, crunch 2x15 | Thu: curl 1x12")
    hours = hours_between(built, CATALOGUE)
    assert hours[Muscle.BICEPS] == (72, 0, 96)
    assert hours[Muscle.ABDOMINALS] == (168,)
    assert hours_between(week(), CATALOGUE) == {}


def test_a_program_adds_up_its_weeks() -> None:
    built = program("Mon: curl 3x5 RIR 0", "Mon: curl 2x10 RIR 0 | Thu: curl 1x10 RIR 0", "")
    assert list(program_rep_zones(built, CATALOGUE).values()) == [3, 3, 0]
    assert program_intensity(built, CATALOGUE) == {70: 3, 80: 3}
    each = [
        sum(session_minutes(one, CATALOGUE).expected for _, one in w.sessions())
        for w in built.weeks
    ]
    assert [minutes.expected for minutes in program_minutes(built, CATALOGUE)] == each


@pytest.mark.parametrize(
    ("reps", "zone"),
    [
        (1, RepZone.HEAVY),
        (5, RepZone.HEAVY),
        (6, RepZone.MODERATE),
        (8, RepZone.MODERATE),
        (12, RepZone.MODERATE),
        (13, RepZone.LIGHT),
        (15, RepZone.LIGHT),
    ],
)
def test_zones_hold_the_published_ones(reps: int, zone: RepZone) -> None:
    # schoenfeld2021-continuum: 1 to 5, 8 to 12, 15 and more
    assert rep_zone(reps) is zone


def test_zones_count_sets_but_no_seconds() -> None:
    zones = rep_zones(week("Mon: back_squat 3x5, curl 2x10, crunch 4x20, plank 3x30"), CATALOGUE)
    assert list(zones.values()) == [3, 2, 4]


def test_intensity_is_told_in_tenths() -> None:
    # textbook table: 10 repetitions are 75 %, 8 are 80 % (haff2016)
    built = week("Mon: back_squat 3x8 RIR 2, deadlift 2x8 RIR 0, curl 1x10 62%, plank 2x30")
    assert intensity_distribution(built, CATALOGUE) == {60: 1, 70: 3, 80: 2}


def test_tonnage_counts_both_hands_and_both_sides() -> None:
    slots = (slot("back_squat 3x5"), slot("curl 2x10"), slot("split_squat 2x10"))
    total = tonnage_kg(slots, CATALOGUE, lambda s: 100 if s.exercise == "back_squat" else 10)
    assert total == 3 * 5 * 100 + 2 * 10 * 10 * 2 + 2 * 10 * 10 * 4


def test_what_has_no_load_or_is_timed_has_no_tonnage() -> None:
    assert tonnage_kg((slot("plank 3x30"),), CATALOGUE, lambda _: 10.0) == 0
    assert tonnage_kg((slot("curl 3x10"),), CATALOGUE, lambda _: None) == 0


def test_the_account_of_sets_adds_up() -> None:
    account = sets_working(week(BENCH_AND_ARMS), Muscle.TRICEPS, CATALOGUE)
    assert account.title == "5 sets"
    assert [line.value for line in account.lines][:3] == [
        "4 × 0.5 = 2",
        "3 × 1 = 3",
        "medium (5-9)",
    ]


def test_the_account_of_a_group_counts_each_set_once_by_its_larger_part() -> None:
    built = week("Mon: overhead_press 4x6, lateral_raise 3x12, bench_press 2x8, curl 3x8")
    account = group_working(built, SHOULDERS, CATALOGUE)
    assert account.title == "8 sets"
    assert [line.value for line in account.lines][:3] == [
        "4 × 1 = 4",
        "3 × 1 = 3",
        "2 × 0.5 = 1",
    ]


def test_the_account_of_sessions_says_which_count() -> None:
    built = week("Mon: bench_press 2x8 | Wed: bench_press 1x8")
    account = frequency_working(built, Muscle.TRICEPS, CATALOGUE)
    assert account.title == "1 session"
    assert [(line.label, line.remark) for line in account.lines[:2]] == [
        ("Monday", "counts"),
        ("Wednesday", "too few to count"),
    ]
    assert frequency_working(built, Muscle.CALVES, CATALOGUE).lines == ()


@pytest.mark.parametrize("sessions", [0, -1])
def test_no_session_has_no_effect_to_name(sessions: int) -> None:
    with pytest.raises(QuantityError, match="sessions"):
        strength_effect(sessions)


def test_the_account_of_minutes_names_each_exercise() -> None:
    account = minutes_working(session("back_squat 3x8 core, curl 3x12"), CATALOGUE)
    assert [(line.label, line.remark) for line in account.lines] == [
        ("Warm-up", "as a rule"),
        ("Ramp sets before back squat", "4 sets, as a rule"),
        ("Back squat", "3 sets, rest 120 s"),
        ("Curl", "3 sets, rest 120 s"),
    ]


def test_the_account_of_minutes_says_what_the_coach_set_and_adds_up() -> None:
    whole = session(
        "back_squat 2x5 core pair A, bench_press 2x5 core pair A ramp 40kgx5, curl 3x12, "
        "deadlift 1x5 ramp off, leg_press 3x8 ramp 50%x5/70%x3",
        warmup="band_walk 2x10",
    )
    account = minutes_working(whole, CATALOGUE)
    assert [(line.label, line.remark) for line in account.lines if "set by" in line.remark] == [
        ("Ramp sets before bench press", "1 set, set by the coach"),
        ("Ramp sets before leg press", "2 sets, set by the coach"),
    ]
    assert account.lines[0].remark == "with the doses that the coach set"
    figures = [float(line.value.removesuffix(" min")) for line in account.lines]
    expected = session_minutes(whole, CATALOGUE).expected
    assert sum(figures) == pytest.approx(expected, abs=0.06 * len(figures))
    assert [line.label for line in account.lines[1:3]] == [
        "Ramp sets before back squat",
        "Ramp sets before bench press",
    ]


PLANS = st.lists(
    st.tuples(st.sampled_from([e.key for e in CATALOGUE]), st.integers(1, 8)),
    min_size=1,
    max_size=6,
)


@given(PLANS, st.integers(1, 5))
def test_more_sets_never_make_fewer_fractional_sets(plan: list[tuple[str, int]], more: int) -> None:
    text = ", ".join(f"{key} {sets}x8" for key, sets in plan)
    before = program(f"Mon: {text}")
    after = add_sets(before, next(before.weeks[0].slots()).id, by=more)
    for counting in Counting:
        was = weekly_sets(before.weeks[0], CATALOGUE, counting)
        becomes = weekly_sets(after.weeks[0], CATALOGUE, counting)
        assert all(becomes[muscle] >= sets for muscle, sets in was.items())


@given(PLANS)
def test_direct_sets_are_fewest_and_total_sets_most(plan: list[tuple[str, int]]) -> None:
    built = week("Mon: " + ", ".join(f"{key} {sets}x8" for key, sets in plan))
    direct, parts, total = (
        weekly_sets(built, CATALOGUE, counting)
        for counting in (Counting.DIRECT, Counting.FRACTIONAL, Counting.TOTAL)
    )
    for muscle, sets in total.items():
        assert direct.get(muscle, 0) <= parts.get(muscle, 0) <= sets


NO_NUMBERS = [float("nan"), float("inf"), float("-inf"), 1e308]


@pytest.mark.parametrize("value", NO_NUMBERS)
@pytest.mark.parametrize(
    ("ask", "quantity"),
    [
        (extra_gain_percent, "weekly sets more"),
        (volume_band, "weekly sets"),
        (load_serves, "per cent of 1RM"),
        (rep_zone, "repetitions"),
        (strength_effect, "sessions"),
    ],
)
def test_amounts_that_there_cannot_be_are_refused_by_name(ask, quantity, value):
    with pytest.raises(QuantityError, match=f"{quantity} .* is outside"):
        ask(value)


def test_a_load_of_five_times_the_maximum_serves_nothing_because_there_is_none():
    with pytest.raises(QuantityError, match="500 is outside 0 to 150"):
        load_serves(500)


def test_sessions_a_week_are_whole():
    with pytest.raises(QuantityError, match="whole number"):
        strength_effect(2.5)  # type: ignore[arg-type]


def test_an_unknown_way_of_counting_is_refused_with_those_there_are():
    with pytest.raises(CoachError, match="'nope'.*fractional, direct, total"):
        weekly_sets(week("Mon: curl 3x8"), CATALOGUE, "nope")


def test_a_session_without_an_exercise_has_an_account_without_steps():
    assert minutes_working(session(""), CATALOGUE).lines == ()
