"""The counts above the findings, each a button that shows one weight alone."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.findings import Weight
from app.ui.weight_button import WeightButton
from tests.ui import access


@pytest.fixture
def button(qtbot: QtBot, dressed) -> WeightButton:
    made = WeightButton(Weight.CONFLICT)
    qtbot.addWidget(made)
    made.show_count(2)
    made.adjustSize()
    qtbot.waitExposed(made)
    return made


@pytest.mark.parametrize(("count", "said"), [(1, "1 conflict"), (2, "2 conflicts")])
def test_it_says_its_count_with_the_word(button: WeightButton, count: int, said: str) -> None:
    button.show_count(count)
    assert button.text() == said
    assert access.told(button) == said


def test_without_room_the_word_stands_in_the_tip_and_the_name(button: WeightButton) -> None:
    button.say_words(False)
    assert button.text() == "2"
    assert "2 conflicts." in button.toolTip()
    assert access.told(button) == "2 conflicts"


@pytest.mark.parametrize("wordy", [True, False])
def test_it_is_large_enough_to_hit(button: WeightButton, wordy: bool) -> None:
    button.say_words(wordy)
    button.show_count(1)
    button.adjustSize()
    assert access.too_small(button) == []


def test_none_hides_it_but_not_while_it_is_pressed(qtbot: QtBot, button: WeightButton) -> None:
    button.show_count(0)
    assert not button.isVisibleTo(None)
    button.show_count(1)
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert button.isChecked()
    button.show_count(0)
    assert button.isVisibleTo(None)
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert not button.isVisibleTo(None)


def test_it_says_what_pressing_does(qtbot: QtBot, button: WeightButton) -> None:
    assert button.accessibleDescription() == "Show conflicts alone"
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert button.accessibleDescription() == "Show the other weights again"


def test_pressed_and_focused_look_different(qtbot: QtBot, button: WeightButton) -> None:
    plain = button.grab().toImage()
    button.setChecked(True)
    pressed = button.grab().toImage()
    button.setFocus()
    assert len({plain.cacheKey(), pressed.cacheKey()}) == 2
    assert plain != pressed
