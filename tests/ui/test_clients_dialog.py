"""The roster: find, open, set stages and tags, archive, bring back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester, QTest
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId, Stage
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.clients_dialog import ClientsDialog
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA

JORUNN = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske", archived=True)
TAVI = replace(RUNA, id=ClientId("tavi"), name="Tavi Hellmark", team="Pass", tags=("rope", "night"))
SIGRID = replace(RUNA, id=ClientId("sigrid"), name="Sigrid Nygård", stage=Stage.PAUSED)


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> ClientsDialog:
    for client in (JORUNN, TAVI, SIGRID):
        store.save(None, Work(client), label="Add")
    made = ClientsDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    return made


def names(dialog: ClientsDialog) -> list[str]:
    return [dialog.model.entry(row).line.name for row in range(dialog.model.rowCount())]


def chosen(dialog: ClientsDialog) -> list[str]:
    return [entry.line.name for entry in dialog.chosen]


def test_everybody_who_is_not_archived_is_shown_and_the_open_one_is_chosen(
    dialog: ClientsDialog,
) -> None:
    assert names(dialog) == ["Runa Estvik", "Sigrid Nygård", "Tavi Hellmark"]
    assert chosen(dialog) == ["Runa Estvik"]
    assert dialog.told.text() == "3 clients of 4"
    dialog.archived.setChecked(True)
    assert names(dialog)[0] == "Jorunn Aske"
    QAbstractItemModelTester(dialog.model, QAbstractItemModelTester.FailureReportingMode.Warning)


def test_typing_narrows_and_slips_of_the_finger_are_forgiven(dialog: ClientsDialog) -> None:
    QTest.keyClicks(dialog.search, "nygard")
    assert names(dialog) == ["Sigrid Nygård"]
    dialog.search.setText("helmark")
    assert names(dialog) == ["Tavi Hellmark"]
    assert dialog.told.text() == "Nobody of that name. Names like it:"
    dialog.search.setText("rope pass")
    assert names(dialog) == ["Tavi Hellmark"]
    dialog.search.setText("zzzz qqqq")
    assert names(dialog) == []
    assert "Nobody fits" in dialog.told.text()
    assert not dialog.keep_button.isEnabled()


def test_stage_tag_and_what_is_due_narrow(dialog: ClientsDialog) -> None:
    dialog.stage.setCurrentIndex(dialog.stage.findData("paused"))
    assert names(dialog) == ["Sigrid Nygård"]
    dialog.stage.setCurrentIndex(0)
    dialog.tag.setCurrentIndex(dialog.tag.findText("night"))
    assert names(dialog) == ["Tavi Hellmark"]
    dialog.tag.setCurrentIndex(0)
    dialog.due.setChecked(True)
    assert "Sigrid Nygård" not in names(dialog)
    assert "Tavi Hellmark" in names(dialog)


def test_what_is_due_can_be_put_first(dialog: ClientsDialog) -> None:
    dialog.table.sortByColumn(1, Qt.SortOrder.AscendingOrder)
    assert names(dialog)[-1] == "Sigrid Nygård", "who needs nothing comes last"
    assert chosen(dialog) == ["Runa Estvik"] or dialog.chosen == ()


def test_the_stage_of_the_open_client_is_a_step_of_the_desk(
    dialog: ClientsDialog, bench: Bench
) -> None:
    dialog.acts.stage.setCurrentIndex(dialog.acts.stage.findData("ended"))
    dialog.acts.stage.activated.emit(0)
    assert bench.desk.client.stage is Stage.ENDED
    assert bench.desk.history.undoable.label == "Stage of Runa Estvik: ended"
    assert chosen(dialog) == ["Runa Estvik"]


def test_several_change_together_and_undo_takes_it_back(
    dialog: ClientsDialog, store: Store
) -> None:
    dialog.choose(TAVI.id, SIGRID.id)
    dialog.acts.tags.setText("north, -rope")
    dialog.acts.tag_button.click()
    assert store.load_client(TAVI.id).tags == ("night", "north")
    assert store.load_client(SIGRID.id).tags == ("north",)
    assert dialog.acts.tags.text() == ""
    assert sorted(chosen(dialog)) == ["Sigrid Nygård", "Tavi Hellmark"]
    dialog.acts.undo_button.click()
    assert store.load_client(TAVI.id) == TAVI
    assert store.load_client(SIGRID.id) == SIGRID
    assert not dialog.acts.undo_button.isEnabled()


def test_a_client_is_brought_back_and_archived_again(dialog: ClientsDialog, store: Store) -> None:
    dialog.archived.setChecked(True)
    dialog.choose(JORUNN.id)
    assert dialog.acts.archive_button.text() == "Bring back"
    dialog.acts.archive_button.click()
    assert not store.load_client(JORUNN.id).archived
    assert chosen(dialog) == ["Jorunn Aske"], "the line stays chosen"
    dialog.acts.archive_button.click()
    assert store.load_client(JORUNN.id) == JORUNN


def test_archiving_the_open_client_can_be_undone(dialog: ClientsDialog, bench: Bench) -> None:
    dialog.acts.archive_button.click()
    assert bench.desk.client.archived
    assert bench.desk.history.undoable.label == "Archive Runa Estvik"


def test_what_cannot_be_kept_is_a_sentence(
    dialog: ClientsDialog, store: Store, monkeypatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where=store.where)

    monkeypatch.setattr(store, "save", full)
    dialog.acts.archive_button.click()
    assert dialog.wrong.text()
    assert "Runa Estvik" in names(dialog)


def test_the_verb_or_enter_wants_the_chosen_client(dialog: ClientsDialog) -> None:
    dialog.choose(TAVI.id, SIGRID.id)
    assert not dialog.keep_button.isEnabled()
    dialog.try_keep()
    assert dialog.wanted is None
    QTest.keyClicks(dialog.search, "tavi")
    QTest.keyClick(dialog.search, Qt.Key.Key_Return)
    assert dialog.wanted == TAVI.id
    assert dialog.result() == ClientsDialog.DialogCode.Accepted


def test_a_new_client_can_be_asked_for_from_here(dialog: ClientsDialog) -> None:
    dialog.want_new()
    assert dialog.wants_new
    assert dialog.wanted is None


def test_an_empty_file_has_nobody_to_open(qtbot: QtBot, empty_bench: Bench) -> None:
    store = empty_bench.desk.store
    assert isinstance(store, Store)
    made = ClientsDialog(empty_bench, store, None)
    qtbot.addWidget(made)
    assert names(made) == []
    assert not made.keep_button.isEnabled()
    assert "No client yet" in made.told.text()
    made.acts.archive()
    made.acts.undo()
    assert made.chosen == ()


def test_everybody_can_use_it(dialog: ClientsDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
