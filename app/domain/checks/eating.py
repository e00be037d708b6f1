"""The energy plan: whether there may be numbers at all, surplus, ramp, protein and fat.

Nothing is said for clients with whom energy is no subject (`Client.energy_goal` is None). The plan
is the usual one of `app.domain.energy`; what a coach chooses otherwise is checked there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from app.domain import energy
from app.domain.checks.context import Context
from app.domain.checks.say import amount, finding, how_far
from app.domain.energy.aim import counted_kg
from app.domain.errors import CoachError
from app.domain.facts import WeekFacts
from app.domain.findings import Finding, Place
from app.domain.wording import tr


def plan_for(context: Context, weeks: int) -> energy.EnergyPlan | energy.Referral | CoachError:
    """The client's energy plan over the program, a referral, or what is missing for one.

    Only for a client with an energy goal. Remembered by the context.
    """
    found = context.kept.get(("energy", weeks))
    if found is None:
        client = context.client
        assert client.energy_goal is not None
        try:
            found = energy.usual_plan(client, weeks=weeks, on=context.start)
        except CoachError as error:
            found = error
        context.kept["energy", weeks] = found
    assert isinstance(found, energy.EnergyPlan | energy.Referral | CoachError)
    return found


def energy_advice(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Whether a program may give this client energy numbers, and has what it needs for them."""
    if context.client.energy_goal is None or not weeks:
        return
    found = plan_for(context, len(weeks))
    if isinstance(found, energy.EnergyPlan):
        return
    refer = isinstance(found, energy.Referral)
    kind = "refer" if refer else "unknown"
    text = (
        tr("Energy numbers come from a practitioner. {first}", first=found.reasons[0])
        if isinstance(found, energy.Referral)
        else found.what
    )
    if (band := context.band("energy_advice", kind)) is not None:
        yield finding("energy_advice", band, place=Place(), about=kind, text=text)


def energy_intake(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """What the client eats now, where it lies below the resting energy (kcal a day)."""
    plan, band = _plan(weeks, context), context.band("energy_intake")
    if plan is None or band is None or plan.eaten_kcal is None or not plan.eats_below_rest:
        return
    yield finding(
        "energy_intake",
        band,
        place=Place(),
        about="energy",
        text=tr(
            "{eaten_kcal:,.0f} kcal a day eaten now, below the {kcal:,.0f} used "
            "at rest; the weeks begin at {kcal_2:,.0f}",
            eaten_kcal=plan.eaten_kcal,
            kcal=plan.resting.kcal,
            kcal_2=plan.weeks[0].kcal,
        ),
    )


def energy_change(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """The target's surplus or deficit as a part of the need (%)."""
    if (plan := _plan(weeks, context)) is not None:
        # targets are whole tens of kcal, so that a finer figure would be a false one
        percent = round(100 * (plan.target_kcal / plan.need_kcal - 1))
        text = tr(
            "Energy {percent:+} % of the need to {goal}", percent=percent, goal=tr(plan.goal.value)
        )
        yield from _outside("energy_change", percent, context=context, text=text, kind=plan.goal)


def energy_ramp(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Weeks until the energy target is reached, beside the weeks that the program has."""
    plan = _plan(weeks, context)
    band = context.band("energy_ramp")
    if plan is None or band is None or plan.reached_in is not None:
        return
    last = plan.weeks[-1].kcal
    yield finding(
        "energy_ramp",
        band,
        place=Place(),
        about="energy",
        text=tr(
            "Energy comes to {last:,.0f} kcal in {weeks} weeks, "
            "{target_kcal:,.0f} from the target of {target_kcal_2:,.0f}",
            last=last,
            weeks=len(plan.weeks),
            target_kcal=abs(plan.target_kcal - last),
            target_kcal_2=plan.target_kcal,
        ),
    )


def energy_steps(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """The largest change of energy from one week to the next (kcal a day)."""
    if (plan := _plan(weeks, context)) is not None:
        steps = [abs(later.kcal - week.kcal) for week, later in pairwise(plan.weeks)]
        largest = max(steps, default=0.0)
        text = tr("Energy changes by {largest} kcal in a week", largest=amount(largest))
        yield from _outside("energy_steps", largest, context=context, text=text)


def protein(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Protein of the target for each kilogram of body mass (g/kg).

    Past a body mass index of 30 the mass at 25 is counted, as in the plan.
    """
    plan, client = _plan(weeks, context), context.client
    if plan is not None and client.mass_kg and client.height_cm:
        kg = counted_kg(client.mass_kg, client.height_cm)
        per_kg = round(plan.target.protein_g / kg, 2)
        text = tr("Protein {per_kg} g/kg", per_kg=amount(per_kg))
        yield from _outside("protein", per_kg, context=context, text=text, kind=plan.goal)


def fat(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Fat's share of the target's energy (%)."""
    if (plan := _plan(weeks, context)) is not None:
        percent = round(100 * plan.target.share("fat"), 1)
        text = tr("Fat {percent} % of energy", percent=amount(percent))
        yield from _outside("fat", percent, context=context, text=text)


def _plan(weeks: Sequence[WeekFacts], context: Context) -> energy.EnergyPlan | None:
    if context.client.energy_goal is None or not weeks:
        return None
    found = plan_for(context, len(weeks))
    return found if isinstance(found, energy.EnergyPlan) else None


def _outside(
    rule: str, measured: float, *, context: Context, text: str, kind: str = ""
) -> Iterator[Finding]:
    band = context.band(rule, kind)
    if band is not None and measured not in band:
        yield finding(
            rule,
            band,
            place=Place(),
            about="energy",
            text=f"{text}, {how_far(measured, band)}",
            measured=measured,
        )
