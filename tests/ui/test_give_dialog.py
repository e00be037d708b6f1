"""Giving the open program to several clients at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.client import Client, ClientId
from app.domain.exercise import Equipment
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.give_dialog import GiveDialog, Row
from app.ui.refit_lines import NOTHING
from app.ui.words import qdate
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, START


def person(name: str, **fields: Any) -> Client:
    return replace(RUNA, id=ClientId(name.split(maxsplit=1)[0].lower()), name=name, **fields)


JORUNN = person("Jorunn Aske", equipment=frozenset(Equipment) - {Equipment.RACK}, tests=())
TWIN = person("Sunniva Lund")
BARE = person("Tore Vang", equipment=frozenset(), limitations=())
GONE = person("Hanne Moe", archived=True)


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> GiveDialog:
    bare = replace(BARE, dislikes=frozenset(e.key for e in bench.desk.catalogue))
    for client in (JORUNN, TWIN, bare, GONE):
        store.save(None, Work(client), label="Add")
    made = GiveDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    return made


def row(dialog: GiveDialog, client: Client) -> Row:
    return next(one for one in dialog.rows if one.line.id == client.id)


def tick(dialog: GiveDialog, qtbot: QtBot, *clients: Client) -> None:
    """Tick these clients and wait until everything is worked out."""
    for client in clients:
        row(dialog, client).item.setCheckState(0, Qt.CheckState.Checked)
    qtbot.waitUntil(lambda: not any(one.job for one in dialog.rows), timeout=20_000)


def cells(one: Row) -> list[str]:
    return [one.item.text(column) for column in range(6)]


def told(one: Row) -> list[str]:
    return [one.item.child(k).text(0) for k in range(one.item.childCount())]


def programs(store: Store, client: Client) -> list[str]:
    return [line.name for line in store.programs(client.id)]


def test_everybody_else_who_is_not_archived_is_offered(dialog: GiveDialog) -> None:
    assert [one.line.name for one in dialog.rows] == ["Jorunn Aske", "Sunniva Lund", "Tore Vang"]
    assert not dialog.keep_button.isEnabled()


def test_differences_findings_and_loads_are_told_before_anything_is_done(
    dialog: GiveDialog, qtbot: QtBot, store: Store
) -> None:
    tick(dialog, qtbot, JORUNN, TWIN)
    hers, twins = row(dialog, JORUNN), row(dialog, TWIN)
    assert any("needs rack" in line for line in told(hers))
    assert told(twins)[0] == NOTHING
    assert cells(hers)[1] == str(len(hers.offer.refit.changes)) != "0"
    assert [int(text) for text in cells(hers)[2:5]] == [
        sum(f.weight == weight for f in hers.offer.findings) for weight in range(3)
    ]
    assert cells(hers)[5].startswith("none of ")
    assert "2 of " in cells(twins)[5], "Runa's two tests"
    assert told(hers)[-1].startswith("No test yet for ")
    assert dialog.keep_button.text() == "Give to 2 clients"
    assert programs(store, JORUNN) == []


def test_a_client_nothing_fits_is_not_counted_and_it_says_why(
    dialog: GiveDialog, qtbot: QtBot
) -> None:
    tick(dialog, qtbot, BARE)
    assert cells(row(dialog, BARE))[1] == "does not fit"
    assert "Enter the equipment" in told(row(dialog, BARE))[0]
    assert not dialog.keep_button.isEnabled()


def test_who_is_ticked_gets_it_and_the_summary_says_so(
    dialog: GiveDialog, qtbot: QtBot, store: Store, bench: Bench
) -> None:
    tick(dialog, qtbot, JORUNN, TWIN, BARE)
    dialog.name.setText("Spring season")
    with qtbot.waitSignal(bench.said) as said:
        dialog.try_keep()
    assert said.args == ["Spring season was given to 2 clients"]
    assert programs(store, JORUNN) == programs(store, TWIN) == ["Spring season"]
    assert programs(store, BARE) == []
    lines = dialog.summary.lines()
    assert lines[:2] == ["Jorunn Aske has it now.", "Sunniva Lund has it now."]
    assert lines[2].startswith("Not given to Tore Vang: No exercise")
    assert dialog.isVisible()
    assert not dialog.keep_button.isVisible()
    kept = store.load_program(store.programs(TWIN.id)[0].id)
    assert kept.weeks == PROGRAM.weeks
    assert bench.desk.program == PROGRAM


def test_what_the_file_refuses_is_in_the_summary(
    dialog: GiveDialog, qtbot: QtBot, store: Store, monkeypatch
) -> None:
    tick(dialog, qtbot, JORUNN, TWIN)
    save = store.save

    def full_for_jorunn(before, after, *, label):
        if after.client.id == JORUNN.id:
            raise StoreFailure(Cause.FULL, where=store.where)
        save(before, after, label=label)

    monkeypatch.setattr(store, "save", full_for_jorunn)
    dialog.try_keep()
    lines = dialog.summary.lines()
    assert lines[0] == "Sunniva Lund has it now."
    assert lines[1].startswith("Not given to Jorunn Aske: ")
    assert programs(store, JORUNN) == []


def test_a_name_is_needed(dialog: GiveDialog, qtbot: QtBot, store: Store) -> None:
    tick(dialog, qtbot, TWIN)
    dialog.name.setText(" ")
    dialog.try_keep()
    assert "has no name" in dialog.wrong.text()
    assert dialog.tree.isVisible()
    assert programs(store, TWIN) == []


def test_another_start_is_worked_out_again(dialog: GiveDialog, qtbot: QtBot) -> None:
    tick(dialog, qtbot, TWIN)
    assert row(dialog, TWIN).offer.refit.program.start == START
    dialog.start.setDate(qdate(date(2027, 1, 6)))
    assert not dialog.keep_button.isEnabled()
    tick(dialog, qtbot)
    assert row(dialog, TWIN).offer.refit.program.start == date(2027, 1, 4)
    assert any(line.startswith("Begins on 4 Jan 2027") for line in told(row(dialog, TWIN)))


def test_who_is_no_longer_ticked_gets_nothing(
    dialog: GiveDialog, qtbot: QtBot, store: Store
) -> None:
    tick(dialog, qtbot, JORUNN, TWIN)
    row(dialog, JORUNN).item.setCheckState(0, Qt.CheckState.Unchecked)
    assert dialog.keep_button.text() == "Give to 1 client"
    dialog.try_keep()
    assert programs(store, JORUNN) == []


def test_everybody_is_ticked_by_one_button_and_nobody_by_the_next(
    dialog: GiveDialog, qtbot: QtBot
) -> None:
    dialog.all_button.click()
    assert all(one.ticked for one in dialog.rows)
    assert dialog.all_button.text() == "Tick nobody"
    tick(dialog, qtbot)
    assert dialog.keep_button.text() == "Give to 2 clients"
    dialog.all_button.click()
    assert not any(one.ticked for one in dialog.rows)
    assert not dialog.keep_button.isEnabled()


def test_with_nobody_else_it_says_what_to_do(qtbot: QtBot, bench: Bench, store: Store) -> None:
    made = GiveDialog(bench, store, None)
    qtbot.addWidget(made)
    assert "Add a client first" in made.wrong.text()
    assert not made.keep_button.isEnabled()


def test_everybody_can_use_it(dialog: GiveDialog, qtbot: QtBot) -> None:
    tick(dialog, qtbot, JORUNN)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
