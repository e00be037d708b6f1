"""The dialog shows what every row becomes, and keeps it as one step."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.results import Diary
from app.exchange.coach_plan.columns import Part
from app.ui.bench import Bench
from app.ui.results import import_dialog
from app.ui.results.import_dialog import ResultTableDialog, import_results
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.results.test_incoming import TABLE, TODAY, book


def shown(dialog: ResultTableDialog) -> list[list[str]]:
    rows = dialog.rows
    items = [rows.topLevelItem(n) for n in range(rows.topLevelItemCount())]
    return [[item.text(column) for column in range(4)] for item in items]


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> ResultTableDialog:
    made = ResultTableDialog(bench, book(), "log.csv", None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def test_every_result_says_what_becomes_of_it(dialog: ResultTableDialog) -> None:
    assert shown(dialog) == [
        ["23 Nov 2026", "Back squat", "60 kg × 10, 60 kg × 9", "new"],
        ["26 Nov 2026", "Romanian deadlift", "70 kg × 10", "new"],
        ["24 Nov 2025", "Back squat", "", "line 7: no place in that week"],
    ]
    assert dialog.keep_button.text() == "Bring in 2 results"
    assert "Line 6: 30 Nov 2026 is in the future." in dialog.faults.text()
    assert "1 row is left out" in dialog.faults.text()


def test_it_is_kept_as_one_step_and_taken_back_as_one(
    dialog: ResultTableDialog, bench: Bench
) -> None:
    dialog.try_keep()
    assert not dialog.isVisible()
    stored = bench.desk.store.load_diary(bench.desk.client.id)
    assert len(stored.results) == 2
    assert bench.desk.history.undoable.label == "Bring in 2 results"
    bench.undo()
    assert bench.desk.store.load_diary(bench.desk.client.id) == Diary()


def test_a_name_that_is_chosen_is_brought_in(dialog: ResultTableDialog) -> None:
    (box,) = dialog.name_boxes.values()
    assert box.itemText(0) == "leave it out"
    box.setCurrentIndex(box.findData("hip_thrust"))
    assert dialog.keep_button.text() == "Bring in 3 results"
    assert "left out until" not in dialog.faults.text()


def test_another_column_is_read_at_once(dialog: ResultTableDialog) -> None:
    dialog.columns[Part.REPS].setCurrentIndex(0)
    assert "Choose the column of: Reps." in dialog.faults.text()
    assert not dialog.keep_button.isEnabled()
    dialog.columns[Part.REPS].setCurrentIndex(4)
    assert dialog.keep_button.isEnabled()


def test_a_long_table_is_read_beside_the_window(
    qtbot: QtBot, dressed, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(import_dialog, "AT_ONCE", 1)
    dialog = ResultTableDialog(bench, book(), "log.csv", None, today=TODAY)
    qtbot.addWidget(dialog)
    dialog.show()
    assert dialog.faults.text().startswith("Reading ")
    assert not dialog.keep_button.isEnabled()
    qtbot.waitUntil(dialog.keep_button.isEnabled)
    assert dialog.keep_button.text() == "Bring in 2 results"
    (box,) = dialog.name_boxes.values()
    box.setCurrentIndex(box.findData("hip_thrust"))
    assert not dialog.keep_button.isEnabled(), "what is shown is no longer what is chosen"
    qtbot.waitUntil(lambda: dialog.keep_button.text() == "Bring in 3 results")
    assert dialog.name_boxes, "the names that were asked about stay"
    dialog.columns[Part.REPS].setCurrentIndex(0)
    dialog.reject()
    qtbot.wait(1)
    assert not dialog.isVisible()


def test_a_column_holds_one_thing_only(dialog: ResultTableDialog) -> None:
    dialog.columns[Part.LOAD].setCurrentIndex(4)
    assert dialog.columns[Part.REPS].currentIndex() == 0


def test_the_order_of_days_and_the_unit_can_be_chosen(dialog: ResultTableDialog) -> None:
    dialog.order.setCurrentIndex(2)
    assert not dialog.keep_button.isEnabled()
    dialog.order.setCurrentIndex(1)
    dialog.unit.setCurrentText("lb")
    assert shown(dialog)[0][2].startswith("27.22 kg")


def test_results_there_already_are_replaced_only_when_that_is_ticked(
    dialog: ResultTableDialog, bench: Bench, qtbot: QtBot
) -> None:
    dialog.try_keep()
    again = ResultTableDialog(
        bench, book(TABLE.replace("60,9,1", "60,8,1")), "log.csv", None, today=TODAY
    )
    qtbot.addWidget(again)
    again.show()
    assert shown(again)[0][3] == "there already, stays"
    assert not again.keep_button.isEnabled()
    again.there.setChecked(True)
    assert shown(again)[0][3] == "replaces what is there"
    assert again.keep_button.text() == "Bring in 1 result"


def test_the_unit_is_questioned_and_put_right_with_one_click(
    dialog: ResultTableDialog, bench: Bench, qtbot: QtBot
) -> None:
    dialog.try_keep()
    text = "Date,Exercise,Weight,Reps\n24/11/2026,Back squat,132,10\n"
    again = ResultTableDialog(bench, book(text), "more.csv", None, today=TODAY)
    qtbot.addWidget(again)
    again.show()
    assert again.slip.isVisible()
    again._other_unit()
    assert not again.slip.isVisible()
    assert shown(again)[0][2] == "59.87 kg × 10"


def test_a_load_that_is_doubted_says_what_is_known(
    dialog: ResultTableDialog, bench: Bench, qtbot: QtBot
) -> None:
    dialog.try_keep()
    text = "Date,Exercise,Weight,Reps\n24/11/2026,Back squat,{load},10\n"
    fates = []
    for load in ("132", "60", ""):
        more = ResultTableDialog(bench, book(text.format(load=load)), "a.csv", None, today=TODAY)
        qtbot.addWidget(more)
        fates.append(shown(more)[0][3])
    assert fates == ["new; 60 kg is known", "new", "new; without a load"]


def test_what_was_odd_in_the_file_stands_with_what_is_wrong(bench: Bench, qtbot: QtBot) -> None:
    odd = replace(book("Date,Exercise,Reps\n24/11/2026,Back squat,10\n"), remarks=("It is odd.",))
    made = ResultTableDialog(bench, odd, "odd.csv", None, today=TODAY)
    qtbot.addWidget(made)
    assert made.faults.text().startswith("It is odd.")


def test_a_file_that_is_no_table_is_said_and_another_is_shown(
    bench: Bench, dialog: ResultTableDialog, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    opened: list[str] = []
    monkeypatch.setattr(import_dialog, "tell", lambda _w, _t, sentence: told.append(sentence))
    monkeypatch.setattr(ResultTableDialog, "exec", lambda self: opened.append(self.windowTitle()))
    file = tmp_path / "log.csv"
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    file.write_bytes(bytes(range(32)) * 40)
    import_results(bench, dialog, today=TODAY)
    assert len(told) == 1
    file.write_text(TABLE, encoding="utf-8")
    import_results(bench, dialog, today=TODAY)
    assert opened == ["Results from log.csv"]
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    import_results(bench, dialog, today=TODAY)
    assert len(told) == len(opened) == 1


def test_everything_has_a_name_and_is_large_enough(dialog: ResultTableDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
