"""Acts on chosen clients: what is offered for one, two and none; copies and merges from here."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId, Stage
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.clients_dialog import ClientsDialog
from app.ui.roster.copy_sheet import CopySheet
from app.ui.roster.merge_dialog import MergeDialog
from db.store import Store
from tests.ui.desks import RUNA
from tests.ui.steps import retype

TWIN = replace(RUNA, id=ClientId("twin"), name="R. Estvik", stage=Stage.PAUSED)


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench, store: Store) -> ClientsDialog:
    store.save(None, Work(TWIN), label="Add")
    made = ClientsDialog(bench, store, None)
    qtbot.addWidget(made)
    return made


def test_what_is_offered_follows_how_many_are_chosen(dialog: ClientsDialog) -> None:
    acts = dialog.acts
    dialog.choose(RUNA.id)
    assert (acts.copy_button.isEnabled(), acts.merge_button.isEnabled()) == (True, False)
    assert acts.stage.currentData() == "active"
    dialog.choose(RUNA.id, TWIN.id)
    assert (acts.copy_button.isEnabled(), acts.merge_button.isEnabled()) == (False, True)
    assert acts.stage.currentIndex() == -1, "two stages are no stage"
    dialog.search.setText("zzzz qqqq")
    assert not acts.archive_button.isEnabled()


def test_an_edit_that_changes_nothing_is_no_step(dialog: ClientsDialog, bench: Bench) -> None:
    dialog.choose(RUNA.id)
    dialog.acts.set_stage()
    assert bench.desk.history.undoable is None
    assert dialog.acts.done == []
    dialog.acts.change_tags()
    assert dialog.acts.done == []


def test_undo_says_why_it_cannot(dialog: ClientsDialog, store: Store) -> None:
    dialog.choose(TWIN.id)
    dialog.acts.archive()
    now = store.load_client(TWIN.id)
    store.save(Work(now), Work(replace(now, mass_kg=80.0)), label="x")
    dialog.acts.undo()
    assert "was changed since" in dialog.wrong.text()
    assert store.load_client(TWIN.id).mass_kg == 80.0


def test_a_copy_is_made_and_chosen(
    dialog: ClientsDialog, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer(sheet: CopySheet) -> int:
        retype(sheet.name, "Nils Dahl")
        sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(CopySheet, "exec", answer)
    dialog.choose(TWIN.id)
    dialog.acts.copy()
    assert [entry.line.name for entry in dialog.chosen] == ["Nils Dahl"]
    assert len(store.clients()) == 3


def test_two_records_are_merged_from_here(
    dialog: ClientsDialog, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer(sheet: MergeDialog) -> int:
        sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(MergeDialog, "exec", answer)
    dialog.choose(RUNA.id, TWIN.id)
    dialog.acts.merge()
    assert len(store.clients()) == 1
    assert dialog.model.rowCount() == 1
    assert "is one record now" in dialog.told.text()
