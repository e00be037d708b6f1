"""The words of a row: muscles, equipment, reported activation, and where it stands in the week."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.exercise import Exercise, ExerciseKey, Muscle, equipment_name
from app.domain.program import DAYS, Program, Week
from app.domain.wording import tr
from app.resources import Reference
from app.ui.library.order import reported
from app.ui.words import DASH, number

PARTS = {0.25: "¼", 0.5: "½", 0.75: "¾"}


def days_used(week: Week | None) -> dict[ExerciseKey, str]:
    """Where each exercise of the week stands: 'in Mon', 'in Mon, Thu'."""
    days: dict[ExerciseKey, list[str]] = {}
    if week is not None:
        for day, session in week.sessions():
            for slot in session.slots:
                short = tr(DAYS[day])[:3]
                if short not in days.setdefault(slot.exercise, []):
                    days[slot.exercise].append(short)
    return {key: tr("in {names}", names=", ".join(names)) for key, names in days.items()}


def muscles_text(exercise: Exercise, names: Mapping[Muscle, str]) -> str:
    """'Quadriceps, gluteals, hamstrings ½': prime movers first, helpers with their part."""
    parts = []
    for work in exercise.work:
        name = names[work.muscle].lower()
        if not work.is_prime:
            part = PARTS.get(work.fraction, f"{work.fraction:g}")
            name = f"{name} {part}"
        parts.append(name)
    text = ", ".join(parts) or tr("warm-up drill")
    return text[:1].upper() + text[1:]


def equipment_text(exercise: Exercise) -> str:
    """'barbell, rack', or 'own weight'."""
    things = [equipment_name(e) for e in exercise.equipment if e.value != "body"]
    return ", ".join(things) or tr("own weight")


def range_text(low: float, high: float) -> str:
    """'42', or '69.5–86.8'."""
    return number(low) if low == high else f"{number(low)}{DASH}{number(high)}"


def study_text(study: str, references: Mapping[str, Reference]) -> str:
    """The short name of a study, 'Ekstrom 2007'; its key if it is not known."""
    reference = references.get(study)
    return study if reference is None else reference.short


def reported_text(exercise: Exercise, muscle: Muscle, references: Mapping[str, Reference]) -> str:
    """'67 % MVIC, Neto 2020', or that no figure is known."""
    row = reported(exercise, muscle)
    if row is None:
        return tr("no figure known")
    return f"{range_text(row.low, row.high)} % MVIC, {study_text(row.study, references)}"


def weeks_used(program: Program, key: ExerciseKey) -> tuple[str, ...]:
    """Where the exercise stands in a program: 'Mon, Thu in weeks 1 to 6', one for each run."""
    runs: list[tuple[str, int, int]] = []
    for number_, week in enumerate(program.weeks, 1):
        days = days_used(week).get(key, "").removeprefix("in ")
        if days and runs and runs[-1][0] == days and runs[-1][2] == number_ - 1:
            runs[-1] = (days, runs[-1][1], number_)
        elif days:
            runs.append((days, number_, number_))
    return tuple(
        tr("{days} in week {first}", days=days, first=first)
        if first == last
        else tr("{days} in weeks {first} to {last}", days=days, first=first, last=last)
        for days, first, last in runs
    )
