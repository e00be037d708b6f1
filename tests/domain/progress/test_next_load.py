from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Increments
from app.domain.effort import PercentOneRm, Rir
from app.domain.errors import QuantityError
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.program import ProgramId, Reps, Slot, SlotId, StrandId
from app.domain.progress import Move, next_load, rises_in_reach
from app.domain.results import SetDone, SlotResult

GYM = Increments()
START = date(2026, 10, 5)
EIGHT = Reps(8, 8)


def slot(reps=EIGHT, effort=None):
    return Slot(SlotId(1), StrandId(1), ExerciseKey("squat"), 3, reps, effort=effort or Rir(2))


def results(*days):
    """Each day a tuple of sets (load, reps, reserve)."""
    return [
        SlotResult(
            ProgramId("p"),
            SlotId(1),
            ExerciseKey("squat"),
            START + timedelta(days=7 * n),
            tuple(SetDone(*one) for one in day),
        )
        for n, day in enumerate(days)
    ]


def test_a_set_over_the_target_everywhere_raises_the_load():
    found = next_load(slot(), results([(60, 9, 2)] * 3), GYM)
    # acsm2009: 2 to 10 % more is 61.2 to 66
    assert (found.move, found.load_kg) == (Move.RAISE, 62.5)
    assert "4% more" in found.text
    assert "acsm2009" in found.sources


def test_reserve_left_over_counts_as_repetitions():
    found = next_load(slot(), results([(60, 8, 4)] * 3), GYM)
    assert (found.move, found.load_kg) == (Move.RAISE, 62.5)


def test_far_over_the_target_takes_a_larger_step_but_never_past_ten_per_cent():
    found = next_load(slot(), results([(60, 12, 4)] * 3), GYM)
    assert (found.move, found.load_kg) == (Move.RAISE, 65.0)


def test_as_meant_the_load_stays():
    found = next_load(slot(), results([(60, 8, 2)] * 3), GYM)
    assert (found.move, found.load_kg) == (Move.HOLD, 60)


def test_a_range_rises_once_every_set_reaches_its_upper_end():
    wide = slot(Reps(8, 12))
    inside = next_load(wide, results([(60, 12, 2), (60, 11, 2), (60, 10, 2)]), GYM)
    assert inside.move is Move.HOLD
    assert "a repetition more" in inside.text
    top = next_load(wide, results([(60, 12, 2)] * 3), GYM)
    assert top.move is Move.RAISE


def test_two_over_in_the_last_set_on_two_days_running_raises():
    # haff2016's two-for-two rule, value from memory
    day = [(60, 8, 2), (60, 8, 2), (60, 10, 2)]
    assert next_load(slot(), results(day), GYM).move is Move.HOLD
    assert next_load(slot(), results(day, day), GYM).move is Move.RAISE


def test_missing_once_holds_and_missing_twice_lowers():
    missed = [(100, 8, 2), (100, 7, 0), (100, 6, 0)]
    once = next_load(slot(), results(missed), GYM)
    assert (once.move, once.load_kg) == (Move.HOLD, 100)
    assert "once" in once.text
    twice = next_load(slot(), results(missed, missed), GYM)
    assert (twice.move, twice.load_kg) == (Move.LOWER, 95)
    assert "consider" in twice.text


def test_missing_by_three_lowers_at_once():
    assert next_load(slot(), results([(100, 5, 0)] * 3), GYM).move is Move.LOWER


def test_much_less_reserve_than_meant_is_short_too():
    day = [(100, 8, 0)] * 3
    assert next_load(slot(), results(day, day), GYM).move is Move.LOWER
    one_less = [(100, 8, 1)] * 3
    assert next_load(slot(), results(one_less, one_less), GYM).move is Move.HOLD


def test_a_dumbbell_without_a_step_in_reach_gets_repetitions_first():
    coarse = Increments(dumbbells_kg=(2.5, 2.5, 40.0))
    found = next_load(slot(), results([(10, 10, 2)] * 3), coarse, kind=LoadKind.DUMBBELL_EACH)
    assert (found.move, found.load_kg) == (Move.ADD_REPS, 10)
    assert (found.reps.low, found.reps.high) == (9, 10)


