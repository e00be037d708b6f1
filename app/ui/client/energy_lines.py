"""What the pane says of energy: targets, a referral instead, or what is missing."""

from __future__ import annotations

from datetime import date

from app.domain import energy
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.words import DASH, number


def lines(client: Client, bench: Bench, today: date) -> list[tuple[str, bool]]:
    """Sentences for the pane, each with whether it is a quiet one."""
    if client.energy_goal is None:
        return [(tr("No energy goal. Meals stay the client's own matter."), True)]
    weeks = len(bench.desk.program.weeks) if bench.desk.has_program else 12
    aim = energy.Aim(weeks=weeks, pal=client.activity_level)
    on = bench.desk.program.start if bench.desk.has_program else today
    try:
        plan = energy.plan(client, client.energy_goal, on=on, aim=aim)
    except CoachError as error:
        return [(error.sentence, True)]
    if isinstance(plan, energy.Referral):
        return [(plan.text, False), *((reason, True) for reason in plan.reasons)]
    low, high = plan.need_range
    week = plan.weeks[min(bench.week, len(plan.weeks) - 1)]
    low_intake = tr("Eats less now than the body needs at rest: a practitioner should look.")
    return [
        *([(low_intake, False)] if plan.eats_below_rest else []),
        (
            tr("Target, week {number}: {kcal:,.0f} kcal a day", number=week.number, kcal=week.kcal),
            False,
        ),
        (
            tr(
                "Needs about {need_kcal:,.0f} ({low:,.0f}{dash}{high:,.0f})",
                need_kcal=plan.need_kcal,
                low=low,
                dash=DASH,
                high=high,
            ),
            True,
        ),
        (
            tr("Protein {protein_g} g a day", protein_g=number(week.macros.protein_g, places=0)),
            False,
        ),
        (tr("An equation can miss one person by 10 % and more: the trend of mass decides."), True),
    ]
