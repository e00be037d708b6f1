"""A whole export in the place of the open file: said first, put aside, and the window goes on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.domain.work import Work
from app.ui.take_in_sheet import TakeInSheet
from app.whole import export_whole
from db.backup import all_copies
from db.store import Store
from tests.db.samples import PLAN, RUNA, fill
from tests.db.test_elsewhere import ODA


@pytest.fixture
def source(tmp_path: Path) -> Path:
    path = tmp_path / "all.zip"
    with closing(Store.in_memory()) as other:
        fill(other)
        export_whole(other, path)
    return path


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store.open(tmp_path / "coach.db")
    made.save(None, Work(ODA), label="Add client")
    yield made
    made.close()


def opened(qtbot: QtBot, store: Store, source: Path) -> TakeInSheet:
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(ODA.id)
    desk.keep_client("Note", replace(ODA, note="rings on Sunday"))
    sheet = TakeInSheet(desk, store, source, None)
    qtbot.addWidget(sheet)
    sheet.show()
    return sheet


def test_it_says_what_is_replaced_and_enter_alone_does_nothing(qtbot, dressed, store, source):
    sheet = opened(qtbot, store, source)
    said = " ".join(label.text() for label in sheet.findChildren(QLabel) if label.isVisible())
    assert "takes the place of everything" in said
    assert "put aside as a copy" in said
    sheet.reject()
    assert [line.id for line in store.clients()] == [ODA.id]


def test_the_store_goes_on_with_what_was_taken_in(qtbot, dressed, store, source):
    sheet = opened(qtbot, store, source)
    with qtbot.waitSignal(sheet.accepted, timeout=60_000):
        sheet.keep_button.click()
    assert [line.id for line in store.clients()] == [RUNA.id]
    assert store.load_program(PLAN.id) == PLAN
    assert sheet.desk.work is None
    assert list(sheet.desk.seen()) == []
    (aside,) = all_copies(store.path)
    assert str(aside) in sheet.said
    store.set_setting("open", "runa")  # and it can be written to


def test_a_foreign_file_is_said_and_nothing_changes(qtbot, dressed, store, tmp_path):
    letter = tmp_path / "letter.zip"
    letter.write_text("Dear Runa", encoding="utf-8")
    sheet = opened(qtbot, store, letter)
    sheet.keep_button.click()
    qtbot.waitUntil(lambda: bool(sheet.wrong.text()), timeout=60_000)
    assert "not a whole-file export" in sheet.wrong.text()
    assert [line.id for line in store.clients()] == [ODA.id]
    assert sheet.desk.work is not None
    assert all_copies(store.path) == ()
