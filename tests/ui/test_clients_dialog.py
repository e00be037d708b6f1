"""All clients: open one, archive one, bring one back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.clients_dialog import ClientsDialog
from app.ui.lines_table import choose
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA

JORUNN = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske", archived=True)


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> ClientsDialog:
    store.save(None, Work(JORUNN), label="Add")
    made = ClientsDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    return made


def rows(dialog: ClientsDialog) -> list[tuple[str, ...]]:
    items = [dialog.table.topLevelItem(k) for k in range(dialog.table.topLevelItemCount())]
    return [tuple(item.text(column) for column in (0, 2, 3)) for item in items]


def test_archived_clients_come_last_and_the_open_one_is_chosen(dialog: ClientsDialog) -> None:
    assert rows(dialog) == [("Runa Estvik", "1", ""), ("Jorunn Aske", "0", "archived")]
    assert dialog.line.id == RUNA.id
    assert dialog.archive_button.text() == "Archive"


def test_a_client_is_brought_back_and_archived_again(dialog: ClientsDialog, store: Store) -> None:
    choose(dialog.table, JORUNN.id)
    assert dialog.archive_button.text() == "Bring back"
    dialog.archive_button.click()
    assert not store.load_client(JORUNN.id).archived
    assert dialog.line.id == JORUNN.id, "the line stays chosen"
    dialog.archive_button.click()
    assert store.load_client(JORUNN.id) == JORUNN


def test_archiving_the_open_client_can_be_undone(dialog: ClientsDialog, bench: Bench) -> None:
    dialog.archive_button.click()
    assert bench.desk.client.archived
    assert bench.desk.history.undoable.label == "Archive Runa Estvik"


def test_what_cannot_be_kept_is_a_sentence(
    dialog: ClientsDialog, store: Store, monkeypatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where=store.where)

    monkeypatch.setattr(store, "save", full)
    dialog.archive_button.click()
    assert dialog.wrong.text()
    assert rows(dialog)[0] == ("Runa Estvik", "1", "")


def test_the_verb_wants_the_chosen_client(dialog: ClientsDialog) -> None:
    choose(dialog.table, JORUNN.id)
    dialog.try_keep()
    assert dialog.wanted == JORUNN.id
    assert dialog.result() == ClientsDialog.DialogCode.Accepted


def test_an_empty_file_has_nobody_to_open(qtbot: QtBot, empty_bench: Bench) -> None:
    store = empty_bench.desk.store
    assert isinstance(store, Store)
    made = ClientsDialog(empty_bench, store, None)
    qtbot.addWidget(made)
    assert rows(made) == []
    assert not made.keep_button.isEnabled()
    made.archive()
    assert made.line is None


def test_everybody_can_use_it(dialog: ClientsDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
