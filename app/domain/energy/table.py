"""Every published equation side by side for one client: what each says, and how far they part.

For an adult whose figures are known; whoever is referred gets no table (`refer`).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.client import Client
from app.domain.energy.fat_free import why_not
from app.domain.energy.formula import equation_working
from app.domain.energy.plan import client_figures
from app.domain.energy.refer import Referral, referral
from app.domain.energy.requirement import (
    ACTIVITIES,
    PAL_CLASSES,
    PAL_MIDPOINT,
    REQUIREMENT_SOURCES,
    dri_class,
    energy_requirement,
    fao_class,
    iom_class,
    total_energy,
)
from app.domain.energy.resting import (
    RESTING_EQUATIONS,
    USUAL_EQUATION,
    Person,
    RestingEnergy,
    estimate_resting_energy,
    figures_text,
)
from app.domain.wording import mark, tr
from app.domain.working import Line, Working

REQUIREMENT_NAMES = {
    "iom_2005": mark("Institute of Medicine 2005"),
    "dri_2023": mark("National Academies 2023"),
}


@dataclass(frozen=True, slots=True)
class EquationRow:
    """One resting equation. kcal: kcal a day, None where `why_not` says what it lacks."""

    key: str
    name: str
    kcal: float | None
    source: str
    chosen: bool = False
    why_not: str = ""
    working: Working | None = None


@dataclass(frozen=True, slots=True)
class TotalRow:
    """The chosen resting energy times one class of activity, kcal a day.

    kcal: at the middle of the class; low and high: at its edges; chosen: the client's own class.
    """

    key: str
    pal: float
    kcal: float
    low: float
    high: float
    chosen: bool
    working: Working
    source: str = "fao2004"


@dataclass(frozen=True, slots=True)
class RequirementRow:
    """One requirement equation at its four activities, kcal a day.

    by_activity: in the order of ACTIVITIES; chosen: the number of the client's own.
    """

    key: str
    name: str
    by_activity: tuple[float, ...]
    chosen: int | None
    source: str


@dataclass(frozen=True, slots=True)
class EnergyTable:
    """All equations for one client. resting: what the targets rest on."""

    who: Person
    resting: RestingEnergy
    equations: tuple[EquationRow, ...]
    totals: tuple[TotalRow, ...]
    requirements: tuple[RequirementRow, ...]

    @property
    def spread(self) -> float:
        """How far the equations part, as a part of the chosen one's value."""
        return (self.resting.high - self.resting.low) / self.resting.kcal


def energy_table(client: Client, on: date) -> EnergyTable | Referral:
    """The table of the client's figures on a day, or the referral that stands in its place.

    Raises CoachError that names the figure that is missing.
    """
    instead = referral(client, on)
    if instead is not None:
        return instead
    who = client_figures(client, on)
    resting = estimate_resting_energy(
        who.sex,
        who.age_y,
        height_cm=who.height_cm,
        mass_kg=who.mass_kg,
        fat_free_kg=who.fat_free_kg,
        equation=client.energy_equation,
    )
    return EnergyTable(
        who,
        resting,
        tuple(_equation_rows(who, resting)),
        tuple(_total_row(name, resting, client.activity_level) for name in PAL_MIDPOINT),
        tuple(_requirement_row(key, who, client.activity_level) for key in REQUIREMENT_NAMES)
        if who.age_y >= 19
        else (),
    )


def _equation_rows(who: Person, resting: RestingEnergy) -> list[EquationRow]:
    rows = []
    for key, equation in RESTING_EQUATIONS.items():
        if key == "mifflin_unrounded":
            continue
        kcal = resting.by_equation.get(key)
        rows.append(
            EquationRow(
                key,
                equation.name,
                kcal,
                equation.source,
                chosen=key == resting.equation,
                why_not=why_not(key, who.fat_free_kg),
                working=None if kcal is None else equation_working(key, who),
            )
        )
    return rows


def _total_row(name: str, resting: RestingEnergy, level: float) -> TotalRow:
    low, high = PAL_CLASSES[name]
    middle = PAL_MIDPOINT[name]
    chosen = fao_class(level) == name
    pal = level if chosen else middle
    kcal = total_energy(resting.kcal, pal)
    equation = RESTING_EQUATIONS[resting.equation]
    working = Working(
        title=tr("{kcal} kcal a day", kcal=f"{kcal:,.0f}"),
        about=tr("energy used in all, from an activity level"),
        lines=(
            Line(tr("At rest, {equation}", equation=equation.name), f"{resting.kcal:,.0f} kcal"),
            Line(tr("Activity level"), f"{pal:.2f}", tr("training included")),
            Line(f"{resting.kcal:,.0f} × {pal:.2f}", f"{kcal:,.0f} kcal", "±10 %"),
        ),
        sources=(equation.source, "fao2004"),
    )
    return TotalRow(
        name,
        pal,
        kcal,
        total_energy(resting.kcal, low),
        total_energy(resting.kcal, high),
        chosen,
        working,
    )


def _requirement_row(key: str, who: Person, level: float) -> RequirementRow:
    values = tuple(
        energy_requirement(key, who.sex, who.age_y, who.height_cm, who.mass_kg, activity)
        for activity in ACTIVITIES
    )
    own = (iom_class if key == "iom_2005" else dri_class)(level).replace(" ", "_")
    chosen = ACTIVITIES.index(own) if own in ACTIVITIES else None
    return RequirementRow(key, tr(REQUIREMENT_NAMES[key]), values, chosen, REQUIREMENT_SOURCES[key])


def choice_text(key: str) -> str:
    """Why this equation is chosen, in one sentence for the coach."""
    if key in ("", USUAL_EQUATION):
        return tr(
            "Mifflin's equation is the program's own choice: in adults it lay within a tenth of "
            "the measured value more often than the others compared with it "
            "(Frankenfield and others 2005)."
        )
    return tr("{equation} is your own choice.", equation=RESTING_EQUATIONS[key].name)


def requirement_working(row: RequirementRow, who: Person, number: int) -> Working:
    """How a requirement equation's value at one activity came about."""
    kcal = row.by_activity[number]
    words = ACTIVITIES[number].replace("_", " ")
    return Working(
        title=tr("{kcal} kcal a day", kcal=f"{kcal:,.0f}"),
        about=tr("energy requirement by {equation}", equation=row.name),
        lines=(
            Line(tr("For"), figures_text(who)),
            Line(tr("Activity as its table calls it"), words),
            Line(tr("Requirement"), f"{kcal:,.0f} kcal", tr("made from doubly labelled water")),
        ),
        sources=(row.source,),
    )
