from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError, QuantityError
from app.domain.progression import DoubleProgression, Stepwise, Undulating, Wave, targets
from app.domain.progression.paths import staircase

REPS = st.integers(1, 30)
WEEKS = st.integers(1, 52)


def lows(path, weeks):
    return [week[0].low for week in targets(path, weeks)]


def test_fifteen_to_three_over_21_weeks_is_what_a_coach_writes():
    stairs = lows(Stepwise(15, 3), 21)
    assert stairs[0] == 15
    assert stairs[-1] == 3
    assert set(stairs) == set(range(3, 16))
    assert stairs == sorted(stairs, reverse=True)
    assert {stairs.count(reps) for reps in set(stairs)} == {1, 2}


def test_six_weeks_of_it_are_an_excerpt_or_a_path_of_their_own():
    whole = lows(Stepwise(15, 3), 21)
    assert lows(Stepwise(15, 3, whole=21, skip=9), 6) == whole[9:15]
    own = lows(Stepwise(15, 3), 6)
    assert (own[0], own[-1]) == (15, 3)
    # even steps of 12/5 = 2.4: two or three repetitions a week
    assert {a - b for a, b in pairwise(own)} == {2, 3}


@given(REPS, REPS, WEEKS)
def test_a_staircase_never_turns_back_nor_leaves_its_ends(first, last, weeks):
    stairs = staircase(first, last, weeks)
    assert len(stairs) == weeks
    assert stairs[0] == first
    assert weeks == 1 or stairs[-1] == last
    assert list(stairs) == sorted(stairs, reverse=last < first)
    assert min(first, last) <= min(stairs) <= max(stairs) <= max(first, last)


@given(REPS, REPS, WEEKS)
def test_with_weeks_enough_every_number_is_used_about_as_long(first, last, weeks):
    stairs = staircase(first, last, weeks)
    if weeks > abs(first - last):
        assert set(stairs) == set(range(min(first, last), max(first, last) + 1)) or weeks == 1
        counts = [stairs.count(reps) for reps in set(stairs)]
        assert max(counts) - min(counts) <= 1


@given(REPS, REPS, st.integers(2, 52))
def test_with_few_weeks_the_steps_differ_by_one_at_most(first, last, weeks):
    steps = [abs(b - a) for a, b in pairwise(staircase(first, last, weeks))]
    assert max(steps) - min(steps) <= 1


def test_undulating_gives_each_session_its_own_target_and_may_move():
    found = targets(Undulating((12, 6), last=(8, 4)), 3)
    assert [[reps.low for reps in week] for week in found] == [[12, 6], [10, 5], [8, 4]]


def test_waves_sink_and_end_in_a_light_week():
    wave = Wave((12, 10, 8), lower_by=2, lowest=5)
    assert lows(wave, 9) == [12, 10, 8, 8, 10, 8, 6, 6, 8]
    assert [week for week in range(9) if wave.is_light(week)] == [3, 7]


def test_waves_stop_at_their_lowest():
    assert min(lows(Wave((6, 5), lower_by=2, lowest=3, light_end=False), 12)) == 3


def test_double_progression_keeps_its_range():
    assert {(r.low, r.high) for (r,) in targets(DoubleProgression(8, 12), 5)} == {(8, 12)}


def test_a_width_makes_a_range_above_the_target():
    assert targets(Stepwise(8, 8, width=2), 1)[0][0].high == 10


@pytest.mark.parametrize(
    "make",
    [
        lambda: Stepwise(0, 3),
        lambda: Stepwise(15, 200),
        lambda: DoubleProgression(12, 8),
        lambda: Wave(()),
        lambda: Wave((10,), lower_by=-1),
        lambda: Undulating((10, -1)),
        lambda: targets(Stepwise(15, 3), 0),
        lambda: targets(Stepwise(15, 3), 10_000),
        lambda: targets(Stepwise(15, 3, whole=5, skip=3), 6),
    ],
)
def test_impossible_paths_are_refused(make):
    with pytest.raises(QuantityError, match="is outside"):
        make()


def test_undulating_needs_as_many_ends_as_beginnings():
    with pytest.raises(CoachError, match="2 targets to begin with and 1 to end with"):
        Undulating((12, 6), last=(8,))
