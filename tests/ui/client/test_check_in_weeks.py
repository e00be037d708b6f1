from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtWidgets import QDialog

from app.domain.results import CheckIn, Diary, Girth, Site
from app.ui.client.check_in_cells import Column
from app.ui.client.check_in_weeks import WeeksSheet

TODAY = date(2026, 11, 29)  # a Sunday
KEPT = (
    CheckIn(
        date(2026, 11, 4), mass_kg=66.2, girths=(Girth(Site.WAIST, 74.0),), pictures=("a.jpg",)
    ),
    CheckIn(date(2026, 11, 11), mass_kg=66.4, sleep=4),
)
AT = {column: number for number, column in enumerate(Column)}


@pytest.fixture
def sheet(qtbot, dressed, bench):
    bench.desk.keep_diary("Fill", Diary(KEPT))
    made = WeeksSheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def days(sheet):
    return [sheet.table.text(row, 0) for row in range(sheet.table.rowCount())]


def row_of(sheet, day):
    return days(sheet).index(day)


def put(sheet, day, column, text):
    sheet.table.set_text(row_of(sheet, day), AT[column], text)


def test_every_week_has_a_row_on_the_usual_weekday(sheet):
    # eight weeks back: Wednesdays, as the two that are kept
    wanted = [date(2026, 10, 7) + timedelta(weeks=n) for n in range(8)]
    assert days(sheet)[:8] == [f"{d.day} {d:%b} {d.year}" for d in wanted]
    assert days(sheet)[8:] == ["", ""]
    assert sheet.table.currentRow() == 0


def test_rows_are_kept_as_one_step(sheet, bench):
    put(sheet, "18 Nov 2026", Column.MASS, "66,6")
    put(sheet, "25 Nov 2026", Column.MASS, "66.7")
    put(sheet, "25 Nov 2026", Column.NOTE, "tired")
    sheet.try_keep()
    assert sheet.result() == QDialog.DialogCode.Accepted
    found = bench.desk.diary.check_ins
    assert [c.mass_kg for c in found] == [66.2, 66.4, 66.6, 66.7]
    assert found[-1].note == "tired"
    assert found[:2] == KEPT
    bench.undo()
    assert bench.desk.diary.check_ins == KEPT


def test_what_nobody_touched_is_no_step(sheet, bench):
    before = bench.desk.history.done
    sheet.try_keep()
    assert bench.desk.history.done == before


def test_a_row_that_cannot_be_read_is_named_and_nothing_is_kept(sheet, bench):
    put(sheet, "18 Nov 2026", Column.MASS, "66.6")
    put(sheet, "25 Nov 2026", Column.SLEEP, "9")
    sheet.try_keep()
    assert sheet.wrong.text().startswith("Row 8: Sleep: '9' cannot be.")
    assert sheet.table.currentColumn() == AT[Column.SLEEP]
    assert bench.desk.diary.check_ins == KEPT


@pytest.mark.parametrize(
    ("day", "what"),
    [("2 Dec 2026", "in the future"), ("2 Nov 1980", "before the birth date"), ("soon", "no day")],
)
def test_days_that_cannot_be_are_named(sheet, bench, day, what):
    sheet.table.set_cells(8, (day, "66"))
    sheet.try_keep()
    assert "Row 9" in sheet.wrong.text()
    assert what in sheet.wrong.text()


def test_two_rows_of_one_day_are_named(sheet, bench):
    sheet.table.set_cells(8, ("11 Nov 2026", "66"))
    sheet.try_keep()
    assert "Two check-ins on 11 Nov 2026" in sheet.wrong.text()
    assert bench.desk.diary.check_ins == KEPT


def test_pounds_in_one_row_are_questioned_and_changed_by_a_click(sheet, bench):
    put(sheet, "18 Nov 2026", Column.MASS, "146.6")
    sheet.try_keep()
    assert sheet.isVisible()
    assert "looks like the other unit" in sheet.doubt.question.text()
    sheet.doubt.change_button.click()
    assert sheet.table.text(row_of(sheet, "18 Nov 2026"), 1) == "66.5"
    sheet.try_keep()
    assert bench.desk.diary.check_in(date(2026, 11, 18)).mass_kg == 66.5


def test_two_odd_masses_are_asked_one_after_the_other(sheet, bench):
    put(sheet, "18 Nov 2026", Column.MASS, "80")
    put(sheet, "25 Nov 2026", Column.MASS, "82")
    sheet.try_keep()
    sheet.doubt.right.setChecked(True)
    sheet.try_keep()
    assert sheet.isVisible()
    sheet.doubt.right.setChecked(True)
    sheet.try_keep()
    assert [c.mass_kg for c in bench.desk.diary.check_ins] == [66.2, 66.4, 80, 82]


def test_an_emptied_day_is_removed_and_comes_back_with_undo(sheet, bench):
    for column in Column:
        put(sheet, "11 Nov 2026", column, "") if column is not Column.DAY else None
    sheet.try_keep()
    assert bench.desk.diary.check_ins == KEPT[:1]
    bench.undo()
    assert bench.desk.diary.check_ins == KEPT


def test_a_corrected_day_takes_girths_and_pictures_along(sheet, bench):
    put(sheet, "4 Nov 2026", Column.DAY, "5 Nov 2026")
    sheet.try_keep()
    assert bench.desk.diary.check_ins[0] == replace(KEPT[0], on=date(2026, 11, 5))


def test_check_ins_before_the_weeks_shown_stay(sheet, bench):
    sheet.weeks.setCurrentIndex(0)
    assert "11 Nov 2026" in days(sheet)
    assert "4 Nov 2026" in days(sheet)
    old = CheckIn(date(2026, 1, 5), mass_kg=64)
    bench.desk.keep_diary("Old", bench.desk.diary.with_check_in(old))
    sheet.fill()
    put(sheet, "25 Nov 2026", Column.MASS, "66.7")
    sheet.try_keep()
    assert bench.desk.diary.check_in(old.on) == old
