"""Reading a coach's table from the first page to the kept program."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest
from PySide6.QtCore import QCoreApplication, Qt, QThreadPool
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.exchange.coach_plan.columns import Part
from app.ui.bench import Bench
from app.ui.exchange.table_import.dialog import TableImport, name_for, read_table
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, TODAY

WAIT_MS = 30_000
TABLE = """Week;Day;Exercise;Sets;Reps;Hue
1;Monday;Back squat;3;5;red
1;Monday;Squish <b>press</b>;3;plenty;blue
2;Monday;Back squat;3;4;red
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "lower-body.csv"
    made.write_text(TABLE, encoding="utf-8")
    return made


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store, path: Path) -> Iterator[TableImport]:
    made = opened(qtbot, bench, store, path)
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def opened(qtbot: QtBot, bench: Bench, store: Store, path: Path) -> TableImport:
    made = TableImport(bench, store, path, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    ready(qtbot, made)
    return made


def ready(qtbot: QtBot, dialog: TableImport) -> None:
    qtbot.waitUntil(lambda: dialog._job is None and not dialog._later.isActive(), timeout=WAIT_MS)


def go_on(qtbot: QtBot, dialog: TableImport) -> None:
    assert dialog.keep_button.isEnabled()
    dialog.keep_button.click()
    ready(qtbot, dialog)


def decide(dialog: TableImport, value: str) -> None:
    box = dialog.names.boxes["Squish <b>press</b>"]
    if value:
        box.take(ExerciseKey(value), value)
    else:
        box.choose(value)
    box.activated.emit(box.currentIndex())


def test_from_the_table_to_a_new_program(dialog: TableImport, bench: Bench, qtbot: QtBot) -> None:
    assert dialog.columns.told.text() == "3 lines are understood: 2 names, 2 weeks."
    assert dialog.columns.remarks.lines() == ["row 3: 'plenty' is not understood."]
    go_on(qtbot, dialog)
    assert not dialog.keep_button.isEnabled()
    decide(dialog, "")
    go_on(qtbot, dialog)
    assert dialog.made.summary.text().startswith("2 weeks, 2 sessions. 1 line is left out.")
    dialog.made.name.setText("Begin")
    before = bench.desk.program
    dialog.keep_button.click()
    assert bench.desk.program.name == "Begin"
    assert bench.desk.program.id != before.id
    assert [s.reps.low for w in bench.desk.program.weeks for s in w.slots()] == [5, 4]


def test_in_the_place_of_the_open_program_is_one_step(
    dialog: TableImport, bench: Bench, qtbot: QtBot
) -> None:
    go_on(qtbot, dialog)
    decide(dialog, "goblet_squat")
    go_on(qtbot, dialog)
    dialog.made.instead.setChecked(True)
    old = {slot.id for week in PROGRAM.weeks for slot in week.slots()}
    dialog.keep_button.click()
    program = bench.desk.program
    assert (program.id, program.name, program.start) == (PROGRAM.id, PROGRAM.name, PROGRAM.start)
    assert not {slot.id for week in program.weeks for slot in week.slots()} & old
    bench.undo()
    assert bench.desk.program == PROGRAM


def test_nothing_is_kept_before_the_end(
    dialog: TableImport, bench: Bench, store: Store, qtbot: QtBot
) -> None:
    go_on(qtbot, dialog)
    decide(dialog, "")
    go_on(qtbot, dialog)
    dialog.reject()
    assert bench.desk.program is PROGRAM or bench.desk.program == PROGRAM
    assert len(store.programs(bench.desk.client.id)) == 1
    assert store.setting("table names") == ""


def test_another_part_for_a_column_is_read_at_once(dialog: TableImport, qtbot: QtBot) -> None:
    box = dialog.columns.choices[5]
    box.choose(Part.NOTE.value)
    box.activated.emit(box.currentIndex())
    qtbot.waitUntil(lambda: dialog.matched.reading.lines[0].asked.note == "red", timeout=WAIT_MS)


def test_what_was_said_is_there_for_the_next_table(
    dialog: TableImport, bench: Bench, store: Store, path: Path, qtbot: QtBot
) -> None:
    box = dialog.columns.choices[5]
    box.choose(Part.NOTE.value)
    box.activated.emit(box.currentIndex())
    qtbot.waitUntil(dialog._later.isActive, timeout=WAIT_MS)
    ready(qtbot, dialog)
    go_on(qtbot, dialog)
    decide(dialog, "")
    go_on(qtbot, dialog)
    dialog.keep_button.click()
    again = opened(qtbot, bench, store, path)
    assert again.columns.mapping.columns[5].part is Part.NOTE
    go_on(qtbot, again)
    assert again.names.open_names() == ()
    again.reject()


def test_back_keeps_what_was_answered(dialog: TableImport, qtbot: QtBot) -> None:
    go_on(qtbot, dialog)
    decide(dialog, "goblet_squat")
    dialog.back()
    assert dialog.pages.currentIndex() == 0
    ready(qtbot, dialog)
    go_on(qtbot, dialog)
    assert dialog.names.meant()["Squish <b>press</b>"] == "goblet_squat"


def test_more_weeks_than_the_table_has(dialog: TableImport, qtbot: QtBot) -> None:
    go_on(qtbot, dialog)
    decide(dialog, "")
    go_on(qtbot, dialog)
    dialog.made.weeks.edit.setText("4")
    dialog.made.weeks.edit.textEdited.emit("4")
    qtbot.waitUntil(
        lambda: dialog.preview is not None and len(dialog.preview.built.program.weeks) == 4,
        timeout=WAIT_MS,
    )


def test_a_column_of_exercises_is_needed(dialog: TableImport, qtbot: QtBot) -> None:
    box = dialog.columns.choices[2]
    box.choose(Part.IGNORED.value)
    box.activated.emit(box.currentIndex())
    qtbot.waitUntil(lambda: "exercises" in dialog.wrong.text(), timeout=WAIT_MS)
    assert not dialog.keep_button.isEnabled()


def test_another_encoding_reads_the_file_anew(dialog: TableImport, qtbot: QtBot) -> None:
    dialog.columns.encoding.choose("cp1252")
    dialog.columns.encoding.activated.emit(0)
    ready(qtbot, dialog)
    assert dialog.columns.book.encoding == "cp1252"


@pytest.mark.parametrize(
    ("name", "data", "sentence"),
    [
        ("a.xlsx", b"Exercise;Sets", "no workbook"),
        ("a.csv", b"\x89PNG\r\n\x1a\n", "picture"),
        ("a.csv", b"", "empty"),
        ("no.csv", None, "no such file"),
    ],
)
def test_what_is_no_table_is_said(
    qtbot: QtBot,
    dressed,
    bench: Bench,
    store: Store,
    tmp_path: Path,
    name: str,
    data: bytes | None,
    sentence: str,
) -> None:
    if data is not None:
        (tmp_path / name).write_bytes(data)
    made = opened(qtbot, bench, store, tmp_path / name)
    assert sentence in made.wrong.text()
    assert not made.keep_button.isEnabled()
    made.reject()


def test_a_workbook_with_a_sheet_a_week(
    qtbot: QtBot, dressed, bench: Bench, store: Store, tmp_path: Path
) -> None:
    book = openpyxl.Workbook()
    book.active.title = "Week 1"
    for sheet in (book.active, book.create_sheet("Week 2")):
        sheet.append(["Exercise", "Sets", "Reps"])
        sheet.append(["Back squat", 3, 5])
    book.save(tmp_path / "a.xlsx")
    made = opened(qtbot, bench, store, tmp_path / "a.xlsx")
    assert made.columns.sheet_weeks.isChecked()
    assert "2 weeks" in made.columns.told.text()
    for row in range(2):
        made.columns.sheets.item(row).setCheckState(Qt.CheckState.Unchecked)
    ready(qtbot, made)
    assert "No sheet" in made.wrong.text()
    made.reject()


def test_the_file_is_asked_for(
    bench: Bench, store: Store, qtbot: QtBot, dressed, monkeypatch: pytest.MonkeyPatch, path: Path
) -> None:
    from PySide6.QtWidgets import QWidget

    window = QWidget()
    qtbot.addWidget(window)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    assert not read_table(bench, store, window)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    monkeypatch.setattr(TableImport, "exec", lambda self: self.reject())
    assert not read_table(bench, store, window)
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)


def test_a_program_is_named_after_its_file() -> None:
    assert name_for(Path("lower-body_block.v2.csv")) == "Lower body block"


def test_the_dialog_can_be_used_by_everybody(dialog: TableImport, qtbot: QtBot) -> None:
    for _ in range(3):
        assert unnamed(dialog) == []
        assert too_small(dialog) == []
        assert marked_up(dialog) == []
        if dialog.pages.currentIndex() == 1:
            decide(dialog, "")
        if dialog.pages.currentIndex() < 2:
            go_on(qtbot, dialog)
