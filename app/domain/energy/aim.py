"""What an energy plan aims at: the rule of its goal, and what the coach chooses instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.domain.client import EnergyGoal, Status
from app.domain.energy.advice import AMDR, GAIN_PER_WEEK, LOSS_PER_WEEK, mass_after
from app.domain.energy.ramp import PROTEIN_STEP_G, rounded
from app.domain.energy.requirement import PAL_MIDPOINT
from app.domain.energy.resting import Person
from app.domain.units import require
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE

HIGH_BMI = 30.0
"""Body mass index above which protein is counted for the mass at 25. Common practice."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What the coach chooses about a plan; every field has a usual value.

    arrive_in: the week to be at the target (None: as soon as the largest step allows);
    most_step_kcal: the largest change from week to week (common practice); pal: physical
    activity level, training included; change: surplus or deficit as a part of the need;
    need_kcal: re-estimated from logs, in the place of the equations.
    """

    weeks: int = 12
    arrive_in: int | None = None
    most_step_kcal: float = 100.0
    pal: float = PAL_MIDPOINT["sedentary/light"]
    change: float | None = None
    protein_g_per_kg: float | None = None
    protein_now_g: float | None = None
    fat_share: float = 0.30
    need_kcal: float | None = None

    def __post_init__(self) -> None:
        require("number of weeks", self.weeks, low=1, high=52)
        require("physical activity level", self.pal, low=1.0, high=2.5)
        require("share of fat", self.fat_share, low=AMDR["fat"][0], high=AMDR["fat"][1])
        if self.protein_g_per_kg is not None:
            require("protein, g for each kg", self.protein_g_per_kg, low=0.8, high=3.1)
        if self.need_kcal is not None:
            require("energy used, kcal a day", self.need_kcal, low=800, high=8000)


@dataclass(frozen=True, slots=True)
class GoalRule:
    """What a goal asks: usual and largest change of energy as a part of the need, protein in
    g/kg, change of body mass a week, and who says so.
    """

    change: float
    limits: tuple[float, float]
    protein: float
    rate: tuple[float, float]
    sources: tuple[str, ...]


GOAL_RULES: Mapping[EnergyGoal, GoalRule] = MappingProxyType(
    {
        EnergyGoal.GAIN: GoalRule(
            0.10, (0.0, 0.20), 1.6, GAIN_PER_WEEK, ("iraki2019", "morton2018")
        ),
        EnergyGoal.HOLD: GoalRule(
            0.0, (0.0, 0.0), 1.6, (-0.001, 0.001), ("morton2018", COMMON_PRACTICE)
        ),
        # protein at the upper end for exercising people, short of the 2.3 of lean trained ones
        EnergyGoal.LOSE: GoalRule(
            -0.15, (-0.25, 0.0), 2.0, LOSS_PER_WEEK, ("jager2017", COMMON_PRACTICE)
        ),
    }
)
"""The rules of each goal."""


def change_of(goal: EnergyGoal, status: Status, wanted: float | None) -> float:
    """The surplus or deficit, as a part of the need: the coach's, or the usual one.

    Advanced lifters gain on half the usual surplus, as iraki2019 advises less for them.
    """
    rule = GOAL_RULES[goal]
    if wanted is None:
        smaller = goal is EnergyGoal.GAIN and status is Status.ADVANCED
        return rule.change / 2 if smaller else rule.change
    low, high = rule.limits
    what = tr("change of energy to {goal}, part of the need", goal=tr(goal.value))
    return require(what, wanted, low=low, high=high)


def corridor(goal: EnergyGoal, mass_kg: float, week: int) -> tuple[float, float]:
    """Body mass at the end of a week (0: now), if it changes as the goal means it to, kg."""
    slow, fast = sorted(mass_after(mass_kg, rate, weeks=week) for rate in GOAL_RULES[goal].rate)
    return slow, fast


def counted_kg(mass_kg: float, height_cm: float) -> float:
    """The body mass that protein is counted for."""
    square_m = (height_cm / 100) ** 2
    return 25 * square_m if mass_kg / square_m > HIGH_BMI else mass_kg


def per_kg(goal: EnergyGoal, aim: Aim) -> float:
    """Protein, g for each kg that it is counted for: the coach's, or the usual one."""
    return GOAL_RULES[goal].protein if aim.protein_g_per_kg is None else aim.protein_g_per_kg


def protein_target_g(goal: EnergyGoal, who: Person, aim: Aim) -> float:
    """Protein, g a day, in steps of 5."""
    return rounded(per_kg(goal, aim) * counted_kg(who.mass_kg, who.height_cm), PROTEIN_STEP_G)
