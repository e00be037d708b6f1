"""The plan that window, checks and booklet all show, and the accounts of its single numbers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.client import Client, EnergyGoal
from app.domain.energy.advice import AMDR, KCAL_PER_G, PROTEIN
from app.domain.energy.aim import GOAL_RULES, Aim, counted_kg
from app.domain.energy.macros import NUTRIENTS
from app.domain.energy.plan import EnergyPlan, EnergyWeek, client_figures, plan
from app.domain.energy.ramp import PROTEIN_STEP_G, rounded
from app.domain.energy.refer import Referral
from app.domain.units import number_text
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line, Working

WEEKS_WITHOUT_PROGRAM = 12

PROTEIN_BY_GOAL = {
    EnergyGoal.GAIN: "off_season",
    EnergyGoal.HOLD: "exercising",
    EnergyGoal.LOSE: "exercising",
}
"""Whose range of protein stands beside the target, a key of PROTEIN."""


def usual_plan(client: Client, *, weeks: int, on: date) -> EnergyPlan | Referral | None:
    """The client's plan over so many weeks from a day on, or a referral; None without a goal.

    Raises CoachError that names the figure that is missing.
    """
    if client.energy_goal is None:
        return None
    return plan(client, client.energy_goal, on=on, aim=Aim(weeks=weeks, pal=client.activity_level))


@dataclass(frozen=True, slots=True)
class MacroRow:
    """One nutrient of the target: g a day, the range advised in g, and the account of both."""

    key: str
    name: str
    grams: float
    low: float
    high: float
    working: Working


def macro_rows(
    energy: EnergyPlan, client: Client, on: date, *, week: EnergyWeek | None = None
) -> tuple[MacroRow, ...]:
    """Protein, fat and carbohydrate of a week, else of the target, beside what is advised."""
    who = client_figures(client, on)
    kg = counted_kg(who.mass_kg, who.height_cm)
    advice = PROTEIN[PROTEIN_BY_GOAL[energy.goal]]
    kcal = energy.target_kcal if week is None else week.kcal
    target = energy.target if week is None else week.macros
    low, high = (rounded(grams, PROTEIN_STEP_G) for grams in advice.grams(kg))
    per_kg = tr(
        "{low} to {high} g for each of {kg} kg",
        low=number_text(advice.low, 2),
        high=number_text(advice.high, 2),
        kg=number_text(kg),
    )
    protein = _row("protein", target.protein_g, (low, high), per_kg, (advice.source, "morton2018"))
    return (
        protein,
        _of_energy("fat", target.fat_g, kcal),
        _of_energy("carbohydrate", target.carbohydrate_g, kcal),
    )


def _of_energy(key: str, grams: float, kcal: float) -> MacroRow:
    low, high = AMDR[key]
    span = (low * kcal / KCAL_PER_G[key], high * kcal / KCAL_PER_G[key])
    advised = tr(
        "{low} to {high} of {kcal} kcal, {each} kcal for each g",
        low=f"{low:.0%}",
        high=f"{high:.0%}",
        kcal=f"{kcal:,.0f}",
        each=KCAL_PER_G[key],
    )
    return _row(key, grams, span, advised, ("iom2005", "fao2003"))


def _row(
    key: str, grams: float, span: tuple[float, float], advised: str, sources: tuple[str, ...]
) -> MacroRow:
    low, high = span
    name = tr(NUTRIENTS[key])
    working = Working(
        title=tr("{grams} g a day", grams=f"{grams:.0f}"),
        about=name,
        lines=(
            Line(tr("Here"), f"{grams:.0f} g", _made_of(key)),
            Line(tr("Advised"), f"{low:.0f}–{high:.0f} g", advised),
        ),
        sources=sources,
    )
    return MacroRow(key, name, grams, low, high, working)


def _made_of(key: str) -> str:
    """How the grams of a nutrient are set."""
    return {
        "protein": tr("by body mass, in steps of 5 g"),
        "fat": tr("a share of the energy"),
        "carbohydrate": tr("the rest of the energy"),
    }[key]


def corridor_working(energy: EnergyPlan, week: EnergyWeek, mass_kg: float) -> Working:
    """How the corridor of body mass at the end of a week came about. mass_kg: at the start."""
    low, high = week.mass_kg
    rule = GOAL_RULES[energy.goal]
    slow, fast = sorted(rule.rate)
    span = f"{number_text(low)}–{number_text(high)} kg"
    return Working(
        title=span,
        about=tr("body mass meant at the end of week {number}", number=week.number),
        lines=(
            Line(tr("At the start"), f"{number_text(mass_kg)} kg"),
            Line(
                tr("Change a week, to {goal}", goal=tr(energy.goal.value)),
                f"{slow:+.2%} – {fast:+.2%}",
                tr("of body mass"),
            ),
            Line(tr("After {number} weeks", number=week.number), span),
        ),
        sources=("iraki2019",) if energy.goal is EnergyGoal.GAIN else (COMMON_PRACTICE,),
    )


def week_working(energy: EnergyPlan, number: int) -> Working:
    """How the energy of week `number` (from 1) came about: where the ramp begins, then the target.

    Raises IndexError for a week that is not in the plan.
    """
    week, first = energy.weeks[number - 1], energy.weeks[0]
    begins = (
        tr("the computed need: what is eaten now is not known")
        if energy.eaten_kcal is None
        else tr("eaten now, but never below the energy at rest")
    )
    lines = [Line(tr("The weeks begin at"), f"{first.kcal:,.0f} kcal", begins)]
    if number > 1:
        before = energy.weeks[number - 2]
        change = week.kcal - before.kcal
        lines.append(
            Line(
                tr("From week {number}", number=number - 1),
                f"{change:+,.0f} kcal".replace("-", "−"),
            )
        )
    lines.append(Line(tr("Week {number}", number=number), f"{week.kcal:,.0f} kcal"))
    return Working(
        title=tr("{kcal} kcal a day", kcal=f"{week.kcal:,.0f}"),
        about=tr(
            "week {number}, on the way to {kcal}", number=number, kcal=f"{energy.target_kcal:,.0f}"
        ),
        lines=(*lines, *energy.working().lines),
        sources=energy.sources,
    )


def need_working(energy: EnergyPlan) -> Working:
    """How the need without surplus or deficit came about."""
    low, high = energy.need_range
    lines = energy.lines[:3]
    return Working(
        title=tr("{kcal} kcal a day", kcal=f"{energy.need_kcal:,.0f}"),
        about=tr("energy needed to hold, {low}–{high}", low=f"{low:,.0f}", high=f"{high:,.0f}"),
        lines=lines,
        sources=(*energy.resting.sources, "fao2004"),
    )