@pytest.mark.parametrize("kind", [LoadKind.BAND, LoadKind.NONE])
def test_bands_get_repetitions_first(kind):
    found = next_load(slot(), results([(0, 12, 2)] * 3), GYM, kind=kind)
    assert found.move is Move.ADD_REPS


def test_the_lightest_load_cannot_be_lowered():
    found = next_load(slot(), results([(20, 3, 0)] * 3), GYM)
    assert (found.move, found.load_kg) == (Move.LOWER, 20)
    assert "easier variation" in found.text


def test_nothing_done_says_so():
    found = next_load(slot(), results([]), GYM)
    assert (found.move, found.load_kg) == (Move.NOTHING_DONE, None)


def test_an_unknown_reserve_leaves_the_repetitions_to_decide():
    assert next_load(slot(), results([(60, 8, None)] * 3), GYM).move is Move.HOLD
    assert next_load(slot(), results([(60, 9, None)] * 3), GYM).move is Move.RAISE


def test_an_effort_too_heavy_for_its_repetitions_still_gets_a_suggestion():
    odd = slot(effort=PercentOneRm(95))
    assert next_load(odd, results([(60, 8, 0)] * 3), GYM).move is Move.HOLD


def test_the_order_of_results_does_not_matter():
    days = results([(100, 6, 0)] * 3, [(100, 9, 2)] * 3)
    assert next_load(slot(), days, GYM) == next_load(slot(), days[::-1], GYM)


@given(
    st.floats(20, 300),
    st.integers(1, 15),
    st.integers(0, 5),
    st.sampled_from([LoadKind.BARBELL, LoadKind.MACHINE, LoadKind.CABLE]),
)
def test_a_raised_load_lies_two_to_ten_per_cent_above(load_kg, reps, rir, kind):
    found = next_load(slot(), results([(load_kg, reps, rir)] * 3), GYM, kind=kind)
    assert found.load_kg is not None
    if found.move is Move.RAISE:
        assert 1.02 * load_kg - 1e-6 <= found.load_kg <= 1.10 * load_kg + 1e-6
    elif found.move is Move.LOWER:
        assert found.load_kg < load_kg or (found.load_kg == load_kg and load_kg <= 21)
    else:
        assert found.load_kg == load_kg


@given(st.floats(20, 300))
def test_rises_are_in_reach_and_in_the_published_band(load_kg):
    rises = rises_in_reach(load_kg, GYM)
    assert list(rises) == sorted(set(rises))
    assert all(1.02 * load_kg - 1e-6 <= kg <= 1.10 * load_kg + 1e-6 for kg in rises)
    assert all((kg - 20) / 2.5 == pytest.approx(round((kg - 20) / 2.5)) for kg in rises)


def test_the_account_holds_target_and_sets():
    lines = next_load(slot(), results([(60, 9, 2)] * 3), GYM).working().lines
    assert (lines[0].label, lines[0].value, lines[0].remark) == ("Meant", "3 × 8", "RIR 2")
    assert lines[1].value == "60 kg × 9, 2 in reserve"
    assert lines[-1].value == "62.5 kg"


def test_nothing_rises_before_every_planned_set_is_done():
    found = next_load(slot(), results([(60, 11, 2)]), GYM)
    assert (found.move, found.load_kg) == (Move.HOLD, 60)
    assert found.text == "1 of 3 sets done: the same load again until all of them are."


def test_a_day_cut_short_does_not_count_for_two_days_running():
    whole, cut = [(60, 8, 2), (60, 8, 2), (60, 10, 2)], [(60, 10, 2)]
    assert next_load(slot(), results(cut, whole), GYM).move is Move.HOLD
    assert next_load(slot(), results(whole, whole), GYM).move is Move.RAISE


def test_a_bad_miss_lowers_even_where_the_day_was_cut_short():
    assert next_load(slot(), results([(100, 5, 0)]), GYM).move is Move.LOWER


