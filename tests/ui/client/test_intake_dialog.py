from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui.bench import Bench
from app.ui.client import intake_dialog
from app.ui.client.intake_dialog import IntakeDialog, answers_in, read_intake
from db.store import Store
from tests.domain.test_intake import WHOLE
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA

TODAY = date(2026, 11, 25)


def opened(qtbot: QtBot, bench: Bench, store: Store, answers: dict[str, str]) -> IntakeDialog:
    made = IntakeDialog(bench, store, None, answers, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> IntakeDialog:
    return opened(qtbot, bench, store, {**WHOLE, "pains": "left knee"})


def test_a_form_of_somebody_new_adds_a_client(dialog: IntakeDialog, bench: Bench) -> None:
    assert dialog.is_new
    assert dialog.keep_button.text() == "Add client"
    dialog.keep_button.click()
    assert bench.desk.client.name == "Ilse Brandal"
    assert bench.desk.client.screenings


def test_what_is_answered_is_not_cut(dialog: IntakeDialog) -> None:
    names = [line.what for line in dialog.taken.lines]
    longest = max(dialog.table.fontMetrics().horizontalAdvance(name) for name in names)
    assert dialog.table.columnWidth(0) > longest + 30


def test_what_needs_a_talk_is_listed(dialog: IntakeDialog) -> None:
    texts = [dialog.open_lines.item(row).text() for row in range(dialog.open_lines.count())]
    assert any("left knee" in text for text in texts)


def test_answers_for_the_open_client_are_one_step_that_can_be_undone(
    dialog: IntakeDialog, bench: Bench
) -> None:
    dialog.target.setCurrentIndex(1)
    assert "names Ilse Brandal" in dialog.warning.text()
    name = next(item for item in dialog._items() if item.text(0) == "Name")
    name.setCheckState(0, Qt.CheckState.Unchecked)
    dialog.keep_button.click()
    assert bench.desk.client.name == RUNA.name
    assert bench.desk.client.mass_kg == pytest.approx(69.85, abs=0.01)
    bench.desk.undo()
    assert bench.desk.client == RUNA


def test_a_form_of_the_open_client_is_meant_for_her(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    made = opened(qtbot, bench, store, {**WHOLE, "name": RUNA.name})
    assert not made.is_new
    assert made.warning.text() == ""
    made.target.setCurrentIndex(0)
    assert "already" in made.warning.text()


def test_a_form_that_says_nothing_new_keeps_nothing(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    made = opened(qtbot, bench, store, {"name": RUNA.name})
    assert "nothing that is not known" in made.wrong.text()
    assert not made.keep_button.isEnabled()


def test_a_file_that_is_no_form_is_refused(tmp_path: Path) -> None:
    wrong = tmp_path / "a.pdf"
    wrong.write_bytes(b"hello")
    with pytest.raises(CoachError, match="no PDF"):
        answers_in(wrong)


def test_a_refused_file_is_told_of_in_the_window(
    bench: Bench, store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    wrong = tmp_path / "a.pdf"
    wrong.write_bytes(b"hello")
    told: list[str] = []
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(wrong), ""))
    monkeypatch.setattr(
        intake_dialog, "tell", lambda _window, _title, sentence: told.append(sentence)
    )
    read_intake(bench, store, None)
    assert "no PDF" in told[0]


def test_no_file_chosen_changes_nothing(
    bench: Bench, store: Store, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    read_intake(bench, store, None)
    assert bench.desk.client == RUNA


def test_everybody_can_use_it(dialog: IntakeDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
