"""What each column of the season shows, read off the program: pure values, no painting."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.desk import Desk
from app.domain.exercise import Muscle
from app.domain.findings import Finding, Weight
from app.domain.program import Program, Reps, Role, Week
from app.domain.ranges import Range
from app.domain.wording import tr
from app.ui.words import DASH, number

SHOWN = 3
"""Emphasised muscles with a bar of their own in each column."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One muscle's weekly sets beside its range."""

    muscle: Muscle
    sets: float
    range: Range | None

    @property
    def short(self) -> bool:
        """True below the range."""
        return self.range is not None and self.range.short_by(self.sets) > 0

    @property
    def over(self) -> bool:
        """True above the range."""
        return self.range is not None and self.range.over_by(self.sets) > 0


@dataclass(frozen=True, slots=True)
class Column:
    """One week: its bars, rep target of the core work and the findings that stand in it."""

    index: int
    light: bool
    empty: bool
    reps: str
    bars: tuple[Bar, ...]
    weights: tuple[tuple[Weight, bool | None], ...]
    counts: tuple[int, int, int]


def core_target(week: Week) -> str:
    """'10' or '8–10', the commonest target of the week's core work; empty without any."""
    reps = [slot.reps for slot in week.slots() if slot.role is Role.CORE]
    if not reps:
        return ""
    low, high = max(
        ((r.low, r.high) for r in reps), key=lambda pair: (reps.count(Reps(*pair)), pair)
    )
    return str(low) if low == high else f"{low}{DASH}{high}"


def standing(findings: Iterable[Finding], program: Program) -> dict[int, list[Finding]]:
    """Findings that are not accepted, by the week id they stand in."""
    accepted = {one.finding for one in program.accepted}
    by_week: dict[int, list[Finding]] = {}
    for finding in findings:
        if finding.place.week is not None and (not accepted or finding.id not in accepted):
            by_week.setdefault(finding.place.week, []).append(finding)
    return by_week


def columns(
    desk: Desk, program: Program, findings: tuple[Finding, ...], only: Iterable[int] | None = None
) -> dict[int, Column]:
    """The columns of the weeks in `only` (all where None), by index."""
    by_week = standing(findings, program)
    indices = range(len(program.weeks)) if only is None else only
    return {
        i: _column(desk, program, i, here=by_week.get(program.weeks[i].id, [])) for i in indices
    }


def _column(desk: Desk, program: Program, index: int, *, here: list[Finding]) -> Column:
    week = program.weeks[index]
    facts, context = desk.facts(week), desk.context
    bars = tuple(
        Bar(
            muscle,
            facts.sets.get(muscle, 0.0),
            context.band("weekly_sets", "emphasised", index=index),
        )
        for muscle in context.emphasis[:SHOWN]
    )
    kinds = dict.fromkeys(
        (f.weight, f.below if f.weight is Weight.OUTSIDE else None)
        for f in sorted(here, key=lambda f: f.weight)
    )
    first = dict(reversed(tuple(kinds)))
    counts = tuple(sum(f.weight is weight for f in here) for weight in Weight)
    return Column(
        index=index,
        light=week.light,
        empty=facts.is_empty,
        reps=core_target(week),
        bars=bars,
        weights=tuple((weight, first[weight]) for weight in Weight if weight in first),
        counts=(counts[0], counts[1], counts[2]),
    )


def spoken(column: Column, names: dict[Muscle, str]) -> str:
    """The column in words, for tooltips and assistive technology."""
    parts = [tr("Week {index}", index=column.index + 1)]
    if column.light:
        parts.append(tr("light week"))
    if column.empty:
        return tr("{parts}: empty", parts=", ".join(parts))
    if column.reps:
        parts.append(tr("core work {reps} reps", reps=column.reps))
    for bar in column.bars:
        text = tr("{names} {sets} sets", names=names[bar.muscle], sets=number(bar.sets))
        if bar.range is not None and not column.light:
            text += tr(" of {range}", range=bar.range.text)
        parts.append(text)
    words = (("conflict", "conflicts"), ("outside", "outside"), ("remark", "remarks"))
    told = [
        f"{count} {one if count == 1 else many}"
        for count, (one, many) in zip(column.counts, words, strict=True)
        if count
    ]
    parts.append(tr("findings: ") + ", ".join(told) if told else tr("no findings"))
    return "; ".join(parts)
