"""A folder of plan files, out and in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.client import Client, ClientId
from app.domain.work import Work
from app.exchange.plan_file import Plan, write_plan
from app.ui.bench import Bench
from app.ui.exchange import folder_dialog
from app.ui.exchange.folder_dialog import FolderDialog
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA

WAIT_MS = 30_000
ASK = Client(ClientId("ask"), "Ask <b>Elverum</b>")


@pytest.fixture
def dialog(
    qtbot: QtBot, dressed, bench: Bench, store: Store, tmp_path: Path
) -> Iterator[FolderDialog]:
    store.save(None, Work(ASK), label="Add")
    made = FolderDialog(bench, store, None)
    qtbot.addWidget(made)
    made.folder.setText(str(tmp_path))
    made._folder_changed()
    made.show()
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def finished(qtbot: QtBot, dialog: FolderDialog) -> None:
    qtbot.waitUntil(lambda: dialog.summary.isVisible() and not dialog.running, timeout=WAIT_MS)


def test_everybody_goes_out(dialog: FolderDialog, qtbot: QtBot, tmp_path: Path) -> None:
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert len(list(tmp_path.glob("*.plan.json"))) == 2
    assert dialog.summary.text() == "2 plan files saved."
    assert [dialog.model.told(row) for row in range(2)] == ["done", "done"]


def test_only_those_ticked_go_out(dialog: FolderDialog, qtbot: QtBot, tmp_path: Path) -> None:
    dialog.ticks.tick_all()
    assert not dialog.keep_button.isEnabled()
    dialog.model.tick((0,))
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert len(list(tmp_path.iterdir())) == 1


def test_files_that_are_there_are_asked_about(
    dialog: FolderDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    dialog.keep_button.click()
    finished(qtbot, dialog)
    asked: list[list[Path]] = []

    def answer(paths: list[Path], _parent: object) -> bool:
        asked.append(paths)
        return False

    monkeypatch.setattr(folder_dialog, "may_replace", answer)
    dialog.keep_button.click()
    assert len(asked[0]) == 2
    assert not dialog.running


def test_files_come_in_and_those_that_fail_say_why(
    dialog: FolderDialog, store: Store, qtbot: QtBot, tmp_path: Path
) -> None:
    for number in range(2):
        fresh = Client(ClientId(f"n{number}"), f"New {number}")
        text = write_plan(Plan(fresh))
        (tmp_path / f"{number}.plan.json").write_text(text, encoding="utf-8")
    (tmp_path / "bad.plan.json").write_text("{", encoding="utf-8")
    (tmp_path / "same.plan.json").write_text(write_plan(Plan(RUNA, PROGRAM)), encoding="utf-8")
    dialog.into.setChecked(True)
    assert [path.name for path in dialog.model.things][-2:] == ["bad.plan.json", "same.plan.json"]
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert dialog.summary.text() == (
        "2 plan files read. 1 was the same. 1 was left out; its line says why."
    )
    assert {"n0", "n1"} <= {line.id for line in store.clients()}
    assert "JSON" in dialog.model.told(2)
    assert dialog.model.index(0, 0).data() == "0.plan.json: New 0"


def test_another_version_is_left_unless_it_may_be_replaced(
    dialog: FolderDialog, bench: Bench, store: Store, qtbot: QtBot, tmp_path: Path
) -> None:
    other = replace(RUNA, team="Other")
    path = tmp_path / "a.plan.json"
    path.write_text(write_plan(Plan(other, PROGRAM)), encoding="utf-8")
    dialog.into.setChecked(True)
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert store.load_client(RUNA.id) == RUNA
    dialog.replacing.setChecked(True)
    dialog.summary.hide()
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert bench.desk.client.team == "Other"


def test_no_program_is_loaded_before_its_turn(
    dialog: FolderDialog, qtbot: QtBot, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    loaded: list[object] = []
    load = store.load_client

    def load_one(who: ClientId) -> Client:
        loaded.append(who)
        return load(who)

    monkeypatch.setattr(store, "load_client", load_one)
    dialog.keep_button.click()
    assert len(loaded) == 1
    finished(qtbot, dialog)
    assert len(loaded) == 2


def test_it_can_be_stopped_between_two_files(
    dialog: FolderDialog, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog.keep_button.click()
    dialog.stop()
    finished(qtbot, dialog)
    assert "not begun" in dialog.summary.text()
    assert len(list(tmp_path.glob("*.plan.json"))) == 1


def test_a_folder_without_plan_files_or_none_at_all_is_said(
    dialog: FolderDialog, tmp_path: Path
) -> None:
    dialog.into.setChecked(True)
    assert "no plan file" in dialog.wrong.text()
    dialog.out.setChecked(True)
    dialog.folder.setText(str(tmp_path / "no"))
    dialog.say()
    dialog.keep_button.click()
    assert "no such folder" in dialog.wrong.text()


def test_the_folder_is_chosen_and_remembered(
    dialog: FolderDialog,
    store: Store,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    there = tmp_path / "there"
    there.mkdir()
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(there))
    dialog.choose_folder()
    dialog.keep_button.click()
    finished(qtbot, dialog)
    assert store.setting("plan folder") == str(there)


def test_the_dialog_can_be_used_by_everybody(dialog: FolderDialog) -> None:
    for choice in (dialog.out, dialog.into):
        choice.setChecked(True)
        assert unnamed(dialog) == []
        assert too_small(dialog) == []
        assert marked_up(dialog) == []
