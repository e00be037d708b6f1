"""The start page: who needs what today, one click from the right place."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId, Stage
from app.domain.due import Need, Standing
from app.ui.client import open_form
from app.ui.home import HomePage
from app.ui.window import Window
from db.roster import RosterLine
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA

TODAY = date(2026, 11, 25)


def line(name: str, **standing) -> RosterLine:
    return RosterLine(ClientId(name), name, "", "", None, (), 0, Standing(**standing))


ROSTER = (
    line("Aase"),
    line("Bo", screened=TODAY - timedelta(days=400), stage=Stage.ENQUIRY),
    line("Cato", screened=TODAY, stage=Stage.ENQUIRY),
    line("Dag", stage=Stage.PAUSED),
)


def held(*lines: RosterLine) -> Store:
    """A store that holds these lines and nothing else."""
    made = Store.in_memory()
    made.clients = lambda: lines  # type: ignore[method-assign,assignment,return-value]
    made.roster = lambda ids=None: tuple(x for x in lines if x.id in ids)  # type: ignore[method-assign]
    return made


@pytest.fixture
def page(qtbot: QtBot, dressed: QApplication) -> HomePage:
    made = HomePage()
    qtbot.addWidget(made)
    made.resize(1000, 700)
    made.read(held(*ROSTER), open_name="", today=TODAY)
    made.show()
    return made


def rows(page: HomePage) -> list[tuple[str, str, str]]:
    model = page.model
    return [
        tuple(model.index(row, column).data() for column in range(3))
        for row in range(model.rowCount())
    ]


def test_the_longest_overdue_comes_first_and_who_rests_is_left_out(page: HomePage) -> None:
    assert rows(page) == [
        ("Bo", "Screening 35 days overdue", "Screening…"),
        ("Aase", "Not screened yet", "Screening…"),
    ]
    assert page.title.text() == "Today, 25 Nov 2026"
    assert page.about.text().startswith("2 clients need something.")
    assert "common practice" in page.about.text()
    assert not page.back_button.isVisible()


def test_a_click_or_enter_on_a_line_asks_for_its_place(qtbot: QtBot, page: HomePage) -> None:
    where = page.table.visualRect(page.model.index(1, 0)).center()
    with qtbot.waitSignal(page.need_chosen) as wanted:
        QTest.mouseClick(page.table.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert wanted.args == ["Aase", Need.SCREENING]
    page.table.setCurrentIndex(page.model.index(0, 0))
    with qtbot.waitSignal(page.need_chosen) as wanted:
        QTest.keyClick(page.table, Qt.Key.Key_Return)
    assert wanted.args == ["Bo", Need.SCREENING]


def test_the_table_keeps_the_rules_of_models(page: HomePage, qtmodeltester) -> None:
    qtmodeltester.check(page.model)


def test_nothing_due_is_said(page: HomePage) -> None:
    page.read(held(*ROSTER[2:]), open_name="Runa", today=TODAY)
    assert page.empty.text().startswith("Nobody needs anything today")
    assert not page.table.isVisible()
    assert page.back_button.text() == "Back to Runa"
    page.read(held(), open_name="", today=TODAY)
    assert page.empty.text().startswith("No client yet")


def test_everybody_can_use_it(page: HomePage) -> None:
    assert unnamed(page) == []
    assert too_small(page) == []
    assert marked_up(page) == []


# ---------------------------------------------------------------------------- in the window


def test_it_is_shown_while_nobody_is_open(window: Window) -> None:
    window.bench.desk.close()
    assert window.centre.currentWidget() is window.home
    assert not window.library.isVisible()
    assert not window.client_pane.isVisible()


def test_the_command_shows_it_and_leads_back(window: Window) -> None:
    window.show_home()
    assert window.centre.currentWidget() is window.home
    assert window.home.back_button.text() == "Back to Runa Estvik"
    window.home.back_button.click()
    assert window.centre.currentWidget() is window.plan
    assert window.library.isVisible()


@pytest.mark.parametrize(
    ("need", "form"),
    [
        (Need.SCREENING, "screening"),
        (Need.CHECK_IN, "check_in"),
        (Need.TEST, "strength_tests"),
        (Need.CONSENT, "record"),
        (Need.KEEP_UNTIL, "record"),  # its end lies ahead
    ],
)
def test_a_need_opens_the_client_and_its_form(
    window: Window, monkeypatch: pytest.MonkeyPatch, need: Need, form: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(open_form, form, lambda *_: opened.append(form))
    window.bench.desk.close()
    window.home.need_chosen.emit(RUNA.id, need)
    assert opened == [form]
    assert window.bench.desk.client.id == RUNA.id
    assert window.centre.currentWidget() is window.plan


@pytest.mark.parametrize(
    ("need", "command"), [(Need.ISSUE, "make_booklet"), (Need.PROGRAM, "new_program")]
)
def test_papers_and_programs_open_where_they_are_made(
    window: Window, monkeypatch: pytest.MonkeyPatch, need: Need, command: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(type(window), command, lambda _window: opened.append(command))
    window.show_home()
    window.home.need_chosen.emit(RUNA.id, need)
    assert opened == [command]


def test_what_was_done_is_no_longer_due(window: Window) -> None:
    window.show_home()
    before = window.home.model.rowCount()
    window.bench.desk.keep_client(
        "x", type(RUNA)(RUNA.id, RUNA.name, stage=Stage.ENDED, screenings=RUNA.screenings)
    )
    assert window.home.model.rowCount() < before
    assert window.home.empty.isVisible()


def test_a_new_client_leads_away_from_it(window: Window) -> None:
    window.show_home()
    window.bench.desk.add_client(type(RUNA)(ClientId("new"), "Sigrid Moe"))
    assert window.centre.currentWidget() is window.welcome
    assert window.client_pane.isVisible()
