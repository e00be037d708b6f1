from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits.weeks import make_light, start_block
from app.domain.effort import PercentOneRm, PercentRepMax, Rir, fraction
from app.domain.exercise import Catalogue
from app.domain.program import Field, Reps, broken_laws
from app.domain.progression import (
    DoubleProgression,
    EffortPath,
    Light,
    Scheme,
    SetsPath,
    Stepwise,
    Undulating,
    Wave,
    apply,
    by_block,
)
from app.domain.progression.apply import eased
from tests.domain.progression.plans import (
    CATALOGUE,
    CURL,
    PLANK,
    SQUAT,
    STEP_UP,
    pin,
    plan,
    slots_of,
)

PATHS = st.sampled_from(
    [
        Stepwise(15, 3),
        Stepwise(5, 12, width=2),
        Undulating((12, 6), last=(8, 4)),
        Wave((12, 10, 8)),
        DoubleProgression(8, 12),
    ]
)
EFFORTS = st.sampled_from(
    [
        None,
        EffortPath(Rir(3), Rir(0)),
        EffortPath(PercentRepMax(90), PercentRepMax(100)),
        EffortPath(PercentOneRm(65), PercentOneRm(85)),
    ]
)
SETS = st.sampled_from([None, SetsPath(2), SetsPath(-1), SetsPath(5, most_rise=0.1)])
LIGHTS = st.sampled_from([None, Light(every=4), Light(every=None, weeks=frozenset({0, 2}))])


@st.composite
def schemes(draw, weeks=8):
    first = draw(st.integers(0, weeks - 1))
    return Scheme(
        draw(PATHS),
        first=first,
        last=draw(st.integers(first, weeks - 1)),
        effort=draw(EFFORTS),
        sets=draw(SETS),
        light=draw(LIGHTS),
    )


def reps_by_week(program, exercise):
    return [[(s.reps.low, s.reps.high) for s in week] for week in slots_of(program, exercise)]


def test_21_weeks_step_the_core_lift_down_and_keep_the_small_ones_up():
    after = apply(plan(21), Scheme(Stepwise(15, 3)), CATALOGUE)
    squat = [week[0][0] for week in reps_by_week(after, SQUAT)]
    assert (squat[0], squat[-1]) == (15, 3)
    assert set(squat) == set(range(3, 16))
    assert min(week[0][0] for week in reps_by_week(after, STEP_UP)) == 8
    # the exercise's own zone begins at 10
    assert min(week[0][0] for week in reps_by_week(after, CURL)) == 10
    assert {week[0] for week in reps_by_week(after, PLANK)} == {(40, 40)}


def test_a_one_day_variant_at_full_effort_leaves_nothing_in_reserve():
    scheme = Scheme(
        Stepwise(15, 3),
        effort=EffortPath(PercentRepMax(100), PercentRepMax(100)),
    )
    after = apply(plan(21, days=(0,)), scheme, CATALOGUE)
    efforts = {slot.effort for week in after.weeks for slot in week.slots()}
    assert efforts == {PercentRepMax(100)}
    assert [week[0][0] for week in reps_by_week(after, SQUAT)][::10] == [15, 9, 3]


def test_small_exercises_stay_inside_their_usable_zone():
    short = replace(STEP_UP, rep_high=12)
    catalogue = Catalogue((SQUAT, short, CURL, PLANK))
    after = apply(plan(21), Scheme(Stepwise(15, 3)), catalogue)
    assert {low for week in reps_by_week(after, STEP_UP) for low, _ in week} == set(range(8, 13))
    assert max(low for week in reps_by_week(after, SQUAT) for low, _ in week) == 15


@given(schemes())
def test_applying_a_scheme_twice_is_applying_it_once(scheme):
    once = apply(plan(8), scheme, CATALOGUE)
    assert apply(once, scheme, CATALOGUE) == once


@given(schemes())
def test_weeks_out_of_reach_stay_the_same_objects(scheme):
    before = plan(8)
    after = apply(before, scheme, CATALOGUE)
    span = scheme.span(before)
    for index in set(range(8)) - set(span):
        assert after.weeks[index] is before.weeks[index]
    assert broken_laws(after) == ()
    assert (after.next_id, after.blocks) == (before.next_id, before.blocks)


