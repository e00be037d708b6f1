"""The grid as a coach meets it: drags, their twins by keys and clicks, and what goes wrong."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from app.domain.exercise import ExerciseKey
from app.domain.program import SlotId, Span
from app.ui.bench import Bench
from app.ui.carry import Carried, Via
from app.ui.grid import WeekGrid
from tests.ui.grid import scene
from tests.ui.grid.gestures import CTRL, Drag, drag_to

Key = Qt.Key


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    made = scene.grid(qtbot)
    made.bench.choose_span(Span.THIS_WEEK)
    return made


def library(key: str) -> Carried:
    return Carried(exercise=ExerciseKey(key), source="library")


def slots(bench: Bench, *ids: SlotId) -> Carried:
    return Carried(slots=ids, source=bench.source)


def labels(bench: Bench) -> list[str]:
    return [step.label for step in bench.desk.history.steps]


# -- drags and their twins ---------------------------------------------------------------------


def test_an_exercise_from_the_library_lands_where_the_mark_was(grid):
    assert drag_to(grid, library("leg_extension"), scene.between(grid, 0, 1))
    assert scene.names(grid.bench, 0) == [
        "back_squat",
        "leg_extension",
        "romanian_deadlift",
        "leg_curl",
    ]
    assert labels(grid.bench) == ["Place Leg extension on Monday"]


def test_dropping_on_a_card_substitutes(grid):
    assert drag_to(grid, library("step_up"), scene.card(grid, 3, 1).center())
    assert scene.names(grid.bench, 3) == ["leg_press", "step_up", "calf_raise"]
    assert labels(grid.bench) == ["Substitute Step up for Split squat"]


def test_dropping_on_empty_ground_appends(grid):
    assert drag_to(grid, library("curl"), scene.ground(grid, 5))
    assert scene.names(grid.bench, 5)[-1] == "curl"


def test_dropping_on_a_day_without_a_session_begins_one(grid):
    assert drag_to(grid, library("curl"), scene.ground(grid, 4))
    assert scene.names(grid.bench, 4) == ["curl"]


def test_a_card_moves_between_days_and_keeps_its_id(grid):
    slot = scene.slot_id(grid.bench, 0, 0)
    assert drag_to(grid, slots(grid.bench, slot), scene.between(grid, 3, 1))
    assert scene.names(grid.bench, 0) == ["romanian_deadlift", "leg_curl"]
    assert scene.slot_id(grid.bench, 3, 1) == slot


def test_ctrl_copies(grid):
    slot = scene.slot_id(grid.bench, 0, 0)
    assert drag_to(grid, slots(grid.bench, slot), scene.between(grid, 3, 1), CTRL)
    assert scene.names(grid.bench, 0)[0] == scene.names(grid.bench, 3)[1] == "back_squat"
    assert labels(grid.bench) == ["Copy Back squat to Thursday"]


def test_a_card_moves_within_its_session(grid):
    slot = scene.slot_id(grid.bench, 0, 0)
    assert drag_to(grid, slots(grid.bench, slot), scene.ground(grid, 0))
    assert scene.names(grid.bench, 0) == ["romanian_deadlift", "leg_curl", "back_squat"]


def test_what_was_dropped_stays_selected(grid):
    drag_to(grid, library("curl"), scene.ground(grid, 4))
    assert grid.bench.selection == (scene.slot_id(grid.bench, 4, 0),)
    assert grid.cursor_slot == scene.slot_id(grid.bench, 4, 0)


def test_leaving_the_grid_shows_what_is_kept_again(grid):
    before = grid.bench.desk.program
    drag = Drag(grid, library("curl"))
    assert drag.enter(scene.ground(grid, 3))
    assert drag.move(scene.ground(grid, 3))
    assert grid.bench.preview is not None
    drag.leave()
    assert grid.bench.preview is None
    assert not grid.carrier.is_carrying
    assert grid.bench.desk.program is before


def test_cards_of_another_window_are_refused_and_the_foot_says_why(grid):
    before = grid.bench.desk.program
    strange = Carried(slots=(scene.slot_id(grid.bench, 0, 0),), source="another window")
    drag = Drag(grid, strange)
    assert drag.enter(scene.ground(grid, 3)), "the sentence can only be shown over the grid"
    assert not drag.move(scene.ground(grid, 3))
    hand = grid.carrier.hand
    assert hand is not None
    assert "another window" in hand.sentence()
    assert not drag.drop(scene.ground(grid, 3))
    assert grid.bench.desk.program is before


def test_what_is_not_ours_is_not_even_looked_at(grid):
    mime = QMimeData()
    mime.setText("back squat")
    drag = Drag(grid, Carried(), mime)
    assert not drag.enter(scene.ground(grid, 3))
    assert not grid.carrier.is_carrying


def test_a_drag_never_offers_to_link(grid):
    drag = Drag(grid, library("curl"))
    drag.enter(scene.ground(grid, 3))
    drag.move(scene.ground(grid, 3))
    offered = [drag.action]
    drag.move(scene.ground(grid, 3), CTRL)
    offered.append(drag.action)
    assert offered == [Qt.DropAction.MoveAction, Qt.DropAction.CopyAction]


def test_dropping_does_exactly_what_was_shown(grid):
    drag = Drag(grid, library("leg_extension"))
    point = scene.between(grid, 3, 2)
    drag.enter(point)
    drag.move(point)
    shown = grid.bench.preview.after
    drag.drop(point)
    assert grid.bench.desk.program == shown
    assert grid.bench.preview is None
    assert not grid.carrier.is_carrying


def twin(grid: WeekGrid, qtbot, slot: SlotId, *keys: Qt.Key, ctrl: bool = False) -> None:
    """Pick the card up by keys, go there, put it down."""
    grid.setFocus()
    grid.go_to(slot)
    grid.bench.select((slot,))
    qtbot.keyClick(grid, Key.Key_Space)
    for key in keys:
        qtbot.keyClick(grid, key)
    held = Qt.KeyboardModifier.ControlModifier if ctrl else Qt.KeyboardModifier.NoModifier
    if ctrl:
        qtbot.keyPress(grid, Key.Key_Control)
    qtbot.keyClick(grid, Key.Key_Return, held)


@pytest.mark.parametrize(
    ("point", "keys", "ctrl"),
    [
        (lambda g: scene.between(g, 3, 0), (Key.Key_Right,) * 3, False),
        (
            lambda g: scene.between(g, 3, 1),
            (*(Key.Key_Right,) * 3, Key.Key_Home, Key.Key_Down, Key.Key_Down),
            False,
        ),
        (lambda g: scene.ground(g, 3), (*(Key.Key_Right,) * 3, Key.Key_End), False),
        (lambda g: scene.ground(g, 3), (*(Key.Key_Right,) * 3, Key.Key_End), True),
        (lambda g: scene.ground(g, 0), (Key.Key_End,), False),
        (lambda g: scene.ground(g, 4), (Key.Key_Right,) * 4, False),
    ],
    ids=["to a day, first", "to a day, second", "to a day, last", "copy", "within", "free day"],
)
def test_keys_do_what_the_drag_does(qtbot, point, keys, ctrl):
    grids = [scene.grid(qtbot) for _ in range(2)]
    slot = scene.slot_id(grids[0].bench, 0, 0)
    held = CTRL if ctrl else Qt.KeyboardModifier.NoModifier
    drag_to(grids[0], slots(grids[0].bench, slot), point(grids[0]), held)
    twin(grids[1], qtbot, slot, *keys, ctrl=ctrl)
    dragged, keyed = (g.bench.desk for g in grids)
    assert dragged.program == keyed.program
    assert [s.label for s in dragged.history.steps] == [s.label for s in keyed.history.steps]
    assert len(dragged.history.steps) == 1


def test_a_library_exercise_can_be_put_in_a_cards_place_by_keys(qtbot):
    grids = [scene.grid(qtbot) for _ in range(2)]
    drag_to(grids[0], library("step_up"), scene.card(grids[0], 3, 1).center())
    grids[1].go_to(scene.slot_id(grids[1].bench, 3, 1))
    grids[1].pick_up_exercise(ExerciseKey("step_up"))
    for key in (Key.Key_Home, Key.Key_Down, Key.Key_Down, Key.Key_Down, Key.Key_Return):
        qtbot.keyClick(grids[1], key)
    assert grids[0].bench.desk.program == grids[1].bench.desk.program


def test_two_clicks_do_what_a_drag_does(qtbot):
    grids = [scene.grid(qtbot) for _ in range(2)]
    slot = scene.slot_id(grids[0].bench, 0, 0)
    drag_to(grids[0], slots(grids[0].bench, slot), scene.between(grids[0], 3, 1))
    clicked = grids[1]
    at = scene.card(clicked, 0, 0).center().toPoint()
    qtbot.mouseClick(clicked, Qt.MouseButton.LeftButton, pos=at)
    qtbot.keyClick(clicked, Key.Key_C)
    assert clicked.carrier.hand.via is Via.CLICKS
    there = scene.between(clicked, 3, 1).toPoint()
    qtbot.mouseMove(clicked, there)
    qtbot.mouseClick(clicked, Qt.MouseButton.LeftButton, pos=there)
    assert clicked.bench.desk.program == grids[0].bench.desk.program


def test_escape_puts_back_what_keys_carry(grid, qtbot):
    before = grid.bench.desk.program
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.go_to(slot)
    qtbot.keyClick(grid, Key.Key_Space)
    qtbot.keyClick(grid, Key.Key_Right)
    assert grid.carrier.is_carrying
    qtbot.keyClick(grid, Key.Key_Escape)
    assert not grid.carrier.is_carrying
    assert grid.bench.preview is None
    assert grid.bench.desk.program is before


def test_an_edit_reaches_as_far_as_the_span(grid):
    grid.bench.choose_span(Span.FROM_HERE)
    drag_to(grid, library("curl"), scene.ground(grid, 4))
    assert [scene.names(grid.bench, 4, week) for week in range(3)] == [["curl"]] * 3


def test_carrying_goes_on_in_another_week(grid, qtbot):
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.go_to(slot)
    qtbot.keyClick(grid, Key.Key_Space)
    qtbot.keyClick(grid, Key.Key_PageDown)
    assert grid.bench.week == 1
    assert grid.carrier.is_carrying
    qtbot.keyClick(grid, Key.Key_Return)
    assert "back_squat" not in scene.names(grid.bench, 0, 0)
    assert scene.names(grid.bench, 0, 1).count("back_squat") == 2


# -- the rest of the grid ----------------------------------------------------------------------


def test_undo_shows_the_week_as_it_was(grid):
    before = [card.name for card in grid.face.days[0].cards]
    drag_to(grid, library("curl"), scene.ground(grid, 0))
    assert len(grid.face.days[0].cards) == len(before) + 1
    grid.bench.undo()
    assert [card.name for card in grid.face.days[0].cards] == before


def test_the_editor_keeps_a_line_and_one_undo_takes_it_back(grid, qtbot):
    slot = scene.slot_id(grid.bench, 0, 0)
    grid.edit_card(slot)
    field = grid.findChild(type(grid._editor)).field
    assert field.text() == "4 x 10, RIR 2, rest 150 s"
    field.setText("5 x 8-10, RIR 1, rest 180 s")
    qtbot.keyClick(field, Key.Key_Return)
    assert grid.face.days[0].cards[0].scheme == "5 × 8–10"
    assert labels(grid.bench) == ["Set prescription of Back squat"]
    grid.bench.undo()
    assert grid.face.days[0].cards[0].scheme == "4 × 10"


def test_nonsense_in_the_editor_stays_as_typed_and_changes_nothing(grid, qtbot):
    grid.edit_card(scene.slot_id(grid.bench, 0, 0))
    editor = grid._editor
    editor.field.setText("4 y 8")
    qtbot.keyClick(editor.field, Key.Key_Return)
    assert editor.field.text() == "4 y 8"
    assert editor.wrong.isVisible()
    assert "4 x 8-10" in editor.mend.text(), "it says what is accepted"
    assert labels(grid.bench) == []
    qtbot.keyClick(editor.field, Key.Key_Escape)
    assert grid._editor is None


def test_a_double_click_opens_the_line_and_on_a_head_the_title(grid, qtbot):
    left = Qt.MouseButton.LeftButton
    qtbot.mouseDClick(grid, left, pos=scene.card(grid, 0, 1).center().toPoint())
    assert grid._editor.field.accessibleName() == "Prescription of Romanian deadlift"
    grid._editor.reject()
    qtbot.mouseDClick(grid, left, pos=grid.layout_now.days[0].head.center().toPoint())
    field = grid._editor.field
    field.setText("Lower body, first")
    qtbot.keyClick(field, Key.Key_Return)
    assert grid.face.days[0].sessions[0].title == "Lower body, first"


def test_insert_asks_for_an_exercise_for_the_day_in_focus(grid, qtbot):
    grid.go_to_day(4)
    with qtbot.waitSignal(grid.insert_wanted) as asked:
        qtbot.keyClick(grid, Key.Key_Insert)
    assert asked.args == [4]


def test_a_menu_is_asked_for_with_what_is_selected(grid, qtbot):
    at = scene.card(grid, 0, 1).center().toPoint()
    qtbot.mouseClick(grid, Qt.MouseButton.RightButton, pos=at)
    event = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, at, grid.mapToGlobal(at))
    with qtbot.waitSignal(grid.context_wanted) as asked:
        QApplication.sendEvent(grid, event)
    assert asked.args == [(scene.slot_id(grid.bench, 0, 1),), grid.mapToGlobal(at)]


def test_a_tooltip_shows_names_as_text_and_never_as_markup(grid):
    grid.session_acts.write_day_note(0, "<img src=x> & rope")
    point = QPoint(20, 10)
    event = QHelpEvent(QHelpEvent.Type.ToolTip, point, grid.mapToGlobal(point))
    QApplication.sendEvent(grid, event)
    assert "&lt;img src=x&gt; &amp; rope" in QToolTip.text()
    QToolTip.hideText()


def test_a_window_without_a_program_shows_nothing_and_takes_nothing(grid, qtbot):
    grid.bench.desk.close()
    assert grid.face.days == ()
    qtbot.keyClick(grid, Key.Key_Space)
    assert not Drag(grid, library("curl")).enter(QPointF(100, 100))
    assert not grid.grab().isNull()


def test_keys_of_the_grid_come_before_the_windows_shortcuts(grid):
    from PySide6.QtGui import QKeyEvent

    none = Qt.KeyboardModifier.NoModifier
    event = QKeyEvent(QKeyEvent.Type.ShortcutOverride, Key.Key_Delete, none)
    event.ignore()
    QApplication.sendEvent(grid, event)
    assert event.isAccepted()


def test_a_note_is_written_in_place_on_a_card_or_a_day(grid, qtbot):
    grid.go_to(scene.slot_id(grid.bench, 0, 0))
    for text in ("belt on", "hall closes at 20:00"):
        qtbot.keyClick(grid, Key.Key_N)
        field = grid._editor.field
        field.setText(text)
        qtbot.keyClick(field, Key.Key_Return)
        grid.go_to_day(0)
    assert grid.face.days[0].cards[0].note == "belt on"
    assert grid.face.days[0].note == "hall closes at 20:00"


def test_what_is_in_hand_is_put_back_when_another_program_opens(grid):
    bench = grid.bench
    grid.go_to(next(bench.open_week.slots()).id)
    grid.pick_up_by_keys()
    assert grid.carrier.is_carrying
    bench.desk.open(bench.desk.client.id)  # without a program
    assert not grid.carrier.is_carrying
    assert bench.preview is None


def test_a_session_is_picked_up_whole_and_put_down_on_another_day(grid, qtbot):
    grid.session_acts.rename(grid.bench.open_week.days[5].sessions[0].id, "Upper body")
    grid.go_to_day(5)
    grid.pick_up_session()
    assert grid.carrier.hand.carried.whole
    for _ in range(3):
        qtbot.keyClick(grid, Key.Key_Left)
    qtbot.keyClick(grid, Key.Key_Left)
    qtbot.keyClick(grid, Key.Key_Return)
    assert scene.names(grid.bench, 1) == ["bench_press", "barbell_row"]
    assert grid.bench.open_week.days[1].sessions[0].title == "Upper body"
    assert grid.bench.open_week.days[5].sessions == ()


def test_a_menu_on_a_day_is_about_the_day_and_no_card_chosen_before(grid, qtbot):
    grid.bench.select((scene.slot_id(grid.bench, 0, 0),))
    point = scene.ground(grid, 1).toPoint()
    qtbot.mousePress(grid, Qt.MouseButton.RightButton, pos=point)
    assert grid.bench.selection == ()
    with qtbot.waitSignal(grid.context_wanted) as blocker:
        reason = QContextMenuEvent.Reason.Mouse
        QApplication.sendEvent(grid, QContextMenuEvent(reason, point, grid.mapToGlobal(point)))
    assert blocker.args[0] == ()
    assert grid.cursor_day == 1
