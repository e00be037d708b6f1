"""What a plan says of itself: each step of its figures, and what to keep in mind."""

from __future__ import annotations

from dataclasses import replace

from tests.domain.energy.test_plan import JORUNN, planned


def test_the_account_names_every_step():
    lines = {line.label: line.value for line in planned(pal=1.70).working().lines}
    assert lines["For"] == "68 kg, 172 cm, 34 years"
    assert lines["Resting energy, Mifflin 1990"] == "1,424 kcal"
    assert lines["Times 1.70, active/moderate"] == "2,421 kcal"
    assert lines["+10% to gain"] == "2,660 kcal"
    assert lines["Protein, 1.6 g for each of 68 kg"] == "110 g"


def test_an_intake_far_from_the_need_asks_to_check_the_log():
    found = planned(current_kcal=1200.0, pal=1.7)
    assert any("far apart" in remark for remark in found.remarks)


def test_a_need_from_logs_takes_the_place_of_the_equations():
    found = planned(need_kcal=2550.0)
    assert found.need_kcal == 2550
    assert found.lines[0].label == "Energy used, from logs"


def test_little_energy_for_the_fat_free_mass_is_remarked():
    found = planned(replace(JORUNN, fat_free_kg=60.0), goal="lose", pal=1.2)
    assert any("30 kcal for each kg" in remark for remark in found.remarks)
