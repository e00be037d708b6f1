"""Sets that the coach confirms count as tests, in one step."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.results import Diary, SetDone, SlotResult
from app.ui.bench import Bench
from app.ui.results.from_results_dialog import FromResultsDialog
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import START, slot


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> FromResultsDialog:
    results = [
        SlotResult(bench.desk.program.id, one.id, one.exercise, START, (SetDone(kg, 5, 2.0),))
        for one, kg in ((slot(bench, 0), 95.0), (slot(bench, 1), 110.0))
    ]
    bench.desk.keep_diary("Results", Diary(results=tuple(results)))
    made = FromResultsDialog(bench, None)
    qtbot.addWidget(made)
    made.show()
    return made


def test_every_set_is_shown_beside_what_held_until_now(dialog: FromResultsDialog) -> None:
    rows = [[item.text(n) for n in range(5)] for item in dialog.items]
    assert [row[0] for row in rows] == ["Back squat", "Hip thrust"]
    assert rows[0][1] == "95 kg × 5, 2 in reserve"
    assert rows[0][4].endswith("%")


def test_ticked_ones_become_tests_and_loads_follow(dialog: FromResultsDialog, bench: Bench) -> None:
    before = bench.desk.load(slot(bench, 0, week=2))
    dialog.items[1].setCheckState(0, Qt.CheckState.Unchecked)
    dialog.try_keep()
    new = [test for test in bench.desk.client.tests if test.on == START]
    assert [(test.exercise, test.load_kg, test.reps, test.rir) for test in new] == [
        ("back_squat", 95.0, 5, 2.0)
    ]
    after = bench.desk.load(slot(bench, 0, week=2))
    assert before is not None
    assert after is not None
    assert after.load_kg > before.load_kg
    assert bench.desk.history.undoable.label == "Count 1 set as a test"
    bench.undo()
    assert [test for test in bench.desk.client.tests if test.on == START] == []


def test_nothing_ticked_is_nothing_to_keep(dialog: FromResultsDialog) -> None:
    for item in dialog.items:
        item.setCheckState(0, Qt.CheckState.Unchecked)
    assert not dialog.keep_button.isEnabled()


def test_where_no_set_says_enough_that_is_said(qtbot: QtBot, dressed, bench: Bench) -> None:
    made = FromResultsDialog(bench, None)
    qtbot.addWidget(made)
    made.show()
    assert made.nothing.isVisible()
    assert not made.keep_button.isEnabled()


def test_everything_has_a_name_and_is_large_enough(dialog: FromResultsDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
