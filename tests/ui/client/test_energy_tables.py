from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QLabel

from app.domain import energy
from app.domain.client import EnergyGoal
from app.domain.energy.table import EnergyTable, energy_table
from app.ui.client.energy_tables import CHOSEN, EnergyTables
from app.ui.client.number_button import NumberButton
from tests.ui.desks import RUNA, TODAY

GAINING = replace(RUNA, energy_goal=EnergyGoal.GAIN, kcal_now=2050.0)


def numbers_of(client) -> tuple[energy.EnergyPlan, EnergyTable]:
    plan = energy.usual_plan(client, weeks=6, on=TODAY)
    table = energy_table(client, TODAY)
    assert isinstance(plan, energy.EnergyPlan)
    assert isinstance(table, EnergyTable)
    return plan, table


PLAN, TABLE = numbers_of(GAINING)


@pytest.fixture
def tables(qtbot, dressed, bench):
    made = EnergyTables(bench)
    qtbot.addWidget(made)
    made.show_numbers(GAINING, PLAN, TABLE, on=TODAY)
    made.show()
    return made


def numbers(page):
    tabs = page.parent().parent()
    tabs.setCurrentWidget(page)  # a tab is filled when it is first looked at
    return {button.about: button for button in page.findChildren(NumberButton)}


def texts(page):
    return [label.text() for label in page.findChildren(QLabel)]


def test_targets_stand_with_their_ranges_and_accounts(tables):
    found = numbers(tables.pages[0])
    assert found["Target"].text() == f"{PLAN.target_kcal:,.0f}"
    assert found["Needs, to hold"].text() == f"{PLAN.need_kcal:,.0f}"
    assert set(found) >= {"Protein", "Fat", "Carbohydrate"}
    assert all(button.working.lines for button in found.values())
    assert any("client's own matter" in text for text in texts(tables.pages[0]))
    assert tables.chart.energy is PLAN


def test_every_week_has_its_row(tables):
    found = numbers(tables.pages[1])
    assert [found[f"Week {w.number}"].text() for w in PLAN.weeks] == [
        f"{w.kcal:,.0f}" for w in PLAN.weeks
    ]


def test_every_number_of_a_week_tells_how_it_came_about(tables):
    found = numbers(tables.pages[1])
    assert len(found) == 5 * len(PLAN.weeks)
    assert all(button.working.lines for button in found.values())
    protein = found["Week 2, Protein"]
    assert protein.text() == f"{PLAN.weeks[1].macros.protein_g:.0f}"
    mass = found["Week 4, mass"].working
    assert mass.lines[0].value == "66.4 kg"
    assert mass.sources == ("iraki2019",)


def test_masses_are_in_the_clients_unit(tables):
    pounds = replace(GAINING, units="lb")
    tables.show_numbers(pounds, PLAN, TABLE, on=TODAY)
    low = PLAN.weeks[0].mass_kg[0] / 0.45359237
    shown = numbers(tables.pages[1])["Week 1, mass"].text()
    assert shown.startswith(f"{low:.1f}".removesuffix(".0"))
    assert "Mass, lb" in texts(tables.pages[1])


def test_every_equation_stands_with_its_value_and_the_chosen_one_is_marked(tables):
    found = numbers(tables.pages[2])
    for row in TABLE.equations:
        if row.kcal is not None:
            assert found[row.name].text() == f"{row.kcal:,.0f}"
    told = texts(tables.pages[2])
    assert f"{CHOSEN}Mifflin 1990" in told
    assert told.count("needs fat-free mass") == 2
    assert f"{CHOSEN}Sedentary or light" in told
    assert any("The equations part by" in text for text in told)
    iom = TABLE.requirements[0]
    shown = found[f"{iom.name}, active"].text()
    assert shown.removeprefix(CHOSEN) == f"{iom.by_activity[2]:,.0f}"


def test_nothing_is_left_where_there_are_no_numbers(tables):
    tables.show_nothing("No goal is chosen.")
    assert not tables.tabBar().isEnabled()
    for page in tables.pages:
        assert texts(page) == ["No goal is chosen."]
        assert page.findChildren(NumberButton) == []
