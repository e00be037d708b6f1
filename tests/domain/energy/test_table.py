from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import Client, ClientId, Screening, Sex
from app.domain.energy import Referral, energy_requirement, plan, resting_energy
from app.domain.energy.table import (
    choice_text,
    energy_table,
    requirement_working,
)
from app.domain.errors import CoachError

TODAY = date(2030, 9, 2)
JORUNN = Client(
    ClientId("jorunn"),
    "Jorunn Aske",
    born=date(1996, 3, 1),
    sex=Sex.FEMALE,
    height_cm=172,
    mass_kg=68,
    activity_level=1.85,
    screenings=(Screening(date(2030, 8, 26), active=True, known_disease=False, symptoms=False),),
)


def test_every_equation_stands_with_its_value_and_source():
    table = energy_table(JORUNN, TODAY)
    rows = {row.key: row for row in table.equations}
    assert set(rows) == {
        "mifflin",
        "harris_benedict",
        "roza_shizgal",
        "cunningham_1980",
        "cunningham_1991",
        "schofield",
    }
    assert rows["mifflin"].kcal == pytest.approx(1424)  # 680 + 1075 - 170 - 161
    assert rows["schofield"].kcal == pytest.approx(8.126 * 68 + 845.6)
    assert rows["cunningham_1980"].kcal is None
    assert "fat-free" in rows["cunningham_1980"].why_not
    assert [row.key for row in table.equations if row.chosen] == ["mifflin"]


def test_the_fat_free_mass_fills_the_rows_that_need_it():
    table = energy_table(replace(JORUNN, fat_free_kg=50), TODAY)
    rows = {row.key: row.kcal for row in table.equations}
    assert rows["cunningham_1980"] == 1600
    assert rows["cunningham_1991"] == 1450


def test_an_equation_that_needs_the_fat_free_mass_carries_table_and_plan_once_it_is_known():
    own = replace(JORUNN, energy_equation="cunningham_1980", fat_free_kg=50)
    assert energy_table(own, TODAY).resting.kcal == 1600  # 500 + 22 x 50 (cunningham1980)
    planned = plan(own, "hold", on=TODAY)
    assert planned.resting.kcal == 1600
    assert planned.lines[0].value == "68 kg, 50 kg of it fat-free, 172 cm, 34 years"
    for use in (energy_table, lambda who, on: plan(who, "hold", on=on)):
        with pytest.raises(CoachError, match="Cunningham 1980 needs the fat-free mass"):
            use(replace(own, fat_free_kg=None), TODAY)
        with pytest.raises(CoachError, match="68 kg, is not below the body mass, 68 kg"):
            use(replace(own, fat_free_kg=68), TODAY)


def test_the_spread_is_between_the_furthest_equations():
    table = energy_table(JORUNN, TODAY)
    values = [row.kcal for row in table.equations if row.kcal]
    assert table.spread == pytest.approx((max(values) - min(values)) / 1424)


def test_totals_are_the_chosen_resting_energy_times_each_class():
    table = energy_table(JORUNN, TODAY)
    assert [round(row.kcal) for row in table.totals] == [2207, 2634, 3133]
    assert [row.chosen for row in table.totals] == [False, True, False]
    assert table.totals[1].low == pytest.approx(1424 * 1.70)


def test_another_equation_carries_the_totals_and_the_plan():
    own = replace(JORUNN, energy_equation="schofield")
    table = energy_table(own, TODAY)
    kcal = resting_energy("schofield", "f", 34, 172, 68)
    assert table.resting.kcal == kcal
    assert table.totals[1].kcal == pytest.approx(kcal * 1.85)
    planned = plan(own, "hold", on=TODAY)
    assert planned.resting.kcal == kcal
    assert "Schofield 1985" in planned.lines[1].label
    assert "own choice" in choice_text("schofield")
    assert "program's own choice" in choice_text("")


def test_requirement_equations_stand_at_their_four_activities():
    table = energy_table(JORUNN, TODAY)
    iom, dri = table.requirements
    assert iom.by_activity[2] == energy_requirement("iom_2005", "f", 34, 172, 68, "active")
    assert (iom.chosen, dri.chosen) == (2, 3)  # 1.85: active by one table, very active by the other
    shown = requirement_working(iom, table.who, 2)
    assert shown.sources == ("iom2005",)
    assert f"{iom.by_activity[2]:,.0f}" in shown.title


def test_who_is_referred_gets_no_table():
    assert isinstance(energy_table(replace(JORUNN, refer=("kidney disease",)), TODAY), Referral)


def test_a_missing_figure_is_named():
    with pytest.raises(CoachError, match="height"):
        energy_table(replace(JORUNN, height_cm=None), TODAY)


def test_eighteen_year_olds_have_no_requirement_equation():
    table = energy_table(replace(JORUNN, born=date(2012, 1, 1)), TODAY)
    assert table.requirements == ()
