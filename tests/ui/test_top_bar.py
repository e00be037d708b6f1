"""The bar above everything."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId
from app.domain.edits.whole import rename
from app.domain.findings import edit
from app.domain.program import ProgramId
from app.ui.bench import Bench
from app.ui.top_bar import NARROW, TopBar
from app.ui.window import Window
from app.ui.words import tip
from db.lines import ClientLine, ProgramLine
from tests.ui.desks import PROGRAM, RUNA, START

CLIENTS = (
    ClientLine(ClientId("jorunn"), "Jorunn Aske", "", False, 0),
    ClientLine(RUNA.id, RUNA.name, "", False, 1),
)
PROGRAMS = (
    ProgramLine(PROGRAM.id, "Ridge season", START, 6, False),
    ProgramLine(ProgramId("one"), "Test week", START, 1, False),
)


@pytest.fixture
def bar(qtbot: QtBot, bench: Bench) -> TopBar:
    made = TopBar(bench)
    qtbot.addWidget(made)
    made.show()
    made.show_clients(CLIENTS, RUNA.id)
    made.show_programs(PROGRAMS, PROGRAM.id)
    return made


def test_clients_and_programs_are_listed_with_the_open_ones_chosen(bar: TopBar) -> None:
    assert bar.clients.currentText() == "Runa Estvik"
    assert bar.programs.currentText() == "Ridge season, 6 weeks"
    assert bar.programs.itemText(1) == "Test week, 1 week"
    assert bar.clients.itemText(2) == "New client…"
    assert bar.programs.itemText(2) == "New program…"


def test_nobody_chosen_asks_to_choose(bar: TopBar) -> None:
    bar.show_clients(CLIENTS, None)
    bar.show_programs((), None)
    assert bar.clients.currentIndex() == bar.programs.currentIndex() == -1
    assert bar.clients.placeholderText() == "Choose a client"


def test_choosing_by_keys_tells_which(qtbot: QtBot, bar: TopBar) -> None:
    bar.clients.setFocus()
    with qtbot.waitSignal(bar.client_chosen, timeout=500) as told:
        qtbot.keyClick(bar.clients, Qt.Key.Key_Up)
    assert told.args == ["jorunn"]
    with qtbot.waitSignal(bar.program_chosen, timeout=500) as told:
        qtbot.keyClick(bar.programs, Qt.Key.Key_End)
    assert told.args == [None], "the last line asks for a new one"


def test_filling_the_lists_chooses_nothing(qtbot: QtBot, bar: TopBar) -> None:
    with qtbot.assertNotEmitted(bar.client_chosen), qtbot.assertNotEmitted(bar.program_chosen):
        bar.show_clients(CLIENTS, ClientId("jorunn"))
        bar.show_programs(PROGRAMS, ProgramId("one"))


def test_undo_says_what_it_would_take_back(qtbot: QtBot, bar: TopBar, bench: Bench) -> None:
    assert not bar.undo_button.isEnabled()
    assert "Nothing to undo" in bar.undo_button.toolTip()
    bench.keep(edit("Rename Ridge season", rename, name="Winter"))
    assert bar.undo_button.isEnabled()
    assert bar.undo_label.text() == "Undo: Rename Ridge season"
    qtbot.mouseClick(bar.undo_button, Qt.MouseButton.LeftButton)
    assert bench.desk.program == PROGRAM
    assert bar.redo_button.isEnabled()
    assert bar.undo_label.text() == ""
    qtbot.mouseClick(bar.redo_button, Qt.MouseButton.LeftButton)
    assert bench.desk.program.name == "Winter"


def test_a_name_with_markup_is_text_in_label_and_tip(bar: TopBar, bench: Bench) -> None:
    bench.keep(edit("Rename to <b>x</b>", rename, name="<b>x</b>"))
    assert bar.undo_label.textFormat() is Qt.TextFormat.PlainText
    assert "&lt;b&gt;x&lt;/b&gt;" in bar.undo_button.toolTip()


def test_a_booklet_needs_a_program(qtbot: QtBot, bar: TopBar, bench: Bench) -> None:
    with qtbot.waitSignal(bar.booklet_wanted, timeout=500):
        qtbot.mouseClick(bar.booklet, Qt.MouseButton.LeftButton)
    bench.desk.open(RUNA.id)
    assert not bar.booklet.isEnabled()
    assert bar.programs.isEnabled()
    bench.desk.close()
    assert not bar.programs.isEnabled()


def test_another_client_starts_with_nothing_to_undo(bar: TopBar, bench: Bench) -> None:
    bench.keep(edit("Rename", rename, name="Winter"))
    bench.desk.add_client(replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske"))
    assert not bar.undo_button.isEnabled()


def test_many_clients_do_not_make_the_box_wider_than_a_name(bar: TopBar) -> None:
    many = tuple(ClientLine(ClientId(str(n)), "N" * (n % 90), "", False, 0) for n in range(2000))
    bar.show_clients(many, ClientId("1999"))
    assert bar.clients.currentData() == "1999"
    assert bar.clients.count() == 2001
    assert bar.clients.sizeHint().width() <= bar.clients.maximumWidth()
    bar.show_clients(CLIENTS, RUNA.id)
    assert [bar.clients.itemData(k) for k in range(2)] == ["jorunn", RUNA.id]


@pytest.mark.parametrize("width", [1000, 1200, 1600])
def test_no_menu_is_cut_off_in_the_narrowest_window(window: Window, qtbot: QtBot, width) -> None:
    window.resize(width, 640)
    menus = window.top.menus
    last = menus.actions()[-1]
    qtbot.waitUntil(lambda: menus.property("compact") == (width < NARROW))
    qtbot.waitUntil(lambda: menus.actionGeometry(last).right() <= menus.width())
    assert menus.width() >= menus.sizeHint().width()


def test_a_name_without_room_is_whole_in_the_tip(bar: TopBar, qtbot: QtBot) -> None:
    name = "Wilhelmina Konstantinopolitańska of the upper valley"
    bar.show_clients((ClientLine(RUNA.id, name, "", False, 1),), RUNA.id)
    bar.clients.setFixedWidth(140)
    bar.clients.grab()
    assert bar.clients.toolTip() == tip(name)
    bar.clients.setFixedWidth(600)
    bar.clients.grab()
    assert bar.clients.toolTip() == ""
