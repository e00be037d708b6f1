"""Energy: goal and figures as one step, targets shown as they would be, referrals first."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app import press
from app.domain import energy
from app.domain.client import EnergyGoal
from app.ui.bench import Bench
from app.ui.client import energy_lines
from app.ui.client.energy import LEVELS, REFERRALS, EnergySheet
from app.ui.client.number_button import NumberButton
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


def test_another_equation_is_kept_and_carries_the_numbers(
    qtbot: QtBot, sheet: EnergySheet, bench: Bench
) -> None:
    choose(sheet.goal, "hold")
    usual = sheet.tables.pages[0].findChildren(NumberButton)[0].text()
    sheet.equation.setCurrentIndex(sheet.equation.findData("schofield"))
    assert sheet.tables.pages[0].findChildren(NumberButton)[0].text() != usual
    kept(sheet)
    assert bench.desk.client.energy_equation == "schofield"
    again = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(again)
    assert again.equation.currentData() == "schofield"


def test_no_number_stands_beside_a_referral(sheet: EnergySheet) -> None:
    choose(sheet.goal, "lose")
    assert sheet.tables.tabBar().isEnabled()
    sheet.boxes[REFERRALS[0]].click()
    assert not sheet.tables.tabBar().isEnabled()
    assert sheet.tables.findChildren(NumberButton) == []
    assert said_instead(sheet).startswith("No numbers here. ")
    assert "kidney disease" in said_instead(sheet).lower()


def said_instead(sheet: EnergySheet) -> str:
    """What stands on the first tab in the place of numbers."""
    return " ".join(label.text() for label in sheet.tables.pages[0].widget().findChildren(QLabel))


def test_without_numbers_it_says_what_to_do(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, mass_kg=None)
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    choose(sheet.goal, "none")
    assert "Choose on the left whether body mass is to rise" in said_instead(sheet)
    choose(sheet.goal, "hold")
    assert "without body mass. Enter it on the client's page." in said_instead(sheet)
    assert sheet.preview.text() == ""
    retype(sheet.now, "a lot")
    assert "once those on the left can be read" in said_instead(sheet)


def offered(sheet: EnergySheet) -> dict[str, bool]:
    """The equations in the choice, and whether they can be chosen."""
    box = sheet.equation
    flags = [box.model().index(at, 0).flags() for at in range(box.count())]
    return {box.itemText(at): Qt.ItemFlag.ItemIsEnabled in flag for at, flag in enumerate(flags)}


def test_the_fat_free_mass_fills_the_table_and_is_kept(sheet: EnergySheet, bench: Bench) -> None:
    choose(sheet.goal, "hold")
    sheet.tables.setCurrentIndex(2)
    retype(sheet.lean, "50")
    found = {button.about: button.text() for button in sheet.tables.findChildren(NumberButton)}
    assert found["Cunningham 1991"] == "1,450"  # 370 + 21.6 x 50 (cunningham1991)
    retype(sheet.lean, "500")
    assert sheet.preview.text() == ""
    retype(sheet.lean, "50")
    with one_step(bench, "Change the energy goal"):
        kept(sheet)
    assert bench.desk.client.fat_free_kg == 50


def test_equations_on_fat_free_mass_can_be_chosen_once_it_was_measured(
    qtbot: QtBot, sheet: EnergySheet, bench: Bench
) -> None:
    choose(sheet.goal, "hold")
    assert not offered(sheet)["Cunningham 1991: no fat-free mass"]
    assert "need a measured fat-free mass" in sheet.equation_words.text()
    assert offered(sheet)["Schofield 1985"]
    retype(sheet.lean, "50")
    assert offered(sheet)["Cunningham 1991"]
    assert sheet.equation_words.isHidden()
    choose(sheet.equation, "Cunningham 1991")
    kept(sheet)
    client = bench.desk.client
    assert (client.energy_equation, client.fat_free_kg) == ("cunningham_1991", 50)
    plan = energy.usual_plan(client, weeks=1, on=TODAY)
    assert plan.resting.kcal == 1450  # 370 + 21.6 x 50 (cunningham1991)
    again = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(again)
    assert (again.lean.edit.text(), again.equation.currentText()) == ("50", "Cunningham 1991")


def test_the_chosen_equation_is_not_kept_without_the_fat_free_mass_it_needs(
    qtbot: QtBot, bench: Bench
) -> None:
    own = {"energy_equation": "cunningham_1980", "energy_goal": EnergyGoal.HOLD}
    with_client(bench, fat_free_kg=50.0, **own)
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    retype(sheet.lean, "")
    assert "Cunningham 1980 needs the fat-free mass" in said_instead(sheet)
    refused_with(sheet, bench, "Cunningham 1980 needs the fat-free mass")
    sheet.equation.setCurrentIndex(0)
    kept(sheet)
    assert bench.desk.client.energy_equation == ""


def test_a_fat_free_mass_that_is_not_below_the_body_mass_is_refused(
    sheet: EnergySheet, bench: Bench
) -> None:
    retype(sheet.lean, f"{bench.desk.client.mass_kg + 1:g}")
    refused_with(sheet, bench, "is not below the body mass", "measured last")


def test_the_form_says_how_uncertain_a_fat_free_mass_is(sheet: EnergySheet) -> None:
    said = [label.text() for label in sheet.findChildren(QLabel)]
    assert any("Only as measured" in text and "value from memory" in text for text in said)


def test_a_level_from_logs_is_said_and_stays(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, activity_level=1.64, energy_goal=EnergyGoal.HOLD)
    sheet = EnergySheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    assert "1.64" in sheet.level_words.text()
    choose(sheet.level, "active")
    assert "1.64" not in sheet.level_words.text()


@pytest.mark.parametrize("equation", ["schofield", "cunningham_1991"])
def test_window_checks_and_booklet_rest_on_one_plan(bench: Bench, equation: str) -> None:
    with_client(
        bench,
        energy_goal=EnergyGoal.GAIN,
        energy_equation=equation,
        fat_free_kg=48.0,
        kcal_now=2200.0,
    )
    desk = bench.desk
    plan = energy.usual_plan(desk.client, weeks=len(desk.program.weeks), on=desk.program.start)
    issue = desk.draft_issue(TODAY)
    printed = press.content_for(issue, desk.catalogue, desk.ranges).energy
    assert printed == plan
    assert plan.resting.equation == equation
    shown = energy_lines.told(desk.client, bench, TODAY)
    assert f"{plan.weeks[bench.week].kcal:,.0f}" in shown[0].text
