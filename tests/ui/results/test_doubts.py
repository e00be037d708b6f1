"""Questions are asked with the change they suspect, and go once they are answered."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from app.ui.results.doubts import MOST, Doubts, Question


def test_a_question_offers_its_change_and_that_it_is_right(qtbot: QtBot) -> None:
    said: list[str] = []
    doubts = Doubts()
    qtbot.addWidget(doubts)
    assert doubts.isHidden()
    doubts.put(
        [Question("In lb?", lambda: said.append("right"), "Was in lb", lambda: said.append("lb"))]
    )
    assert not doubts.isHidden()
    buttons = {b.text(): b for b in doubts.findChildren(QPushButton)}
    buttons["Was in lb"].click()
    buttons["It is right"].click()
    assert said == ["lb", "right"]


def test_a_question_without_a_change_is_only_answered(qtbot: QtBot) -> None:
    doubts = Doubts()
    qtbot.addWidget(doubts)
    doubts.put([Question("The day?", lambda: None)])
    assert [b.text() for b in doubts.findChildren(QPushButton)] == ["It is right"]
    doubts.put([])
    assert doubts.isHidden()


def test_a_few_are_asked_at_a_time(qtbot: QtBot) -> None:
    doubts = Doubts()
    qtbot.addWidget(doubts)
    doubts.put([Question(str(n), lambda: None) for n in range(9)])
    assert len(doubts.questions) == MOST
