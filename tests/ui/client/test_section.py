"""A section of the client pane: its parts, and when it is filled again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.domain.client import Client
from app.domain.edits.place import move_session
from app.domain.findings import edit
from app.ui.bench import Bench
from app.ui.client.section import Section
from tests.ui.client.panes import button, texts
from tests.ui.desks import with_client


class Counting(Section):
    """A section that counts how often it was filled and told of a week."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.filled = self.weeks = 0

    def fill(self, client: Client) -> None:
        self.filled += 1
        self.head("Counted", "times")
        self.line(client.name)
        self.links(("Again", self.refresh))

    def show_week(self) -> None:
        self.weeks += 1


@pytest.fixture
def counting(qtbot: QtBot, bench: Bench) -> Counting:
    made = Counting(bench)
    qtbot.addWidget(made)
    bench.changed.connect(made.work_changed)
    made.refresh()
    made.show()
    return made


def test_an_edit_of_the_plan_leaves_a_section_of_the_client_as_it_is(
    counting: Counting, bench: Bench
) -> None:
    assert counting.filled == 1
    session = bench.desk.program.weeks[0].days[3].sessions[0]
    bench.keep(edit("Move", move_session, session_id=session.id, day=4))
    assert (counting.filled, counting.weeks) == (1, 1)
    with_client(bench, name="Runa Aske")
    assert (counting.filled, counting.weeks) == (2, 1)
    assert texts(counting)[-1] == "Runa Aske"


def test_a_button_may_fill_its_own_section_again(counting: Counting) -> None:
    QTest.mouseClick(button(counting, "Again"), Qt.MouseButton.LeftButton)
    assert counting.filled == 2
    assert texts(counting) == ["Counted", "times", "Runa Estvik"]


def test_nothing_is_filled_while_no_client_is_open(counting: Counting, bench: Bench) -> None:
    bench.desk.close()
    assert counting.filled == 1
    assert texts(counting) == []


def test_the_focus_stays_on_its_button_when_the_section_is_filled_again(
    counting: Counting, qtbot: QtBot
) -> None:
    counting.activateWindow()
    pressed = button(counting, "Again")
    pressed.setFocus()
    qtbot.waitUntil(pressed.hasFocus)
    QTest.keyClick(pressed, Qt.Key.Key_Space)
    now = button(counting, "Again")
    assert now is not pressed
    assert now.hasFocus()
