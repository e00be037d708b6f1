"""The page of the program."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from pytestqt.qtbot import QtBot

from app.exchange.coach_plan.build import Built
from app.ui.exchange.table_import.program_page import ProgramPage
from tests.builders import CATALOGUE, program

PLAN = program("Mon: back_squat 3x5 RIR 2", "light | Mon: back_squat 2x5")


def test_the_program_is_shown_week_by_week(qtbot: QtBot, dressed) -> None:
    page = ProgramPage(today=date(2026, 11, 25), open_program="")
    qtbot.addWidget(page)
    built = Built(PLAN, 2, 1, ())
    page.show_built(built, (), catalogue=CATALOGUE, remarks=["a", "a", "b"], unit="kg")
    weeks = [page.tree.topLevelItem(n) for n in range(page.tree.topLevelItemCount())]
    assert [week.text(0) for week in weeks] == ["Week 1", "Week 2, light"]
    assert weeks[0].child(0).child(0).text(0).startswith("Back squat: 3 x 5, RIR 2")
    assert page.remarks.lines() == ["a", "b"]
    assert "0 conflicts" in page.summary.text()
    assert page.start_day() == date(2026, 11, 30)
    assert page.instead.isHidden()


def test_a_session_named_by_its_day_is_said_once(qtbot: QtBot, dressed) -> None:
    page = ProgramPage(today=date(2026, 11, 25), open_program="")
    qtbot.addWidget(page)
    ((_, session),) = PLAN.weeks[0].sessions()
    for title, line in (("Monday", "Monday"), ("Legs", "Monday: Legs")):
        monday = replace(PLAN.weeks[0].days[0], sessions=(replace(session, title=title),))
        week = replace(PLAN.weeks[0], days=(monday, *PLAN.weeks[0].days[1:]))
        built = Built(replace(PLAN, weeks=(week, PLAN.weeks[1])), 2, 1, ())
        page.show_built(built, (), catalogue=CATALOGUE, remarks=[], unit="kg")
        assert page.tree.topLevelItem(0).child(0).text(0) == line


def test_many_remarks_are_cut_and_counted(qtbot: QtBot, dressed) -> None:
    page = ProgramPage(today=date(2026, 11, 23), open_program="Ridge")
    qtbot.addWidget(page)
    remarks = [f"row {n}" for n in range(250)]
    page.show_built(Built(PLAN, 2, 0, ()), (), catalogue=CATALOGUE, remarks=remarks, unit="kg")
    assert page.remarks.lines()[-1] == "50 more"
    assert "Ridge" in page.instead.text()
