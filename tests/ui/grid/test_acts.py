"""Edits without a drag: each one step, named for the undo menu, as far as the span reaches."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication

from app.domain.edits.parts import find_slot
from app.domain.exercise import ExerciseKey
from app.domain.program import Field, Reps, SlotId, Span
from app.ui.grid.acts import Acts
from tests.ui.grid import scene


class Standing:
    """Where the keyboard stands."""

    cursor_day = 0
    cursor_slot: SlotId | None = None


@pytest.fixture
def on(qapp):
    made = scene.bench()
    made.choose_span(Span.THIS_WEEK)
    return made


@pytest.fixture
def acts(on) -> Acts:
    return Acts(on, Standing())


def labels(on) -> list[str]:
    return [step.label for step in on.desk.history.steps]


def choose(on, *where: tuple[int, int]) -> None:
    on.select(tuple(scene.slot_id(on, *at) for at in where))


def test_without_a_selection_they_act_on_the_card_in_focus_or_not_at_all(on):
    standing = Standing()
    acts = Acts(on, standing)
    assert not acts.remove()
    assert not acts.pair()
    standing.cursor_slot = scene.slot_id(on, 0, 1)
    assert acts.remove()
    assert labels(on) == ["Remove Romanian deadlift"]


def test_removing_several_is_one_step(on, acts):
    choose(on, (0, 0), (3, 0))
    assert acts.remove()
    assert labels(on) == ["Remove 2 exercises"]
    assert "back_squat" not in scene.names(on, 0)
    on.undo()
    assert scene.names(on, 0)[0] == "back_squat"


def test_the_selection_is_taken_in_the_order_of_the_week(on, acts):
    choose(on, (3, 0), (0, 1), (0, 0))
    assert acts.slots == tuple(scene.slot_id(on, *at) for at in ((0, 0), (0, 1), (3, 0)))


def test_copy_and_paste_puts_copies_behind_the_card_in_focus(on):
    standing = Standing()
    acts = Acts(on, standing)
    choose(on, (0, 0), (0, 1))
    assert acts.copy()
    standing.cursor_slot = scene.slot_id(on, 3, 0)
    assert acts.paste()
    assert scene.names(on, 3)[:3] == ["leg_press", "back_squat", "romanian_deadlift"]
    assert labels(on) == ["Paste 2 exercises on Thursday"]
    assert on.selection == (scene.slot_id(on, 3, 1), scene.slot_id(on, 3, 2))


def test_cut_and_paste_carries_over_to_another_week(on):
    standing = Standing()
    acts = Acts(on, standing)
    choose(on, (0, 0))
    assert acts.cut()
    on.show_week(1)
    standing.cursor_day = 4
    assert acts.paste()
    assert scene.names(on, 4, week=1) == ["back_squat"]
    assert labels(on) == ["Cut Back squat", "Paste Back squat on Friday"]


def test_pasting_nothing_of_ours_says_so(on, acts):
    QApplication.clipboard().setText("back squat")
    said: list[str] = []
    on.refused.connect(said.append)
    assert not acts.paste()
    assert "no exercise on the clipboard" in said[0]


def test_placing_puts_the_exercise_behind_the_card_in_focus_or_at_the_end(on):
    standing = Standing()
    acts = Acts(on, standing)
    assert acts.place(ExerciseKey("curl"))
    assert scene.names(on, 0)[-1] == "curl"
    standing.cursor_slot = scene.slot_id(on, 3, 0)
    assert acts.place(ExerciseKey("plank"))
    assert scene.names(on, 3)[:2] == ["leg_press", "plank"]
    assert on.selection == (scene.slot_id(on, 3, 1),)
    assert labels(on) == ["Place Curl on Monday", "Place Plank on Thursday"]


def test_placing_what_the_library_does_not_hold_is_refused(on, acts):
    said: list[str] = []
    on.refused.connect(said.append)
    assert not acts.place(ExerciseKey("nothing"))
    assert "no exercise 'nothing'" in said[0]


def test_duplicating_puts_the_copy_right_behind(on, acts):
    choose(on, (0, 0))
    assert acts.duplicate()
    assert scene.names(on, 0)[:2] == ["back_squat", "back_squat"]
    assert on.selection == (scene.slot_id(on, 0, 1),)


def test_pairing_neighbours_and_dissolving_them_again(on, acts):
    choose(on, (0, 1), (0, 2))
    assert acts.pair_or_unpair()
    assert labels(on) == ["Pair Romanian deadlift and Leg curl"]
    assert acts.pair_or_unpair()
    assert labels(on)[-1] == "Unpair Romanian deadlift"


def test_pairing_strangers_is_refused_with_a_way_out(on, acts):
    said: list[str] = []
    on.refused.connect(said.append)
    choose(on, (0, 0), (3, 0))
    assert not acts.pair()
    assert len(said) == 1
    assert said[0].startswith("Only neighbours in one session can be paired. ")
    assert said[0].endswith("Move them next to each other, select both, then pair.")


def test_moving_to_the_next_day_keeps_the_selection(on, acts):
    choose(on, (0, 0))
    assert acts.move_to_day(1)
    assert scene.names(on, 1) == ["back_squat"]
    assert on.selection == (scene.slot_id(on, 1, 0),)
    assert acts.move_to_day(-1)
    assert scene.names(on, 0)[-1] == "back_squat"
    assert not acts.move_to_day(-1)


def test_moving_within_the_session_goes_up_and_down_and_stops_at_the_ends(on, acts):
    choose(on, (0, 0))
    assert not acts.move_within(-1)
    assert acts.move_within(1)
    assert scene.names(on, 0) == ["romanian_deadlift", "back_squat", "leg_curl"]
    assert acts.move_within(1)
    assert not acts.move_within(1)
    assert acts.move_within(-1)
    assert scene.names(on, 0) == ["romanian_deadlift", "back_squat", "leg_curl"]


def test_two_cards_move_together(on, acts):
    choose(on, (0, 0), (0, 1))
    assert acts.move_within(1)
    assert scene.names(on, 0) == ["leg_curl", "back_squat", "romanian_deadlift"]


def test_sets_are_added_and_taken_off_by_name(on, acts):
    choose(on, (0, 0))
    assert acts.add_sets(1)
    assert acts.add_sets(-1)
    assert labels(on) == ["Add 1 set to Back squat", "Take 1 off Back squat"]


def test_a_line_sets_and_pins_only_what_differs(on, acts):
    slot = scene.slot_id(on, 0, 0)
    assert acts.write_line(slot, "4 x 8-10, RIR 2, rest 150 s") is None
    changed = find_slot(on.desk.program, slot)
    assert changed.reps == Reps(8, 10)
    assert changed.pinned == {Field.REPS}
    assert labels(on) == ["Set reps of Back squat"]


def test_a_line_reaches_as_far_as_the_span(on, acts):
    on.choose_span(Span.FROM_HERE)
    acts.write_line(scene.slot_id(on, 0, 0), "5 x 10")
    sets = [week.days[0].sessions[0].slots[0].sets for week in on.desk.program.weeks]
    assert sets == [5, 5, 5]


def test_a_line_that_changes_nothing_leaves_no_step(on, acts):
    assert acts.write_line(scene.slot_id(on, 0, 0), "4 x 10") is None
    assert labels(on) == []


def test_nonsense_gives_the_reason_and_changes_nothing(on, acts):
    before = on.desk.program
    error = acts.write_line(scene.slot_id(on, 0, 0), "four times")
    assert error is not None
    assert "4 x 8-10" in error.mend
    assert on.desk.program is before


def test_a_load_is_pinned_and_let_follow_the_tests_again(on, acts):
    slot = scene.slot_id(on, 0, 0)
    acts.write_line(slot, "4 x 10, 80 kg")
    assert find_slot(on.desk.program, slot).load_kg == 80
    acts.write_line(slot, "4 x 10, load from tests")
    assert find_slot(on.desk.program, slot).load_kg is None
    assert Field.LOAD not in find_slot(on.desk.program, slot).pinned
    assert labels(on) == ["Set load of Back squat"] * 2


def test_a_note_is_kept(on, acts):
    slot = scene.slot_id(on, 0, 0)
    assert acts.write_note(slot, "belt on")
    assert find_slot(on.desk.program, slot).note == "belt on"


def test_what_was_set_by_hand_is_left_to_the_tests_again(on, acts):
    choose(on, (0, 0))
    slot = scene.slot_id(on, 0, 0)
    acts.write_line(slot, "5 x 3, rest 120 s, 70 kg")
    pinned = find_slot(on.desk.program, slot)
    assert pinned.pinned == {Field.SETS, Field.REPS, Field.REST, Field.LOAD}
    assert acts.unpin()
    after = find_slot(on.desk.program, slot)
    assert after.pinned == frozenset()
    assert after.load_kg is None
    assert (after.sets, after.reps) == (pinned.sets, pinned.reps)
    assert labels(on)[-1] == "Unpin Back squat"
