"""The sheet that copies a client says what goes along."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.roster.copy_sheet import CopySheet
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA
from tests.ui.steps import kept, retype


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench, store: Store) -> CopySheet:
    made = CopySheet(store, RUNA.id, RUNA.name, None)
    qtbot.addWidget(made)
    made.show()
    return made


def test_what_belongs_to_the_person_stays_unless_asked_for(sheet: CopySheet, store: Store) -> None:
    assert sheet.name.text() == "Runa Estvik, copy"
    kept(sheet)
    made = store.load_client(sheet.made.id)
    assert made.tests == ()
    assert made.free == RUNA.free
    assert store.programs(made.id) == ()


def test_everything_goes_along_when_asked_for(sheet: CopySheet, store: Store) -> None:
    sheet.programs.setChecked(True)
    sheet.health.setChecked(True)
    kept(sheet)
    assert store.load_client(sheet.made.id).tests == RUNA.tests
    assert len(store.programs(sheet.made.id)) == 1


def test_a_copy_needs_a_name(sheet: CopySheet, store: Store) -> None:
    retype(sheet.name, " ")
    sheet.try_keep()
    assert sheet.wrong.text()
    assert len(store.clients()) == 1


def test_everybody_can_use_it(sheet: CopySheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
