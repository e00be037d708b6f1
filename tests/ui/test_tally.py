"""The tally: bars by muscle, with previews and the working behind each number."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.domain.edits import place, weeks
from app.domain.edits.parts import Spot
from app.domain.exercise import ExerciseKey
from app.domain.findings import edit
from app.domain.program import Span
from app.ui.bench import Bench
from app.ui.tally import BAR, LEAST_BAR, TallyBars, TallyPane
from app.ui.words import number
from app.ui.working_popup import WorkingPopup
from tests.ui.desks import slot, without_program


@pytest.fixture
def pane(qtbot: QtBot, bench: Bench) -> TallyPane:
    made = TallyPane(bench)
    qtbot.addWidget(made)
    made.resize(900, 206)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def bars(pane: TallyPane) -> TallyBars:
    return pane.bars


def popups(bars: TallyBars) -> list[WorkingPopup]:
    return [p for p in bars.findChildren(WorkingPopup) if p.isVisible()]


def test_every_row_is_told_to_assistive_technology(bars: TallyBars, bench: Bench) -> None:
    told = bars.accessibleDescription()
    for row in bars.rows:
        assert f"{row.name} " in told
    first = bars.rows[0]
    assert f"{first.name} " in told.split(";")[0]
    assert "range " in told


def test_another_week_brings_other_numbers(bars: TallyBars, bench: Bench) -> None:
    before = [row.sets for row in bars.rows]
    bench.show_week(3)
    assert [row.sets for row in bars.rows] != before
    assert "range " not in bars.accessibleDescription(), "a light week is held to no range"


def test_a_tried_edit_shows_the_rows_it_would_change(bars: TallyBars, bench: Bench) -> None:
    assert bars.would == {}
    before = bars.grab().toImage()
    one = slot(bench)
    bench.try_edit(edit("Remove", place.remove, slot_id=one.id, span=Span.THIS_WEEK))
    trained = {w.muscle.value for w in bench.desk.catalogue[one.exercise].work}
    assert set(bars.would) & trained
    now = {row.about: row.sets for row in bars.rows}
    assert all(row.sets < now[about] for about, row in bars.would.items())
    assert bars.grab().toImage() != before
    bench.clear_preview()
    assert bars.would == {}
    assert bars.grab().toImage() == before


def test_keeping_shows_the_new_numbers(bars: TallyBars, bench: Bench) -> None:
    bench.keep(edit("Clear", weeks.clear_weeks, indices=(0,)))
    assert {row.sets for row in bars.rows} == {0}


def test_arrows_go_round_the_rows_and_tell_each(qtbot: QtBot, bars: TallyBars) -> None:
    bars.setFocus()
    qtbot.keyClick(bars, Qt.Key.Key_Down)
    assert bars.focus_row == 1
    assert bars.accessibleDescription().startswith(bars.rows[1].name)
    qtbot.keyClick(bars, Qt.Key.Key_Up)
    qtbot.keyClick(bars, Qt.Key.Key_Up)
    assert bars.focus_row == len(bars.rows) - 1


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space, Qt.Key.Key_F3])
def test_a_key_opens_the_working_and_escape_closes_it(qtbot: QtBot, bars, key: Qt.Key) -> None:
    qtbot.keyClick(bars, key)
    (popup,) = popups(bars)
    assert popup.accessibleName() == f"How {number(bars.rows[0].sets)} sets came about"
    with qtbot.waitSignal(popup.destroyed, timeout=1000):
        qtbot.keyClick(popup, Qt.Key.Key_Escape)


def test_a_click_on_a_row_opens_its_working(qtbot: QtBot, bars: TallyBars) -> None:
    where = bars._place(2).center().toPoint()
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=where)
    assert bars.focus_row == 2
    (popup,) = popups(bars)
    popup.close()


def test_a_click_beside_the_rows_opens_nothing(qtbot: QtBot, bars: TallyBars) -> None:
    qtbot.mouseClick(bars, Qt.MouseButton.LeftButton, pos=QPoint(2, 2))
    assert popups(bars) == []


def test_rows_never_overlap_nor_leave_the_pane(bars: TallyBars, pane: TallyPane) -> None:
    for compact in (False, True):
        pane.set_compact(compact)
        places = [bars._place(k) for k in range(len(bars.rows))]
        for at, one in enumerate(places):
            assert one.right() <= bars.width()
            assert not any(one.intersects(other) for other in places[at + 1 :])
            assert bars._row_at(one.center()) == at
            assert one.height() >= 24, "big enough to be clicked"


def test_a_compact_tally_is_less_high(bars: TallyBars, pane: TallyPane) -> None:
    tall = bars.minimumHeight()
    pane.set_compact(True)
    bars.grab()
    assert bars.minimumHeight() < tall


def test_without_a_program_it_is_empty_and_quiet(qtbot: QtBot, bars: TallyBars, bench) -> None:
    without_program(bench)
    assert bars.rows == ()
    bars.grab()
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Return):
        qtbot.keyClick(bars, key)
    assert popups(bars) == []


def test_what_was_tried_leaves_no_mark_once_it_is_kept_or_dropped(
    bars: TallyBars, bench: Bench
) -> None:
    before = bars.grab().toImage()
    remove = edit("Remove", place.remove, slot_id=slot(bench).id, span=Span.THIS_WEEK)
    bench.try_edit(remove)
    bench.clear_preview()
    assert bars.grab().toImage() == before
    bench.try_edit(remove)
    bench.keep(remove)
    assert bars.would == {}
    kept = bars.grab().toImage()
    assert kept != before
    bench.clear_preview()
    assert bars.grab().toImage() == kept
    bench.undo()
    assert bars.grab().toImage() == before


def test_another_week_shows_what_is_tried_in_it(bars: TallyBars, bench: Bench) -> None:
    bench.try_edit(edit("Remove", place.remove, slot_id=slot(bench).id, span=Span.FROM_HERE))
    bench.show_week(1)
    assert bars.would
    bench.clear_preview()
    assert bars.would == {}


def test_every_bar_of_a_mixed_week_shows_a_working_of_its_own_number(
    bars: TallyBars, bench: Bench
) -> None:
    """Shoulders and back are groups: a press and a raise load different parts of one of them."""
    for name in ("overhead_press", "lateral_raise", "lat_pulldown", "barbell_row"):
        exercise = bench.desk.catalogue[ExerciseKey(name)]
        bench.keep(edit("Place", place.place, exercise=exercise, at=Spot(0, 4)))
    for k, row in enumerate(bars.rows):
        QTest.mouseClick(bars, Qt.MouseButton.LeftButton, pos=bars._place(k).center().toPoint())
        (popup,) = popups(bars)
        texts = [label.text() for label in popup.findChildren(QLabel)]
        popup.close()
        assert texts[0] == f"{row.sets:g} sets", row.name
        parts = [float(text.split(" = ")[1]) for text in texts if " = " in text]
        assert sum(parts) == pytest.approx(row.sets), row.name


def test_bars_of_a_compact_tally_leave_long_names_their_room(bars: TallyBars, pane) -> None:
    pane.set_compact(True)
    pane.resize(1400, 200)
    wide = bars._bar_width()
    pane.resize(560, 200)
    assert LEAST_BAR <= bars._bar_width() < wide <= BAR
