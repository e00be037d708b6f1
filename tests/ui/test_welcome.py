"""The first page: what to do next, in one click."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.ui.welcome import CAUTION, Welcome


@pytest.fixture
def page(qtbot: QtBot) -> Welcome:
    made = Welcome()
    qtbot.addWidget(made)
    made.show()
    return made


def test_an_empty_file_leads_to_the_first_client_or_the_demo(qtbot: QtBot, page: Welcome) -> None:
    assert page.title.text() == "Your first client"
    with qtbot.waitSignal(page.client_wanted, timeout=500):
        qtbot.mouseClick(page.act, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(page.demo_wanted, timeout=500):
        qtbot.mouseClick(page.demo, Qt.MouseButton.LeftButton)


def test_nobody_open_leads_to_a_client_and_offers_no_demo(qtbot: QtBot, page: Welcome) -> None:
    page.show_state(clients=3, client="")
    assert page.title.text() == "No client is open"
    assert not page.demo.isVisible()
    with qtbot.waitSignal(page.client_wanted, timeout=500):
        qtbot.mouseClick(page.act, Qt.MouseButton.LeftButton)


def test_a_client_without_a_program_leads_to_one(qtbot: QtBot, page: Welcome) -> None:
    page.show_state(clients=1, client="Runa <i>Estvik</i>")
    assert page.title.text() == "No program for Runa <i>Estvik</i> yet"
    assert page.title.textFormat() is Qt.TextFormat.PlainText
    page.act.setFocus()
    with qtbot.waitSignal(page.program_wanted, timeout=500):
        qtbot.keyClick(page.act, Qt.Key.Key_Space)


def test_the_caution_says_to_refer() -> None:
    assert "does not diagnose or treat" in CAUTION
    assert "licensed practitioner" in CAUTION
