"""A passphrase is typed behind dots, and both lines show their letters together."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from app.ui.passphrase_field import PassphraseField
from db.passphrase import Passphrase

DOTS, LETTERS = QLineEdit.EchoMode.Password, QLineEdit.EchoMode.Normal


def test_letters_show_only_when_they_are_asked_for(qtbot):
    first = PassphraseField("New passphrase")
    second = PassphraseField("The same again", follow=first)
    for field in (first, second):
        qtbot.addWidget(field)
        assert field.edit.echoMode() == DOTS
        assert field.edit.inputMethodHints() & Qt.InputMethodHint.ImhSensitiveData
    assert second.shown is None
    first.shown.click()
    assert {field.edit.echoMode() for field in (first, second)} == {LETTERS}
    first.shown.click()
    assert {field.edit.echoMode() for field in (first, second)} == {DOTS}


def test_blanks_at_the_ends_count_and_the_field_empties(qtbot):
    field = PassphraseField("Passphrase")
    qtbot.addWidget(field)
    qtbot.keyClicks(field.edit, " four words ")
    assert field.passphrase == Passphrase(" four words ")
    field.clear()
    assert field.text == ""


def test_what_is_typed_cannot_be_copied_from_behind_the_dots(qtbot, qapp):
    field = PassphraseField("Passphrase")
    qtbot.addWidget(field)
    qapp.clipboard().setText("before")
    qtbot.keyClicks(field.edit, "four words")
    field.edit.selectAll()
    field.edit.copy()
    assert qapp.clipboard().text() == "before"
