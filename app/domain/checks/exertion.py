"""How hard and how long: effort, what is left in reserve, rest between sets, tempo."""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.checks.context import Context
from app.domain.checks.say import amount, how_far, plural, slot_finding
from app.domain.exercise import LoadKind
from app.domain.facts import SlotFacts, WeekFacts
from app.domain.findings import Finding
from app.domain.program import Role
from app.domain.session_time import tempo_s
from app.domain.wording import tr

HEAVY_UP_TO = 6
"""Repetitions up to which a core lift is heavy: 1 to 6RM (acsm2009)."""

LIGHT_UNDER = 60.0
"""% of 1RM under which a load is light (schoenfeld2017-load)."""

SLOW_FROM_S = 8.0
VERY_SLOW_FROM_S = 10.0
"""Seconds past which a repetition is slow, and very slow (schoenfeld2015)."""


def effort(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """How near failure each slot ends, against status, joints and frequency (RIR).

    A muscle trained once a week may be taken nearer to failure than one that is due again soon.
    """
    for placed in week.counted:
        at = placed.at
        band = context.band("effort", _effort_kind(at, week), index=index)
        if band is None or at.rir in band:
            continue
        if at.rir < 0:
            text = tr(
                "too heavy for {high}",
                high=plural(at.slot.reps.high, "{n} repetition", "{n} repetitions"),
            )
        else:
            text = f"RIR {amount(at.rir)}, {how_far(at.rir, band)}"
        yield slot_finding("effort", band, week=week, placed=placed, text=text, measured=at.rir)


def _effort_kind(at: SlotFacts, week: WeekFacts) -> str:
    joints = "multi_joint" if at.exercise.multi_joint else "single_joint"
    for muscle in at.primes:
        if week.frequency.get(muscle, 0) > 1:
            return joints
    return f"{joints}_once"


def reserve(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """How far from failure each slot ends (RIR); light loads are held to a nearer one.

    Light weeks may keep as much in reserve as they like.
    """
    if week.is_light:
        return
    ordinary = context.band("reserve", "ordinary", index=index)
    light_load = context.band("reserve", "light_load", index=index)
    for placed in week.counted:
        at = placed.at
        light = at.percent < LIGHT_UNDER and at.exercise.load_kind is not LoadKind.NONE
        band = light_load if light else ordinary
        if band is not None and at.rir not in band:
            name = tr("with a light load RIR") if light else "RIR"
            text = f"{name} {amount(at.rir)}, {how_far(at.rir, band)}"
            yield slot_finding(
                "reserve", band, week=week, placed=placed, text=text, measured=at.rir
            )


def rest(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Rest between two sets of the same exercise (s); partners' sets of a pair count as rest."""
    bands = {kind: context.band("rest", kind, index=index) for kind in _REST_KINDS}
    for placed in week.counted:
        at = placed.at
        if at.slot.sets < 2:
            continue
        band = bands[_rest_kind(at)]
        if band is not None and at.rest_s not in band:
            text = tr(
                "rest {rest_s} s, {how_far}",
                rest_s=amount(at.rest_s),
                how_far=how_far(at.rest_s, band, "s"),
            )
            yield slot_finding(
                "rest", band, week=week, placed=placed, text=text, measured=at.rest_s
            )


_REST_KINDS = ("single_joint", "assistance", "core", "heavy_core")


def _rest_kind(at: SlotFacts) -> str:
    if not at.exercise.multi_joint:
        return "single_joint"
    if at.slot.role is not Role.CORE:
        return "assistance"
    return "heavy_core" if at.slot.reps.high <= HEAVY_UP_TO else "core"


def tempo(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Seconds of a repetition where a tempo is written (s)."""
    for placed in week.counted:
        if not placed.at.slot.tempo or (seconds := tempo_s(placed.at.slot.tempo)) is None:
            continue
        band = context.band("tempo", _tempo_kind(seconds), index=index)
        if band is not None and seconds not in band:
            text = tr(
                "{seconds} s a repetition, {how_far}",
                seconds=amount(seconds),
                how_far=how_far(seconds, band),
            )
            yield slot_finding("tempo", band, week=week, placed=placed, text=text, measured=seconds)


def _tempo_kind(seconds: float) -> str:
    if seconds <= SLOW_FROM_S:
        return "ordinary"
    return "slow" if seconds <= VERY_SLOW_FROM_S else "very_slow"
