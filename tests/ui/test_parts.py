"""Painted parts as assistive technology meets them, on a widget of three painted steps."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.ui import parts
from app.ui.parts import Part, Speaker


class Steps(QWidget):
    """Steps side by side, the last one over the others' edge."""

    def __init__(self) -> None:
        super().__init__()
        self.names = ["first", "second", "third"]
        self.at = 0
        self.setAccessibleName("Steps")
        parts.install(Speaker(Steps, lambda steps: len(steps.names), Steps.part))

    def part(self, number: int) -> Part:
        left = 40.0 * number - 10 * (number == 2)
        return Part(self.names[number], QRectF(left, 0, 40, 30), focused=number == self.at)


class Chart(QWidget):
    """A picture that tells what it shows."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Sets")
        self.setAccessibleDescription("12 sets in week 1")
        parts.tell_as_picture(self)


@pytest.fixture
def steps(qtbot: QtBot) -> Steps:
    made = Steps()
    qtbot.addWidget(made)
    made.resize(200, 40)
    made.show()
    return made


def test_a_widget_is_a_list_of_its_parts(steps: Steps) -> None:
    interface = QAccessible.queryAccessibleInterface(steps)
    assert interface.role() == QAccessible.Role.List
    assert interface.text(QAccessible.Text.Name) == "Steps"
    names = [interface.child(k).text(QAccessible.Text.Name) for k in range(3)]
    assert names == steps.names
    assert interface.child(3) is None
    assert interface.child(-1) is None
    assert interface.indexOfChild(interface.child(1)) == 1


def test_names_are_read_when_they_are_asked_for_and_a_part_can_go(steps: Steps) -> None:
    last = QAccessible.queryAccessibleInterface(steps).child(2)
    steps.names[2] = "new"
    assert last.text(QAccessible.Text.Name) == "new"
    steps.names.pop()
    assert not last.isValid()
    assert last.text(QAccessible.Text.Name) == ""
    assert not last.rect().isValid()


def test_a_point_is_the_part_that_lies_on_top(steps: Steps) -> None:
    interface = QAccessible.queryAccessibleInterface(steps)
    corner = steps.mapToGlobal(steps.rect().topLeft())
    assert interface.childAt(corner.x() + 5, corner.y() + 5) is interface.child(0)
    assert interface.childAt(corner.x() + 75, corner.y() + 5) is interface.child(2)
    assert interface.childAt(corner.x() + 150, corner.y() + 5) is None


def test_a_part_is_focused_only_while_its_widget_is_and_hidden_with_it(
    steps: Steps, qtbot: QtBot
) -> None:
    first = QAccessible.queryAccessibleInterface(steps).child(0)
    assert not first.state().focused
    steps.activateWindow()
    steps.setFocus()
    qtbot.waitUntil(steps.hasFocus)
    assert first.state().focused
    assert not first.state().invisible
    steps.hide()
    assert first.state().invisible


def test_a_picture_is_told_as_one(qtbot: QtBot, qapp: QApplication) -> None:
    chart = Chart()
    qtbot.addWidget(chart)
    interface = QAccessible.queryAccessibleInterface(chart)
    assert interface.role() == QAccessible.Role.Graphic
    assert interface.text(QAccessible.Text.Description) == "12 sets in week 1"
    assert interface.childCount() == 0
