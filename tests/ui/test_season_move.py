"""Moving weeks in the season: gaps, what letting go does, and the gesture itself."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.season import SeasonStrip
from app.ui.season_move import WeekMove, gap_at, step
from app.ui.season_paint import Frame
from tests.ui.desks import PROGRAM

LEFT, ALT = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.AltModifier


@pytest.fixture
def strip(qtbot: QtBot, bench: Bench) -> SeasonStrip:
    made = SeasonStrip(bench)
    qtbot.addWidget(made)
    made.resize(1000, made.height())
    made.show()
    qtbot.waitExposed(made)
    return made


def number(strip: SeasonStrip, week: int, aside: float = 0.0) -> QPoint:
    """A point on a week's number, `aside` columns away."""
    frame = strip.frame()
    middle = frame.column(week).center()
    middle.setX(middle.x() + aside * frame.width)
    middle.setY(frame.numbers.center().y())
    return middle.toPoint()


def order(bench: Bench) -> list[int]:
    """The weeks of the program by where they stood first."""
    ids = [week.id for week in PROGRAM.weeks]
    return [ids.index(week.id) for week in bench.desk.program.weeks]


def drag(qtbot: QtBot, strip: SeasonStrip, week: int, gap: int, *, drop: bool = True) -> None:
    """Drag a week's number to the gap before week `gap` (0 to 6)."""
    qtbot.mousePress(strip, LEFT, pos=number(strip, week))
    qtbot.mouseMove(strip, number(strip, 0, gap - 0.5))
    if drop:
        qtbot.mouseRelease(strip, LEFT, pos=number(strip, 0, gap - 0.5))


# ---------------------------------------------------------------------------- values


runs = st.integers(0, 5).flatmap(lambda a: st.integers(a + 1, 6).map(lambda b: range(a, b)))


@given(run=runs, gap=st.integers(0, 6))
def test_a_move_puts_the_run_into_the_gap_and_keeps_every_week(run: range, gap: int) -> None:
    move = WeekMove(run, gap)
    after = move.edit()(PROGRAM)
    ids = [week.id for week in PROGRAM.weeks]
    taken = [ids[k] for k in run]
    cut = gap if move.goes else run.start
    before = [week for week in ids[:cut] if week not in taken]
    behind = [week for week in ids[cut:] if week not in taken]
    assert [week.id for week in after.weeks] == [*before, *taken, *behind]
    assert (after is PROGRAM) is not move.goes
    assert after.blocks == PROGRAM.blocks


def test_it_says_what_letting_go_does() -> None:
    assert WeekMove(range(2, 3), 5).told.startswith("Week 3 would stand after week 5.")
    assert WeekMove(range(2, 5), 0).told.startswith("Weeks 3 to 5 would stand before week 1.")
    assert WeekMove(range(2, 3), 3).told == "Week 3 would stay."


def test_a_step_stops_at_the_ends() -> None:
    assert step(range(1), -1, 6) is None
    assert step(range(5, 6), 1, 6) is None
    assert step(range(1, 3), 1, 6) == WeekMove(range(1, 3), 4)
    assert step(range(1, 3), -1, 6) == WeekMove(range(1, 3), 0)


def test_the_nearest_gap_is_found(qapp) -> None:
    frame = Frame(QRectF(0, 0, 1000, 150), 6, program=PROGRAM, compact=False)
    assert gap_at(frame, -50) == 0
    assert gap_at(frame, frame.left + 2.4 * frame.width) == 2
    assert gap_at(frame, frame.left + 2.6 * frame.width) == 3
    assert gap_at(frame, 5000) == 6


# ---------------------------------------------------------------------------- the gesture


def test_the_open_weeks_number_drags_it_to_another_place(qtbot, strip, bench: Bench) -> None:
    bench.show_week(1)
    drag(qtbot, strip, 1, 4)
    assert order(bench) == [0, 2, 3, 1, 4, 5]
    assert bench.week == 3, "it stays open"
    assert bench.desk.history.undoable.label == "Move week 2"
    bench.undo()
    assert bench.desk.program == PROGRAM


def test_a_chosen_run_moves_as_one_and_stays_chosen(qtbot, strip, bench: Bench) -> None:
    strip.choose(range(3, 5))
    drag(qtbot, strip, 4, 0)
    assert order(bench) == [3, 4, 0, 1, 2, 5]
    assert strip.chosen == range(2)
    assert bench.week == 2, "the week that was open is still open"


