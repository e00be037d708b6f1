"""Edits of a prescription: fields, sets, pins, notes, roles, acceptances."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.edits import fields
from app.domain.edits.place import replace_exercise
from app.domain.edits.prescribe import Prescription
from app.domain.effort import PercentOneRm, Rir
from app.domain.errors import EditError, QuantityError
from app.domain.exercise import ExerciseKey
from app.domain.program import MAX_SETS, Acceptance, Block, Field, Program, Reps, Role, Span
from app.domain.ramp import NO_RAMP
from tests import builders
from tests.domain.edits.reading import (
    GONE_SESSION,
    GONE_SLOT,
    session_at,
    session_id,
    slot_at,
    slot_id,
)


def plan() -> Program:
    """Four weeks in two blocks, the last one light, with sets that differ from week to week."""
    return builders.program(
        "Mon: back_squat 3x10 core, leg_curl 3x12",
        "Mon: back_squat 4x8 core, leg_curl 3x12",
        "Mon: back_squat 5x6 core, leg_curl 3x12",
        "light | Mon: back_squat 2x6 core, leg_curl 1x12",
        blocks=(Block("Base", 2), Block("Build", 2)),
    )


INSTEAD = (ExerciseKey("leg_press"), ExerciseKey("goblet_squat"))

SPANS = pytest.mark.parametrize(
    ("span", "weeks"),
    [
        (Span.THIS_WEEK, {1}),
        (Span.FROM_HERE, {1, 2, 3}),
        (Span.WHOLE_BLOCK, {0, 1}),
        (Span.WHOLE_PROGRAM, {0, 1, 2, 3}),
    ],
)

VALUES: dict[Field, fields.Value] = {
    Field.SETS: 6,
    Field.REPS: Reps(4, 6),
    Field.EFFORT: PercentOneRm(80),
    Field.REST: 210,
    Field.TEMPO: "3-0-1-0",
    Field.LOAD: 82.5,
}
NAMES = {Field.REST: "rest_s", Field.LOAD: "load_kg"}


@SPANS
@pytest.mark.parametrize("field", tuple(Field), ids=lambda f: f.value)
def test_a_field_is_set_and_pinned_as_far_as_the_span(field, span, weeks) -> None:
    program = plan()
    after = fields.set_field(program, slot_id(program, 1, 0), field, value=VALUES[field], span=span)
    for week in range(4):
        slot = slot_at(after, week, 0)
        reached = week in weeks
        assert (field in slot.pinned) is reached
        assert (getattr(slot, NAMES.get(field, field.value)) == VALUES[field]) is reached
        assert slot_at(after, week, 0, 1) is slot_at(program, week, 0, 1)


def test_setting_what_is_set_already_is_no_change() -> None:
    program = plan()
    once = fields.set_field(program, slot_id(program, 0, 0), Field.SETS, value=3)
    assert once is not program, "it is pinned now"
    assert fields.set_field(once, slot_id(once, 0, 0), Field.SETS, value=3) is once


@SPANS
def test_substitutes_are_prepared_as_far_as_the_span(span, weeks) -> None:
    program = plan()
    after = fields.set_prepared(program, slot_id(program, 1, 0), prepared=INSTEAD, span=span)
    for week in range(4):
        assert slot_at(after, week, 0).prepared == (INSTEAD if week in weeks else ())
        assert slot_at(after, week, 0, 1) is slot_at(program, week, 0, 1)


def test_substitutes_are_prepared_only_where_the_same_exercise_stands() -> None:
    program = plan()
    press = builders.CATALOGUE[ExerciseKey("leg_press")]
    other = replace_exercise(program, slot_id(program, 2, 0), exercise=press)
    after = fields.set_prepared(
        other, slot_id(other, 0, 0), prepared=INSTEAD, span=Span.WHOLE_PROGRAM
    )
    assert [slot_at(after, week, 0).prepared for week in range(4)] == [
        INSTEAD,
        INSTEAD,
        (),
        INSTEAD,
    ]


def test_preparing_the_same_again_is_no_change() -> None:
    program = plan()
    once = fields.set_prepared(program, slot_id(program, 0, 0), prepared=INSTEAD)
    assert fields.set_prepared(once, slot_id(once, 0, 0), prepared=INSTEAD) is once
    assert fields.set_prepared(once, slot_id(once, 0, 0), prepared=()) == program


@SPANS
def test_ramp_sets_are_set_as_far_as_the_span_where_the_same_exercise_stands(span, weeks) -> None:
    press = builders.CATALOGUE[ExerciseKey("leg_press")]
    program = replace_exercise(plan(), slot_id(plan(), 2, 0), exercise=press)
    after = fields.set_ramp(program, slot_id(program, 1, 0), ramp=NO_RAMP, span=span)
    for week in range(4):
        there = week in weeks and week != 2
        assert slot_at(after, week, 0).ramp == (NO_RAMP if there else None)
        assert slot_at(after, week, 0, 1) is slot_at(program, week, 0, 1)
    assert fields.set_ramp(after, slot_id(after, 1, 0), ramp=NO_RAMP, span=span) is after
    assert fields.set_ramp(after, slot_id(after, 1, 0), ramp=None, span=span) == program


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (("a", "b", "c", "d", "e", "f"), "6 substitutes are prepared .* Keep the 5"),
        (("leg_press", "leg_press"), "prepared twice. Name each of them once"),
        (("back_squat",), "a substitute for itself. Choose another"),
    ],
)
def test_substitutes_that_break_their_law_are_refused(keys, said) -> None:
    program = plan()
    with pytest.raises(EditError, match=said):
        fields.set_prepared(program, slot_id(program, 0, 0), prepared=keys)


def test_no_load_leaves_the_load_to_the_tests_again() -> None:
    program = plan()
    here = slot_id(program, 0, 0)
    heavy = fields.set_field(program, here, Field.LOAD, value=100)
    assert fields.set_field(heavy, here, Field.LOAD, value=None) == program


@pytest.mark.parametrize(
    ("field", "value"),
    [
        (Field.SETS, "four"),
        (Field.SETS, 2.5),
        (Field.SETS, None),
        (Field.SETS, True),
        (Field.REPS, 10),
        (Field.EFFORT, 2),
        (Field.TEMPO, 3010),
        (Field.LOAD, "heavy"),
    ],
)
def test_a_value_of_another_kind_is_refused_by_name(field: Field, value) -> None:
    program = plan()
    with pytest.raises(EditError, match=rf"is no value for {field.value}\. Enter a number"):
        fields.set_field(program, slot_id(program, 0, 0), field, value=value)


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        (Field.SETS, 0, "sets 0 is outside 1 to 20"),
        (Field.SETS, MAX_SETS + 1, "sets 21 is outside 1 to 20"),
        (Field.REST, 1201, "rest, s 1201 is outside 0 to 1200"),
        (Field.LOAD, -1.0, "load, kg -1.0 is outside 0 to 1000"),
        (Field.LOAD, float("nan"), "load, kg nan is outside"),
    ],
)
def test_a_value_out_of_range_is_refused_with_the_range(field, value, said) -> None:
    program = plan()
    with pytest.raises(QuantityError, match=said):
        fields.set_field(program, slot_id(program, 0, 0), field, value=value)


def test_a_new_prescription_touches_only_what_differs() -> None:
    program = plan()
    slot = slot_at(program, 0, 0)
    asked = Prescription(slot.sets, Reps(5, 5), slot.effort, slot.rest_s, role=slot.role)
    after = fields.prescribe(program, slot.id, prescription=asked, span=Span.WHOLE_PROGRAM)
    assert [slot_at(after, w, 0).reps for w in range(4)] == [Reps(5, 5)] * 4
    assert [slot_at(after, w, 0).sets for w in range(4)] == [3, 4, 5, 2]
    assert all(slot_at(after, w, 0).pinned == {Field.REPS} for w in range(4))


def test_the_same_prescription_is_no_change() -> None:
    program = plan()
    slot = slot_at(program, 0, 0)
    same = Prescription(
        slot.sets, slot.reps, slot.effort, slot.rest_s, slot.tempo, slot.note, slot.role
    )
    assert fields.prescribe(program, slot.id, prescription=same) is program


def test_a_prescription_can_change_everything_at_once() -> None:
    program = plan()
    asked = Prescription(2, Reps(3, 5), Rir(0), 240, "4-0-1-0", "hold", Role.ASSISTANCE)
    slot = slot_at(fields.prescribe(program, slot_id(program, 0, 0), prescription=asked), 0, 0)
    assert (slot.sets, slot.reps, slot.effort, slot.rest_s) == (2, Reps(3, 5), Rir(0), 240)
    assert (slot.tempo, slot.note, slot.role) == ("4-0-1-0", "hold", Role.ASSISTANCE)
    assert slot.pinned == {Field.SETS, Field.REPS, Field.EFFORT, Field.REST, Field.TEMPO}


def test_sets_are_added_to_each_weeks_own_number_and_light_weeks_stay() -> None:
    program = plan()
    after = fields.add_sets(program, slot_id(program, 0, 0), by=2, span=Span.WHOLE_PROGRAM)
    assert [slot_at(after, w, 0).sets for w in range(4)] == [5, 6, 7, 2]
    in_light = fields.add_sets(program, slot_id(program, 3, 0), by=1, span=Span.WHOLE_PROGRAM)
    assert [slot_at(in_light, w, 0).sets for w in range(4)] == [4, 5, 6, 3]


def test_other_weeks_stop_at_the_bounds() -> None:
    program = builders.program("Mon: curl 10x10", "Mon: curl 19x10", "Mon: curl 2x10")
    up = fields.add_sets(program, slot_id(program, 0, 0), by=5, span=Span.WHOLE_PROGRAM)
    assert [slot_at(up, w, 0).sets for w in range(3)] == [15, 20, 7]
    down = fields.add_sets(program, slot_id(program, 0, 0), by=-5, span=Span.WHOLE_PROGRAM)
    assert [slot_at(down, w, 0).sets for w in range(3)] == [5, 14, 1]


@pytest.mark.parametrize(("by", "count"), [(-3, 0), (18, 21)])
def test_sets_outside_the_bounds_are_refused(by: int, count: int) -> None:
    program = plan()
    with pytest.raises(EditError, match=rf"{count} sets cannot be written\. Keep between 1 and 20"):
        fields.add_sets(program, slot_id(program, 0, 0), by=by)


@SPANS
def test_notes_and_roles_reach_as_far_as_the_span(span: Span, weeks: set[int]) -> None:
    program = plan()
    here = slot_id(program, 1, 0)
    noted = fields.set_note(program, here, note=" slowly ", span=span)
    assert {w for w in range(4) if slot_at(noted, w, 0).note == "slowly"} == weeks
    roles = fields.set_role(program, here, role=Role.ASSISTANCE, span=span)
    assert {w for w in range(4) if slot_at(roles, w, 0).role is Role.ASSISTANCE} == weeks
    assert fields.set_note(program, here, note="", span=span) is program
    assert fields.set_role(program, here, role=Role.CORE, span=span) is program


@SPANS
def test_a_pin_comes_off_as_far_as_the_span(span: Span, weeks: set[int]) -> None:
    program = plan()
    here = slot_id(program, 1, 0)
    held = fields.set_field(program, here, Field.SETS, value=6, span=Span.WHOLE_PROGRAM)
    after = fields.unpin(held, here, Field.SETS, span=span)
    assert {w for w in range(4) if not slot_at(after, w, 0).pinned} == weeks
    assert all(slot_at(after, w, 0).sets == 6 for w in range(4)), "the value stays"
    assert fields.unpin(program, here, Field.SETS, span=span) is program


def test_a_load_goes_with_its_pin() -> None:
    program = plan()
    here = slot_id(program, 0, 0)
    heavy = fields.set_field(program, here, Field.LOAD, value=100)
    assert fields.unpin(heavy, here, Field.LOAD) == program


@SPANS
def test_session_and_day_notes_reach_as_far_as_the_span(span: Span, weeks: set[int]) -> None:
    program = plan()
    here = session_id(program, 1, 0)
    noted = fields.set_session_note(program, here, note="with Jorunn ", span=span)
    assert {w for w in range(4) if session_at(noted, w, 0).note == "with Jorunn"} == weeks
    assert fields.set_session_note(noted, here, note="with Jorunn", span=span) is noted
    day = fields.set_day_note(program, 1, day=2, note="team evening", span=span)
    assert {w for w in range(4) if day.weeks[w].days[2].note == "team evening"} == weeks
    assert fields.set_day_note(day, 1, day=2, note="team evening", span=span) is day


def test_notes_need_a_day_and_a_week_that_are_there() -> None:
    with pytest.raises(EditError, match="no week 5"):
        fields.set_day_note(plan(), 4, day=0, note="x")
    with pytest.raises(EditError, match="no day number 7"):
        fields.set_day_note(plan(), 0, day=7, note="x")


def test_a_finding_is_accepted_with_a_reason_and_taken_back() -> None:
    program = plan()
    once = fields.accept(program, "volume/w1//quads", reason="  asked  for it ")
    assert once.accepted == (Acceptance("volume/w1//quads", "asked for it"),)
    twice = fields.accept(once, "volume/w1//quads", reason="still so")
    assert twice.accepted == (Acceptance("volume/w1//quads", "still so"),)
    assert fields.take_back(twice, "volume/w1//quads") == program
    assert fields.take_back(program, "volume/w1//quads") is program


@pytest.mark.parametrize("reason", ["", "  \n "])
def test_a_finding_is_not_accepted_without_a_reason(reason: str) -> None:
    with pytest.raises(EditError, match=r"accepted with a reason\. Say in a few words why"):
        fields.accept(plan(), "volume/w1//quads", reason=reason)


def test_a_change_of_a_strand_leaves_weeks_that_come_out_equal() -> None:
    program = plan()
    here = slot_id(program, 0, 0)
    after = fields.map_strand(
        program, here, change=lambda s: replace(s, sets=4), span=Span.WHOLE_PROGRAM
    )
    assert after.weeks[1] is program.weeks[1]
    assert [slot_at(after, w, 0).sets for w in range(4)] == [4] * 4


@pytest.mark.parametrize(
    "act",
    [
        lambda p: fields.set_field(p, GONE_SLOT, Field.SETS, value=3),
        lambda p: fields.add_sets(p, GONE_SLOT, by=1),
        lambda p: fields.set_note(p, GONE_SLOT, note="x"),
        lambda p: fields.set_prepared(p, GONE_SLOT, prepared=INSTEAD),
        lambda p: fields.set_ramp(p, GONE_SLOT, ramp=None),
        lambda p: fields.set_role(p, GONE_SLOT, role=Role.CORE),
        lambda p: fields.unpin(p, GONE_SLOT, Field.SETS),
        lambda p: fields.set_session_note(p, GONE_SESSION, note="x"),
    ],
)
def test_what_is_gone_cannot_be_edited(act) -> None:
    with pytest.raises(EditError, match=r"no longer in the program\. Choose another"):
        act(plan())
