from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Increments
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import QuantityError
from app.domain.exercise import LoadKind
from app.domain.ramp import read_ramp
from app.domain.strength import full_ramp_text, prescribe_load, ramp_sets

GYM = Increments()


@given(
    st.floats(30, 300),
    st.integers(1, 20),
    st.integers(1, 20),
    st.sampled_from([Rir(0), Rir(2), PercentRepMax(95)]),
)
def test_more_repetitions_never_get_more_load(one_rm_kg, one, other, effort):
    fewer, more = sorted((one, other))
    heavy = prescribe_load(one_rm_kg, fewer, effort, GYM)
    light = prescribe_load(one_rm_kg, more, effort, GYM)
    assert heavy.exact_kg >= light.exact_kg
    assert heavy.load_kg >= light.load_kg


def test_a_load_shows_how_it_came_about():
    load = prescribe_load(104.9, 10, Rir(2), GYM)
    assert (load.load_kg, load.fraction) == (70.0, 0.67)
    assert load.plates is not None
    assert load.plates.plates == (25.0,)
    assert [(line.label, line.value) for line in load.working().lines] == [
        ("10 reps + 2 in reserve", "12 RM = 67 %"),
        ("67 % of 104.9", "70.3 kg"),
        ("Nearest in reach, 2.5 kg steps", "70 kg"),
    ]
    assert load.sources == ("haff2016",)


def test_the_other_forms_of_effort_show_their_way_too():
    share = prescribe_load(100, 10, PercentRepMax(90), GYM)
    assert share.exact_kg == pytest.approx(67.5)
    assert share.lines[0].label == "90 % of 10 RM = 75 %"
    plain = prescribe_load(100, 5, PercentOneRm(80), GYM)
    assert plain.load_kg == 80.0


def test_a_body_weight_lift_gets_the_load_to_add():
    load = prescribe_load(100, 5, PercentOneRm(87), GYM, kind=LoadKind.BODY, body_kg=75)
    assert load.exact_kg == pytest.approx(12.0)
    assert load.load_kg == 12.5


def test_a_weak_lifter_gets_the_empty_bar_with_a_remark():
    load = prescribe_load(22, 10, Rir(2), GYM)
    assert load.load_kg == 20.0
    assert "empty bar" in load.remark
    assert load.working().lines[-1].value == load.remark


@pytest.mark.parametrize("one_rm_kg", [0, -5, float("nan"), float("inf"), 5000])
def test_impossible_maxima_are_refused(one_rm_kg):
    with pytest.raises(QuantityError, match="one-repetition maximum, kg"):
        prescribe_load(one_rm_kg, 5, Rir(2), GYM)


@given(st.floats(0, 400), st.sampled_from([15.0, 20.0]))
def test_a_ramp_rises_below_the_working_load_while_repetitions_fall(load_kg, bar_kg):
    ramp = ramp_sets(load_kg, bar_kg, GYM)
    loads = [one.load_kg for one in ramp]
    assert loads == sorted(set(loads))
    assert all(one < load_kg for one in loads)
    reps = [one.reps for one in ramp]
    assert reps == sorted(reps, reverse=True)
    for one in ramp:
        assert one.plates is not None
        assert one.load_kg == pytest.approx(bar_kg + 2 * sum(one.plates.plates))


def test_a_ramp_to_a_heavy_bar_begins_with_the_empty_one():
    assert [(one.load_kg, one.reps) for one in ramp_sets(100, 20, GYM)] == [
        (20.0, 8),
        (50.0, 5),
        (70.0, 3),
        (85.0, 2),
    ]


@pytest.mark.parametrize("kind", [LoadKind.BARBELL, LoadKind.MACHINE])
def test_the_steps_of_a_whole_ramp_as_a_line_are_those_that_are_worked_out(kind):
    steps = read_ramp(full_ramp_text(kind)).steps
    worked_out = ramp_sets(100, 20, GYM, kind=kind)
    assert [step.reps for step in steps] == [one.reps for one in worked_out]
    assert [step.percent for step in steps if step.percent] == [50, 70, 85]


def test_the_empty_bar_needs_no_ramp():
    assert ramp_sets(20, 20, GYM) == ()


def test_dumbbells_ramp_without_a_bar():
    ramp = ramp_sets(30, 0, GYM, kind=LoadKind.DUMBBELL_EACH)
    assert [one.load_kg for one in ramp] == [14.0, 20.0, 26.0]
    assert all(one.plates is None for one in ramp)


@pytest.mark.parametrize("load_kg", [-1, float("nan"), 10_000])
def test_a_ramp_to_an_impossible_load_is_refused(load_kg):
    with pytest.raises(QuantityError, match="load, kg"):
        ramp_sets(load_kg, 20, GYM)


@pytest.mark.parametrize("reps", [0, -5, float("nan"), 1e308])
@pytest.mark.parametrize("effort", [PercentOneRm(75), Rir(2)])
def test_a_load_is_for_one_repetition_at_least(effort, reps):
    with pytest.raises(QuantityError, match="repetitions"):
        prescribe_load(100, reps, effort, GYM)


@pytest.mark.parametrize("body_kg", [-1, float("nan"), 1e6])
def test_own_weight_is_never_below_nothing(body_kg):
    with pytest.raises(QuantityError, match="own weight lifted along, kg"):
        prescribe_load(100, 5, Rir(2), GYM, body_kg=body_kg)


@pytest.mark.parametrize("bar_kg", [-20, float("nan"), float("inf")])
@pytest.mark.parametrize("kind", [LoadKind.BARBELL, LoadKind.MACHINE])
def test_a_ramp_needs_a_bar_that_there_can_be(bar_kg, kind):
    with pytest.raises(QuantityError, match="bar, kg"):
        ramp_sets(100, bar_kg, GYM, kind=kind)
