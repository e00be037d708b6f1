"""The window's commands on clients and programs as a whole, and on what was done."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QDialog

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from app.ui.actions import BY_ID
from app.ui.clients_dialog import ClientsDialog
from app.ui.forms import Sheet
from app.ui.window import Window
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA

JORUNN = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske", archived=True)
HILL = replace(PROGRAM, id=ProgramId("hill"), name="Hill season")


@pytest.fixture
def asked(monkeypatch) -> list[Sheet]:
    """Every dialog that is opened is cancelled at once."""
    seen: list[Sheet] = []

    def cancel(dialog: Sheet) -> int:
        seen.append(dialog)
        dialog.reject()
        return int(QDialog.DialogCode.Rejected)

    monkeypatch.setattr(Sheet, "exec", cancel)
    return seen


@pytest.mark.parametrize(
    ("action", "title"),
    [
        ("clients", "Clients"),
        ("programs", "Programs of the client"),
        ("history", "History of the client"),
        ("compare_states", "Compare Ridge season"),
        ("give", "Give Ridge season to others"),
    ],
)
def test_a_cancelled_dialog_changes_nothing(
    window: Window, asked: list[Sheet], action: str, title: str
) -> None:
    BY_ID[action].run(window)
    assert [dialog.windowTitle() for dialog in asked] == [title]
    assert (window.bench.desk.client, window.bench.desk.program) == (RUNA, PROGRAM)
    assert window.bench.desk.history.undoable is None


def test_the_open_program_is_archived_and_brought_back_by_one_command(
    window: Window, store: Store
) -> None:
    BY_ID["archive_program"].run(window)
    assert store.load_program(PROGRAM.id).archived
    assert window.top.programs.currentText() == "Ridge season, 6 weeks, archived"
    BY_ID["archive_program"].run(window)
    assert window.bench.desk.program == PROGRAM
    labels = [step.label for step in window.bench.desk.history.steps]
    assert labels == ["Archive Ridge season", "Bring back Ridge season"]


def test_an_archived_program_is_offered_only_while_it_is_open(window: Window, store: Store) -> None:
    store.save(Work(RUNA), Work(RUNA, HILL), label="Add")
    BY_ID["archive_program"].run(window)
    window.choose_program(HILL.id)
    box = window.top.programs
    assert [box.itemText(k) for k in range(box.count())] == ["Hill season, 6 weeks", "New program…"]


def test_the_client_that_is_wanted_is_opened(window: Window, store: Store, monkeypatch) -> None:
    store.save(None, Work(JORUNN), label="Add")

    def want_jorunn(dialog: ClientsDialog) -> int:
        dialog.archived.setChecked(True)
        dialog.choose(JORUNN.id)
        dialog.try_keep()
        return int(QDialog.DialogCode.Accepted)

    monkeypatch.setattr(ClientsDialog, "exec", want_jorunn)
    BY_ID["clients"].run(window)
    assert window.bench.desk.client == JORUNN
    assert window.top.clients.currentText() == "Jorunn Aske, archived"
