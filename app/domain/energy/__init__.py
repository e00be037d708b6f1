"""Energy and macronutrients: what a body uses, what to aim for, and who is sent on instead."""

from app.domain.client import EnergyGoal
from app.domain.energy.advice import (
    AMDR,
    GAIN_PER_WEEK,
    KCAL_PER_KG,
    LOSS_PER_WEEK,
    PROTEIN,
    ProteinAdvice,
    amdr_verdict,
    energy_availability,
    kcal_of,
    mass_after,
    serving_g,
)
from app.domain.energy.lifting import MET, met_kcal
from app.domain.energy.plan import (
    GOAL_RULES,
    Aim,
    EnergyPlan,
    EnergyWeek,
    GoalRule,
    Macros,
    macros,
    plan,
)
from app.domain.energy.ramp import Ramp, ramp
from app.domain.energy.recheck import Expenditure, reestimate
from app.domain.energy.refer import Referral, body_mass_index, referral
from app.domain.energy.requirement import (
    PAL_MIDPOINT,
    dri_class,
    energy_requirement,
    fao_class,
    total_energy,
)
from app.domain.energy.resting import (
    KJ_PER_KCAL,
    RESTING_EQUATIONS,
    RestingEnergy,
    estimate_resting_energy,
    resting_energy,
    schofield_kj,
)

__all__ = [
    "AMDR",
    "GAIN_PER_WEEK",
    "GOAL_RULES",
    "KCAL_PER_KG",
    "KJ_PER_KCAL",
    "LOSS_PER_WEEK",
    "MET",
    "PAL_MIDPOINT",
    "PROTEIN",
    "RESTING_EQUATIONS",
    "Aim",
    "EnergyGoal",
    "EnergyPlan",
    "EnergyWeek",
    "Expenditure",
    "GoalRule",
    "Macros",
    "ProteinAdvice",
    "Ramp",
    "Referral",
    "RestingEnergy",
    "amdr_verdict",
    "body_mass_index",
    "dri_class",
    "energy_availability",
    "energy_requirement",
    "estimate_resting_energy",
    "fao_class",
    "kcal_of",
    "macros",
    "mass_after",
    "met_kcal",
    "plan",
    "ramp",
    "reestimate",
    "referral",
    "resting_energy",
    "schofield_kj",
    "serving_g",
    "total_energy",
]
