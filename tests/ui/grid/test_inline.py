"""The field for editing in place."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtWidgets import QLineEdit, QWidget

from app.domain.errors import CoachError
from app.ui.grid.inline import InlineEditor, PartCompleter

Key = Qt.Key


@pytest.fixture
def ground(qtbot) -> QWidget:
    made = QWidget()
    made.resize(600, 300)
    qtbot.addWidget(made)
    made.show()
    return made


MIDDLE = QRectF(50, 50, 150, 40)


def opened(ground: QWidget, commit, rect: QRectF = MIDDLE) -> InlineEditor:
    editor = InlineEditor(ground, text="3 x 8", name="Prescription", commit=commit)
    editor.open_over(rect)
    return editor


def test_enter_keeps_and_closes(ground, qtbot):
    kept: list[str] = []
    editor = opened(ground, kept.append)
    with qtbot.waitSignal(editor.closed):
        qtbot.keyClick(editor.field, Key.Key_Return)
    assert kept == ["3 x 8"]


def test_escape_leaves_the_old_value(ground, qtbot):
    kept: list[str] = []
    editor = opened(ground, kept.append)
    with qtbot.waitSignal(editor.closed):
        qtbot.keyClick(editor.field, Key.Key_Escape)
    assert kept == []


def test_an_error_stands_under_the_field_until_it_is_mended(ground, qtbot):
    editor = opened(ground, lambda text: CoachError("That is odd.", mend="Write 3 x 8."))
    qtbot.keyClick(editor.field, Key.Key_Return)
    assert editor.isVisible()
    assert editor.wrong.text() == "That is odd. Write 3 x 8."
    assert editor.wrong.textFormat() is Qt.TextFormat.PlainText
    qtbot.keyClicks(editor.field, "0")
    assert not editor.wrong.isVisible()


@pytest.mark.parametrize("rect", [QRectF(550, 280, 150, 40), QRectF(0, 0, 40, 40)])
def test_the_field_stays_inside_the_grid(ground, rect):
    editor = opened(ground, lambda text: CoachError("Odd. " * 30, mend="Mend it."), rect)
    assert ground.rect().contains(editor.geometry())
    editor.accept()
    assert ground.rect().contains(editor.geometry())


def test_only_the_last_part_is_completed(qtbot):
    field = QLineEdit()
    qtbot.addWidget(field)
    completer = PartCompleter(field)
    field.setCompleter(completer)
    field.setText("4 x 8, res")
    assert completer.splitPath("4 x 8, res") == ["res"]
    completer.setCompletionPrefix("res")
    completed = completer.pathFromIndex(completer.completionModel().index(0, 0))
    assert completed == "4 x 8, rest 60 s"


def test_enter_keeps_the_line_while_completions_show_and_none_is_marked(ground, qtbot):
    kept: list[str] = []
    editor = opened(ground, kept.append)
    qtbot.keyClicks(editor.field, "5 x 5, re")
    popup = editor.field.completer().popup()
    assert popup.isVisible()
    with qtbot.waitSignal(editor.closed):
        qtbot.keyClick(popup, Key.Key_Return)
    assert kept == ["5 x 5, re"]
    assert not popup.isVisible()
