"""Asking for a new program, and laying a layout over an open one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel
from pytestqt.qtbot import QtBot

from app.domain.client import Place
from app.domain.exercise import Equipment, Muscle
from app.domain.program import broken_laws
from app.resources.layouts import layouts
from app.ui.bench import Bench
from app.ui.new_program import LayoutSheet, NewProgramSheet, ask_new_program, fitting, next_monday
from app.ui.words import qdate
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, TODAY, with_client, without_program
from tests.ui.steps import nothing_kept, one_step

EMPTY = len(layouts())
"""The number of the choice of empty weeks, which comes last."""


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench) -> NewProgramSheet:
    made = NewProgramSheet(without_program(bench), None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)))
def test_the_next_monday_is_at_most_six_days_away(day: date) -> None:
    monday = next_monday(day)
    assert monday.weekday() == 0
    assert timedelta(0) <= monday - day < timedelta(7)


def test_it_offers_every_layout_and_empty_weeks(sheet: NewProgramSheet) -> None:
    texts = [button.text().replace("&&", "&") for button in sheet.layouts.group.buttons()]
    assert texts == [*(one.name for one in layouts()), "Empty weeks"]


def test_a_program_is_made_as_it_is_asked_for(qtbot: QtBot, sheet: NewProgramSheet, bench) -> None:
    sheet.name.selectAll()
    qtbot.keyClicks(sheet.name, " Winter  season ")
    sheet.start.setDate(qdate(date(2027, 1, 6)))
    sheet.weeks.set_value(8)
    sheet.emphasis.boxes[0].setCurrentIndex(sheet.emphasis.boxes[0].findData(Muscle.CHEST))
    sheet.emphasis.boxes[1].setCurrentIndex(0)
    with nothing_kept(bench), qtbot.waitSignal(sheet.accepted, timeout=500):
        qtbot.mouseClick(sheet.keep_button, Qt.MouseButton.LeftButton)
    made = sheet.program
    assert made.name == "Winter season"
    assert made.start == date(2027, 1, 4), "the Monday of the week that was chosen"
    assert len(made.weeks) == 8
    assert made.emphasis == (Muscle.CHEST,)
    assert all(any(week.slots()) for week in made.weeks)
    assert broken_laws(made) == ()


def test_empty_weeks_are_empty(sheet: NewProgramSheet) -> None:
    sheet.layouts.group.button(EMPTY).setChecked(True)
    sheet.try_keep()
    assert not any(list(week.slots()) for week in sheet.program.weeks)


@pytest.mark.parametrize(
    ("weeks", "name", "said"),
    [
        ("0", "Winter", "Weeks: 0 is out of range. Enter 1 to 52."),
        ("53", "Winter", "Weeks: 53 is out of range. Enter 1 to 52."),
        ("many", "Winter", "Weeks: 'many' is not a number. Enter 1 to 52."),
        ("12", "  ", "The program has no name. Give it one of at least one letter."),
    ],
)
def test_what_is_wrong_keeps_the_sheet_open(sheet: NewProgramSheet, weeks, name, said) -> None:
    sheet.weeks.edit.setText(weeks)
    sheet.name.setText(name)
    sheet.try_keep()
    assert sheet.isVisible()
    assert sheet.wrong.text() == said
    assert sheet.program is None


def test_a_layout_of_which_nothing_fits_is_refused(qtbot: QtBot, bench: Bench) -> None:
    keys = frozenset(e.key for e in bench.desk.catalogue)
    with_client(bench, dislikes=keys)
    sheet = NewProgramSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    sheet.try_keep()
    assert "fits Runa Estvik" in sheet.wrong.text()
    assert sheet.program is None


def test_swaps_for_the_client_are_told_beforehand(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, equipment=frozenset({Equipment.BODY, Equipment.DUMBBELLS}))
    sheet = NewProgramSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    told = " ".join(label.text() for label in sheet.layouts.findChildren(QLabel))
    assert "For Runa Estvik: " in told


def test_exercises_are_asked_for_where_their_day_is_spent(bench: Bench) -> None:
    squat = next(e for e in bench.desk.catalogue if e.key == "back_squat")
    assert fitting(RUNA, TODAY)(squat, 0)
    hut = Place("hut", frozenset({Equipment.BODY}))
    free = (replace(RUNA.free[0], place="hut"), *RUNA.free[1:])
    client = replace(RUNA, places=(hut,), free=free)
    assert [fitting(client, TODAY)(squat, day) for day in (0, 1)] == [False, True]


@pytest.mark.parametrize("result", [0, 1])
def test_cancelling_gives_no_program(qtbot: QtBot, bench: Bench, monkeypatch, result: int) -> None:
    def answer(sheet: QDialog) -> int:
        assert isinstance(sheet, NewProgramSheet)
        if result:
            sheet.try_keep()
        return result

    monkeypatch.setattr(QDialog, "exec", answer)
    parent = QDialog()
    qtbot.addWidget(parent)
    made = ask_new_program(bench, parent)
    assert (made is not None) is bool(result)
    assert bench.desk.program == PROGRAM, "the caller keeps it"


def test_a_layout_is_laid_over_the_open_program_as_one_step(qtbot: QtBot, bench: Bench) -> None:
    sheet = LayoutSheet(bench, None)
    qtbot.addWidget(sheet)
    sheet.layouts.group.button(1).setChecked(True)
    name = layouts()[1].name
    with one_step(bench, f"Lay out {name.lower()}"):
        sheet.try_keep()
    assert bench.desk.program.emphasis == PROGRAM.emphasis
    assert len(bench.desk.program.weeks) == len(PROGRAM.weeks)
    assert len(sheet.layouts.layouts) == EMPTY, "empty weeks are not offered here"


def test_a_layout_that_cannot_be_laid_out_keeps_the_sheet_open(qtbot: QtBot, bench) -> None:
    with_client(bench, dislikes=frozenset(e.key for e in bench.desk.catalogue))
    sheet = LayoutSheet(bench, None)
    qtbot.addWidget(sheet)
    sheet.show()
    with nothing_kept(bench):
        sheet.try_keep()
    assert sheet.isVisible()
    assert "Enter the equipment" in sheet.wrong.text()


def test_everybody_can_use_it(sheet: NewProgramSheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
