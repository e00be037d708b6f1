"""A field finds its sentence by its label, in the language that is shown."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QWhatsThis, QWidget

from app.ui.client.profile import ProfileSheet
from app.ui.coach_sheet import CoachSheet
from app.ui.field_help import inputs, page_for, sentence_for
from app.ui.field_texts import FIELDS
from app.ui.grid import WeekGrid
from app.ui.guide import Guide
from tests.ui.desks import RUNA


def test_a_field_is_known_by_its_label_before_its_own_name(qtbot, bench):
    sheet = ProfileSheet(bench, None, RUNA)
    qtbot.addWidget(sheet)
    sheet.show()
    told = {names[0]: field.whatsThis() for field, names in inputs(sheet)}
    assert told["Stature"] == FIELDS["ProfileSheet", "Stature"]
    assert told["Emphasis"] == FIELDS["ProfileSheet", "Emphasis"]
    assert all(told.values())


def test_a_form_nobody_wrote_about_explains_nothing():
    assert sentence_for("Nowhere", ("Name",)) == ""
    assert sentence_for("CardSheet", ("Something else",)) == ""
    assert sentence_for("CardSheet", ("Rest, s",)) == FIELDS["CardSheet", "Rest"]


def test_shift_f1_shows_the_sentence_of_the_field(qtbot, store, dressed):
    sheet = CoachSheet(store, None)
    qtbot.addWidget(sheet)
    sheet.show()
    qtbot.waitExposed(sheet)
    field = next(f for f, names in inputs(sheet) if "Contact" in names)
    field.setFocus()
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_F1, Qt.KeyboardModifier.ShiftModifier)
    QApplication.sendEvent(field, event)
    shown = [w for w in QApplication.topLevelWidgets() if w.inherits("QWhatsThat")]
    assert event.isAccepted()
    assert shown
    QWhatsThis.hideText()


def test_f1_in_a_form_opens_its_page_beside_it(window):
    sheet = CoachSheet(window.store, window)
    sheet.show()
    event = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_F1, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(sheet.findChild(QLineEdit), event)
    (guide,) = sheet.findChildren(Guide)
    assert guide.contents.currentItem().text() == "The booklet"
    guide.close()
    sheet.help_button.click()
    assert sheet.findChildren(Guide)
    sheet.close()


def test_the_page_is_that_of_the_nearest_pane(qtbot, bench, window):
    assert page_for(window.grid) == "dragging-and-keys"
    assert page_for(window.findings.list) == "checks-and-ranges"
    assert page_for(window.client_pane.findChild(QPushButton)) == "first-client"
    assert page_for(None) == page_for(QWidget(window)) == "first-client"
    assert isinstance(window.grid, WeekGrid)


def test_f1_opens_the_page_of_what_has_the_keyboard(window):
    for pane, title in ((window.grid, "Dragging"), (window.findings.list, "Checks")):
        pane.setFocus()
        window.actions_by_id["guide"].trigger()
        (guide,) = window.findChildren(Guide)
        assert guide.contents.currentItem().text().startswith(title)
    guide.close()
