"""The field for editing in place."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QEvent, QPoint, QRectF, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

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
    assert (editor.wrong.text(), editor.mend.text()) == ("That is odd.", "Write 3 x 8.")
    assert editor.wrong.textFormat() is editor.mend.textFormat() is Qt.TextFormat.PlainText
    assert editor.sign.isVisible()
    qtbot.keyClicks(editor.field, "0")
    assert not any(part.isVisible() for part in (editor.wrong, editor.mend, editor.sign))


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


def elsewhere(ground: QWidget) -> QLineEdit:
    made = QLineEdit(ground)
    made.show()
    return made


def test_a_line_that_cannot_be_read_is_given_up_with_a_sentence_that_repeats_it(ground, qtbot):
    editor = opened(ground, lambda text: CoachError("That is odd.", mend="Write 3 x 8."))
    other = elsewhere(ground)
    with qtbot.waitSignal(editor.given_up) as blocker:
        other.setFocus(Qt.FocusReason.MouseFocusReason)
    assert blocker.args == ["'3 x 8' was not kept: That is odd. Write 3 x 8."]
    assert not editor.isVisible()


def test_another_window_in_front_leaves_what_cannot_be_read_as_it_is(ground, qtbot):
    editor = opened(ground, lambda text: CoachError("That is odd.", mend="Write 3 x 8."))
    event = QFocusEvent(QEvent.Type.FocusOut, Qt.FocusReason.ActiveWindowFocusReason)
    QApplication.sendEvent(editor.field, event)
    assert editor.isVisible()
    assert editor.wrong.text() == "That is odd."


def test_the_menu_of_the_field_does_not_end_the_editing(ground, qtbot):
    kept: list[str] = []
    editor = opened(ground, kept.append)
    menu = editor.field.createStandardContextMenu()
    menu.popup(ground.mapToGlobal(QPoint(60, 60)))
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is menu)
    event = QFocusEvent(QEvent.Type.FocusOut, Qt.FocusReason.PopupFocusReason)
    QApplication.sendEvent(editor.field, event)
    assert editor.isVisible()
    assert kept == []
    menu.close()
    menu.deleteLater()


@pytest.mark.parametrize(("key", "step"), [(Key.Key_Tab, 1), (Key.Key_Backtab, -1)])
def test_tab_keeps_the_line_and_asks_for_the_next_one(ground, qtbot, key, step):
    kept: list[str] = []
    editor = opened(ground, kept.append)
    with qtbot.waitSignal(editor.went_on) as blocker:
        qtbot.keyClick(editor.field, key)
    assert kept == ["3 x 8"]
    assert blocker.args == [step]


def test_tab_stays_on_a_line_that_cannot_be_read(ground, qtbot):
    editor = opened(ground, lambda text: CoachError("That is odd.", mend="Write 3 x 8."))
    qtbot.keyClick(editor.field, Key.Key_Tab)
    assert editor.isVisible()
    assert editor.field.hasFocus()


def test_what_was_typed_to_open_it_takes_the_place_of_the_line(ground):
    editor = InlineEditor(ground, text="3 x 8", name="Prescription", commit=lambda text: None)
    editor.open_over(MIDDLE, typed="5")
    assert editor.field.text() == "5"
