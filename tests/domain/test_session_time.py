"""Minutes of a session, by hand from the rules at the top of the module."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.exercise import ExerciseKey
from app.domain.facts import FactsMemo
from app.domain.lead_up import zone_dose
from app.domain.program import Reps
from app.domain.session_time import (
    Pace,
    effective_rest_s,
    session_minutes,
    start_minutes,
    tempo_s,
    timetable,
    whole_minutes,
)
from tests.builders import CATALOGUE, session


def test_a_single_exercise_is_warm_up_work_rest_and_set_up() -> None:
    # 6 min; 3 x 10 x 4 s; 3 x 120 s; 60 s
    built = session("curl 3x10 rest 120")
    assert session_minutes(built, CATALOGUE).expected == pytest.approx(6 + 2 + 6 + 1)


def test_core_lifts_are_ramped_whose_prime_movers_are_cold() -> None:
    built = session("back_squat 1x10 rest 0 core, deadlift 1x10 rest 0 core, bench_press 1x10 core")
    squat, deadlift, bench = start_minutes(built, CATALOGUE)
    assert squat == pytest.approx(6 + 4)
    assert deadlift == pytest.approx(squat + 40 / 60 + 1)
    assert bench == pytest.approx(deadlift + 40 / 60 + 1 + 4)


def test_dumbbells_have_no_bar_to_begin_a_ramp_with() -> None:
    assert start_minutes(session("goblet_squat 3x10 core"), CATALOGUE) == (6.0 + 3,)


def test_ramp_sets_that_the_coach_set_are_counted_as_they_are() -> None:
    text = "back_squat 1x10 rest 0 core ramp 50%x5/60kgx3, bench_press 1x10 rest 0 core ramp off"
    squat, bench = start_minutes(session(text), CATALOGUE)
    assert squat == pytest.approx(6 + 2)
    assert bench == pytest.approx(squat + 40 / 60 + 1)


def test_a_dose_that_the_coach_set_makes_the_warm_up_longer_or_shorter() -> None:
    # one round of 5 to 10 as its zone says, 7.5 in the middle, 4 s each
    usual = CATALOGUE[ExerciseKey("band_walk")]
    assert (zone_dose(usual).reps, usual.timed, usual.unilateral) == (Reps(5, 10), False, False)
    for dose, minutes in (("", 6), ("1x5-10", 6), ("3x15", 6 + 37.5 * 4 / 60), ("1x5", 6 - 1 / 6)):
        built = session("curl 3x10", warmup=f"band_walk {dose}")
        assert start_minutes(built, CATALOGUE)[0] == pytest.approx(minutes), dose
    assert session_minutes(session("", warmup="band_walk 3x15"), CATALOGUE).expected == 0


def test_facts_and_minutes_agree_on_a_dose_and_a_ramp_of_the_coach() -> None:
    built = session("back_squat 3x5 core ramp 50%x5", warmup="band_walk 3x15")
    known = FactsMemo(CATALOGUE).session(built)
    assert known.minutes == session_minutes(built, CATALOGUE).expected
    assert known.starts == start_minutes(built, CATALOGUE)


def test_core_work_without_load_needs_no_ramp() -> None:
    assert start_minutes(session("push_up 3x10 core"), CATALOGUE) == (6.0,)


def test_both_sides_take_twice_as_long() -> None:
    both = session_minutes(session("split_squat 3x10 rest 0"), CATALOGUE).expected
    one = session_minutes(session("goblet_squat 3x10 rest 0"), CATALOGUE).expected
    assert both - one == pytest.approx(3 * 10 * 4 / 60)


def test_a_written_tempo_sets_the_time_of_a_repetition() -> None:
    built = session("curl 2x10 rest 0 tempo 3-1-2-0")
    assert session_minutes(built, CATALOGUE).expected == pytest.approx(6 + 2 + 1)


def test_a_timed_set_lasts_its_seconds() -> None:
    built = session("plank 2x30 rest 30")
    assert session_minutes(built, CATALOGUE).expected == pytest.approx(6 + 2 + 1)


def test_a_pair_shares_its_rests_and_its_set_up() -> None:
    # three rounds of 48 s, 20 s, 48 s, 75 s; one minute to set up
    built = session("leg_curl 3x12 rest 75 pair A, calf_raise 3x12 rest 75 pair A")
    assert session_minutes(built, CATALOGUE).expected == pytest.approx(6 + 3 * 191 / 60 + 1)
    assert start_minutes(built, CATALOGUE) == pytest.approx((6, 6 + 68 / 60))


def test_a_pair_of_unequal_sets_goes_on_alone() -> None:
    built = session("leg_curl 2x15 rest 60 pair A, calf_raise 1x15 rest 60 pair A")
    assert session_minutes(built, CATALOGUE).expected == pytest.approx(6 + (200 + 120) / 60 + 1)


def test_a_bare_session_takes_no_time() -> None:
    minutes = session_minutes(session(""), CATALOGUE)
    assert (minutes.low, minutes.expected, minutes.high) == (0, 0, 0)


@pytest.mark.parametrize(
    ("tempo", "seconds"),
    [("3-0-1-0", 4.0), ("2-0-X-0", 2.5), ("", None), ("slow", None)],
)
def test_a_tempo_is_the_sum_of_its_figures(tempo: str, seconds: float | None) -> None:
    assert tempo_s(tempo) == seconds


def test_rest_in_a_pair_holds_the_partners_set() -> None:
    built = session(
        "leg_curl 3x10 rest 60 pair A, calf_raise 3x10 rest 30 pair A, curl 3x8 rest 45"
    )
    exercises = [CATALOGUE[slot.exercise] for slot in built.slots]
    rests = [effective_rest_s(built.slots, exercises, k) for k in range(3)]
    assert rests == [60 + 40 + 20, 60 + 40 + 20, 45]


def test_the_plain_formula_of_a_session_comes_out() -> None:
    # 6 exercises, 3 x 10, 3 s a repetition, 120 s rest, 120 s between, 300 s warm-up: 48 min
    built = session(", ".join(["curl 3x10 rest 120"] * 6))
    pace = Pace(
        repetition_s=3,
        warmup_s=300,
        setup_s=120,
        rest_after_last=False,
        set_up_first=False,
    )
    exercises = [CATALOGUE[slot.exercise] for slot in built.slots]
    assert timetable(built.slots, exercises, pace=pace)[1] == pytest.approx(48.0)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["back_squat", "curl", "split_squat", "plank"]),
            st.integers(1, 6),
            st.integers(1, 15),
            st.integers(0, 5),
            st.integers(0, 300),
            st.sampled_from(["", "pair A", "pair B"]),
        ),
        max_size=6,
    )
)
def test_low_is_under_expected_and_expected_under_high(
    plan: list[tuple[str, int, int, int, int, str]],
) -> None:
    built = session(
        ", ".join(
            f"{key} {sets}x{low}-{low + span} rest {rest} {pair}"
            for key, sets, low, span, rest, pair in plan
        )
    )
    minutes = session_minutes(built, CATALOGUE)
    starts = start_minutes(built, CATALOGUE)
    assert minutes.low <= minutes.expected <= minutes.high
    assert list(starts) == sorted(starts)
    assert not starts or starts[-1] < minutes.expected


@pytest.mark.parametrize(("minutes", "told"), [(0, 0), (59.49, 59), (66.5, 67), (67.5, 68)])
def test_half_a_minute_is_told_as_a_whole_one(minutes: float, told: int) -> None:
    assert whole_minutes(minutes) == told
