from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtWidgets import QDialog

from app.domain.results import CheckIn, Girth, Site
from app.ui.client.check_in import CheckInSheet
from app.ui.client.check_in_cells import Column
from app.ui.words import qdate

TODAY = date(2026, 11, 29)
KEPT = CheckIn(
    date(2026, 11, 22),
    mass_kg=66.4,
    sleep=4,
    note="slept well",
    adherence=1 / 3,
    girths=(Girth(Site.WAIST, 74.3),),
)


@pytest.fixture
def sheet(qtbot, dressed, bench):
    bench.desk.keep_diary("Fill", bench.desk.diary.with_check_in(KEPT))

    def made(day=None):
        shown = CheckInSheet(bench, None, today=TODAY, day=day)
        qtbot.addWidget(shown)
        shown.show()
        return shown

    return made


def kept(bench, day=TODAY):
    return bench.desk.diary.check_in(day)


def test_what_was_asked_is_kept_as_one_step(sheet, bench):
    shown = sheet()
    shown.mass.edit.setText("66,8")
    shown.kcal.edit.setText("2400")
    shown.marks[Column.SLEEP].setCurrentIndex(5)
    shown.share.edit.setText("80")
    shown.note.setText("good week")
    shown.girths[Site.HIPS].edit.setText("98.5")
    shown.try_keep()
    assert shown.result() == QDialog.DialogCode.Accepted
    assert kept(bench) == CheckIn(
        TODAY,
        mass_kg=66.8,
        kcal=2400,
        sleep=5,
        adherence=0.8,
        note="good week",
        girths=(Girth(Site.HIPS, 98.5),),
    )
    assert bench.desk.history.undoable.label == "Check-in of 29 Nov 2026"
    bench.undo()
    assert kept(bench) is None
    assert kept(bench, KEPT.on) == KEPT


def test_a_kept_day_opens_to_be_changed_and_untouched_values_stay_exact(sheet, bench):
    shown = sheet(KEPT.on)
    assert "changing" in shown.state.text()
    assert shown.mass.edit.text() == "66.4"
    shown.note.setText("slept badly")
    shown.try_keep()
    assert kept(bench, KEPT.on) == replace(KEPT, note="slept badly")


def test_pounds_and_inches_are_the_clients(sheet, bench):
    bench.desk.keep_client("Pounds", replace(bench.desk.client, units="lb"))
    shown = sheet(KEPT.on)
    assert shown.mass.edit.text() == "146.39"
    assert shown.girths[Site.WAIST].edit.text() == "29.25"
    shown.marks[Column.MOOD].setCurrentIndex(3)
    shown.try_keep()
    assert kept(bench, KEPT.on) == replace(KEPT, mood=3)
    shown = sheet()
    shown.mass.edit.setText("147")
    shown.girths[Site.HIPS].edit.setText("39")
    shown.try_keep()
    assert kept(bench).mass_kg == pytest.approx(147 * 0.45359237)
    assert kept(bench).girths[0].cm == pytest.approx(99.06)


def test_a_mass_in_the_wrong_unit_is_questioned_and_changed_by_one_click(sheet, bench):
    shown = sheet()
    shown.mass.edit.setText("146.5")
    assert "looks like the other unit" in shown.doubt.question.text()
    shown.try_keep()
    assert kept(bench) is None  # not before it is answered
    shown.doubt.change_button.click()
    assert shown.mass.edit.text() == "66.5"
    shown.try_keep()
    assert kept(bench).mass_kg == 66.5


def test_a_mass_that_is_right_as_entered_is_kept(sheet, bench):
    shown = sheet()
    shown.mass.edit.setText("80")
    shown.doubt.right.setChecked(True)
    shown.try_keep()
    assert kept(bench).mass_kg == 80


def test_nothing_said_is_not_kept(sheet, bench):
    shown = sheet()
    shown.try_keep()
    assert "Nothing is said of 29 Nov 2026" in shown.wrong.text()
    assert shown.isVisible()


def test_nonsense_is_named_under_its_field(sheet):
    shown = sheet()
    shown.mass.edit.setText("heavy")
    shown.try_keep()
    assert "'heavy' is not a number" in shown.mass.wrong.text()


def test_a_day_in_the_future_cannot_be_chosen(sheet, bench):
    shown = sheet()
    shown.day.setDate(qdate(TODAY + timedelta(days=3)))
    assert shown.day.date() == qdate(TODAY)
    shown.day.clearMaximumDate()
    shown.mass.edit.setText("66")
    shown.day.setDate(qdate(TODAY + timedelta(days=3)))
    shown.try_keep()
    assert "in the future" in shown.wrong.text()


def test_an_untouched_form_follows_the_day(sheet):
    shown = sheet()
    shown.day.setDate(qdate(KEPT.on))
    assert shown.note.text() == "slept well"
    shown.day.setDate(qdate(TODAY))
    assert shown.note.text() == ""


def test_a_second_check_in_of_a_day_is_named_and_nothing_overwritten(sheet, bench):
    shown = sheet()
    shown.mass.edit.setText("67")
    shown.day.setDate(qdate(KEPT.on))
    assert "There is a check-in of 22 Nov 2026 already." in shown.state.text()
    shown.try_keep()
    assert "already" in shown.wrong.text()
    assert kept(bench, KEPT.on) == KEPT
    shown.open_button.click()
    assert shown.mass.edit.text() == "66.4"


def test_a_check_in_moves_to_the_day_it_was_meant_for(sheet, bench):
    shown = sheet(KEPT.on)
    shown.note.setText("changed")
    shown.day.setDate(qdate(KEPT.on - timedelta(days=1)))
    shown.try_keep()
    assert kept(bench, KEPT.on) is None
    assert kept(bench, KEPT.on - timedelta(days=1)).note == "changed"
