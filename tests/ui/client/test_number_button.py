from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.domain.working import COMMON_PRACTICE, Line, Working
from app.ui.client.number_button import NumberButton

WORKING = Working(
    "2,299 kcal", "energy needed", (Line("At rest", "1,402 kcal"),), (COMMON_PRACTICE,)
)


@pytest.fixture
def number(qtbot, dressed, bench):
    made = NumberButton(bench, "2,299", WORKING, about="Needs, to hold")
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.mark.parametrize("key", [Qt.Key.Key_F3, Qt.Key.Key_Space])
def test_a_key_shows_how_the_number_came_about(qtbot, number, key):
    qtbot.keyClick(number, key)
    assert "At rest: 1,402 kcal" in number.popup.accessibleDescription()
    number.popup.close()


def test_a_press_shows_it_as_well(qtbot, number):
    qtbot.mouseClick(number, Qt.MouseButton.LeftButton)
    assert number.popup is not None
    number.popup.close()


def test_name_and_hover_tell_what_it_is(number):
    assert number.accessibleName() == "Needs, to hold: 2,299, show how it came about"
    assert "At rest: 1,402 kcal" in number.toolTip()
    assert number.height() >= 24


def test_another_number_brings_its_own_account(number):
    number.show_number("2,400", Working("2,400 kcal", "energy", (Line("From logs", "2,400"),)))
    assert number.text() == "2,400"
    assert "From logs" in number.toolTip()
