"""Editing in place: lines one after the other, and notes and titles where they stand."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.domain.edits.parts import find_slot
from app.domain.errors import CoachError
from app.domain.program import Reps, Span
from app.ui.grid import WeekGrid
from tests.ui.grid import scene

Key = Qt.Key


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    made = scene.grid(qtbot)
    made.bench.choose_span(Span.THIS_WEEK)
    return made


def type_in(grid: WeekGrid, qtbot, text: str) -> None:
    field = grid._editor.field
    field.selectAll()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Key.Key_Return)


def test_a_figure_typed_on_a_card_begins_its_line_anew(grid, qtbot):
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.go_to(slot)
    qtbot.keyClick(grid, Key.Key_5)
    qtbot.keyClicks(grid._editor.field, " x 5")
    qtbot.keyClick(grid._editor.field, Key.Key_Return)
    after = find_slot(grid.bench.desk.program, slot)
    assert (after.sets, after.reps) == (5, Reps(5, 5))


def test_a_figure_on_no_card_opens_nothing(grid, qtbot):
    grid.go_to_day(1)
    qtbot.keyClick(grid, Key.Key_5)
    assert grid._editor is None


def test_tab_goes_through_the_cards_of_the_week(grid, qtbot):
    ids = [slot.id for slot in grid.bench.open_week.slots()]
    grid.edit_card(ids[0])
    for slot in ids[1:]:
        qtbot.keyClick(grid._editor.field, Key.Key_Tab)
        assert grid.cursor_slot == slot
        assert grid.bench.selection == (slot,)
    qtbot.keyClick(grid._editor.field, Key.Key_Tab)
    assert grid._editor is None
    assert grid.hasFocus()
    assert len(grid.bench.desk.history.steps) == 0


def test_a_field_leaves_the_name_of_its_exercise_in_sight(grid):
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.edit_card(slot)
    name_ends = scene.card(grid, 0, 0).top() + 4 + grid.pens.height("medium")
    assert grid._editor.geometry().top() >= name_ends - 3
    grid._editor.reject()


def test_notes_are_written_on_a_session_a_day_and_the_week(grid, qtbot):
    grid.go_to(scene.slot_id(grid.bench, 3, 1))
    grid.edit_session_note()
    assert grid._editor.field.placeholderText() == "Note on the session, for the client"
    type_in(grid, qtbot, "belt on")
    grid.edit_day_note()
    assert grid._editor.field.placeholderText() == "Note on Thursday, for the client"
    type_in(grid, qtbot, "hall 2")
    grid.edit_week_note()
    type_in(grid, qtbot, "rope exam")
    week = grid.bench.open_week
    thursday = week.days[3]
    assert (thursday.sessions[0].note, thursday.note, week.note) == (
        "belt on",
        "hall 2",
        "rope exam",
    )


def test_a_note_that_is_left_as_it_was_leaves_no_step(grid, qtbot):
    grid.go_to_day(0)
    grid.edit_day_note()
    qtbot.keyClick(grid._editor.field, Key.Key_Return)
    assert grid.bench.desk.history.steps == ()


@pytest.mark.parametrize(
    "command", ["edit_title", "edit_session_note", "remove_session", "pick_up_session"]
)
def test_commands_on_a_session_say_so_where_there_is_none(grid, qtbot, command):
    grid.go_to_day(1)
    with qtbot.waitSignal(grid.bench.refused) as blocker:
        getattr(grid, command)()
    assert blocker.args == ["There is no session on Tuesday. Add one, or place an exercise there."]
    assert grid._editor is None


def test_a_session_is_removed_whole(grid):
    grid.go_to_day(3)
    grid.remove_session()
    assert grid.bench.open_week.days[3].sessions == ()


def test_a_line_that_the_file_refuses_stays_as_typed_with_the_reason(grid, qtbot, monkeypatch):
    def refuse(*_: object, **__: object) -> None:
        raise CoachError("The disk is full.", mend="Make room.")

    monkeypatch.setattr(grid.bench.desk, "keep", refuse)
    grid.edit_card(scene.slot_id(grid.bench, 0, 0))
    type_in(grid, qtbot, "5 x 5")
    editor = grid._editor
    assert (editor.field.text(), editor.wrong.text()) == ("5 x 5", "The disk is full.")
    editor.reject()
