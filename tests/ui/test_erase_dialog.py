"""Two steps, the name in both, and nothing gone before the second."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.erasure import Erased, Wish
from app.ui.erase_dialog import EraseDialog, summary
from db.backup import back_up
from db.store import Store
from tests.db.samples import RUNA, fill
from tests.marked import add_marked, found_in, marked_client

MARKED = marked_client()


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store.open(tmp_path / "coach.db")
    fill(made)
    add_marked(made)
    back_up(made.path)
    yield made
    made.close()


@pytest.fixture
def dialog(qtbot: QtBot, dressed, store: Store) -> EraseDialog:
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(MARKED.id)
    made = EraseDialog(desk, store, MARKED.id, None)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def texts(dialog: EraseDialog) -> str:
    return " ".join(label.text() for label in dialog.findChildren(QLabel) if label.isVisible())


def is_there(store: Store) -> bool:
    return MARKED.id in [line.id for line in store.clients()]


def test_the_first_step_says_what_goes_and_what_stays(dialog, store):
    said = texts(dialog)
    for words in (
        "1 program",
        "1 booklet as handed out",
        "1 check-in",
        "1 picture",
        "1 copy still holds the client",
        "Printed booklets",
    ):
        assert words in said
    assert dialog.wish is Wish.REWRITE
    assert MARKED.name in dialog.windowTitle()


def test_enter_alone_erases_nothing(dialog, store, qtbot):
    assert dialog.focusWidget() is dialog.cancel_button
    dialog.keep_button.click()
    assert dialog.steps.currentIndex() == 1
    assert MARKED.name in dialog.keep_button.text()
    assert dialog.focusWidget() is dialog.back_button
    qtbot.keyClick(dialog, Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert is_there(store)
    dialog.back_button.click()
    assert dialog.steps.currentIndex() == 0
    dialog.reject()
    assert is_there(store)


def test_the_second_step_erases_file_and_copies(dialog, store, qtbot):
    dialog.keep_button.click()
    with qtbot.waitSignal(dialog.accepted, timeout=60_000):
        dialog.keep_button.click()
    assert not is_there(store)
    assert dialog.desk.work is None
    assert found_in(store.path.parent) == {}
    assert "1 copy was rewritten" in dialog.said
    assert MARKED.name not in dialog.said
    assert store.load_client(RUNA.id) == RUNA


def test_a_failure_is_said_and_the_client_stays(dialog, store, qtbot):
    store.path.rename(store.path.with_name("away.db"))
    dialog.keep_button.click()
    dialog.keep_button.click()
    qtbot.waitUntil(lambda: bool(dialog.wrong.text()), timeout=60_000)
    assert "no longer where it was" in dialog.wrong.text()
    assert is_there(store)
    assert dialog.desk.work is not None


def test_it_cannot_be_left_while_it_works(dialog, store, qtbot):
    dialog.keep_button.click()
    dialog.keep_button.click()
    dialog.reject()
    dialog.close()
    assert dialog.isVisible()
    with qtbot.waitSignal(dialog.accepted, timeout=60_000):
        pass


def test_what_is_left_is_named():
    said = summary(Erased(left=(Path("coach-1.db"),), pictures_left=2, mentions=1))
    for words in ("coach-1.db", "2 pictures", "1 text of other clients"):
        assert words in said


def test_without_copies_there_is_nothing_to_choose(qtbot, dressed):
    store = Store.in_memory()
    add_marked(store)
    desk = Desk(store, resources.catalogue(), resources.range_book())
    made = EraseDialog(desk, store, MARKED.id, None)
    qtbot.addWidget(made)
    assert (made.wishes, made.wish) == ({}, Wish.LEAVE)
    store.close()
