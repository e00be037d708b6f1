"""A program as a value, and the laws it keeps."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError, QuantityError
from app.domain.exercise import ExerciseKey
from app.domain.program import (
    DAYS,
    MAX_SECONDS,
    MAX_SETS,
    MAX_WEEKS,
    Block,
    Day,
    DrillDose,
    Program,
    ProgramId,
    Reps,
    Slot,
    SlotId,
    Span,
    StrandId,
    Week,
    WeekId,
    broken_laws,
    empty_program,
    require_name,
)
from tests import builders
from tests.strategies import programs

BLOCKS = (Block("Base", 3), Block("Build", 1), Block("Peak", 2))


def plan() -> Program:
    return builders.program("Mon: back_squat, curl | Thu: plank", times=6, blocks=BLOCKS)


# ---------------------------------------------------------------------------- values


@pytest.mark.parametrize(("low", "high"), [(0, 5), (5, 4), (1, MAX_SECONDS + 1), (-3, 3)])
def test_repetitions_run_upwards_from_one(low: int, high: int) -> None:
    with pytest.raises(QuantityError, match=rf"repetitions (low|{low}|{high}) ?"):
        Reps(low, high)


def test_the_middle_of_a_range_lies_between_its_ends() -> None:
    assert Reps(8, 10).middle == 9
    assert Reps(8, 11).middle == 9.5
    assert Reps(5, 5).middle == 5


@pytest.mark.parametrize(
    ("field", "value"),
    [("sets", 0), ("sets", MAX_SETS + 1), ("rest_s", -1), ("rest_s", 1201), ("load_kg", -0.5)],
)
def test_a_slot_refuses_what_cannot_be_done(field: str, value: Any) -> None:
    slot = builders.slot("curl 3x12")
    with pytest.raises(QuantityError, match=f"{value} is outside"):
        replace(slot, **{field: value})


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ("abcdef", "6 substitutes are prepared"),
        (("a", "b", "a"), "prepared twice"),
        (("a", "back_squat"), "substitute for itself"),
    ],
)
def test_a_slot_prepares_up_to_five_others_each_once(keys: Any, said: str) -> None:
    slot = builders.slot("back_squat 3x10")
    five = tuple(map(ExerciseKey, "abcde"))
    assert replace(slot, prepared=five).prepared == five
    with pytest.raises(CoachError, match=said):
        replace(slot, prepared=tuple(keys))


@pytest.mark.parametrize("rounds", [0, 11, 1.5])
def test_a_drill_is_done_in_one_to_ten_whole_rounds(rounds: Any) -> None:
    assert DrillDose(10, Reps(8, 10)).rounds == 10
    with pytest.raises(QuantityError, match="rounds"):
        DrillDose(rounds, Reps(8, 10))


def test_a_week_gives_its_sessions_with_their_day_and_its_slots_in_order() -> None:
    week = plan().weeks[0]
    assert [(d, s.title) for d, s in week.sessions()] == [(0, "Mon 1"), (3, "Thu 1")]
    assert [s.exercise for s in week.slots()] == ["back_squat", "curl", "plank"]


# ---------------------------------------------------------------------------- dates and blocks


def test_weeks_start_on_mondays_in_a_row() -> None:
    program = plan()
    assert program.week_start(0) == date(2026, 11, 23)
    assert program.week_start(6) == date(2027, 1, 4)
    assert DAYS[program.week_start(5).weekday()] == "Monday"


def test_every_week_lies_in_one_block() -> None:
    program = plan()
    assert [program.block_of(w) for w in range(6)] == [0, 0, 0, 1, 2, 2]
    assert [list(program.block_range(b)) for b in range(3)] == [[0, 1, 2], [3], [4, 5]]
    with pytest.raises(IndexError):
        program.block_of(6)


@pytest.mark.parametrize(
    ("span", "reached"),
    [
        (Span.THIS_WEEK, [4]),
        (Span.FROM_HERE, [4, 5]),
        (Span.WHOLE_BLOCK, [4, 5]),
        (Span.WHOLE_PROGRAM, [0, 1, 2, 3, 4, 5]),
    ],
)
def test_a_span_reaches_these_weeks(span: Span, reached: list[int]) -> None:
    assert list(plan().reach(4, span)) == reached


@given(programs(), st.data())
def test_every_span_reaches_its_own_week_and_none_outside(program: Program, data) -> None:
    index = data.draw(st.integers(0, len(program.weeks) - 1))
    everything = set(program.reach(index, Span.WHOLE_PROGRAM))
    for span in Span:
        assert index in program.reach(index, span)
        assert set(program.reach(index, span)) <= everything
    assert program.week_index(program.weeks[index].id) == index


def test_a_week_id_that_is_gone_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        plan().week_index(WeekId(9999))


# ---------------------------------------------------------------------------- new ones, names


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(1, MAX_WEEKS))
def test_an_empty_program_keeps_the_laws_and_begins_on_the_monday(day: date, count: int) -> None:
    program = empty_program(ProgramId("p"), " Winter ", start=day, weeks=count)
    assert broken_laws(program) == ()
    assert program.name == "Winter"
    assert len(program.weeks) == count
    assert 0 <= (day - program.start).days < 7


@pytest.mark.parametrize("count", [0, MAX_WEEKS + 1])
def test_an_empty_program_has_1_to_52_weeks(count: int) -> None:
    with pytest.raises(QuantityError, match=rf"number of weeks {count} is outside 1 to 52"):
        empty_program(ProgramId("p"), "Winter", start=date(2026, 1, 5), weeks=count)


@pytest.mark.parametrize("name", ["", "  ", "\n\t"])
def test_what_has_no_name_is_told_by_what_it_is(name: str) -> None:
    with pytest.raises(CoachError, match=r"The block has no name\. Give it one"):
        require_name(name, "block")


def test_a_name_of_200_letters_is_kept_and_a_longer_one_is_not() -> None:
    assert require_name("x" * 200, "block") == "x" * 200
    with pytest.raises(CoachError, match=r"has 201 letters\. Keep it under 200"):
        require_name("x" * 201, "block")


# ---------------------------------------------------------------------------- laws


@given(programs())
def test_a_sound_program_breaks_no_law(program: Program) -> None:
    assert broken_laws(program) == ()


def _swapped_first(program: Program, **fields: Any) -> Program:
    return replace(program, weeks=(replace(program.weeks[0], **fields), *program.weeks[1:]))


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda p: replace(p, weeks=(), blocks=()), "0 weeks; a program has 1 to 52."),
        (lambda p: _swapped_first(p, days=(Day(),) * 6), "does not have seven days"),
        (lambda p: replace(p, blocks=p.blocks[:2]), "blocks do not add up"),
        (lambda p: replace(p, blocks=(*p.blocks, Block("None", 0))), "A block has no week."),
        (lambda p: replace(p, start=date(2026, 11, 24)), "2026-11-24, which is not a Monday"),
        (lambda p: _swapped_first(p, days=(p.weeks[0].days[0],) * 7), "share a strand"),
        (lambda p: replace(p, weeks=(p.weeks[0],) * 6), "share an id"),
        (lambda p: replace(p, next_id=3), "past the program's next free number"),
    ],
)
def test_each_broken_law_is_said(spoil, said: str) -> None:
    sentences = broken_laws(spoil(plan()))
    assert any(said in sentence for sentence in sentences), sentences


def test_too_many_weeks_are_said() -> None:
    weeks = tuple(Week(WeekId(n)) for n in range(1, MAX_WEEKS + 2))
    long = replace(plan(), weeks=weeks, blocks=(Block("All", 53),), next_id=99)
    assert broken_laws(long) == ("53 weeks; a program has 1 to 52.",)


def _slot(**fields: Any) -> Slot:
    whole = {"sets": 3, "reps": Reps(8, 8), **fields}
    return Slot(SlotId(1), StrandId(1), ExerciseKey("back_squat"), **whole)


@pytest.mark.parametrize("tempo", ["", "3-0-1-0", "2-0-X-0", "10-0-x-2", "0.5-0-2-0"])
def test_a_tempo_is_four_figures_or_nothing(tempo: str) -> None:
    assert _slot(tempo=tempo).tempo == tempo


@pytest.mark.parametrize("tempo", ["abcd", "3-0-1", "3-0-1-0-0", "3--1-0", "-3-0-1-0", "3010", " "])
def test_another_tempo_is_refused_with_the_form_it_has(tempo: str) -> None:
    with pytest.raises(CoachError, match="is no tempo.*3-0-1-0"):
        _slot(tempo=tempo)


@pytest.mark.parametrize("pair", ["a", "AB", "1", "Ä", " "])
def test_a_pair_is_one_letter_or_nothing(pair: str) -> None:
    assert [_slot(pair=good).pair for good in ("", "A", "Z")] == ["", "A", "Z"]
    with pytest.raises(CoachError, match="does not name a pair.*A to Z"):
        _slot(pair=pair)


@pytest.mark.parametrize(("low", "high"), [(8.5, 9), (8, 9.5), (float("nan"), 9), (0, 5), (9, 8)])
def test_repetitions_are_whole_and_in_order(low: Any, high: Any) -> None:
    with pytest.raises(QuantityError, match="repetitions"):
        Reps(low, high)


@pytest.mark.parametrize("fields", [{"sets": 2.5}, {"rest_s": 90.5}, {"sets": float("inf")}])
def test_sets_and_rests_are_whole(fields: dict[str, Any]) -> None:
    with pytest.raises(QuantityError):
        _slot(**fields)