@given(schemes(), st.sets(st.sampled_from([Field.SETS, Field.REPS, Field.EFFORT]), min_size=1))
def test_what_the_coach_pinned_is_never_touched(scheme, fields):
    before = plan(8)
    chosen = frozenset(slot.id for week in before.weeks for slot in week.slots() if slot.id % 2)
    before = pin(before, chosen, frozenset(fields))
    after = apply(before, scheme, CATALOGUE)
    for old_week, new_week in zip(before.weeks, after.weeks, strict=True):
        for old, new in zip(old_week.slots(), new_week.slots(), strict=True):
            for field, name in (
                (Field.SETS, "sets"),
                (Field.REPS, "reps"),
                (Field.EFFORT, "effort"),
            ):
                if field in old.pinned:
                    assert getattr(new, name) == getattr(old, name)
            # no scheme speaks of these
            assert (new.rest_s, new.tempo, new.load_kg) == (old.rest_s, old.tempo, old.load_kg)


@given(st.integers(1, 6), st.sampled_from([0.1, 0.2, 0.5]), st.integers(2, 20))
def test_the_weeks_sets_never_rise_faster_than_the_cap(change, most_rise, weeks):
    scheme = Scheme(DoubleProgression(), sets=SetsPath(change, most_rise))
    after = apply(plan(weeks), scheme, CATALOGUE)
    totals = [sum(slot.sets for slot in week.slots()) for week in after.weeks]
    assert totals[0] == sum(slot.sets for slot in plan(1).weeks[0].slots())
    for old, new in pairwise(totals):
        assert old <= new <= old * (1 + most_rise) + 1e-9


def test_added_sets_arrive_where_the_cap_allows():
    after = apply(plan(9), Scheme(DoubleProgression(), sets=SetsPath(2)), CATALOGUE)
    assert [week[0].sets for week in slots_of(after, SQUAT)] == [4, 4, 4, 5, 5, 5, 6, 6, 6]


def test_light_weeks_have_half_the_sets_and_keep_the_load():
    scheme = Scheme(Stepwise(10, 10), effort=EffortPath(Rir(2), Rir(2)), light=Light(every=4))
    after = apply(plan(8), scheme, CATALOGUE)
    assert [week.light for week in after.weeks] == [False, False, False, True] * 2
    ordinary, light = slots_of(after, SQUAT)[2][0], slots_of(after, SQUAT)[3][0]
    assert (ordinary.sets, light.sets) == (4, 2)
    assert (light.reps.high, light.effort) == (8, Rir(4))
    assert fraction(light.effort, light.reps.high) == fraction(ordinary.effort, 10)


def test_without_an_effort_path_a_light_week_only_halves_the_sets():
    after = apply(plan(4), Scheme(Stepwise(10, 10), light=Light(every=4)), CATALOGUE)
    light = slots_of(after, SQUAT)[3][0]
    assert (light.sets, light.reps.low, light.effort) == (2, 10, Rir(2))


def test_a_light_week_that_the_coach_placed_stays_light():
    before = make_light(plan(6), 2)
    after = apply(before, Scheme(Stepwise(12, 8), sets=SetsPath(1)), CATALOGUE)
    assert [week.light for week in after.weeks] == [False, False, True, False, False, False]
    assert slots_of(after, SQUAT)[2][0].sets == 2


@pytest.mark.parametrize("effort", [Rir(2), PercentRepMax(95), PercentOneRm(70)])
def test_easing_a_set_leaves_its_load_alone(effort):
    reps, lighter = eased(Reps(8, 10), effort, fewer=2)
    assert reps == Reps(6, 8)
    assert fraction(lighter, 8) == pytest.approx(fraction(effort, 10))


def test_easing_never_goes_under_one_repetition():
    assert eased(Reps(2, 2), Rir(1), fewer=5) == (Reps(1, 1), Rir(2))


def test_undulating_follows_the_sessions_of_the_week():
    after = apply(plan(2), Scheme(Undulating((12, 6))), CATALOGUE)
    assert [[low for low, _ in week] for week in reps_by_week(after, SQUAT)] == [[12, 6]] * 2


def test_blocks_take_their_own_schemes_in_turn():
    before = start_block(plan(8), 4, name="Strength")
    series = by_block(before, (Scheme(Stepwise(12, 9)), Scheme(DoubleProgression(4, 6))))
    after = apply(before, series, CATALOGUE)
    assert [week[0] for week in reps_by_week(after, SQUAT)] == [
        (12, 12),
        (11, 11),
        (10, 10),
        (9, 9),
        *[(4, 6)] * 4,
    ]


