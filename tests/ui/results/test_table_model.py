"""Rows of a session: what stands where, what can be typed, what is wrong."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.modeltest import ModelTester
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.domain.log_sheet import Typed
from app.domain.results import Diary
from app.ui.bench import Bench
from app.ui.results.table_model import WRONG, Column, ResultsModel, exercise_text, meant_text
from tests.ui.results.test_draft import drafted


def plain(text: str) -> str:
    """The text with ordinary spaces."""
    return text.replace("\N{NO-BREAK SPACE}", " ")


@pytest.fixture
def model(qapp, bench: Bench) -> ResultsModel:
    made = ResultsModel()
    made.show(drafted(bench, Diary()))
    return made


def test_it_is_a_sound_model(model: ResultsModel, qtmodeltester: ModelTester) -> None:
    qtmodeltester.check(model)


def test_there_is_a_row_for_every_set(model: ResultsModel) -> None:
    assert model.draft is not None
    assert model.rowCount() == sum(slot.meant.slot.sets for slot in model.draft.slots)
    assert [model.rows_of(0), model.rows_of(1)] == [range(4), range(4, 8)]
    assert ResultsModel().rowCount() == 0


def test_what_was_meant_stands_beside_the_cells(model: ResultsModel) -> None:
    texts = [model.index(0, column).data() for column in Column]
    assert texts[0] == "Back squat"
    assert plain(texts[1]).startswith("4 × 10 · RIR 2 · ")
    assert plain(texts[1]).endswith(" kg")
    assert texts[2:] == ["1", "", "", "", ""]
    assert model.headerData(Column.LOAD, Qt.Orientation.Horizontal) == "Load, kg"


def test_only_what_is_typed_can_be_edited(model: ResultsModel) -> None:
    editable = [
        column
        for column in Column
        if model.flags(model.index(0, column)) & Qt.ItemFlag.ItemIsEditable
    ]
    assert editable == [Column.LOAD, Column.REPS, Column.RIR, Column.REMARK]


def test_typing_is_told_once(model: ResultsModel, qtbot: QtBot) -> None:
    with qtbot.waitSignal(model.edited):
        model.setData(model.index(0, Column.LOAD), " 60 ")
    assert model.index(0, Column.LOAD).data() == "60"
    with qtbot.assertNotEmitted(model.edited):
        model.setData(model.index(0, Column.LOAD), "60")


def test_a_whole_set_fills_the_line(model: ResultsModel) -> None:
    model.setData(model.index(0, Column.LOAD), "62.5 x 10 / 2")
    assert [model.index(0, c).data() for c in (Column.LOAD, Column.REPS, Column.RIR)] == [
        "62.5",
        "10",
        "2",
    ]


def test_what_cannot_be_read_is_marked_and_says_why(model: ResultsModel) -> None:
    model.setData(model.index(1, Column.REPS), "ten")
    index = model.index(1, Column.REPS)
    assert index.data(WRONG)
    assert "not a number" in index.data(Qt.ItemDataRole.ToolTipRole)
    wrong = [column for column in Column if model.index(1, column).data(WRONG)]
    assert wrong == [Column.REPS], "only the cell that is to be mended"
    found = model.first_fault()
    assert found is not None
    assert found[0] == 1
    for row in (0, 1):
        assert model.told_fault(row).startswith("Back squat, set 2, is not kept yet. 'ten' is not")
    model.setData(index, "10")
    model.setData(model.index(1, Column.LOAD), "60")
    assert model.first_fault() is None
    assert model.told_fault(1) == ""


def test_typing_over_a_set_that_was_left_out_takes_its_dashes_away(model: ResultsModel) -> None:
    assert model.draft is not None
    model.draft.slots[0].leave_out()
    model.show(model.draft)
    model.setData(model.index(0, Column.REPS), "8")
    assert model.draft.slots[0].lines[0] == Typed("", "8", "")


def test_one_more_set_is_one_more_row(model: ResultsModel) -> None:
    rows = model.rowCount()
    model.add_line(0)
    assert model.rowCount() == rows + 1
    assert model.rows_of(0) == range(5)


def test_many_cells_are_typed_at_once_and_those_outside_are_left_out(
    model: ResultsModel, qtbot: QtBot
) -> None:
    with qtbot.waitSignals([model.edited]):
        model.put_many({(0, Column.LOAD): "60", (0, Column.SET): "9", (999, Column.LOAD): "1"})
    assert model.index(0, Column.LOAD).data() == "60"
    assert model.index(0, Column.SET).data() == "1"


def test_a_substitute_says_what_it_stands_for(model: ResultsModel, bench: Bench) -> None:
    assert model.draft is not None
    slot = model.draft.slots[0]
    slot.done = bench.desk.catalogue[ExerciseKey("front_squat")]
    assert exercise_text(slot) == "Front squat, instead of Back squat"
    assert plain(meant_text(slot.meant)).startswith("4 × 10")
    parts = meant_text(slot.meant).split(" · ")
    assert len(parts) > 1
    assert not any(" " in part for part in parts), "a line ends between parts alone"


def test_a_screen_reader_hears_what_the_cell_is(model: ResultsModel) -> None:
    spoken = model.index(2, Column.LOAD).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Back squat, set 3, Load: empty"
