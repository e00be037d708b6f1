"""Energy and macronutrients: what a body uses, what to aim for, and who is sent on instead.

The tables of all equations (`table`), activities (`lifting`) and what weighings say (`recheck`) are
asked of their own modules, since a window shows its week without them.
"""

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
from app.domain.energy.aim import GOAL_RULES, Aim, GoalRule, corridor
from app.domain.energy.macros import Macros, macros
from app.domain.energy.plan import EnergyPlan, EnergyWeek, client_figures, plan
from app.domain.energy.ramp import Ramp, ramp
from app.domain.energy.refer import Referral, body_mass_index, referral
from app.domain.energy.requirement import (
    ACTIVITIES,
    PAL_CLASSES,
    PAL_MIDPOINT,
    dri_class,
    energy_requirement,
    fao_class,
    iom_class,
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
from app.domain.energy.usual import (
    WEEKS_WITHOUT_PROGRAM,
    MacroRow,
    corridor_working,
    macro_rows,
    need_working,
    usual_plan,
    week_working,
)

__all__ = [
    "ACTIVITIES",
    "AMDR",
    "GAIN_PER_WEEK",
    "GOAL_RULES",
    "KCAL_PER_KG",
    "KJ_PER_KCAL",
    "LOSS_PER_WEEK",
    "PAL_CLASSES",
    "PAL_MIDPOINT",
    "PROTEIN",
    "RESTING_EQUATIONS",
    "WEEKS_WITHOUT_PROGRAM",
    "Aim",
    "EnergyGoal",
    "EnergyPlan",
    "EnergyWeek",
    "GoalRule",
    "MacroRow",
    "Macros",
    "ProteinAdvice",
    "Ramp",
    "Referral",
    "RestingEnergy",
    "amdr_verdict",
    "body_mass_index",
    "client_figures",
    "corridor",
    "corridor_working",
    "dri_class",
    "energy_availability",
    "energy_requirement",
    "estimate_resting_energy",
    "fao_class",
    "iom_class",
    "kcal_of",
    "macro_rows",
    "macros",
    "mass_after",
    "need_working",
    "plan",
    "ramp",
    "referral",
    "resting_energy",
    "schofield_kj",
    "serving_g",
    "total_energy",
    "usual_plan",
    "week_working",
]
