"""Repetitions and loads: each slot's zone, the week's heaviest work, the program's spread."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from app.domain.checks.context import Context
from app.domain.checks.say import amount, finding, how_far, plural, slot_finding, week_place
from app.domain.exercise import LoadKind
from app.domain.facts import Placed, WeekFacts
from app.domain.findings import Finding, Place
from app.domain.program import Role
from app.domain.ranges import Range
from app.domain.wording import mark, tr

_WITHOUT_KG = frozenset({LoadKind.BAND, LoadKind.NONE})
_ZONE_NAMES = (mark("heavy (1 to 5)"), mark("moderate (6 to 12)"), mark("light (13 and more)"))


def rep_zone(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Repetitions of each slot, for the client's status and goal (repetitions)."""
    core = context.band("rep_zone", Role.CORE, index=index)
    assistance = context.band("rep_zone", Role.ASSISTANCE, index=index)
    for placed in week.counted:
        slot = placed.at.slot
        band = core if slot.role is Role.CORE else assistance
        if band is not None and (slot.reps.low not in band or slot.reps.high not in band):
            yield _reps_outside("rep_zone", band, week=week, placed=placed)


def exercise_reps(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Repetitions, or seconds, of each slot against the zone its exercise is good for."""
    band = context.band("exercise_reps", index=index)
    if band is None:
        return
    for placed in week.slots:
        exercise, reps = placed.at.exercise, placed.at.slot.reps
        if reps.low < exercise.rep_low or reps.high > exercise.rep_high:
            own = replace(band, low=float(exercise.rep_low), high=float(exercise.rep_high))
            yield _reps_outside("exercise_reps", own, week=week, placed=placed)


def _reps_outside(rule: str, band: Range, *, week: WeekFacts, placed: Placed) -> Finding:
    """The finding on the end of the repetitions that lies outside, the low end first."""
    reps = placed.at.slot.reps
    measured = reps.high if reps.low in band else reps.low
    if placed.at.exercise.timed:
        counted = plural(measured, "{n} second", "{n} seconds")
    else:
        counted = plural(measured, "{n} repetition", "{n} repetitions")
    text = f"{counted}, {how_far(measured, band)}"
    return slot_finding(rule, band, week=week, placed=placed, text=text, measured=measured)


def load_zone(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Load of each slot, for the client's status and goal (% of 1RM)."""
    core = context.band("load_zone", Role.CORE, index=index)
    assistance = context.band("load_zone", Role.ASSISTANCE, index=index)
    for placed in week.counted:
        band = core if placed.at.slot.role is Role.CORE else assistance
        if band is None or placed.at.exercise.load_kind in _WITHOUT_KG:
            continue
        percent = placed.at.percent
        if percent in band or (week.is_light and band.short_by(percent)):
            continue
        text = tr(
            "{percent} % of 1RM, {how_far}", percent=amount(percent), how_far=how_far(percent, band)
        )
        yield slot_finding("load_zone", band, week=week, placed=placed, text=text, measured=percent)


def heavy_work(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """The heaviest core work of a week, for those who train for strength (% of 1RM)."""
    band = context.band("heavy_work", index=index)
    if band is None or week.is_light:
        return
    loads = [
        placed.at.percent
        for placed in week.counted
        if placed.at.slot.role is Role.CORE and placed.at.exercise.load_kind not in _WITHOUT_KG
    ]
    if not loads:
        return
    percent = max(loads)
    if percent not in band:
        yield finding(
            "heavy_work",
            band,
            place=week_place(week.week),
            about="core",
            text=tr(
                "Heaviest core work {percent} % of 1RM, {how_far}",
                percent=amount(percent),
                how_far=how_far(percent, band),
            ),
            measured=percent,
            where=tr("week {number}", number=index + 1),
        )


def rep_spread(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """The share of a program's sets that lies in one zone of repetitions (% of sets)."""
    band = context.band("rep_spread")
    filled = [week for week in weeks if not week.is_empty]
    if band is None or len(filled) < SPREAD_FROM_WEEKS:
        return
    counts = [sum(week.zones[zone] for week in filled) for zone in range(len(_ZONE_NAMES))]
    most, total = max(counts), sum(counts)
    percent = round(100 * most / total) if total else 0
    if percent not in band:
        yield finding(
            "rep_spread",
            band,
            place=Place(),
            about="repetitions",
            text=tr(
                "{percent} % of all sets are {zone}, {how_far}",
                percent=percent,
                zone=tr(_ZONE_NAMES[counts.index(most)]),
                how_far=how_far(percent, band),
            ),
            measured=percent,
        )


SPREAD_FROM_WEEKS = 8
"""Weeks from which a program is long enough to vary. Common practice."""
