"""The interview: page by page, left at any time, and nothing that was entered is lost."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime, Goal
from app.domain.exercise import Equipment
from app.ui.bench import Bench
from app.ui.client.days import DaysSheet
from app.ui.client.equipment import EquipmentSheet
from app.ui.client.interview import PAGES, Interview
from app.ui.client.profile import ProfileSheet
from app.ui.client.screening import ScreeningSheet
from app.ui.client.strength_test import TestSheet
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA
from tests.ui.steps import choose, nothing_kept, retype

NAMES = [page.name for page in PAGES]


@pytest.fixture
def fresh(qtbot: QtBot, dressed, empty_bench: Bench) -> Interview:
    made = Interview(empty_bench, None, new=True)
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.fixture
def known(qtbot: QtBot, dressed, bench: Bench) -> Interview:
    made = Interview(bench, None)
    qtbot.addWidget(made)
    made.show()
    return made


def at(dialog: Interview, name: str) -> None:
    """Go to the page of that name."""
    dialog.go_to(NAMES.index(name))
    assert dialog.at == NAMES.index(name)


def days(dialog: Interview) -> DaysSheet:
    """The page of days, which is on show."""
    assert isinstance(dialog.page, DaysSheet)
    return dialog.page


def profile(dialog: Interview) -> ProfileSheet:
    """The page of the person, or of the training."""
    assert isinstance(dialog.page, ProfileSheet)
    return dialog.page


def test_a_new_client_is_taken_through_every_page(fresh: Interview, empty_bench: Bench) -> None:
    desk = empty_bench.desk
    assert isinstance(fresh.page, ProfileSheet)
    retype(fresh.page.name, "Sigrid Moe")
    retype(profile(fresh).mass, "62")
    fresh.try_keep()
    assert desk.client.name == "Sigrid Moe"
    assert isinstance(fresh.page, ScreeningSheet)
    fresh.page.boxes["active"].setChecked(True)
    fresh.try_keep()
    assert desk.client.latest_screening.active
    choose(profile(fresh).goal, "strength")
    fresh.try_keep()
    assert desk.client.goal is Goal.STRENGTH
    assert isinstance(fresh.page, EquipmentSheet)
    fresh.page.boxes[Equipment.BARBELL].setChecked(True)
    fresh.try_keep()
    assert isinstance(fresh.page, DaysSheet)
    retype(fresh.page.fields[0][0], "60")
    fresh.try_keep()
    fresh.try_keep()  # no wishes
    assert isinstance(fresh.page, TestSheet)
    fresh.try_keep()  # nothing tested
    fresh.try_keep()  # no energy goal
    assert fresh.result() == Interview.DialogCode.Accepted
    client = desk.client
    assert client.mass_kg == 62
    assert client.equipment == {Equipment.BODY, Equipment.BARBELL}
    assert client.free[0] == FreeTime(60)
    assert client.tests == ()
    assert len(empty_bench.desk.store.clients()) == 1


def test_nobody_is_made_without_a_name(fresh: Interview, empty_bench: Bench) -> None:
    retype(profile(fresh).mass, "62")
    fresh.try_keep()
    assert fresh.at == 0
    assert "no name" in fresh.wrong.text()
    assert profile(fresh).mass.edit.text() == "62"
    assert empty_bench.desk.work is None
    assert not fresh.skip_button.isEnabled()


def test_leaving_keeps_the_page_that_is_left(known: Interview, bench: Bench) -> None:
    at(known, "Days")
    retype(days(known).fields[1][0], "50")
    QTest.keyClick(known.page, Qt.Key.Key_Escape)
    assert known.result() == Interview.DialogCode.Rejected
    assert not known.isVisible()
    assert bench.desk.client.free[1].minutes == 50
    assert bench.desk.history.undoable.label == "Change the days", "one undo step a page"


def test_what_cannot_be_kept_is_said_before_it_is_left(known: Interview, bench: Bench) -> None:
    at(known, "Days")
    retype(days(known).fields[1][0], "many")
    with nothing_kept(bench):
        known.reject()
        assert known.isVisible()
        assert "'many' is not a number" in known.wrong.text()
        assert "Leave once more" in known.wrong.text()
        assert days(known).fields[1][0].edit.text() == "many"
        known.reject()
    assert not known.isVisible()


def test_leaving_an_empty_beginning_makes_nobody(fresh: Interview, empty_bench: Bench) -> None:
    fresh.reject()
    assert not fresh.isVisible()
    assert empty_bench.desk.work is None


def test_a_screening_is_kept_only_if_it_was_asked(known: Interview, bench: Bench) -> None:
    before = bench.desk.client.screenings
    at(known, "Screening")
    assert known.asked.isVisible()
    known.try_keep()
    assert bench.desk.client.screenings == before, "passing by is no screening"
    known.go_to(NAMES.index("Screening"))
    known.asked.setChecked(True)
    known.try_keep()
    assert len(bench.desk.client.screenings) == len(before) + 1


def test_a_page_that_is_left_out_changes_nothing(known: Interview, bench: Bench) -> None:
    at(known, "Days")
    retype(days(known).fields[1][0], "50")
    with nothing_kept(bench):
        known.skip()
    assert known.at == NAMES.index("Days") + 1


def test_going_back_keeps_too(known: Interview, bench: Bench) -> None:
    at(known, "Days")
    retype(days(known).fields[1][0], "50")
    known.back_button.click()
    assert bench.desk.client.free[1].minutes == 50
    assert known.at == NAMES.index("Days") - 1


def test_walking_through_untouched_is_no_step(known: Interview, bench: Bench) -> None:
    with nothing_kept(bench):
        for _ in PAGES:
            known.try_keep()
    assert known.result() == Interview.DialogCode.Accepted
    assert bench.desk.client == replace(RUNA)


def test_everybody_can_use_every_page(known: Interview) -> None:
    for name in NAMES:
        known.go_to(NAMES.index(name))
        assert unnamed(known) == [], name
        assert too_small(known) == [], name
        assert marked_up(known) == [], name
