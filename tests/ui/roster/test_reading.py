"""The roster in pieces: all of it in the end, in order, and the window free between them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId
from app.domain.work import Work
from app.ui.clients_dialog import ClientsDialog
from app.ui.home import HomePage
from app.ui.roster import reading
from app.ui.roster.finder import entries
from app.ui.roster.reading import RosterReading
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.desks import RUNA

TODAY = date(2026, 11, 25)


@pytest.fixture
def seven() -> Store:
    made = Store.in_memory()
    for number in range(7):
        who = replace(RUNA, id=ClientId(f"c{number}"), name=f"Client {number}")
        made.save(None, Work(who), label="Add")
    return made


@pytest.fixture
def small_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "PIECE", 3)


def test_a_short_list_is_there_at_once(qapp: QObject, seven: Store) -> None:
    made = RosterReading(qapp)
    found: list[object] = []
    made.done.connect(found.append)
    made.begin(seven, TODAY)
    assert found == [entries(seven.roster(), TODAY)]


def test_a_long_list_comes_in_pieces_and_whole(
    qtbot: QtBot, qapp: QObject, seven: Store, small_pieces: None
) -> None:
    made = RosterReading(qapp)
    begun: list[tuple[int, int]] = []
    told: list[tuple[int, int]] = []
    made.begun.connect(lambda some, count: begun.append((len(some), count)))
    made.told.connect(lambda read, count: told.append((read, count)))
    with qtbot.waitSignal(made.done) as done:
        made.begin(seven, TODAY)
        assert begun == [(3, 7)]
    assert told == [(6, 7)]
    assert done.args == [entries(seven.roster(), TODAY)]


def test_who_goes_meanwhile_is_left_out_and_a_failure_is_told(
    qtbot: QtBot, qapp: QObject, seven: Store, small_pieces: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = RosterReading(qapp)

    def lost(_ids: object) -> None:
        raise StoreFailure(Cause.LOCKED, what="The file is locked.", mend="Try again.")

    made.begin(seven, TODAY)
    monkeypatch.setattr(seven, "roster", lost)
    with qtbot.waitSignal(made.failed) as failed:
        pass
    assert failed.args[0].what == "The file is locked."


def test_the_dialog_shows_the_first_at_once_and_keeps_who_is_chosen(
    qtbot: QtBot, dressed: object, bench, seven: Store, small_pieces: None
) -> None:
    dialog = ClientsDialog(bench, seven, None)
    qtbot.addWidget(dialog)
    assert dialog.model.rowCount() == 3
    assert dialog.told.text() == "Reading the list: 3 of 7"
    dialog.choose(ClientId("c2"))
    qtbot.waitUntil(lambda: dialog.model.rowCount() == 7)
    assert [entry.line.id for entry in dialog.chosen] == ["c2"]
    dialog.refresh((ClientId("c5"),))
    assert dialog.model.rowCount() == 7, "the list that is shown stays while it is read again"
    qtbot.waitUntil(lambda: [entry.line.id for entry in dialog.chosen] == ["c5"])
    assert dialog.told.text() == "7 clients of 7"


def test_the_page_of_today_says_how_far_it_is(
    qtbot: QtBot, dressed: object, seven: Store, small_pieces: None
) -> None:
    page = HomePage()
    qtbot.addWidget(page)
    page.read(seven, open_name="", today=TODAY)
    assert page.about.text() == "Reading the list: 3 of 7"
    qtbot.waitUntil(lambda: page.model.rowCount() > 0)
    assert page.about.text().startswith("7 clients need something.")
