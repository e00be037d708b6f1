from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError, QuantityError
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, SlotId
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from tests.strategies import diaries, slot_results


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda: SetDone(10_000, 5), "load lifted"),
        (lambda: SetDone(50, -1), "repetitions done"),
        (lambda: SetDone(50, 5, rir=12), "repetitions in reserve"),
        (lambda: SetDone(float("nan"), 5), "load lifted"),
        (lambda: CheckIn(date(2026, 10, 2), mass_kg=800), "body mass"),
        (lambda: CheckIn(date(2026, 10, 2), kcal=-1), "energy eaten"),
        (lambda: CheckIn(date(2026, 10, 2), sleep=6), "sleep"),
        (lambda: CheckIn(date(2026, 10, 2), stress=0), "stress"),
        (lambda: CheckIn(date(2026, 10, 2), adherence=1.2), "part of the training done"),
        (lambda: Girth(Site.WAIST, 5), "girth, cm"),
    ],
)
def test_impossible_results_are_refused_by_name(make, name):
    with pytest.raises(QuantityError, match=rf"{name}.* is outside"):
        make()


def test_own_weight_and_help_are_loads_too():
    assert SetDone(0, 8).load_kg == 0
    assert SetDone(-15, 8).load_kg == -15


DAY = date(2026, 10, 12)


def done(slot: int, on: date = DAY, program: str = "base") -> SlotResult:
    return SlotResult(
        ProgramId(program), SlotId(slot), ExerciseKey("back_squat"), on, (SetDone(60.0, 5),)
    )


def test_girths_stand_head_to_foot_and_one_a_site():
    waist, neck = Girth(Site.WAIST, 80), Girth(Site.NECK, 38)
    assert CheckIn(DAY, girths=(waist, neck)).girths == (neck, waist)
    with pytest.raises(CoachError, match="Two girths are given for one site"):
        CheckIn(DAY, girths=(waist, Girth(Site.WAIST, 81)))


@pytest.mark.parametrize("name", ["../other.jpg", "C:\\x.jpg", "..", ".", "a/b.jpg", " "])
def test_a_picture_that_lies_elsewhere_is_refused(name):
    with pytest.raises(CoachError, match="picture"):
        CheckIn(DAY, pictures=(name,))


@given(st.lists(slot_results, max_size=6, unique_by=lambda one: one.key), st.randoms())
def test_a_diary_is_in_order_however_it_was_given(results, dice):
    shuffled = list(results)
    dice.shuffle(shuffled)
    diary = Diary(results=tuple(shuffled))
    assert diary == Diary(results=tuple(results))
    assert [one.key for one in diary.results] == sorted(one.key for one in results)


def test_two_entries_for_the_same_are_refused():
    with pytest.raises(CoachError, match="stand for the same day and exercise"):
        Diary(results=(done(1), done(2), done(1)))
    with pytest.raises(CoachError, match="stand for the same day"):
        Diary((CheckIn(DAY), CheckIn(DAY, mass_kg=70)))


@given(diaries, st.lists(slot_results, max_size=4))
def test_results_take_the_place_of_those_of_their_key_and_no_others(diary, results):
    after = diary.with_results(results)
    last = {one.key: one for one in results}
    assert {one.key: one for one in after.results} == {r.key: r for r in diary.results} | last
    kept = after.without_results(last)
    assert kept.results == tuple(r for r in diary.results if r.key not in last)
    assert after.check_ins == diary.check_ins


@given(diaries)
def test_a_check_in_takes_the_place_of_that_days(diary):
    mine = CheckIn(DAY, mass_kg=70)
    after = diary.with_check_in(mine)
    assert after.check_in(DAY) == mine
    assert after.without_check_in(DAY) == diary.without_check_in(DAY)
    assert after.without_check_in(DAY).check_in(DAY) is None
    assert after.results == diary.results


def test_results_of_one_program_leave_out_the_others():
    diary = Diary(results=(done(1), done(2, program="peak"), done(3)))
    assert diary.results_of(ProgramId("base")) == (done(1), done(3))
