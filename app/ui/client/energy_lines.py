"""What the pane says of energy: targets, a referral instead, or what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain import energy
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.domain.working import Working
from app.ui.bench import Bench
from app.ui.words import DASH, number


@dataclass(frozen=True, slots=True)
class Told:
    """One sentence. quiet: a small one; working: the account of its number, if it has one."""

    text: str
    quiet: bool = False
    working: Working | None = None


def lines(client: Client, bench: Bench, today: date) -> list[tuple[str, bool]]:
    """Sentences for the pane, each with whether it is a quiet one."""
    return [(one.text, one.quiet) for one in told(client, bench, today)]


def told(client: Client, bench: Bench, today: date) -> list[Told]:
    """The sentences for the pane; no number where there is a referral."""
    if client.energy_goal is None:
        return [Told(tr("No energy goal. Meals stay the client's own matter."), quiet=True)]
    weeks, on = reach(bench, today)
    try:
        plan = energy.usual_plan(client, weeks=weeks, on=on)
    except CoachError as error:
        return [Told(error.sentence, quiet=True)]
    assert plan is not None
    if isinstance(plan, energy.Referral):
        return [Told(plan.text), *(Told(reason, quiet=True) for reason in plan.reasons)]
    low, high = plan.need_range
    week = plan.weeks[min(bench.week, len(plan.weeks) - 1)]
    low_intake = tr("Eats less now than the body needs at rest: a practitioner should look.")
    protein, *_ = energy.macro_rows(plan, client, on)
    return [
        *([Told(low_intake)] if plan.eats_below_rest else []),
        Told(
            tr("Target, week {number}: {kcal:,.0f} kcal a day", number=week.number, kcal=week.kcal),
            working=energy.week_working(plan, week.number),
        ),
        Told(
            tr(
                "Needs about {need_kcal:,.0f} ({low:,.0f}{dash}{high:,.0f})",
                need_kcal=plan.need_kcal,
                low=low,
                dash=DASH,
                high=high,
            ),
            quiet=True,
            working=energy.need_working(plan),
        ),
        Told(
            tr("Protein {protein_g} g a day", protein_g=number(week.macros.protein_g, places=0)),
            working=protein.working,
        ),
        Told(
            tr("An equation can miss one person by 10 % and more: the trend of mass decides."),
            quiet=True,
        ),
    ]


def reach(bench: Bench, today: date) -> tuple[int, date]:
    """How many weeks the targets are for, and from which day: the open program's, else some."""
    if bench.desk.has_program:
        return len(bench.desk.program.weeks), bench.desk.program.start
    return energy.WEEKS_WITHOUT_PROGRAM, today
