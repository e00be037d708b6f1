"""How a week is put together: order, warm-up, opposing patterns, load on the spine."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from app.domain.checks.context import Context
from app.domain.checks.say import (
    amount,
    finding,
    how_far,
    plural,
    session_place,
    slot_finding,
    week_place,
)
from app.domain.exercise import LoadKind, Muscle, Pattern
from app.domain.facts import DaySession, SessionFacts, SlotFacts, WeekFacts
from app.domain.findings import Finding
from app.domain.program import Role, day_name
from app.domain.ranges import Range
from app.domain.wording import listing, mid_sentence, tr

HEAVY_SPINE = 3
"""The spinal load of an exercise from which it is heavy. Common practice."""

_UNLOADED = frozenset({LoadKind.BODY, LoadKind.BAND, LoadKind.NONE})
_PUSH = (Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH)
_PULL = (Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL)
_KNEE = (Pattern.SQUAT, Pattern.SPLIT_STANCE, Pattern.KNEE_EXTENSION)
_HIP = (Pattern.HINGE, Pattern.THRUST, Pattern.HIP_EXTENSION, Pattern.KNEE_FLEXION)
OPPOSED = (("push-pull", _PUSH, _PULL), ("knee-hip", _KNEE, _HIP))
"""Patterns that balance each other: pushing and pulling, knee-led and hip-led work."""

_SIDES = {"push-pull": ("pushing", "pulling"), "knee-hip": ("knee-led", "hip-led")}


def exercise_sets(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Sets of one exercise in one session (sets)."""
    band = context.band("exercise_sets", index=index)
    if band is None:
        return
    for placed in week.slots:
        sets = placed.at.slot.sets
        if sets in band or (week.is_light and band.short_by(sets)):
            continue
        text = f"{plural(sets, '{n} set', '{n} sets')}, {how_far(sets, band)}"
        yield slot_finding(
            "exercise_sets", band, week=week, placed=placed, text=text, measured=sets
        )


def exercise_order(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Multi-joint work that comes after single-joint work for one of its prime movers.

    Exercises of one pair are done in turn, so that their order is of no account.
    """
    band = context.band("exercise_order", index=index)
    if band is None:
        return
    tired: dict[int, dict[Muscle, tuple[str, str]]] = {}
    for placed in week.slots:
        at = placed.at
        seen = tired.setdefault(placed.session.id, {})
        if not at.exercise.multi_joint:
            for muscle in at.primes:
                seen.setdefault(muscle, (at.exercise.name, at.slot.pair))
            continue
        before = [
            name
            for muscle in at.primes
            if muscle in seen
            for name, pair in (seen[muscle],)
            if not pair or pair != at.slot.pair
        ]
        if before:
            yield slot_finding(
                "exercise_order",
                band,
                week=week,
                placed=placed,
                text=tr(
                    "after {first}, which tires the same muscle", first=mid_sentence(before[0])
                ),
            )


def warm_up(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Sessions with loaded core lifts whose drills do not lead up to the first of them (drills)."""
    band = context.band("warm_up", index=index)
    if band is None:
        return
    for day, facts in week.sessions:
        first = first_heavy(facts)
        if first is None:
            continue
        drills = [context.facts.portrait(one.exercise).exercise for one in facts.session.warmup]
        drills += [at.exercise for at in facts.slots if at.is_drill]
        fitting = sum(first.exercise.pattern in drill.warmup_for for drill in drills)
        if fitting in band:
            continue
        what = tr(
            "no drill that leads up to {exercise}", exercise=mid_sentence(first.exercise.name)
        )
        yield finding(
            "warm_up",
            band,
            place=session_place(week.week, day, session=facts.session),
            about="warm-up",
            text=f"{day_name(day)}: {(what if drills else tr('no warm-up drills'))}",
            measured=fitting,
        )


def first_heavy(facts: SessionFacts) -> SlotFacts | None:
    """The session's first loaded core lift, which the warm-up leads up to; None without one."""
    for at in facts.slots:
        if at.slot.role is Role.CORE and at.exercise.load_kind not in _UNLOADED:
            return at
    return None


def pattern_balance(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Sets of the smaller of two opposed patterns as a share of the larger (%).

    Said only where both sides are trained: what is left out altogether is `left_out`'s matter.
    """
    band = context.band("pattern_balance", index=index)
    if band is None or week.is_light:
        return
    by_pattern: dict[Pattern, int] = {}
    for placed in week.slots:
        pattern = placed.at.exercise.pattern
        by_pattern[pattern] = by_pattern.get(pattern, 0) + placed.at.slot.sets
    for key, one_side, other_side in OPPOSED:
        counts = [sum(by_pattern.get(p, 0) for p in side) for side in (one_side, other_side)]
        if not all(counts):
            continue
        percent = round(100 * min(counts) / max(counts))
        if percent in band:
            continue
        fewer, more = sorted(zip(counts, _SIDES[key], strict=True))
        yield finding(
            "pattern_balance",
            band,
            place=week_place(week.week),
            about=key,
            text=tr(
                "{first} {fewer} sets to {first_2} {more}: {percent} %, {how_far}",
                first=fewer[0],
                fewer=fewer[1],
                first_2=more[0],
                more=more[1],
                percent=percent,
                how_far=how_far(percent, band),
            ),
            measured=percent,
            where=tr("week {number}", number=index + 1),
        )


def spinal_load(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Hours between two sessions that load the spine heavily (hours)."""
    band = context.band("spinal_load", index=index)
    if band is None:
        return
    heavy = [session for session in week.sessions if _loads_spine(session.facts)]
    for earlier, later in pairwise(heavy):
        hours = 24.0 * (later.day - earlier.day)
        if hours not in band:
            yield _spine_again(earlier, later, hours=hours, band=band, week=week)


def spinal_load_over_sunday(
    before: WeekFacts, week: WeekFacts, *, context: Context, index: int
) -> Iterator[Finding]:
    """The same between the last session of one week and the first of the next."""
    band = context.band("spinal_load", index=index)
    if band is None:
        return
    last = next((s for s in reversed(before.sessions) if _loads_spine(s.facts)), None)
    first = next((s for s in week.sessions if _loads_spine(s.facts)), None)
    if last and first and (hours := 24.0 * (first.day - last.day + 7)) not in band:
        yield _spine_again(last, first, hours=hours, band=band, week=week)


def _spine_again(
    earlier: DaySession, later: DaySession, *, hours: float, band: Range, week: WeekFacts
) -> Finding:
    first, second = (listing(_spine_heavy(one.facts)) for one in (earlier, later))
    after = tr("the same day as") if not hours else tr("{hours} h after", hours=amount(hours))
    return finding(
        "spinal_load",
        band,
        place=session_place(week.week, later.day, session=later.facts.session),
        about=f"after-{earlier.facts.session.strand}",
        text=tr(
            "Spine loaded by {second} {after} {first}, {how_far}",
            second=second,
            after=after,
            first=first,
            how_far=how_far(hours, band, "h"),
        ),
        measured=hours,
    )


def _loads_spine(facts: SessionFacts) -> bool:
    return any(at.exercise.spinal_load >= HEAVY_SPINE and not at.is_drill for at in facts.slots)


def _spine_heavy(facts: SessionFacts) -> list[str]:
    return [
        mid_sentence(at.exercise.name)
        for at in facts.slots
        if at.exercise.spinal_load >= HEAVY_SPINE and not at.is_drill
    ]
