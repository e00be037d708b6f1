"""Every rule by name, with what it looks at."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import Enum

from app.domain.checks import (
    arrangement,
    change,
    eating,
    evidence,
    exertion,
    person,
    possible,
    recurrence,
    volume,
    zones,
)
from app.domain.findings import Finding


class Reach(Enum):
    """What a rule looks at: one week, a week and the one before it, or all weeks."""

    WEEK = "week"
    PAIR = "pair"
    PROGRAM = "program"


@dataclass(frozen=True, slots=True)
class Rule:
    """A check by name.

    function: (week, context, index=) for a week, (before, week, context=, index=) for a pair,
    (weeks, context) for the program; each yields findings.
    """

    name: str
    function: Callable[..., Iterable[Finding]]
    reach: Reach = Reach.WEEK


RULES: tuple[Rule, ...] = (
    Rule("screening", person.screening, Reach.PROGRAM),
    Rule("pregnancy", person.pregnancy, Reach.PROGRAM),
    Rule("age", person.age, Reach.PROGRAM),
    Rule("availability", person.availability, Reach.PROGRAM),
    Rule("training_days", person.training_days, Reach.PROGRAM),
    Rule("energy_advice", eating.energy_advice, Reach.PROGRAM),
    Rule("energy_intake", eating.energy_intake, Reach.PROGRAM),
    Rule("energy_change", eating.energy_change, Reach.PROGRAM),
    Rule("energy_ramp", eating.energy_ramp, Reach.PROGRAM),
    Rule("energy_steps", eating.energy_steps, Reach.PROGRAM),
    Rule("protein", eating.protein, Reach.PROGRAM),
    Rule("fat", eating.fat, Reach.PROGRAM),
    Rule("limitation_ended", possible.limitation_ended, Reach.PROGRAM),
    Rule("left_out", volume.left_out, Reach.PROGRAM),
    Rule("rep_spread", zones.rep_spread, Reach.PROGRAM),
    Rule("moderate_only", person.moderate_only),
    Rule("limitation", possible.limitation),
    Rule("equipment", possible.equipment),
    Rule("weekly_sets", volume.weekly_sets),
    Rule("weekly_frequency", recurrence.weekly_frequency),
    Rule("session_sets", volume.session_sets),
    Rule("exercise_sets", arrangement.exercise_sets),
    Rule("rep_zone", zones.rep_zone),
    Rule("exercise_reps", zones.exercise_reps),
    Rule("load_zone", zones.load_zone),
    Rule("heavy_work", zones.heavy_work),
    Rule("effort", exertion.effort),
    Rule("reserve", exertion.reserve),
    Rule("rest", exertion.rest),
    Rule("tempo", exertion.tempo),
    Rule("session_minutes", possible.session_minutes),
    Rule("spacing", recurrence.spacing),
    Rule("spinal_load", arrangement.spinal_load),
    Rule("exercise_order", arrangement.exercise_order),
    Rule("warm_up", arrangement.warm_up),
    Rule("pattern_balance", arrangement.pattern_balance),
    Rule("activation_share", evidence.activation_share),
    Rule("skill", person.skill),
    Rule("dislikes", person.dislikes),
    Rule("spacing", recurrence.spacing_over_sunday, Reach.PAIR),
    Rule("spinal_load", arrangement.spinal_load_over_sunday, Reach.PAIR),
    Rule("set_rise", change.set_rise, Reach.PAIR),
    Rule("load_rise", change.load_rise, Reach.PAIR),
    Rule("light_week_dose", change.light_week_dose, Reach.PAIR),
    Rule("light_weeks", change.light_weeks, Reach.PROGRAM),
    Rule("time_since_change", change.time_since_change, Reach.PROGRAM),
)
"""Every rule, in the order in which its findings stand within the program or a week."""
