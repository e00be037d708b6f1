"""The season strip: weeks opened and chosen by mouse and keys, and previews."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.edits import weeks
from app.domain.exercise import ExerciseKey
from app.domain.findings import edit
from app.ui.bench import Bench
from app.ui.carry import Carried, to_mime
from app.ui.heat_paint import HeatFrame
from app.ui.season import SeasonStrip
from tests.ui.desks import without_program

LEFT, SHIFT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ShiftModifier
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def strip(qtbot: QtBot, bench: Bench) -> SeasonStrip:
    made = SeasonStrip(bench)
    qtbot.addWidget(made)
    made.resize(1000, made.height())
    made.show()
    qtbot.waitExposed(made)
    return made


def middle(strip: SeasonStrip, week: int) -> QPoint:
    return strip.frame().column(week).center().toPoint()


def test_a_click_opens_a_week(qtbot: QtBot, strip: SeasonStrip, bench: Bench) -> None:
    with qtbot.waitSignal(bench.week_shown, timeout=500) as told:
        qtbot.mouseClick(strip, LEFT, pos=middle(strip, 4))
    assert told.args == [4]
    assert strip.chosen == range(0)


def test_other_buttons_and_the_margin_open_nothing(qtbot: QtBot, strip, bench: Bench) -> None:
    qtbot.mouseClick(strip, Qt.MouseButton.RightButton, pos=middle(strip, 4))
    qtbot.mouseClick(strip, LEFT, pos=QPoint(3, 40))
    assert bench.week == 0


def test_dragging_across_chooses_a_run_in_either_direction(qtbot, strip, bench) -> None:
    for first, last in ((1, 3), (3, 1)):
        with qtbot.waitSignal(strip.weeks_chosen, timeout=500) as told:
            qtbot.mousePress(strip, LEFT, pos=middle(strip, first))
            qtbot.mouseMove(strip, middle(strip, last))
            qtbot.mouseRelease(strip, LEFT, pos=middle(strip, last))
        assert told.args == [range(1, 4)]
    assert bench.week == 0, "choosing opens nothing"
    assert strip.chosen == range(1, 4)


def test_shift_and_a_click_choose_from_the_open_week(qtbot: QtBot, strip, bench: Bench) -> None:
    bench.show_week(2)
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        qtbot.mouseClick(strip, LEFT, SHIFT, middle(strip, 0))
    assert strip.chosen == range(3)
    assert told.args == ["Weeks 1 to 3 chosen"]


@pytest.mark.parametrize(
    ("keys", "week"),
    [
        ([Qt.Key.Key_Right], 3),
        ([Qt.Key.Key_Left], 1),
        ([Qt.Key.Key_Home], 0),
        ([Qt.Key.Key_End], 5),
        ([Qt.Key.Key_End, Qt.Key.Key_Right], 5),
        ([Qt.Key.Key_Home, Qt.Key.Key_Left], 0),
    ],
)
def test_keys_open_weeks(qtbot: QtBot, strip, bench: Bench, keys, week: int) -> None:
    bench.show_week(2)
    for key in keys:
        qtbot.keyClick(strip, key)
    assert bench.week == week


@pytest.mark.parametrize(
    ("steps", "chosen"),
    [
        ("RR", range(2, 5)),
        ("LL", range(3)),
        ("RRL", range(2, 4)),
        ("LLLLLRRR", range(2, 4)),
        ("RLL", range(1, 3)),
    ],
)
def test_shift_and_arrows_stretch_a_run_from_where_it_began(
    qtbot, strip, bench, steps, chosen
) -> None:
    bench.show_week(2)
    keys = {"R": Qt.Key.Key_Right, "L": Qt.Key.Key_Left}
    for step in steps:
        qtbot.keyClick(strip, keys[step], SHIFT)
    assert strip.chosen == chosen


def test_escape_and_a_plain_arrow_let_a_run_go(qtbot: QtBot, strip: SeasonStrip) -> None:
    qtbot.keyClick(strip, Qt.Key.Key_Right, SHIFT)
    qtbot.keyClick(strip, Qt.Key.Key_Escape)
    assert strip.chosen == range(0)
    qtbot.keyClick(strip, Qt.Key.Key_Right, SHIFT)
    qtbot.keyClick(strip, Qt.Key.Key_Right)
    assert strip.chosen == range(0)


def test_a_run_past_the_end_is_let_go_when_weeks_go(qtbot: QtBot, strip, bench: Bench) -> None:
    bench.show_week(4)
    qtbot.keyClick(strip, Qt.Key.Key_Right, SHIFT)
    bench.keep(edit("Remove", weeks.remove_weeks, indices=(5,)))
    assert strip.chosen == range(0)


def test_the_open_week_is_told_to_assistive_technology(strip: SeasonStrip, bench: Bench) -> None:
    bench.show_week(3)
    assert strip.accessibleName() == "Season"
    assert strip.accessibleDescription().startswith("Week 4; light week")


def test_a_tried_edit_shows_and_goes_again(strip: SeasonStrip, bench: Bench) -> None:
    before = strip.grab().toImage()
    bench.try_edit(edit("Clear", weeks.clear_weeks, indices=(2,)))
    assert strip.grab().toImage() != before
    bench.clear_preview()
    assert strip.grab().toImage() == before


def test_a_tried_edit_that_adds_a_week_shows_no_changed_columns(strip, bench: Bench) -> None:
    before = strip.grab().toImage()
    bench.try_edit(edit("Add", weeks.add_week, after=0))
    assert strip.grab().toImage() == before


def test_without_a_program_it_is_quiet(qtbot: QtBot, strip: SeasonStrip, bench: Bench) -> None:
    without_program(bench)
    strip.grab()
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Home, Qt.Key.Key_End):
        qtbot.keyClick(strip, key)
    qtbot.mouseClick(strip, LEFT, pos=QPoint(500, 50))
    assert strip.accessibleDescription() == ""


# ---------------------------------------------------------------------------- a drag passes over


def enter(strip: SeasonStrip, mime: QMimeData) -> bool:
    event = QDragEnterEvent(QPoint(9, 9), Qt.DropAction.MoveAction, mime, LEFT, NONE)
    QApplication.sendEvent(strip, event)
    return event.isAccepted()


def hover(strip: SeasonStrip, week: int, mime: QMimeData) -> bool:
    event = QDragMoveEvent(middle(strip, week), Qt.DropAction.MoveAction, mime, LEFT, NONE)
    QApplication.sendEvent(strip, event)
    return event.isAccepted()


@pytest.fixture
def mime() -> QMimeData:
    return to_mime(Carried(exercise=ExerciseKey("back_squat")))


def test_a_drag_that_rests_over_a_week_opens_it(qtbot: QtBot, strip, bench, mime) -> None:
    strip._open_later.setInterval(0)
    assert enter(strip, mime)
    with qtbot.waitSignal(bench.week_shown, timeout=1000) as told:
        assert not hover(strip, 3, mime), "nothing is put down here"
    assert told.args == [3]


def test_a_drag_that_leaves_in_time_opens_nothing(qtbot: QtBot, strip, bench, mime) -> None:
    enter(strip, mime)
    hover(strip, 3, mime)
    assert strip._open_later.isActive()
    QApplication.sendEvent(strip, QDragLeaveEvent())
    assert not strip._open_later.isActive()
    assert bench.week == 0


def test_a_drop_on_the_season_is_refused(strip: SeasonStrip, bench: Bench, mime) -> None:
    enter(strip, mime)
    hover(strip, 3, mime)
    drop = QDropEvent(QPointF(middle(strip, 3)), Qt.DropAction.MoveAction, mime, LEFT, NONE)
    QApplication.sendEvent(strip, drop)
    assert not drop.isAccepted()
    assert not strip._open_later.isActive()
    assert bench.desk.history.undoable is None


def test_what_is_not_ours_does_not_enter(strip: SeasonStrip) -> None:
    text = QMimeData()
    text.setText("squat")
    assert not enter(strip, text)


# ---------------------------------------------------------------------------- as a heat strip


def test_the_heat_strip_has_the_same_weeks_to_open(qtbot: QtBot, strip, bench: Bench) -> None:
    score = strip.grab().toImage()
    strip.show_heat(True)
    assert strip.grab().toImage() != score
    qtbot.mouseClick(strip, LEFT, pos=middle(strip, 4))
    assert bench.week == 4
    assert strip.accessibleDescription().startswith("Week 5: ")
    assert "gluteals" in strip.accessibleDescription()
    strip.show_heat(False)
    bench.show_week(0)
    assert strip.grab().toImage() == score


@pytest.mark.parametrize("compact", [False, True])
def test_the_heat_strip_takes_the_height_its_rows_need(strip: SeasonStrip, compact: bool) -> None:
    strip.set_compact(compact)
    before = strip.height()
    strip.show_heat(True)
    assert strip.frame().numbers.bottom() <= strip.height()
    strip.show_heat(False)
    assert strip.height() == before


def test_a_compact_heat_strip_leaves_out_what_no_week_trains(strip: SeasonStrip) -> None:
    strip.show_heat(True)
    assert "Chest" in [row.name for row in strip._heat_rows]
    strip.set_compact(True)
    assert "Chest" not in [row.name for row in strip._heat_rows]
    strip.set_compact(False)
    assert "Chest" in [row.name for row in strip._heat_rows]


def test_a_cell_is_told_when_it_is_pointed_at(strip: SeasonStrip, bench: Bench) -> None:
    strip.show_heat(True)
    frame = strip.frame()
    assert isinstance(frame, HeatFrame)
    told = strip._tip(1, frame.cell(0, 1).center())
    assert told.startswith("Week 2: gluteals ")
    assert "range" in told


def test_a_tried_edit_shows_in_the_heat_strip(strip: SeasonStrip, bench: Bench) -> None:
    strip.show_heat(True)
    before = strip.grab().toImage()
    bench.try_edit(edit("Clear", weeks.clear_weeks, indices=(2,)))
    assert strip.grab().toImage() != before
    bench.clear_preview()
    assert strip.grab().toImage() == before


def test_without_a_program_the_heat_strip_is_quiet(strip: SeasonStrip, bench: Bench) -> None:
    strip.show_heat(True)
    without_program(bench)
    strip.grab()
    assert strip.accessibleDescription() == ""
