"""What a plan aims at: the goal's own figures, the coach's within the published bounds."""

from __future__ import annotations

import pytest

from app.domain.client import EnergyGoal, Status
from app.domain.energy import GOAL_RULES, Aim, plan
from app.domain.energy.aim import change_of, counted_kg, per_kg
from app.domain.errors import QuantityError
from tests.domain.energy.test_plan import JORUNN, TODAY


def test_the_usual_figures_are_the_goals_and_the_coachs_go_before_them():
    for goal, rule in GOAL_RULES.items():
        assert change_of(goal, Status.NOVICE, None) == rule.change
        assert per_kg(goal, Aim()) == rule.protein
        assert per_kg(goal, Aim(protein_g_per_kg=1.9)) == 1.9
    assert change_of(EnergyGoal.GAIN, Status.NOVICE, 0.05) == 0.05


def test_advanced_lifters_gain_on_half_and_lose_on_as_much():
    assert change_of(EnergyGoal.GAIN, Status.ADVANCED, None) == 0.05
    assert change_of(EnergyGoal.LOSE, Status.ADVANCED, None) == -0.15


@pytest.mark.parametrize(("mass_kg", "counted"), [(86.6, 86.6), (86.8, 72.25)])
def test_above_an_index_of_30_protein_counts_for_the_mass_at_25(mass_kg, counted):
    # at 1.70 m an index of 30 is 86.7 kg, and 25 is 72.25 kg
    assert counted_kg(mass_kg, 170) == pytest.approx(counted)


@pytest.mark.parametrize(
    "fields",
    [
        {"weeks": 0},
        {"pal": 5},
        {"fat_share": 0.05},
        {"protein_g_per_kg": 9},
        {"need_kcal": -1},
    ],
)
def test_impossible_aims_are_refused(fields):
    with pytest.raises(QuantityError):
        Aim(**fields)


@pytest.mark.parametrize(("goal", "change"), [("gain", 0.5), ("lose", -0.6), ("lose", 0.1)])
def test_changes_past_the_published_bounds_are_refused(goal, change):
    with pytest.raises(QuantityError, match=f"change of energy to {goal}"):
        plan(JORUNN, goal, 2000.0, on=TODAY, aim=Aim(change=change))
