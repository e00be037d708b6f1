"""Energy and protein targets week by week, or the practitioner who should give them instead."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import ceil

from app.domain.client import Client, EnergyGoal, Sex
from app.domain.energy.account import (
    lines_of_macros,
    lines_of_need,
    remarks_on_start,
    remarks_on_target,
)
from app.domain.energy.advice import KCAL_PER_G
from app.domain.energy.aim import GOAL_RULES, Aim, change_of, corridor, protein_target_g
from app.domain.energy.fat_free import refuse_choice, refuse_fat_free
from app.domain.energy.macros import Macros, macros
from app.domain.energy.ramp import KCAL_ROUND, Ramp, protein_ramp, ramp, rounded
from app.domain.energy.refer import Referral, reason_of_intake, reason_of_loss, referral
from app.domain.energy.requirement import total_energy
from app.domain.energy.resting import Person, RestingEnergy, estimate_resting_energy, person
from app.domain.errors import CoachError
from app.domain.units import kcal_text, require
from app.domain.wording import listing, mark, tr
from app.domain.working import Line, Working


@dataclass(frozen=True, slots=True)
class EnergyWeek:
    """The targets of one week, for each day of it.

    number: from 1; mass_kg: the corridor that body mass is expected in at the end of the week.
    """

    number: int
    kcal: float
    macros: Macros
    mass_kg: tuple[float, float]


@dataclass(frozen=True, slots=True)
class EnergyPlan:
    """Energy and macronutrient targets of an adult, and the weekly ramp to them.

    need_kcal: without surplus or deficit; reached_in: the week in which the target is reached,
    None if not in these weeks; remarks: what to keep in mind, as sentences; eaten_kcal: what is
    eaten now, where known. No week lies below the resting energy.
    """

    goal: EnergyGoal
    resting: RestingEnergy
    need_kcal: float
    target_kcal: float
    target: Macros
    weeks: tuple[EnergyWeek, ...]
    reached_in: int | None
    remarks: tuple[str, ...]
    lines: tuple[Line, ...]
    sources: tuple[str, ...]
    eaten_kcal: float | None = None

    @property
    def eats_below_rest(self) -> bool:
        """True if what is eaten now lies below the resting energy."""
        return self.eaten_kcal is not None and self.eaten_kcal < self.resting.kcal

    @property
    def need_range(self) -> tuple[float, float]:
        """The need with the 10 % either way that an equation can miss one person (fao2004)."""
        return 0.9 * self.need_kcal, 1.1 * self.need_kcal

    def working(self) -> Working:
        """The account of the target."""
        return Working(
            title=tr("{target_kcal:,.0f} kcal a day", target_kcal=self.target_kcal),
            about=tr("energy target, to {goal}", goal=tr(self.goal.value)),
            lines=(*self.lines, *(Line(tr("Remark"), remark) for remark in self.remarks)),
            sources=self.sources,
        )


def plan(
    client: Client,
    goal: EnergyGoal | str,
    current_kcal: float | None = None,
    *,
    on: date,
    aim: Aim | None = None,
) -> EnergyPlan | Referral:
    """Energy, protein, fat and carbohydrate for each week, or a referral instead of numbers.

    current_kcal: what the client eats now, kcal a day, the start of the ramp where it does not lie
    below the resting energy (None: what the client's page says, else the need); on: the first
    day, for the client's age and clearance. Raises CoachError for missing figures and
    QuantityError for impossible ones.
    """
    aim = aim or Aim()
    goal = _as_goal(goal)
    instead = referral(client, on)
    if instead is not None:
        return instead
    who = client_figures(client, on)
    resting = _resting(who, client.energy_equation)
    eaten = _eaten(client.kcal_now if current_kcal is None else current_kcal)
    late = _reasons_of_figures(goal, who, aim=aim, resting=resting, eaten=eaten)
    if late:
        return Referral(late)
    need = total_energy(resting.kcal, aim.pal) if aim.need_kcal is None else aim.need_kcal
    change = change_of(goal, client.status, aim.change)
    wanted = need * (1 + change)
    target_kcal = max(rounded(wanted, KCAL_ROUND), lowest_kcal(resting))
    protein_g = protein_target_g(goal, who, aim)
    target = macros(target_kcal, protein_g, fat_g=_fat(target_kcal, aim))
    steps = ramp(
        max(_start(eaten, need), lowest_kcal(resting)),
        target_kcal,
        weeks=aim.weeks,
        arrive_in=aim.arrive_in,
        most_step_kcal=aim.most_step_kcal,
    )
    remarks = (
        steps.remark,
        *remarks_on_start(eaten, need, resting=resting, lowest_kcal=lowest_kcal(resting)),
        *remarks_on_target(target_kcal, wanted, who=who, target=target),
    )
    return EnergyPlan(
        goal=goal,
        resting=resting,
        need_kcal=need,
        target_kcal=target_kcal,
        target=target,
        weeks=_weeks(goal, steps, who=who, aim=aim),
        reached_in=steps.reached_in,
        remarks=tuple(remark for remark in remarks if remark),
        lines=(
            *lines_of_need(resting, who, aim=aim, need=need),
            Line(
                tr("{change:+.0%} to {goal}", change=change, goal=tr(goal.value)),
                kcal_text(target_kcal),
            ),
            *lines_of_macros(goal, who, aim=aim, target=target),
        ),
        sources=(*resting.sources, "fao2004", *GOAL_RULES[goal].sources, "iom2005"),
        eaten_kcal=eaten,
    )


def _as_goal(goal: EnergyGoal | str) -> EnergyGoal:
    """The goal from its name. Raises CoachError for others."""
    try:
        return EnergyGoal(goal)
    except ValueError:
        raise CoachError(
            tr("There is no energy goal {goal!r}.", goal=goal),
            mend=tr("Choose one of {energygoal}.", energygoal=", ".join(EnergyGoal)),
        ) from None


def _resting(who: Person, equation: str) -> RestingEnergy:
    return estimate_resting_energy(
        who.sex,
        who.age_y,
        height_cm=who.height_cm,
        mass_kg=who.mass_kg,
        fat_free_kg=who.fat_free_kg,
        equation=equation,
    )


def _fat(kcal: float, aim: Aim) -> float:
    return aim.fat_share * kcal / KCAL_PER_G["fat"]


def _weeks(goal: EnergyGoal, steps: Ramp, *, who: Person, aim: Aim) -> tuple[EnergyWeek, ...]:
    """Each week's energy with the grams it is made of."""
    proteins = protein_ramp(aim.protein_now_g, protein_target_g(goal, who, aim), aim.weeks)
    return tuple(
        EnergyWeek(
            number,
            kcal,
            macros(kcal, protein_g, fat_g=_fat(kcal, aim)),
            corridor(goal, who.mass_kg, number),
        )
        for number, (kcal, protein_g) in enumerate(zip(steps.kcal, proteins, strict=True), start=1)
    )


def client_figures(client: Client, on: date) -> Person:
    """The client's figures for the equations.

    Raises CoachError naming the one that is missing, also a fat-free mass that the client's own
    equation needs, and for one that is not below the body mass.
    """
    age_y = client.age_on(on)
    figures = {
        mark("date of birth"): age_y,
        mark("sex for the equations"): client.sex,
        mark("height"): client.height_cm,
        mark("body mass"): client.mass_kg,
    }
    missing = [name for name, value in figures.items() if value is None]
    if missing:
        raise CoachError(
            tr(
                "Energy cannot be computed without {missing}.",
                missing=listing([tr(name) for name in missing]),
            ),
            where=client.name,
            mend=tr("Enter it on the client's page."),
        )
    refuse_fat_free(client)
    refuse_choice(client)
    return person(
        client.sex or Sex.AVERAGE,
        float(age_y or 0),
        height_cm=client.height_cm or 0.0,
        mass_kg=client.mass_kg or 0.0,
        fat_free_kg=client.fat_free_kg,
    )


def _reasons_of_figures(
    goal: EnergyGoal, who: Person, *, aim: Aim, resting: RestingEnergy, eaten: float | None
) -> tuple[str, ...]:
    """Why these figures belong with a practitioner, as sentences."""
    reasons = [reason_of_intake(eaten, resting.kcal)]
    if goal is EnergyGoal.LOSE:
        lowest_kg, _ = corridor(goal, who.mass_kg, aim.weeks)
        reasons.append(reason_of_loss(lowest_kg, who.height_cm, weeks=aim.weeks))
    return tuple(reason for reason in reasons if reason)


def _eaten(kcal: float | None) -> float | None:
    """What is eaten now, kcal a day, once it is known to be possible."""
    if kcal is None:
        return None
    return require("energy eaten now, kcal a day", kcal, low=500, high=8000)


def _start(eaten: float | None, need: float) -> float:
    """Where the ramp would begin, kcal a day, in whole tens."""
    return rounded(need if eaten is None else eaten, KCAL_ROUND)


def lowest_kcal(resting: RestingEnergy) -> float:
    """What no week and no target lies below: the resting energy, rounded up to ten."""
    return float(KCAL_ROUND * ceil(resting.kcal / KCAL_ROUND))
