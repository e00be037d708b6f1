"""Lines are read as they are meant, and what cannot be read is named."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.effort import PercentOneRm, Rir
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.log_sheet import (
    LEFT_OUT,
    Asked,
    Typed,
    as_planned,
    doubt_day,
    doubt_loads,
    read_line,
    read_lines,
    read_load,
    refuse_future,
    split_line,
    typed_result,
    typed_set,
    wrong_field,
)
from app.domain.program import ProgramId, Reps, Slot, SlotId, StrandId
from app.domain.results import SetDone, SlotResult
from tests import builders
from tests.strategies import amounts

SQUAT = builders.CATALOGUE[ExerciseKey("back_squat")]
PULL_UP = replace(SQUAT, load_kind=LoadKind.BODY, body_share=0.9)


def asked(load_kg=None, unit="kg", exercise=SQUAT, sets=3, reps=(8, 10), effort=None) -> Asked:
    slot = Slot(SlotId(1), StrandId(1), exercise.key, sets, Reps(*reps), effort=effort or Rir(2))
    return Asked(slot, exercise, load_kg, unit)


@pytest.mark.parametrize(
    ("text", "unit", "kg"),
    [
        ("62.5", "kg", 62.5),
        ("62,5", "kg", 62.5),
        (" 62.5 kg ", "lb", 62.5),
        ("\N{MINUS SIGN}10", "kg", -10.0),
        # an international pound is 0.45359237 kg by definition
        ("100", "lb", 45.359237),
        ("100 lb", "kg", 45.359237),
        ("100LBS", "kg", 45.359237),
    ],
)
def test_a_load_is_read_in_its_unit(text: str, unit: str, kg: float) -> None:
    assert read_load(text, unit) == pytest.approx(kg)


@pytest.mark.parametrize("text", ["heavy", "6o", "1.000,5", "12 stone", "inf", "1e3", "+"])
def test_text_where_a_number_belongs_is_quoted(text: str) -> None:
    with pytest.raises(CoachError) as refused:
        read_load(text, "kg")
    assert text in refused.value.what
    assert refused.value.mend


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (Typed("60", "ten"), "'ten' is not a number"),
        (Typed("60", "8.5"), "not a whole number"),
        (Typed("60", ""), "repetitions are missing"),
        (Typed("", "", "2"), "repetitions are missing"),
        (Typed("", "8"), "load is missing"),
        (Typed("60", "8", "x"), "'x' is not a number"),
        (Typed("60", "8", "12"), "reserve"),
        (Typed("6000", "8"), "load lifted"),
        (Typed("60", "9999"), "repetitions done"),
    ],
)
def test_a_line_that_cannot_be_read_says_why(typed: Typed, said: str) -> None:
    with pytest.raises(CoachError, match=said):
        read_line(typed, asked())


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (Typed("60"), "reps"),
        (Typed("60", "ten", "2"), "reps"),
        (Typed("60", "90000", "2"), "reps"),
        (Typed("60", "10", "many"), "rir"),
        (Typed("60", "10", "40"), "rir"),
        (Typed("heavy", "10", "2"), "load"),
        (Typed("99999", "10", ""), "load"),
    ],
)
def test_the_field_to_mend_is_known(typed: Typed, field: str) -> None:
    with pytest.raises(CoachError):
        read_line(typed, asked())
    assert wrong_field(typed) == field


def test_an_empty_line_and_a_dash_are_no_sets() -> None:
    assert read_line(Typed(), asked()) is None
    for sign in ("-", "\N{EN DASH}", "/"):
        assert read_line(Typed(reps=sign), asked()) is None
        assert read_line(Typed(load=sign), asked()) is None
    assert LEFT_OUT.is_skipped


def test_a_load_that_is_not_typed_is_that_of_the_set_above_or_the_printed_one() -> None:
    sets, faults = read_lines([Typed("", "10"), Typed("65", "9"), Typed("", "8", "1")], asked(60.0))
    assert sets == (SetDone(60.0, 10), SetDone(65.0, 9), SetDone(65.0, 8, 1.0))
    assert faults == []


def test_own_weight_needs_no_load_and_help_is_below_zero() -> None:
    assert read_line(Typed(reps="8"), asked(exercise=PULL_UP)) == SetDone(0.0, 8)
    assert read_line(Typed("-10", "8"), asked(exercise=PULL_UP)) == SetDone(-10.0, 8)


def test_lines_that_cannot_be_read_leave_the_others() -> None:
    sets, faults = read_lines([Typed("60", "10"), Typed("60", "ten"), Typed("60", "8")], asked())
    assert [done.reps for done in sets] == [10, 8]
    assert [fault.line for fault in faults] == [1]


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("62.5x10", Typed("62.5", "10")),
        ("62,5 × 10 / 2", Typed("62,5", "10", "2")),
        ("135 lb x 5/1.5", Typed("135 lb", "5", "1.5")),
        ("62.5", None),
        ("x10", None),
    ],
)
def test_a_whole_set_can_be_typed_at_once(text: str, typed: Typed | None) -> None:
    assert split_line(text) == typed


@given(
    st.lists(
        st.builds(
            SetDone,
            load_kg=amounts(0, 300),
            reps=st.integers(1, 30),
            rir=st.none() | st.integers(0, 20).map(lambda n: n / 2),
        ),
        max_size=5,
    ).map(tuple)
)
def test_what_was_done_is_typed_and_read_back(sets: tuple[SetDone, ...]) -> None:
    result = SlotResult(ProgramId("p"), SlotId(1), SQUAT.key, date(2026, 10, 12), sets)
    lines = typed_result(result, asked())
    assert len(lines) == max(3, len(sets))
    assert read_lines(lines, asked()) == (sets, [])


def test_pounds_are_typed_in_pounds() -> None:
    assert typed_set(SetDone(45.359237, 5), asked(unit="lb")) == Typed("100", "5")


def test_nothing_known_is_empty_lines_and_missing_sets_are_dashes() -> None:
    assert typed_result(None, asked()) == (Typed(),) * 3
    result = SlotResult(ProgramId("p"), SlotId(1), SQUAT.key, date(2026, 10, 12), (SetDone(60, 8),))
    assert typed_result(result, asked()) == (Typed("60", "8"), LEFT_OUT, LEFT_OUT)


def test_as_planned_takes_the_upper_end_the_printed_load_and_the_reserve_meant() -> None:
    assert as_planned(asked(62.5)) == (Typed("62.5", "10", "2"),) * 3
    assert as_planned(asked(), usual_kg=50.0)[0].load == "50"
    assert as_planned(asked())[0].load == ""
    # 75 % of 1RM is ten to failure on the textbook curve
    planned = as_planned(asked(60.0, reps=(8, 8), effort=PercentOneRm(75.0)))
    assert planned[0] == Typed("60", "8", "2")


@pytest.mark.parametrize("kind", [LoadKind.BAND, LoadKind.NONE])
def test_without_a_load_in_kg_none_is_typed(kind: LoadKind) -> None:
    exercise = replace(SQUAT, load_kind=kind)
    assert as_planned(asked(exercise=exercise))[0].load == ""
    assert read_line(Typed(reps="12"), asked(exercise=exercise)) == SetDone(0.0, 12)


def test_a_jump_of_two_point_two_is_questioned_with_its_mend() -> None:
    high = doubt_loads([SetDone(198.0, 5)], asked(), 90.0)
    assert high is not None
    assert high.factor == pytest.approx(0.45359237)
    assert "198 kg" in high.question
    assert "90 kg" in high.question
    assert "lb" in high.verb
    low = doubt_loads([SetDone(45.0, 5)], asked(unit="lb"), 100.0)
    assert low is not None
    assert low.factor == pytest.approx(1 / 0.45359237)
    assert "kg" in low.verb


@pytest.mark.parametrize(("load_kg", "known_kg"), [(100, 90), (180, 100), (60, 100), (90, None)])
def test_an_ordinary_step_is_not_questioned(load_kg: float, known_kg: float | None) -> None:
    assert doubt_loads([SetDone(load_kg, 5)], asked(), known_kg) is None


def test_days_that_cannot_be_are_refused_and_odd_ones_questioned() -> None:
    start, planned = date(2026, 10, 12), date(2026, 10, 15)
    with pytest.raises(CoachError, match="in the future"):
        refuse_future(date(2026, 11, 26), date(2026, 11, 25))
    assert refuse_future(planned, planned) == planned
    assert "before the program begins" in doubt_day(
        date(2026, 10, 11), start=start, planned=planned
    )
    assert "four weeks" in doubt_day(date(2026, 12, 1), start=start, planned=planned)
    assert doubt_day(date(2026, 10, 16), start=start, planned=planned) == ""
