"""The nearest load that can really be put on: bar and plates, dumbbells, stacks, own weight.

Nothing is clamped in silence: a load past what there is comes back with a remark.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from app.domain.client import Increments
from app.domain.errors import CoachError
from app.domain.exercise import LoadKind
from app.domain.units import (
    HEAVIEST_KG,
    Plates,
    mass_text,
    nearest_plates,
    nearest_step,
    require,
)
from app.domain.wording import tr

MOST_ADDED_KG, MOST_HELP_KG = 500.0, 300.0
"""No load added to the body, and no help, past these is taken for meant."""


@dataclass(frozen=True, slots=True)
class Reached:
    """The nearest load that can really be put on.

    rule: how it was rounded, 'Nearest in reach, 2.5 kg steps'; plates: for one side of a bar;
    remark: what is odd about it, for instance that the empty bar is too heavy.
    """

    load_kg: float
    rule: str
    plates: Plates | None = None
    remark: str = ""


def nearest_in_reach(
    exact_kg: float,
    increments: Increments,
    *,
    kind: LoadKind = LoadKind.BARBELL,
    bar_kg: float | None = None,
    unit: str = "kg",
) -> Reached:
    """The load in reach that is nearest to `exact_kg`, in the exercise's own terms.

    A load past what there is gives the nearest end with a remark. bar_kg: another bar than the
    client's usual one. Raises CoachError for bands and exercises without load: those have none.
    """
    match kind:
        case LoadKind.BARBELL:
            return _reach_barbell(exact_kg, increments, bar_kg=bar_kg, unit=unit)
        case LoadKind.DUMBBELL_EACH | LoadKind.DUMBBELL_ONE:
            low_kg, step_kg, high_kg = increments.dumbbells_kg
            what = (tr("lightest dumbbell"), tr("heaviest dumbbell"))
        case LoadKind.MACHINE | LoadKind.CABLE:
            machine = kind is LoadKind.MACHINE
            step_kg = increments.machine_step_kg if machine else increments.cable_step_kg
            low_kg, high_kg = step_kg, HEAVIEST_KG
            what = (tr("lightest setting"), tr("heaviest setting"))
        case LoadKind.BODY:
            return _reach_body(exact_kg, increments, unit)
        case LoadKind.BAND | LoadKind.NONE:
            raise CoachError(
                tr("There is no load in kg for an exercise with {kind!r}.", kind=kind.value),
                mend=tr("Give a band grade or the effort alone."),
            )
    require("load, kg", exact_kg, low=0, high=HEAVIEST_KG)
    load_kg = nearest_step(exact_kg, step_kg, low_kg=low_kg, high_kg=high_kg)
    return Reached(
        load_kg,
        tr("Nearest in reach, {step_kg} steps", step_kg=mass_text(step_kg, unit)),
        remark=_past_ends(exact_kg, (low_kg, high_kg), what=what, half=step_kg / 2, unit=unit),
    )


def _past_ends(
    exact_kg: float, ends: tuple[float, float], *, what: tuple[str, str], half: float, unit: str
) -> str:
    """A sentence if the wanted load lies past the lightest or heaviest there is, else nothing."""
    low_kg, high_kg = ends
    wanted = mass_text(exact_kg, unit, digits=1)
    if exact_kg < low_kg - half:
        return tr(
            "The {first}, {low_kg}, is heavier than the {wanted} wanted: do more "
            "repetitions or an easier variation.",
            first=what[0],
            low_kg=mass_text(low_kg, unit),
            wanted=wanted,
        )
    if exact_kg > high_kg + half:
        return tr(
            "The {what}, {high_kg}, is lighter than the {wanted} wanted: do more "
            "repetitions or a harder variation.",
            what=what[1],
            high_kg=mass_text(high_kg, unit),
            wanted=wanted,
        )
    return ""


def _reach_barbell(
    exact_kg: float, increments: Increments, *, bar_kg: float | None, unit: str
) -> Reached:
    """The nearest load of bar and pairs of plates."""
    bar_kg = increments.bar_kg if bar_kg is None else bar_kg
    plates = nearest_plates(exact_kg, bar_kg, increments.plates_kg)
    smallest = min(increments.plates_kg, default=0.0)
    remark = _past_ends(
        exact_kg,
        (bar_kg, HEAVIEST_KG if smallest else bar_kg),
        what=(tr("empty bar"), tr("bar without plates")),
        half=smallest,
        unit=unit,
    )
    rule = (
        tr("Nearest in reach, {smallest} steps", smallest=mass_text(2 * smallest, unit))
        if smallest
        else tr("Bar alone")
    )
    return Reached(plates.loaded_kg, rule, plates, remark)


def _reach_body(exact_kg: float, increments: Increments, unit: str) -> Reached:
    """The nearest load to add to the body; below 0, the help to take off it."""
    require("load added to the body, kg", exact_kg, low=-MOST_HELP_KG, high=MOST_ADDED_KG)
    step_kg = min(increments.plates_kg, default=1.25)
    if exact_kg < 0:
        step_kg = increments.machine_step_kg
    most_help = math.ceil(MOST_HELP_KG / step_kg) * step_kg
    added_kg = nearest_step(exact_kg, step_kg, low_kg=-most_help, high_kg=MOST_ADDED_KG + step_kg)
    remark = ""
    if added_kg < 0:
        remark = tr(
            "Own weight is too heavy for this: take {added_kg} off with an "
            "assisting machine or band, or choose an easier variation.",
            added_kg=mass_text(-added_kg, unit),
        )
    return Reached(
        added_kg,
        tr("Nearest in reach, {step_kg} steps", step_kg=mass_text(step_kg, unit)),
        remark=remark,
    )
