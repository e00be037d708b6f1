"""What is written on a slot: repetitions, load, effort and rest."""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.checks.context import Context
from app.domain.checks.say import amount, finding, how_far, plural, slot_place
from app.domain.exercise import LoadKind
from app.domain.facts import SlotFacts, WeekFacts
from app.domain.findings import Finding, Place
from app.domain.program import Role

HEAVY_UP_TO = 6
"""Repetitions up to which a core lift is heavy: 1 to 6RM (acsm2009)."""

_WITHOUT_KG = frozenset({LoadKind.BAND, LoadKind.NONE})


def working_slots(week: WeekFacts) -> Iterator[tuple[Place, SlotFacts]]:
    """Every working set's slot with its place; drills are left out."""
    for day, facts in week.sessions:
        for at in facts.slots:
            if not at.is_drill:
                yield slot_place(week.week, day, session=facts.session, at=at), at


def rep_zone(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Repetitions of each slot, for the client's status and goal (repetitions)."""
    for place, at in _counted(week):
        band = context.band("rep_zone", at.slot.role, index=index)
        if band is None:
            continue
        reps = at.slot.reps
        measured = reps.high if reps.high not in band and reps.low in band else reps.low
        if measured not in band:
            yield finding(
                "rep_zone",
                band,
                place=place,
                about=at.slot.exercise,
                text=f"{at.exercise.name} {plural(measured, 'repetition', 'repetitions')}, "
                f"{how_far(measured, band)}",
                measured=measured,
            )


def load_zone(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Load of each slot, for the client's status and goal (% of 1RM)."""
    for place, at in _counted(week):
        if at.exercise.load_kind in _WITHOUT_KG:
            continue
        band = context.band("load_zone", at.slot.role, index=index)
        if band is None:
            continue
        percent = round(100 * context.facts.fraction(at.slot), 1)
        if percent in band or (week.is_light and band.short_by(percent)):
            continue
        yield finding(
            "load_zone",
            band,
            place=place,
            about=at.slot.exercise,
            text=f"{at.exercise.name} {amount(percent)} % of 1RM, {how_far(percent, band)}",
            measured=percent,
        )


def effort(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """How near failure each slot ends, against status, joints and frequency (RIR).

    A muscle trained once a week may be taken nearer to failure than one that is due again soon.
    """
    for place, at in _counted(week):
        band = context.band("effort", _effort_kind(at, week), index=index)
        if band is None or at.rir in band:
            continue
        if at.rir < 0:
            count = plural(at.slot.reps.high, "repetition", "repetitions")
            text = f"{at.exercise.name} too heavy for {count}"
        else:
            text = f"{at.exercise.name} RIR {amount(at.rir)}, {how_far(at.rir, band)}"
        yield finding(
            "effort", band, place=place, about=at.slot.exercise, text=text, measured=at.rir
        )


def _effort_kind(at: SlotFacts, week: WeekFacts) -> str:
    joints = "multi_joint" if at.exercise.multi_joint else "single_joint"
    often = any(week.frequency.get(muscle, 0) > 1 for muscle in at.exercise.primes)
    return joints if often else f"{joints}_once"


def rest(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Rest between two sets of the same exercise (s); partners' sets of a pair count as rest."""
    for place, at in _counted(week):
        if at.slot.sets < 2:
            continue
        band = context.band("rest", _rest_kind(at), index=index)
        if band is None or at.rest_s in band:
            continue
        yield finding(
            "rest",
            band,
            place=place,
            about=at.slot.exercise,
            text=f"{at.exercise.name} rest {amount(at.rest_s)} s, {how_far(at.rest_s, band, 's')}",
            measured=at.rest_s,
        )


def _rest_kind(at: SlotFacts) -> str:
    if not at.exercise.multi_joint:
        return "single_joint"
    heavy = at.slot.role is Role.CORE and at.slot.reps.high <= HEAVY_UP_TO
    return "heavy_core" if heavy else "multi_joint"


def _counted(week: WeekFacts) -> Iterator[tuple[Place, SlotFacts]]:
    """Slots whose sets are counted in repetitions, not in seconds."""
    for place, at in working_slots(week):
        if not at.exercise.timed:
            yield place, at