def test_the_heaviest_dumbbell_is_called_the_heaviest():
    found = next_load(slot(), results([(40, 10, 2)] * 3), GYM, kind=LoadKind.DUMBBELL_EACH)
    assert (found.move, found.load_kg, found.reps.high) == (Move.ADD_REPS, 40, 10)
    assert found.text == (
        "40 kg is the heaviest in reach. Do up to 10 repetitions first, then a harder variation."
    )


def test_a_load_too_far_up_is_named():
    coarse = Increments(dumbbells_kg=(2.5, 2.5, 40.0))
    found = next_load(slot(), results([(10, 10, 2)] * 3), coarse, kind=LoadKind.DUMBBELL_EACH)
    assert "The next load in reach, 12.5 kg, is more than 10 % up." in found.text


def test_own_weight_rises_by_repetitions_and_then_by_the_smallest_plate():
    found = next_load(slot(), results([(0, 10, 2)] * 3), GYM, kind=LoadKind.BODY)
    assert (found.move, found.load_kg) == (Move.ADD_REPS, 0)
    assert found.text.endswith("Do up to 10 repetitions first, then add 1.25 kg.")
    assert "10 %" not in found.text


@pytest.mark.parametrize(
    ("help_kg", "next_kg", "said"),
    [(20, -15, "15 kg of help next time, 5 kg less"), (3, 0, "own weight alone")],
)
def test_help_falls_by_the_step_there_is(help_kg, next_kg, said):
    found = next_load(slot(), results([(-help_kg, 10, 2)] * 3), GYM, kind=LoadKind.BODY)
    assert (found.move, found.load_kg) == (Move.RAISE, next_kg)
    assert said in found.text


def test_a_missed_set_with_help_asks_for_more_help():
    found = next_load(slot(), results([(-20, 4, 0)] * 3), GYM, kind=LoadKind.BODY)
    assert (found.move, found.load_kg) == (Move.LOWER, -25)
    assert "25 kg of help next time, 5 kg more" in found.text
    most = next_load(slot(), results([(-300, 4, 0)] * 3), GYM, kind=LoadKind.BODY)
    assert (most.move, most.load_kg) == (Move.LOWER, -300)
    assert "easier variation" in most.text


@pytest.mark.parametrize(
    ("band", "said"),
    [
        (None, "the next stronger of light, medium, heavy"),
        ("light", "then take the band that is medium"),
        ("heavy", "strongest in reach"),
    ],
)
def test_bands_rise_by_grades_after_repetitions(band, said):
    day = results([(0, 10, 2)] * 3)
    found = next_load(slot(), day, GYM, kind=LoadKind.BAND, band=band)
    assert found.move is Move.ADD_REPS
    assert said in found.text


def test_a_missed_set_with_a_band_asks_for_a_lighter_one():
    missed = results([(0, 4, 0)] * 3)
    lighter = next_load(slot(), missed, GYM, kind=LoadKind.BAND, band="heavy")
    assert "the band that is medium" in lighter.text
    lightest = next_load(slot(), missed, GYM, kind=LoadKind.BAND, band="light")
    assert "easier variation" in lightest.text


def test_repetitions_at_their_most_ask_for_a_harder_variation():
    hundred = slot(Reps(100, 100), effort=PercentOneRm(30))
    found = next_load(hundred, results([(0, 110, 2)] * 3), GYM, kind=LoadKind.NONE)
    assert (found.move, found.reps) == (Move.HOLD, Reps(100, 100))
    assert "harder variation" in found.text


def test_a_long_timed_set_never_gets_shorter_by_passing_its_target():
    minutes = slot(Reps(120, 120), effort=PercentOneRm(30))
    found = next_load(minutes, results([(0, 130, 2)] * 3), GYM, kind=LoadKind.NONE)
    assert (found.reps.low, found.reps.high) == (121, 122)


@pytest.mark.parametrize("load_kg", [-5, float("nan"), 1e308])
def test_rises_of_a_load_that_there_cannot_be_are_refused(load_kg):
    with pytest.raises(QuantityError, match="load, kg"):
        rises_in_reach(load_kg, GYM)


def test_the_heaviest_load_there_can_be_still_gets_a_suggestion():
    found = next_load(slot(), results([(1000, 10, 2)] * 3), GYM)
    assert (found.move, found.load_kg) == (Move.ADD_REPS, 1000)
