"""Energy: goal and figures as one step, targets shown as they would be, referrals first."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QLocale
from pytestqt.qtbot import QtBot

from app.domain.client import EnergyGoal
from app.ui.bench import Bench
from app.ui.client.energy import LEVELS, REFERRALS, EnergySheet
from tests.ui.desks import TODAY, with_client
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> EnergySheet:
    made = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    return made


def test_goal_level_and_what_is_eaten_are_kept_as_one_step(
    sheet: EnergySheet, bench: Bench
) -> None:
    choose(sheet.goal, "gain")
    choose(sheet.level, "vigorous")
    retype(sheet.now, "2450")
    with one_step(bench, "Change the energy goal"):
        kept(sheet)
    client = bench.desk.client
    assert client.energy_goal is EnergyGoal.GAIN
    assert client.kcal_now == 2450
    assert 2.0 <= client.activity_level <= 2.4


@pytest.mark.parametrize("language", ["en_US", "de_DE", "fr_FR", "de_CH"])
def test_thousands_of_kcal_stay_what_they_are_on_every_platform(
    qtbot: QtBot, bench: Bench, language: str
) -> None:
    QLocale.setDefault(QLocale(language))
    with_client(bench, kcal_now=2450.0, energy_goal=EnergyGoal.HOLD)
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    assert sheet.now.edit.text() == "2450"
    retype(sheet.now, "2460")
    kept(sheet)
    assert bench.desk.client.kcal_now == 2460


def test_an_untouched_sheet_makes_no_step(qtbot: QtBot, bench: Bench) -> None:
    with_client(
        bench,
        energy_goal=EnergyGoal.LOSE,
        activity_level=1.62,
        kcal_now=2300.125,
        refer=("something else", REFERRALS[0]),
    )
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    with nothing_kept(bench):
        kept(sheet)


@pytest.mark.parametrize("level", range(len(LEVELS)))
def test_every_level_is_read_back_as_its_class(qtbot: QtBot, bench: Bench, level: int) -> None:
    with_client(bench, activity_level=LEVELS[level][1])
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    assert sheet.level.currentIndex() == level


@pytest.mark.parametrize(
    ("typed", "says"), [("2.5", "2.5 is out of range"), ("9000", "out of range"), ("a", "'a'")]
)
def test_what_nobody_eats_is_refused(
    sheet: EnergySheet, bench: Bench, typed: str, says: str
) -> None:
    retype(sheet.now, typed)
    refused_with(sheet, bench, "Eats now", says, "Enter 500 to 8000.")


def test_the_targets_of_the_open_week_are_shown_while_the_goal_is_chosen(
    sheet: EnergySheet, bench: Bench
) -> None:
    bench.show_week(5)
    assert sheet.preview.text().startswith("No energy goal.")
    choose(sheet.goal, "hold")
    hold = sheet.preview.text()
    assert hold.startswith("Target, week 6: ")
    choose(sheet.goal, "gain")
    assert sheet.preview.text() != hold


@pytest.mark.parametrize("reason", REFERRALS)
def test_a_referral_takes_the_place_of_every_number(sheet: EnergySheet, reason: str) -> None:
    choose(sheet.goal, "lose")
    sheet.boxes[reason].click()
    assert "kcal" not in sheet.preview.text()
    assert "dietitian" in sheet.preview.text() or "practitioner" in sheet.preview.text()
    sheet.boxes[reason].click()
    assert "kcal" in sheet.preview.text()


def test_reasons_are_kept_beside_others_that_the_sheet_does_not_show(
    qtbot: QtBot, bench: Bench
) -> None:
    with_client(bench, refer=("told to by the clinic",))
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    sheet.boxes[REFERRALS[1]].click()
    kept(sheet)
    assert bench.desk.client.refer == ("told to by the clinic", REFERRALS[1])


def test_half_a_number_is_not_called_wrong_and_promises_nothing(
    sheet: EnergySheet, bench: Bench
) -> None:
    choose(sheet.goal, "hold")
    assert "kcal" in sheet.preview.text()
    retype(sheet.now, "24")
    assert not sheet.now.is_wrong
    assert sheet.preview.text() == ""
    refused_with(sheet, bench, "Eats now: 24 is out of range.")
    assert sheet.now.is_wrong
    retype(sheet.now, "2450")
    assert not sheet.now.is_wrong
    assert "kcal" in sheet.preview.text()
