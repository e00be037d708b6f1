"""Saving the open program as tables."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtWidgets import QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot

from app.domain.results import Diary, SetDone, SlotResult
from app.table_files import Content
from app.ui.bench import Bench
from app.ui.exchange import tables_dialog
from app.ui.exchange.tables_dialog import TablesDialog
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM

WAIT_MS = 30_000


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> Iterator[TablesDialog]:
    slot = next(PROGRAM.weeks[0].slots())
    done = SlotResult(PROGRAM.id, slot.id, slot.exercise, date(2026, 11, 23), (SetDone(60, 5),))
    bench.desk.keep_diary("Enter results", Diary(results=(done,)))
    made = TablesDialog(bench, None)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def saving_to(monkeypatch: pytest.MonkeyPatch, path: Path | str) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))


def test_a_workbook_with_what_is_ticked(
    dialog: TablesDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    saving_to(monkeypatch, tmp_path / "mine")
    dialog.boxes[Content.TALLY].setChecked(False)
    dialog.boxes[Content.RESULTS].setChecked(True)
    with qtbot.waitSignal(dialog.accepted, timeout=WAIT_MS):
        dialog.keep_button.click()
    assert openpyxl.load_workbook(tmp_path / "mine.xlsx").sheetnames == ["Plan", "Results"]


def test_several_csv_files_ask_before_they_write_over_others(
    dialog: TablesDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    saving_to(monkeypatch, tmp_path / "mine.csv")
    (tmp_path / "mine-plan.csv").write_text("keep me", encoding="utf-8")
    dialog.form_box.setCurrentIndex(1)
    asked: list[list[Path]] = []

    def answer(paths: list[Path], _parent: object) -> bool:
        asked.append(paths)
        return False

    monkeypatch.setattr(tables_dialog, "may_replace", answer)
    dialog.keep_button.click()
    assert asked == [[tmp_path / "mine-plan.csv"]]
    assert (tmp_path / "mine-plan.csv").read_text(encoding="utf-8") == "keep me"
    monkeypatch.setattr(tables_dialog, "may_replace", lambda *_: True)
    with qtbot.waitSignal(dialog.accepted, timeout=WAIT_MS):
        dialog.keep_button.click()
    assert sorted(p.name for p in tmp_path.iterdir()) == ["mine-plan.csv", "mine-tally.csv"]


def test_trouble_is_said_and_the_dialog_stays(
    dialog: TablesDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    saving_to(monkeypatch, tmp_path / "no" / "mine.xlsx")
    dialog.keep_button.click()
    qtbot.waitUntil(lambda: bool(dialog.wrong.text()), timeout=WAIT_MS)
    assert dialog.isVisible()
    assert dialog.keep_button.isEnabled()
    assert list(tmp_path.iterdir()) == []


def test_cancelling_the_file_dialog_does_nothing(
    dialog: TablesDialog, monkeypatch: pytest.MonkeyPatch
) -> None:
    saving_to(monkeypatch, "")
    dialog.keep_button.click()
    assert dialog.isVisible()


def test_nothing_ticked_saves_nothing(dialog: TablesDialog) -> None:
    for box in dialog.boxes.values():
        box.setChecked(False)
    assert not dialog.keep_button.isEnabled()


def test_results_are_offered_only_where_there_are_some(bench: Bench, qtbot: QtBot, dressed) -> None:
    made = TablesDialog(bench, None)
    qtbot.addWidget(made)
    assert not made.boxes[Content.RESULTS].isEnabled()


def test_writing_over_is_asked_with_the_names(
    qtbot: QtBot, dialog: TablesDialog, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts: list[str] = []

    def press(box: QMessageBox) -> int:
        texts.append(box.text())
        next(one for one in box.buttons() if one.text() == "Write over").click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", press)
    assert tables_dialog.may_replace([], dialog)
    paths = [Path(f"{n}.csv") for n in range(6)]
    assert tables_dialog.may_replace(paths, dialog)
    assert "0.csv" in texts[0]
    assert "2 more" in texts[0]


def test_the_dialog_can_be_used_by_everybody(dialog: TablesDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