def test_while_it_is_dragged_every_pane_shows_what_would_become(qtbot, strip, bench) -> None:
    still = strip.grab().toImage()
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        drag(qtbot, strip, 0, 5, drop=False)
    assert bench.preview is not None
    assert told.args[0].startswith("Week 1 would stand after week 5.")
    assert strip.grab().toImage() != still
    assert bench.desk.program == PROGRAM
    qtbot.mouseRelease(strip, LEFT, pos=number(strip, 4))
    assert bench.preview is None


def test_escape_leaves_everything_as_it_was(qtbot: QtBot, strip, bench: Bench) -> None:
    drag(qtbot, strip, 0, 4, drop=False)
    qtbot.keyClick(strip, Qt.Key.Key_Escape)
    assert bench.preview is None
    qtbot.mouseRelease(strip, LEFT, pos=number(strip, 3))
    assert bench.desk.program == PROGRAM
    assert bench.week == 0


def test_put_down_where_it_was_nothing_is_kept(qtbot: QtBot, strip, bench: Bench) -> None:
    bench.show_week(2)
    for gap in (2, 3):
        drag(qtbot, strip, 2, gap)
    assert bench.desk.history.undoable is None


def test_a_click_on_a_chosen_number_opens_its_week(qtbot: QtBot, strip, bench: Bench) -> None:
    strip.choose(range(3, 5))
    qtbot.mouseClick(strip, LEFT, pos=number(strip, 3))
    assert bench.week == 3
    assert strip.chosen == range(0)


def test_any_weeks_number_drags_that_week_alone(qtbot, strip, bench: Bench) -> None:
    moved = bench.desk.program.weeks[3].id
    assert bench.week == 0
    drag(qtbot, strip, 3, 6)
    assert bench.desk.program.week_index(moved) == 5
    assert bench.desk.history.steps[-1].label == "Move week 4"
    assert bench.week == 0
    assert not strip.chosen


def test_a_run_stays_chosen_only_if_it_is_what_moved(qtbot, strip, bench: Bench) -> None:
    strip.choose(range(1, 3))
    drag(qtbot, strip, 4, 6)
    assert bench.desk.history.steps[-1].label == "Move week 5"
    assert not strip.chosen


def test_above_the_numbers_a_drag_chooses_as_before(qtbot: QtBot, strip, bench: Bench) -> None:
    middle = strip.frame().column(0).center().toPoint()
    qtbot.mousePress(strip, LEFT, pos=middle)
    qtbot.mouseMove(strip, strip.frame().column(2).center().toPoint())
    qtbot.mouseRelease(strip, LEFT, pos=strip.frame().column(2).center().toPoint())
    assert strip.chosen == range(3)
    assert bench.desk.program == PROGRAM


@pytest.mark.parametrize(
    ("key", "expected"),
    [(Qt.Key.Key_Right, [0, 1, 3, 2, 4, 5]), (Qt.Key.Key_Left, [0, 2, 1, 3, 4, 5])],
)
def test_alt_and_an_arrow_do_the_same(qtbot: QtBot, strip, bench: Bench, key, expected) -> None:
    bench.show_week(2)
    qtbot.keyClick(strip, key, ALT)
    assert order(bench) == expected
    assert bench.desk.program.weeks[bench.week].id == PROGRAM.weeks[2].id


def test_at_the_end_the_key_says_so(qtbot: QtBot, strip, bench: Bench) -> None:
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        qtbot.keyClick(strip, Qt.Key.Key_Left, ALT)
    assert told.args == ["There is no week to pass on that side."]
    assert bench.desk.program == PROGRAM


def hover(strip: SeasonStrip, where: QPoint) -> None:
    """Move the pointer with no button down.

    QTest's own move keeps whatever button an earlier test pressed and never let go.
    """
    none, plain = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    there = QPointF(strip.mapToGlobal(where))
    move = QMouseEvent(QEvent.Type.MouseMove, QPointF(where), there, none, none, plain)
    QApplication.sendEvent(strip, move)


def test_the_hand_shows_what_can_be_taken(strip: SeasonStrip) -> None:
    hover(strip, number(strip, 0))
    assert strip.cursor().shape() is Qt.CursorShape.OpenHandCursor
    hover(strip, number(strip, 2))
    assert strip.cursor().shape() is Qt.CursorShape.OpenHandCursor
    hover(strip, number(strip, 2) - QPoint(0, 40))
    assert strip.cursor().shape() is Qt.CursorShape.ArrowCursor
