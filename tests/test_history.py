"""The list of kept steps, against a plain list."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.results import CheckIn, Diary
from app.domain.work import Work
from app.history import DEPTH, History, Leg, Step
from tests import builders

WORKS = tuple(Work(builders.client(name=f"Client {n}")) for n in range(6))


def step(number: int, key: object = None) -> Step:
    """A step from one work to the next."""
    return Step(f"edit {number}", WORKS[number % 6], WORKS[(number + 1) % 6], key)


def test_an_empty_history_has_nothing_to_take_back() -> None:
    history = History()
    assert history.undoable is None
    assert history.redoable is None
    assert history.undone() == history
    assert history.redone() == history


def test_what_was_taken_back_can_be_done_again_until_something_new_is_done() -> None:
    history = History().pushed(step(0)).pushed(step(1)).undone()
    assert history.undoable == step(0)
    assert history.redoable == step(1)
    assert history.redone().undoable == step(1)
    forked = history.pushed(step(2))
    assert forked.redoable is None
    assert forked.steps == (step(0), step(2))


def test_steps_of_one_gesture_merge_from_its_first_before_to_its_last_after() -> None:
    history = History().pushed(step(0)).pushed(step(1, "spin")).pushed(step(2, "spin"))
    assert history.steps == (step(0), Step("edit 2", WORKS[1], WORKS[3], "spin"))
    assert history.done == 2


def test_a_merged_step_knows_the_diary_that_was_read_in_between() -> None:
    work, diary = WORKS[0], Diary()
    noted = Diary((CheckIn(date(2026, 10, 2)),))
    first = Step("one", work, replace(WORKS[1]), "key")
    second = Step("two", replace(WORKS[1], diary=diary), replace(WORKS[1], diary=noted), "key")
    (step_now,) = History().pushed(first).pushed(second).steps
    assert step_now.before == replace(work, diary=diary)
    assert step_now.after.diary is noted


def test_gestures_do_not_merge_across_another_step_nor_without_a_key() -> None:
    history = History().pushed(step(0, "a")).pushed(step(1, "b")).pushed(step(2, "a"))
    assert len(history.steps) == 3
    assert len(History().pushed(step(0)).pushed(step(1)).steps) == 2


def test_only_the_last_steps_are_kept() -> None:
    history = History()
    for number in range(DEPTH + 3):
        history = history.pushed(step(number))
    assert history.done == len(history.steps) == DEPTH
    assert history.steps[0] == step(3)
    assert history.undoable == step(DEPTH + 2)


ACTS = st.lists(
    st.one_of(
        st.tuples(st.just("push"), st.sampled_from([None, "a", "b"])),
        st.tuples(st.sampled_from(["undo", "redo"]), st.none()),
    ),
    max_size=40,
)


@given(ACTS)
def test_it_behaves_like_a_list_with_a_mark(acts: list[tuple[str, str | None]]) -> None:
    history, model, mark = History(), list[Step](), 0
    for number, (act, key) in enumerate(acts):
        if act == "push":
            new = step(number, key)
            history = history.pushed(new)
            del model[mark:]
            if model and key is not None and model[-1].key == key:
                model[-1] = Step(new.label, model[-1].before, new.after, key)
            else:
                model.append(new)
            mark = len(model)
        elif act == "undo":
            history, mark = history.undone(), max(0, mark - 1)
        else:
            history, mark = history.redone(), min(len(model), mark + 1)
        assert list(history.steps) == model
        assert history.done == mark
        assert history.undoable == (model[mark - 1] if mark else None)
        assert history.redoable == (model[mark] if mark < len(model) else None)


def chain(count: int) -> History:
    """A history of steps in a row, all done."""
    history = History()
    for number in range(count):
        history = history.pushed(Step(f"edit {number}", WORKS[number], WORKS[number + 1]))
    return history


def test_steps_in_a_row_are_gone_back_and_on_at_once() -> None:
    history = chain(4)
    assert history.way(1) == (Leg(WORKS[4], WORKS[1], 1, 3),)
    assert history.way(4) == ()
    back = history.undone().undone().undone()
    assert back.way(4) == (Leg(WORKS[1], WORKS[4], 4, 3),)


def test_a_step_on_another_program_is_a_leg_of_its_own() -> None:
    other = Work(builders.client(), builders.program("Mon: curl"))
    edited = Work(builders.client(), builders.program("Tue: curl"))
    history = chain(2).pushed(Step("on another", other, edited))
    assert history.way(0) == (Leg(edited, other, 2, 1), Leg(WORKS[2], WORKS[0], 0, 2))


@pytest.mark.parametrize("done", [-1, 3])
def test_there_is_no_way_past_either_end(done: int) -> None:
    with pytest.raises(IndexError):
        chain(2).way(done)
