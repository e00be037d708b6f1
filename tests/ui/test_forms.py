"""What dialogs are made of."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QLocale, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QMessageBox, QTableWidget
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui import forms
from app.ui.forms import NumberField, Sheet, entered, text_field


@pytest.fixture
def field(qtbot: QtBot) -> NumberField:
    made = NumberField("Body mass", low=25, high=350, unit="kg")
    qtbot.addWidget(made)
    made.show()
    return made


def test_labels_never_take_text_for_markup(qtbot: QtBot) -> None:
    for label in (forms.plain("<b>x</b>"), forms.Wrapped("<b>x</b>"), forms.Elided("<b>x</b>")):
        qtbot.addWidget(label)
        assert label.textFormat() is Qt.TextFormat.PlainText
        assert label.text() == "<b>x</b>"


def test_a_long_text_is_never_cut(qtbot: QtBot) -> None:
    label = forms.Wrapped("screen every client first " * 12)
    qtbot.addWidget(label)
    label.resize(200, 10)
    label.show()
    assert label.minimumHeight() >= label.heightForWidth(200)
    tall = label.minimumHeight()
    label.setText("short")
    assert label.minimumHeight() < tall


def test_a_cut_line_is_whole_in_its_tip(qtbot: QtBot) -> None:
    label = forms.Elided("Lower body, squat & <i>thrust</i>")
    qtbot.addWidget(label)
    label.resize(60, 20)
    label.grab()
    assert "squat &amp; &lt;i&gt;thrust&lt;/i&gt;" in label.toolTip()
    label.resize(900, 20)
    label.grab()
    assert label.toolTip() == ""


# ---------------------------------------------------------------------------- numbers


@pytest.mark.parametrize(
    ("typed", "value"),
    [("66", 66), ("66.4", 66.4), ("66,4", 66.4), (" 66 ", 66), ("25", 25), ("350", 350)],
)
def test_point_and_comma_are_both_read(qtbot: QtBot, field, typed: str, value: float) -> None:
    qtbot.keyClicks(field.edit, typed)
    assert field.value() == value
    assert not field.is_wrong


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "Body mass: is missing. Enter 25 to 350."),
        ("heavy", "Body mass: 'heavy' is not a number. Enter 25 to 350."),
        ("24.9", "Body mass: 24.9 is out of range. Enter 25 to 350."),
        ("351", "Body mass: 351 is out of range. Enter 25 to 350."),
        ("-66", "Body mass: -66 is out of range. Enter 25 to 350."),
        ("nan", "Body mass: 'nan' is not a number. Enter 25 to 350."),
        ("inf", "Body mass: 'inf' is not a number. Enter 25 to 350."),
        ("1e999", "Body mass: '1e999' is not a number. Enter 25 to 350."),
    ],
)
def test_what_is_wrong_stands_under_the_field_and_the_entry_stays(field, typed, said) -> None:
    field.edit.setText(typed)
    with pytest.raises(CoachError) as error:
        field.value()
    assert error.value.sentence == said
    assert field.wrong.text() == said
    assert field.wrong.isVisible()
    assert field.edit.text() == typed
    assert field.edit.property("wrong")


def test_typing_on_takes_the_error_away(qtbot: QtBot, field: NumberField) -> None:
    with pytest.raises(CoachError):
        field.value()
    qtbot.keyClicks(field.edit, "6")
    assert not field.wrong.isVisible()
    assert not field.edit.property("wrong")


def test_whole_numbers_are_whole(qtbot: QtBot) -> None:
    whole = NumberField("Weeks", low=1, high=52, whole=True)
    qtbot.addWidget(whole)
    whole.set_value(12)
    assert whole.whole_value() == 12
    for typed in ("2.5", "nan", "inf", "1e400"):
        whole.edit.setText(typed)
        with pytest.raises(CoachError, match="Weeks"):
            whole.whole_value()


def test_an_optional_field_may_be_empty_but_not_wrong(qtbot: QtBot) -> None:
    free = NumberField("Stature", low=100, high=250, optional=True)
    qtbot.addWidget(free)
    assert free.value() is None
    free.edit.setText("tall")
    with pytest.raises(CoachError, match="not a number"):
        free.value()
    free.set_value(None)
    assert free.value() is None
    assert not free.is_wrong


@given(st.floats(25, 350, allow_nan=False).map(lambda x: round(x, 2)))
def test_a_shown_value_is_read_back(qapp: QApplication, value: float) -> None:
    shown = NumberField("Body mass", low=25, high=350)
    shown.set_value(value)
    assert shown.value() == value
    shown.deleteLater()


@given(st.floats(-1e6, 1e6, allow_nan=False))
@pytest.mark.parametrize("language", ["en_US", "de_DE", "fr_FR", "sv_SE", "ar_EG"])
def test_what_nobody_types_over_comes_back_to_every_place(
    qapp: QApplication, language: str, value: float
) -> None:
    QLocale.setDefault(QLocale(language))
    shown = NumberField("Load", low=0, high=10)
    shown.set_value(value)
    assert shown.value() == value
    shown.deleteLater()


@given(st.integers(-500_000, 500_000))
@pytest.mark.parametrize("language", ["en_US", "de_DE", "fr_FR", "sv_SE", "ar_EG"])
def test_what_is_shown_can_be_typed_again(
    qapp: QApplication, language: str, hundredths: int
) -> None:
    QLocale.setDefault(QLocale(language))
    shown, typed = (NumberField("Eats now", low=-1e6, high=1e6) for _ in range(2))
    shown.set_value(hundredths / 100)
    typed.edit.setText(shown.edit.text())
    assert typed.value() == hundredths / 100
    shown.deleteLater()
    typed.deleteLater()


def test_a_value_typed_over_is_held_to_the_range(field: NumberField, qtbot: QtBot) -> None:
    field.set_value(5000.0)
    assert field.value() == 5000.0
    qtbot.keyClicks(field.edit, "1")
    with pytest.raises(CoachError, match="out of range"):
        field.value()


@pytest.mark.parametrize("text", ["", "  ab ", "two\nlines", "a\tb"])
def test_a_text_that_nobody_touches_comes_back_letter_for_letter(qtbot: QtBot, text: str) -> None:
    made = text_field(text)
    qtbot.addWidget(made)
    assert entered(made) == text
    made.setText("  of the team ")
    assert entered(made) == "of the team"


@given(st.text(max_size=12))
def test_no_text_breaks_a_number_field(qapp: QApplication, typed: str) -> None:
    whole = NumberField("Weeks", low=1, high=52, whole=True)
    whole.edit.setText(typed)
    try:
        assert 1 <= whole.whole_value() <= 52
    except CoachError as error:
        assert error.sentence.startswith("Weeks: ")  # noqa: PT017 - either is right
    whole.deleteLater()


def test_the_wheel_changes_nothing(field: NumberField) -> None:
    field.set_value(66)
    here = QPointF(5, 5)
    turn = QWheelEvent(
        here,
        field.edit.mapToGlobal(here),
        QPoint(0, 120),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(field.edit, turn)
    assert field.value() == 66


# ---------------------------------------------------------------------------- sheets


class Weighing(Sheet):
    """A sheet of one number; what was kept is in `kept`."""

    def __init__(self) -> None:
        super().__init__(None, "Weigh <b>in</b>", verb="Keep", about="In the morning.")
        self.mass = NumberField("Body mass", low=25, high=350, unit="kg")
        self.note = forms.text_field("")
        self.row("Body mass", self.mass)
        self.row("Note", self.note)
        self.kept: list[float | None] = []

    def keep(self) -> None:
        self.kept.append(self.mass.value())


@pytest.fixture
def sheet(qtbot: QtBot) -> Weighing:
    made = Weighing()
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def test_a_right_entry_is_kept_and_the_sheet_closes(qtbot: QtBot, sheet: Weighing) -> None:
    qtbot.keyClicks(sheet.mass.edit, "66,4")
    with qtbot.waitSignal(sheet.accepted, timeout=500):
        qtbot.mouseClick(sheet.keep_button, Qt.MouseButton.LeftButton)
    assert sheet.kept == [66.4]


def test_enter_keeps(qtbot: QtBot, sheet: Weighing) -> None:
    qtbot.keyClicks(sheet.mass.edit, "66")
    with qtbot.waitSignal(sheet.accepted, timeout=500):
        qtbot.keyClick(sheet.mass.edit, Qt.Key.Key_Return)
    assert sheet.kept == [66]


def test_a_wrong_entry_keeps_the_sheet_open_with_its_sentence(qtbot, sheet: Weighing) -> None:
    sheet.note.setFocus()
    with qtbot.assertNotEmitted(sheet.accepted):
        qtbot.mouseClick(sheet.keep_button, Qt.MouseButton.LeftButton)
    assert sheet.isVisible()
    assert sheet.wrong.text() == "Body mass: is missing. Enter 25 to 350."
    assert sheet.wrong.isVisible()
    assert sheet.kept == []
    assert sheet.focusWidget() is sheet.mass.edit, "the cursor goes to the field that is wrong"


def test_a_preview_of_a_wrong_number_leaves_the_cursor_where_it_is(sheet: Weighing) -> None:
    sheet.note.setFocus()
    with pytest.raises(CoachError):
        sheet.mass.value()
    assert sheet.focusWidget() is sheet.note


def test_escape_and_cancel_keep_nothing(qtbot: QtBot, sheet: Weighing) -> None:
    qtbot.keyClicks(sheet.mass.edit, "66")
    with qtbot.waitSignal(sheet.rejected, timeout=500):
        qtbot.keyClick(sheet, Qt.Key.Key_Escape)
    sheet.show()
    with qtbot.waitSignal(sheet.rejected, timeout=500):
        qtbot.mouseClick(sheet.cancel_button, Qt.MouseButton.LeftButton)
    assert sheet.kept == []


def test_a_label_is_the_buddy_of_its_field(sheet: Weighing) -> None:
    label = sheet.form.labelForField(sheet.mass)
    assert isinstance(label, QLabel)
    assert label.buddy() is sheet.mass
    assert sheet.mass.focusProxy() is sheet.mass.edit
    assert sheet.note.accessibleName() == "Note"


def test_a_sheet_that_was_waited_for_is_let_go(qtbot: QtBot, monkeypatch) -> None:
    monkeypatch.setattr(QDialog, "exec", lambda self: 1)
    made = Weighing()
    with qtbot.waitSignal(made.destroyed, timeout=1000):
        assert made.exec() == QDialog.DialogCode.Accepted


@pytest.mark.parametrize(("result", "text"), [(1, "Winter"), (0, None)])
def test_asking_for_a_text(qtbot: QtBot, monkeypatch, result: int, text: str | None) -> None:
    asked: list[Sheet] = []

    def answer(sheet: Sheet) -> int:
        asked.append(sheet)
        fields = sheet.findChildren(type(forms.text_field()))
        assert fields[0].text() == "Ridge season"
        fields[0].setText("Winter")
        return result

    monkeypatch.setattr(QDialog, "exec", answer)
    parent = Weighing()
    qtbot.addWidget(parent)
    given = forms.ask_text(parent, "Rename", "Name", text="Ridge season", verb="Rename")
    assert given == text
    assert asked[0].keep_button.text() == "Rename"


def test_a_box_shows_its_sentence_as_text(qtbot: QtBot, monkeypatch) -> None:
    shown: list[QMessageBox] = []

    def note(box: QMessageBox) -> None:
        shown.append(box)

    monkeypatch.setattr(QMessageBox, "exec", note)
    parent = Weighing()
    qtbot.addWidget(parent)
    forms.tell(parent, "Saved", "Saved: <a>.pdf")
    assert shown[0].textFormat() is Qt.TextFormat.PlainText
    assert shown[0].text() == "Saved: <a>.pdf"


def test_a_line_that_is_empty_keeps_the_sheet_open(qtbot: QtBot) -> None:
    sheet = forms.TextSheet(None, "Start a block", "Name of the block", text="", verb="Start here")
    qtbot.addWidget(sheet)
    sheet.show()
    sheet.try_keep()
    assert sheet.isVisible()
    assert "Name of the block: nothing is entered." in sheet.wrong.text()
    sheet.field.setText("Build")
    sheet.try_keep()
    assert not sheet.isVisible()


def test_a_long_title_takes_more_lines_and_is_not_cut(qtbot: QtBot, dressed) -> None:
    short, long = (
        forms.Sheet(None, f"Record of {name}", verb="Keep") for name in ("Runa", "Runa " * 40)
    )
    for sheet in (short, long):
        qtbot.addWidget(sheet)
        sheet.show()
        (title,) = sheet.findChildren(forms.Title)
        assert title.height() >= title.heightForWidth(title.width())
    assert long.width() < 1.2 * forms.Title.WIDEST
    assert long.findChildren(forms.Title)[0].height() > short.findChildren(forms.Title)[0].height()


def test_a_form_without_fields_begins_at_its_list(qtbot: QtBot, dressed) -> None:
    sheet = forms.Sheet(None, "Check-ins", verb="New")
    table = QTableWidget(2, 2)
    sheet.body.addWidget(table)
    qtbot.addWidget(sheet)
    sheet.show()
    assert sheet.focusWidget() is table
