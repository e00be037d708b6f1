"""A question waits for its answer, and changes nothing by itself."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.domain.doubt import Doubt
from app.domain.errors import CoachError
from app.ui.client.doubt_line import DoubtLine

SLIP = Doubt("Is 146 kg right?", 66.22)


@pytest.fixture
def changed() -> list[float]:
    return []


@pytest.fixture
def line(qtbot: QtBot, changed: list[float]) -> DoubtLine:
    made = DoubtLine(changed.append)
    qtbot.addWidget(made)
    return made


def test_without_a_doubt_nothing_is_asked(line: DoubtLine) -> None:
    line.put(None)
    line.require_answer()
    assert not line.isVisible()


def test_an_open_question_holds_keeping_up(line: DoubtLine, changed: list[float]) -> None:
    line.put(SLIP)
    assert line.isVisible()
    assert line.question.text() == "Is 146 kg right?"
    with pytest.raises(CoachError, match="A question waits"):
        line.require_answer()
    line.right.setChecked(True)
    line.put(SLIP)
    line.require_answer()
    assert changed == []
    line.put(Doubt("Is 150 kg right?", 68.0))
    with pytest.raises(CoachError, match="A question waits"):
        line.require_answer()


def test_one_click_makes_the_change(line: DoubtLine, changed: list[float]) -> None:
    line.put(SLIP)
    assert line.change_button.text() == "Change to 66.2 kg"
    QTest.mouseClick(line.change_button, Qt.MouseButton.LeftButton)
    assert changed == [66.2]
    line.require_answer()
    line.put(Doubt("Is 300 kg right?"))
    assert not line.change_button.isVisible()
