"""What an energy plan says of itself: remarks to keep in mind, and how its figures came about."""

from __future__ import annotations

from app.domain.client import EnergyGoal
from app.domain.energy.advice import AMDR, LOW_AVAILABILITY, amdr_verdict
from app.domain.energy.aim import Aim, counted_kg, per_kg
from app.domain.energy.macros import NUTRIENTS, Macros
from app.domain.energy.ramp import KCAL_ROUND
from app.domain.energy.requirement import fao_class
from app.domain.energy.resting import Person, RestingEnergy, figures_text
from app.domain.units import kcal_text, number_text
from app.domain.wording import tr
from app.domain.working import Line


def remarks_on_start(
    eaten: float | None, need: float, *, resting: RestingEnergy, lowest_kcal: float
) -> tuple[str, ...]:
    """What to say about the intake the ramp begins with, which is `lowest_kcal` or more."""
    if eaten is None:
        return (tr("What the client eats now is not known: the ramp begins at the computed need."),)
    below = (
        (
            tr(
                "{eaten:,.0f} kcal eaten now lies below the resting energy: the "
                "weeks begin at {floor:,.0f}. Eating so little is a reason to "
                "see a practitioner.",
                eaten=eaten,
                floor=lowest_kcal,
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


def remarks_on_target(
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
                    nutrient=tr(NUTRIENTS[nutrient]),
                    share=target.share(nutrient),
                    low=low,
                    high=high,
                )
            )
    if counted_kg(who.mass_kg, who.height_cm) != who.mass_kg:
        remarks.append(tr("Protein is counted for the body mass at a body mass index of 25."))
    if who.fat_free_kg is not None and target_kcal / who.fat_free_kg < LOW_AVAILABILITY:
        remarks.append(
            tr(
                "Under 30 kcal for each kg of fat-free mass even before training: a "
                "reason to see a practitioner."
            )
        )
    return tuple(remarks)


def lines_of_need(
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


def lines_of_macros(goal: EnergyGoal, who: Person, *, aim: Aim, target: Macros) -> tuple[Line, ...]:
    """How the grams came about."""
    for_kg, kg = per_kg(goal, aim), counted_kg(who.mass_kg, who.height_cm)
    label = tr(
        "Protein, {per_kg} g for each of {counted_kg} kg",
        per_kg=number_text(for_kg, 2),
        counted_kg=number_text(kg),
    )
    exact = tr("{per_kg:.0f} g before rounding", per_kg=for_kg * kg)
    return (
        Line(label, f"{target.protein_g:.0f} g", exact),
        Line(
            tr("Fat, {fat_share:.0%} of energy", fat_share=aim.fat_share), f"{target.fat_g:.0f} g"
        ),
        Line(tr("Carbohydrate, the rest"), f"{target.carbohydrate_g:.0f} g"),
    )
