"""Loads from one-repetition maxima, and the sets that lead up to them.

Rounded to what the client can really put on, with the account of how each came about. The
equations (`one_rm`) and the curves between repetitions and %1RM (`curve`) are offered here too.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain import effort as efforts
from app.domain.client import Increments, StrengthTest
from app.domain.curve import (
    CURVES,
    Curve,
    find_curve,
    fraction_of_one_rep_max,
    reps_at_fraction,
)
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import LoadKind
from app.domain.one_rm import (
    EQUATIONS,
    MAX_REPS,
    Equation,
    OneRepMax,
    estimate_one_rep_max,
    find_equation,
    one_rep_max,
    set_text,
    without_unit,
)
from app.domain.reach import nearest_in_reach
from app.domain.units import HEAVIEST_KG, Plates, mass_text, number_text, require, require_bar
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line, Working

__all__ = [
    "CURVES",
    "EQUATIONS",
    "MAX_REPS",
    "Curve",
    "Equation",
    "Load",
    "OneRepMax",
    "RampSet",
    "estimate_one_rep_max",
    "find_equation",
    "fraction_of_one_rep_max",
    "one_rep_max",
    "prescribe_load",
    "ramp_sets",
    "reps_at_fraction",
    "set_text",
]


@dataclass(frozen=True, slots=True)
class Load:
    """The load for one prescription, in the exercise's own terms (per hand for dumbbells).

    load_kg: in reach; exact_kg: before rounding; fraction: of the 1RM (None for a load that was
    set by hand where nothing was tested); plates: for one side of a bar; remark: what is odd
    about it; rests_on: the test, or the confirmed guess, that it was worked out from; lines: its
    account step by step; sources: keys of the references.
    """

    load_kg: float
    exact_kg: float
    fraction: float | None
    one_rm_kg: float | None
    rounding: str
    sources: tuple[str, ...]
    lines: tuple[Line, ...] = ()
    about: str = ""
    plates: Plates | None = None
    remark: str = ""
    pinned: bool = False
    rests_on: StrengthTest | None = None

    def working(self, unit: str = "kg") -> Working:
        """The account of the load, as window and booklet show it."""
        remark = (Line(tr("Remark"), self.remark),) if self.remark else ()
        return Working(
            title=mass_text(self.load_kg, unit),
            about=self.about,
            lines=self.lines + remark,
            sources=self.sources,
        )


def prescribe_load(
    one_rm_kg: float,
    reps: float,
    effort: Effort,
    increments: Increments,
    *,
    kind: LoadKind = LoadKind.BARBELL,
    curve: str | Curve = "textbook",
    body_kg: float = 0.0,
    unit: str = "kg",
) -> Load:
    """The load for `reps` at `effort`, rounded to the nearest in reach.

    one_rm_kg: with body_kg (the part of body mass that is lifted along) included; the load given
    back is without it, and below 0 means help. Raises QuantityError outside 0.5 to 1000 kg, for
    fewer repetitions than one and past the end of the curve.  Sources: in `Load.sources`.
    """
    require("one-repetition maximum, kg", one_rm_kg, low=0.5, high=HEAVIEST_KG)
    require("own weight lifted along, kg", body_kg, low=0, high=400)
    found = find_curve(curve)
    fraction = efforts.fraction(effort, reps, found)
    exact_kg = fraction * one_rm_kg - body_kg
    reached = nearest_in_reach(exact_kg, increments, kind=kind, unit=unit)
    whole = mass_text(one_rm_kg, unit, digits=1)
    lines = [
        _fraction_line(effort, reps, fraction=fraction, curve=found),
        Line(
            tr(
                "{fraction} % of {without_unit}",
                fraction=number_text(100 * fraction),
                without_unit=without_unit(whole, unit),
            ),
            mass_text(fraction * one_rm_kg, unit, digits=1),
        ),
    ]
    if body_kg:
        part = mass_text(body_kg, unit, digits=1)
        lines.append(
            Line(tr("Without {part} of own weight", part=part), mass_text(exact_kg, unit, digits=1))
        )
    lines.append(Line(reached.rule, mass_text(reached.load_kg, unit)))
    return Load(
        load_kg=reached.load_kg,
        exact_kg=exact_kg,
        fraction=fraction,
        one_rm_kg=one_rm_kg,
        rounding=reached.rule,
        sources=(found.source,),
        lines=tuple(lines),
        about=tr("{reps} at {text}", reps=number_text(reps), text=efforts.text(effort, reps)),
        plates=reached.plates,
        remark=reached.remark,
    )


def _fraction_line(effort: Effort, reps: float, *, fraction: float, curve: Curve) -> Line:
    """The line that turns repetitions and effort into a fraction of 1RM."""
    per_cent = f"{number_text(100 * fraction)} %"
    match effort:
        case Rir(in_reserve):
            to_failure = reps + in_reserve
            label = tr(
                "{reps} reps + {in_reserve} in reserve",
                reps=number_text(reps),
                in_reserve=number_text(in_reserve),
            )
            value = f"{number_text(to_failure)} RM = {per_cent}"
        case PercentRepMax(percent):
            to_failure = reps
            whole = number_text(100 * fraction / (percent / 100))
            label = tr(
                "{percent} % of {reps} RM = {whole} %",
                percent=number_text(percent),
                reps=number_text(reps),
                whole=whole,
            )
            value = per_cent
        case PercentOneRm():
            return Line(tr("Written as per cent of 1RM"), per_cent)
    past = to_failure > curve.extended_past
    return Line(
        label,
        value,
        tr(
            "{method}, {common_practice} here",
            method=tr(curve.method),
            common_practice=tr(COMMON_PRACTICE),
        )
        if past
        else tr(curve.method),
    )


@dataclass(frozen=True, slots=True)
class RampSet:
    """One set on the way up to the working load; plates for one side of a bar."""

    load_kg: float
    reps: int
    plates: Plates | None = None


_RAMP = ((0.0, 8), (0.5, 5), (0.7, 3), (0.85, 2))
"""Part of the working load and repetitions; 0 is the empty bar. Common practice."""


def full_ramp_text(kind: LoadKind) -> str:
    """The steps of a whole ramp as a line: '0 % x 8, 50 % x 5, 70 % x 3, 85 % x 2'."""
    steps = _RAMP if kind is LoadKind.BARBELL else _RAMP[1:]
    return ", ".join(f"{100 * part:g} % × {reps}" for part, reps in steps)


def ramp_sets(
    load_kg: float,
    bar_kg: float,
    increments: Increments,
    *,
    kind: LoadKind = LoadKind.BARBELL,
) -> tuple[RampSet, ...]:
    """The sets that lead up to a working load: loads rise, repetitions fall, all below it.

    Empty bar for 8, half for 5, seven tenths for 3, 85 % for 2, each rounded to what is in reach
    and left out where it would repeat the last; none where the load is the empty bar or is not
    in kg. Raises QuantityError for a load or a bar that there cannot be. Common practice.
    """
    require("load, kg", load_kg, low=0, high=HEAVIEST_KG)
    require_bar(bar_kg)
    if kind not in _RAMPED:
        return ()
    ramp: list[RampSet] = []
    for part, reps in _RAMP:
        if not part and kind is not LoadKind.BARBELL:
            continue
        reached = nearest_in_reach(part * load_kg, increments, kind=kind, bar_kg=bar_kg)
        lightest = ramp[-1].load_kg if ramp else 0.0
        if lightest < reached.load_kg < load_kg:
            ramp.append(RampSet(reached.load_kg, reps, reached.plates))
    return tuple(ramp)


_RAMPED = (
    LoadKind.BARBELL,
    LoadKind.DUMBBELL_EACH,
    LoadKind.DUMBBELL_ONE,
    LoadKind.MACHINE,
    LoadKind.CABLE,
)