def test_only_the_strands_named_are_written():
    before = plan(4)
    chosen = slots_of(before, SQUAT)[0][1].strand
    after = apply(before, Scheme(Stepwise(6, 6), strands=frozenset({chosen})), CATALOGUE)
    assert [[low for low, _ in week] for week in reps_by_week(after, SQUAT)] == [[10, 6]] * 4


def test_a_scheme_that_changes_nothing_gives_the_same_program_back():
    once = apply(plan(4), Scheme(Stepwise(10, 8)), CATALOGUE)
    assert apply(once, Scheme(Stepwise(10, 8)), CATALOGUE) is once
    empty = replace(
        once, weeks=tuple(replace(w, days=plan(1, ()).weeks[0].days) for w in once.weeks)
    )
    assert apply(empty, Scheme(Stepwise(10, 8)), CATALOGUE) is empty


def test_light_weeks_keep_the_floors_of_small_exercises():
    scheme = Scheme(
        Stepwise(12, 6), effort=EffortPath(Rir(2), Rir(1)), light=Light(every=4, fewer_reps=5)
    )
    after = apply(plan(8), scheme, CATALOGUE)
    for exercise, floor in ((STEP_UP, 8), (CURL, 10)):
        assert min(low for week in reps_by_week(after, exercise) for low, _ in week) == floor


def test_a_light_week_at_the_floor_keeps_its_repetitions_and_effort():
    scheme = Scheme(Stepwise(8, 8), effort=EffortPath(Rir(2), Rir(2)), light=Light(every=4))
    light = slots_of(apply(plan(4), scheme, CATALOGUE), STEP_UP)[3][0]
    assert (light.sets, light.reps.low, light.effort) == (1, 8, Rir(2))


def test_no_light_week_of_a_wave_falls_under_its_lowest():
    scheme = Scheme(Wave((6, 5, 4), lowest=4), effort=EffortPath(Rir(3), Rir(1)))
    after = apply(plan(12), scheme, CATALOGUE)
    assert [week.light for week in after.weeks] == [False, False, False, True] * 3
    assert min(low for week in reps_by_week(after, SQUAT) for low, _ in week) == 4


def test_a_light_last_week_keeps_the_three_repetitions_it_arrives_at():
    scheme = Scheme(
        Stepwise(15, 3),
        effort=EffortPath(Rir(3), Rir(1)),
        light=Light(every=None, weeks=frozenset({20})),
    )
    last = slots_of(apply(plan(21), scheme, CATALOGUE), SQUAT)[20][0]
    assert (last.sets, last.reps.low, last.effort) == (2, 3, Rir(1))


@given(schemes())
def test_no_light_week_falls_under_a_floor(scheme):
    after = apply(plan(8), scheme, CATALOGUE)
    for index in scheme.span(after):
        if not after.weeks[index].light:
            continue
        for exercise in (SQUAT, STEP_UP, CURL):
            for slot in slots_of(after, exercise)[index]:
                floors = scheme.floors
                assert slot.reps.low >= max(3, floors.lowest(slot, exercise))


def test_light_weeks_of_a_scheme_take_the_place_of_those_before():
    before = plan(16)
    for index in (3, 7, 11, 15):
        before = make_light(before, index)
    scheme = Scheme(Stepwise(12, 8), light=Light(every=5))
    after = apply(before, scheme, CATALOGUE)
    assert [n for n, week in enumerate(after.weeks, 1) if week.light] == [5, 10, 15]
    squats = [week[0].sets for week in slots_of(after, SQUAT)]
    assert squats == [4, 4, 4, 4, 2] * 3 + [4]


def test_only_light_weeks_in_reach_become_ordinary_and_pinned_sets_stay():
    before = make_light(make_light(plan(8), 1), 5)
    slot = slots_of(before, SQUAT)[5][0]
    before = pin(before, frozenset({slot.id}), frozenset({Field.SETS}))
    scheme = Scheme(Stepwise(12, 8), first=4, light=Light(every=4))
    after = apply(before, scheme, CATALOGUE)
    assert [n for n, week in enumerate(after.weeks) if week.light] == [1, 7]
    assert slots_of(after, SQUAT)[5][0].sets == 2
    assert slots_of(after, CURL)[5][0].sets == 3


def test_a_scheme_without_light_weeks_leaves_those_of_the_plan():
    before = make_light(plan(8), 2)
    path = Wave((12, 10), light_end=False)
    after = apply(before, Scheme(path), CATALOGUE)
    assert [n for n, week in enumerate(after.weeks) if week.light] == [2]
