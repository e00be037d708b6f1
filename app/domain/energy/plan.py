"""Energy and protein targets week by week, or the practitioner who should give them instead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from math import ceil
from types import MappingProxyType

from app.domain.client import Client, EnergyGoal, Sex, Status
from app.domain.energy.advice import (
    AMDR,
    GAIN_PER_WEEK,
    KCAL_PER_G,
    LOSS_PER_WEEK,
    LOW_AVAILABILITY,
    amdr_verdict,
    mass_after,
)
from app.domain.energy.fat_free import refuse_choice, refuse_fat_free
from app.domain.energy.ramp import (
    KCAL_ROUND,
    MOST_KCAL,
    PROTEIN_STEP_G,
    Ramp,
    protein_ramp,
    ramp,
    rounded,
)
from app.domain.energy.refer import Referral, reason_of_intake, reason_of_loss, referral
from app.domain.energy.requirement import PAL_MIDPOINT, fao_class, total_energy
from app.domain.energy.resting import (
    Person,
    RestingEnergy,
    estimate_resting_energy,
    figures_text,
    person,
)
from app.domain.errors import CoachError
from app.domain.units import kcal_text, number_text, require
from app.domain.wording import listing, mark, tr
from app.domain.working import COMMON_PRACTICE, Line, Working

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
class Macros:
    """Protein, fat and carbohydrate, g a day, that make up an energy target."""

    protein_g: float
    fat_g: float
    carbohydrate_g: float

    def share(self, nutrient: str) -> float:
        """The part of the energy that comes from 'protein', 'fat' or 'carbohydrate'."""
        grams = {
            "protein": self.protein_g,
            "fat": self.fat_g,
            "carbohydrate": self.carbohydrate_g,
        }
        whole = sum(KCAL_PER_G[name] * amount for name, amount in grams.items())
        return KCAL_PER_G[nutrient] * grams[nutrient] / whole


def macros(kcal: float, protein_g: float, *, fat_g: float) -> Macros:
    """Protein and fat as given, and the rest of the energy as carbohydrate.

    Raises CoachError if protein and fat alone pass the energy, and QuantityError for figures
    that cannot be.
    """
    require("energy, kcal a day", kcal, low=0, high=MOST_KCAL)
    require("protein, g a day", protein_g, low=0, high=1000)
    require("fat, g a day", fat_g, low=0, high=1000)
    left = kcal - KCAL_PER_G["protein"] * protein_g - KCAL_PER_G["fat"] * fat_g
    if left < 0:
        raise CoachError(
            tr(
                "{protein_g:.0f} g protein and {fat_g:.0f} g fat alone pass {kcal:,.0f} kcal.",
                protein_g=protein_g,
                fat_g=fat_g,
                kcal=kcal,
            ),
            mend=tr("Lower protein or fat, or raise the energy."),
        )
    return Macros(protein_g, fat_g, left / KCAL_PER_G["carbohydrate"])


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
    change = _change(goal, client.status, aim.change)
    wanted = need * (1 + change)
    target_kcal = max(rounded(wanted, KCAL_ROUND), _floor(resting))
    protein_g = _protein(goal, who, aim)
    target = macros(target_kcal, protein_g, fat_g=_fat(target_kcal, aim))
    steps = ramp(
        max(_start(eaten, need), _floor(resting)),
        target_kcal,
        weeks=aim.weeks,
        arrive_in=aim.arrive_in,
        most_step_kcal=aim.most_step_kcal,
    )
    remarks = (
        steps.remark,
        *_remarks_on_start(eaten, need, resting=resting),
        *_remarks_on_target(target_kcal, wanted, who=who, target=target),
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
            *_lines_of_need(resting, who, aim=aim, need=need),
            Line(
                tr("{change:+.0%} to {goal}", change=change, goal=tr(goal.value)),
                kcal_text(target_kcal),
            ),
            *_lines_of_macros(goal, who, aim=aim, target=target),
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
    proteins = protein_ramp(aim.protein_now_g, _protein(goal, who, aim), aim.weeks)
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


def _change(goal: EnergyGoal, status: Status, wanted: float | None) -> float:
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


def _floor(resting: RestingEnergy) -> float:
    """No week and no target lies below the resting energy; rounded up to ten."""
    return float(KCAL_ROUND * ceil(resting.kcal / KCAL_ROUND))


def _reasons_of_figures(
    goal: EnergyGoal, who: Person, *, aim: Aim, resting: RestingEnergy, eaten: float | None
) -> tuple[str, ...]:
    """Why these figures belong with a practitioner, as sentences."""
    reasons = [reason_of_intake(eaten, resting.kcal)]
    if goal is EnergyGoal.LOSE:
        lowest_kg, _ = corridor(goal, who.mass_kg, aim.weeks)
        reasons.append(reason_of_loss(lowest_kg, who.height_cm, weeks=aim.weeks))
    return tuple(reason for reason in reasons if reason)


def counted_kg(who: Person) -> float:
    """The body mass that protein is counted for."""
    square_m = (who.height_cm / 100) ** 2
    return 25 * square_m if who.mass_kg / square_m > HIGH_BMI else who.mass_kg


def _per_kg(goal: EnergyGoal, aim: Aim) -> float:
    return GOAL_RULES[goal].protein if aim.protein_g_per_kg is None else aim.protein_g_per_kg


def _protein(goal: EnergyGoal, who: Person, aim: Aim) -> float:
    """Protein, g a day, in steps of 5."""
    return rounded(_per_kg(goal, aim) * counted_kg(who), PROTEIN_STEP_G)


def _eaten(kcal: float | None) -> float | None:
    """What is eaten now, kcal a day, once it is known to be possible."""
    if kcal is None:
        return None
    return require("energy eaten now, kcal a day", kcal, low=500, high=8000)


def _start(eaten: float | None, need: float) -> float:
    """Where the ramp would begin, kcal a day, in whole tens."""
    return rounded(need if eaten is None else eaten, KCAL_ROUND)


def corridor(goal: EnergyGoal, mass_kg: float, week: int) -> tuple[float, float]:
    """Body mass at the end of a week (0: now), if it changes as the goal means it to, kg."""
    slow, fast = sorted(mass_after(mass_kg, rate, weeks=week) for rate in GOAL_RULES[goal].rate)
    return slow, fast


def _remarks_on_start(
    eaten: float | None, need: float, *, resting: RestingEnergy
) -> tuple[str, ...]:
    """What to say about the intake the ramp begins with."""
    if eaten is None:
        return (tr("What the client eats now is not known: the ramp begins at the computed need."),)
    below = (
        (
            tr(
                "{eaten:,.0f} kcal eaten now lies below the resting energy: the "
                "weeks begin at {floor:,.0f}. Eating so little is a reason to "
                "see a practitioner.",
                eaten=eaten,
                floor=_floor(resting),
            ),
        )
        if eaten < resting.kcal
        else ()
    )
    if abs(eaten - need) > 0.25 * need:
        return (
            *below,
            tr(
                "{eaten:,.0f} kcal eaten now and a need of {need:,.0f} are far "
                "apart. Check how it was logged, and follow the body mass for "
                "two or three weeks before the next step.",
                eaten=eaten,
                need=need,
            ),
        )
    return below


_NUTRIENTS = {
    "carbohydrate": mark("Carbohydrate"),
    "fat": mark("Fat"),
    "protein": mark("Protein"),
}


def _remarks_on_target(
    target_kcal: float, wanted_kcal: float, *, who: Person, target: Macros
) -> tuple[str, ...]:
    """What to say about the target itself."""
    remarks = []
    if target_kcal > wanted_kcal + KCAL_ROUND:
        remarks.append(tr("Held at the resting energy: less is for a practitioner to advise."))
    for nutrient, (low, high) in AMDR.items():
        if amdr_verdict(nutrient, target.share(nutrient)) != "ok":
            remarks.append(
                tr(
                    "{nutrient} is {share:.0%} of energy; usual for adults: "
                    "{low:.0%} to {high:.0%}.",
                    nutrient=tr(_NUTRIENTS[nutrient]),
                    share=target.share(nutrient),
                    low=low,
                    high=high,
                )
            )
    if counted_kg(who) != who.mass_kg:
        remarks.append(tr("Protein is counted for the body mass at a body mass index of 25."))
    if who.fat_free_kg is not None and target_kcal / who.fat_free_kg < LOW_AVAILABILITY:
        remarks.append(
            tr(
                "Under 30 kcal for each kg of fat-free mass even before training: a "
                "reason to see a practitioner."
            )
        )
    return tuple(remarks)


def _lines_of_need(
    resting: RestingEnergy, who: Person, *, aim: Aim, need: float
) -> tuple[Line, ...]:
    """How the need came about."""
    if aim.need_kcal is not None:
        return (Line(tr("Energy used, from logs"), kcal_text(need)),)
    return (
        Line(tr("For"), figures_text(who)),
        resting.line(),
        Line(
            tr("Times {pal:.2f}, {fao_class}", pal=aim.pal, fao_class=fao_class(aim.pal)),
            kcal_text(need),
            "±10 %",
        ),
    )


def _lines_of_macros(
    goal: EnergyGoal, who: Person, *, aim: Aim, target: Macros
) -> tuple[Line, ...]:
    """How the grams came about."""
    per_kg, kg = _per_kg(goal, aim), counted_kg(who)
    label = tr(
        "Protein, {per_kg} g for each of {counted_kg} kg",
        per_kg=number_text(per_kg, 2),
        counted_kg=number_text(kg),
    )
    exact = tr("{per_kg:.0f} g before rounding", per_kg=per_kg * kg)
    return (
        Line(label, f"{target.protein_g:.0f} g", exact),
        Line(
            tr("Fat, {fat_share:.0%} of energy", fat_share=aim.fat_share), f"{target.fat_g:.0f} g"
        ),
        Line(tr("Carbohydrate, the rest"), f"{target.carbohydrate_g:.0f} g"),
    )
