"""References out and in."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app import resources
from app.exchange.bibliography.files import Form, write_references
from app.ui.bench import Bench
from app.ui.exchange.references_dialog import ReferencesDialog
from db.store import Store
from tests.exchange.bibliography.samples import record
from tests.ui.access import marked_up, too_small, unnamed

WAIT_MS = 30_000


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> Iterator[ReferencesDialog]:
    made = ReferencesDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def take_in(dialog: ReferencesDialog, qtbot: QtBot, path: Path) -> None:
    dialog.told.clear()
    dialog.take_in_file(path)
    qtbot.waitUntil(dialog.take_button.isEnabled, timeout=WAIT_MS)


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    path = tmp_path / "mine.ris"
    path.write_bytes(write_references([record(title="On <b>ridges</b>")], Form.RIS))
    return path


def test_all_are_saved_in_the_form_that_is_chosen(
    dialog: ReferencesDialog, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "out"), ""))
    for number in range(len(Form)):
        dialog.forms.setCurrentIndex(number)
        dialog.keep_button.click()
    assert sorted(p.suffix for p in tmp_path.iterdir()) == [".bib", ".json", ".ris"]
    saved = json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))
    assert len(saved) == len(resources.references())


def test_those_of_the_program_alone(dialog: ReferencesDialog) -> None:
    dialog.choices["program"].setChecked(True)
    keys = {reference.id for reference in dialog.wanted()}
    assert keys
    assert keys < set(resources.references())


def test_own_ones_come_in_and_go(
    dialog: ReferencesDialog, bench: Bench, qtbot: QtBot, mine: Path
) -> None:
    assert not dialog.choices["own"].isEnabled()
    take_in(dialog, qtbot, mine)
    assert dialog.told.lines() == ["1 reference taken in."]
    assert bench.shelf.references["estvik2020"].short == "Estvik 2020"
    take_in(dialog, qtbot, mine)
    assert dialog.told.lines() == ["0 references taken in. 1 was there already."]
    dialog.tree.setCurrentItem(dialog.tree.topLevelItem(0))
    dialog.remove_button.click()
    assert dialog.tree.topLevelItemCount() == 0
    assert "estvik2020" not in bench.shelf.references


def test_what_is_no_such_file_is_said(
    dialog: ReferencesDialog, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "a.bib"
    path.write_text("hello", encoding="utf-8")
    take_in(dialog, qtbot, path)
    assert "neither" in dialog.wrong.text()


def test_trouble_with_writing_is_said(
    dialog: ReferencesDialog, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    there = tmp_path / "no" / "a.json"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(there), ""))
    dialog.keep_button.click()
    assert dialog.wrong.text()


def test_the_file_is_asked_for(
    dialog: ReferencesDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, mine: Path
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    dialog.take_button.click()
    assert dialog.take_button.isEnabled()
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(mine), ""))
    dialog.take_button.click()
    qtbot.waitUntil(lambda: dialog.tree.topLevelItemCount() == 1, timeout=WAIT_MS)


def test_the_dialog_can_be_used_by_everybody(
    dialog: ReferencesDialog, qtbot: QtBot, mine: Path
) -> None:
    take_in(dialog, qtbot, mine)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
