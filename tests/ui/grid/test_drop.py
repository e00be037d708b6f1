"""Which edit letting go means."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits.parts import Spot
from app.domain.errors import EditError
from app.domain.exercise import ExerciseKey, UnknownExercise
from app.domain.program import Program, SlotId, Span, broken_laws
from app.ui.carry import Carried
from app.ui.grid import drop
from app.ui.grid.geometry import Target
from tests.builders import CATALOGUE, program

MINE = "this window"


def ground(on: Program, span: Span = Span.THIS_WEEK) -> drop.Ground:
    return drop.Ground(on, CATALOGUE, 0, span, MINE)


def keys(on: Program, day: int, week: int = 0) -> list[str]:
    sessions = on.weeks[week].days[day].sessions
    return [str(slot.exercise) for session in sessions for slot in session.slots]


def slot(on: Program, day: int, at: int) -> SlotId:
    return on.weeks[0].days[day].sessions[0].slots[at].id


def session(on: Program, day: int):
    return on.weeks[0].days[day].sessions[0].id


def plan() -> Program:
    return program("Mon: back_squat, leg_curl, curl | Thu: leg_press, calf_raise", times=2)


def test_an_exercise_is_placed_between_two_cards():
    before = plan()
    carried = Carried(exercise=ExerciseKey("leg_extension"))
    edit = drop.edit_for(carried, Target(0, session(before, 0), 1), ground(before))
    assert edit.label == "Place Leg extension on Monday"
    assert keys(edit(before), 0) == ["back_squat", "leg_extension", "leg_curl", "curl"]
    assert keys(edit(before), 0, week=1) == keys(before, 0, week=1)


def test_an_exercise_on_a_free_day_makes_a_session_there():
    before = plan()
    carried = Carried(exercise=ExerciseKey("leg_extension"))
    edit = drop.edit_for(carried, Target(2), ground(before, Span.WHOLE_PROGRAM))
    assert keys(edit(before), 2) == keys(edit(before), 2, week=1) == ["leg_extension"]


def test_an_exercise_on_a_card_substitutes():
    before = plan()
    carried = Carried(exercise=ExerciseKey("step_up"))
    onto = slot(before, 3, 0)
    edit = drop.edit_for(carried, Target(3, session(before, 3), onto=onto), ground(before))
    assert edit.label == "Substitute Step up for Leg press"
    assert keys(edit(before), 3) == ["step_up", "calf_raise"]


def test_a_slot_moves_to_another_day_and_copies_with_its_own_words():
    before = plan()
    carried = Carried(slots=(slot(before, 0, 0),), source=MINE)
    target = Target(3, session(before, 3), 1)
    moved = drop.edit_for(carried, target, ground(before))
    copied = drop.edit_for(carried, target, ground(before), copy=True)
    assert (moved.label, copied.label) == (
        "Move Back squat to Thursday",
        "Copy Back squat to Thursday",
    )
    assert keys(moved(before), 0) == ["leg_curl", "curl"]
    assert keys(moved(before), 3) == ["leg_press", "back_squat", "calf_raise"]
    assert keys(copied(before), 0) == keys(before, 0)
    assert keys(copied(before), 3) == ["leg_press", "back_squat", "calf_raise"]


def test_a_slot_moves_within_its_day():
    before = plan()
    carried = Carried(slots=(slot(before, 0, 0),), source=MINE)
    edit = drop.edit_for(carried, Target(0, session(before, 0)), ground(before))
    assert edit.label == "Move Back squat within Monday"
    assert keys(edit(before), 0) == ["leg_curl", "curl", "back_squat"]


def test_a_slot_on_a_card_of_another_session_takes_its_place():
    before = plan()
    carried = Carried(slots=(slot(before, 0, 0),), source=MINE)
    target = Target(3, session(before, 3), onto=slot(before, 3, 0))
    moved = drop.edit_for(carried, target, ground(before))
    assert moved.label == "Move Back squat into the place of Leg press"
    assert keys(moved(before), 3) == ["back_squat", "calf_raise"]
    assert keys(moved(before), 0) == ["leg_curl", "curl"]
    copied = drop.edit_for(carried, target, ground(before), copy=True)
    assert keys(copied(before), 3) == ["back_squat", "calf_raise"]
    assert keys(copied(before), 0) == keys(before, 0)


def test_a_whole_session_moves_as_one_to_a_free_day_and_keeps_its_title():
    before = plan()
    carried = Carried(slots=tuple(slot(before, 0, n) for n in range(3)), source=MINE)
    edit = drop.edit_for(carried, Target(2), ground(before))
    assert edit.label == "Move Mon 1 to Wednesday"
    after = edit(before)
    assert [s.title for s in after.weeks[0].days[2].sessions] == ["Mon 1"]
    assert after.weeks[0].days[0].sessions == ()
    assert keys(after, 2) == ["back_squat", "leg_curl", "curl"]


def test_a_lone_card_taken_by_its_sessions_head_moves_the_session():
    before = program("Mon: back_squat | Thu: leg_press, calf_raise")
    mine = (slot(before, 0, 0),)
    by_card = drop.edit_for(Carried(slots=mine, source=MINE), Target(2), ground(before))
    by_head = drop.edit_for(Carried(slots=mine, source=MINE, whole=True), Target(2), ground(before))
    assert by_card.label == "Move Back squat to Wednesday"
    assert by_head.label == "Move Mon 1 to Wednesday"
    assert session(by_head(before), 2) == session(before, 0)
    assert session(by_card(before), 2) != session(before, 0)


def test_a_move_out_of_another_week_says_which_week_it_comes_to():
    before = plan()
    other = drop.Ground(before, CATALOGUE, 1, Span.FROM_HERE, MINE)
    carried = Carried(slots=(slot(before, 0, 0),), source=MINE)
    edit = drop.edit_for(carried, Target(3), other)
    assert edit.label == "Move Back squat to Thursday of week 2"


def test_a_card_that_comes_to_one_week_takes_the_place_of_another_in_that_week_alone():
    before = program("Mon: back_squat | Thu: leg_press", times=3)
    onto = before.weeks[1].days[3].sessions[0].slots[0].id
    after = drop.put_in_place(before, slot_id=slot(before, 0, 0), onto=onto, span=Span.FROM_HERE)
    assert [keys(after, 3, week=index) for index in range(3)] == [
        ["leg_press"],
        ["back_squat"],
        ["leg_press"],
    ]


def test_a_whole_session_onto_another_one_joins_it():
    before = plan()
    carried = Carried(slots=tuple(slot(before, 0, n) for n in range(3)), source=MINE)
    edit = drop.edit_for(carried, Target(3, session(before, 3)), ground(before))
    assert edit.label == "Move 3 exercises to Thursday"
    assert keys(edit(before), 3)[-3:] == ["back_squat", "leg_curl", "curl"]


def test_slots_of_another_window_are_refused_with_a_way_out():
    before = plan()
    carried = Carried(slots=(slot(before, 0, 0),), source="another")
    with pytest.raises(EditError, match="another window") as refusal:
        drop.edit_for(carried, Target(3), ground(before))
    assert "paste" in refusal.value.mend


def test_an_exercise_of_another_window_is_welcome():
    carried = Carried(exercise=ExerciseKey("curl"), source="another")
    assert drop.edit_for(carried, Target(3), ground(plan())).label == "Place Curl on Thursday"


def test_an_unknown_exercise_and_an_empty_hand_are_refused():
    with pytest.raises(UnknownExercise):
        drop.edit_for(Carried(exercise=ExerciseKey("nothing")), Target(0), ground(plan()))
    with pytest.raises(EditError, match="Nothing"):
        drop.edit_for(Carried(source=MINE), Target(0), ground(plan()))


def test_equal_drops_are_equal_edits():
    before = plan()
    carried = Carried(slots=(slot(before, 0, 0),), source=MINE)
    one = drop.edit_for(carried, Target(3), ground(before))
    assert one == drop.edit_for(carried, Target(3), ground(before))
    assert one != drop.edit_for(carried, Target(3), ground(before), copy=True)


@st.composite
def several(draw):
    counts = draw(st.lists(st.integers(1, 5), min_size=2, max_size=2))
    text = " | ".join(
        f"{day}: " + ", ".join(f"curl {n + 1}x8" for n in range(count))
        for day, count in zip(("Mon", "Thu"), counts, strict=True)
    )
    on = program(text, times=2)
    ids = [s.id for s in on.weeks[0].slots()]
    chosen = draw(st.lists(st.sampled_from(ids), min_size=1, unique=True))
    ordered = tuple(i for i in ids if i in chosen)
    day = draw(st.sampled_from([0, 2, 3]))
    sessions = on.weeks[0].days[day].sessions
    position = (
        draw(st.one_of(st.none(), st.integers(0, len(sessions[0].slots)))) if sessions else None
    )
    spot = Spot(0, day, sessions[0].id if sessions else None, position)
    return on, ordered, spot


@given(several())
def test_moving_several_loses_none_doubles_none_and_keeps_their_order(case):
    before, chosen, to = case
    after = drop.move_all(before, slot_ids=chosen, to=to)
    assert sorted(s.id for s in after.weeks[0].slots()) == sorted(
        s.id for s in before.weeks[0].slots()
    )
    assert broken_laws(after) == ()
    there = [s.id for session in after.weeks[0].days[to.day].sessions for s in session.slots]
    assert [i for i in there if i in chosen] == list(chosen)
    at = there.index(chosen[0])
    assert there[at : at + len(chosen)] == list(chosen), "they land side by side"
    others = [s.id for s in before.weeks[0].slots() if s.id not in chosen]
    assert [s.id for s in after.weeks[0].slots() if s.id not in chosen] == others
    assert after.weeks[1] is before.weeks[1]


@given(several())
def test_copying_several_leaves_the_originals_and_adds_as_many(case):
    before, chosen, to = case
    after = drop.copy_all(before, slot_ids=chosen, to=to)
    old = [s.id for s in before.weeks[0].slots()]
    new = [s for s in after.weeks[0].slots() if s.id not in old]
    assert [s.id for s in after.weeks[0].slots() if s.id in old] == old
    assert [s.sets for s in new] == [
        s.sets for i in chosen for s in before.weeks[0].slots() if s.id == i
    ]
    assert broken_laws(after) == ()


@given(several())
def test_removing_several_takes_out_those_and_no_other(case):
    before, chosen, _ = case
    after = drop.remove_all(before, slot_ids=chosen)
    left = [s.id for s in before.weeks[0].slots() if s.id not in chosen]
    assert [s.id for s in after.weeks[0].slots()] == left
