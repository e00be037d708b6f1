"""How often, and how soon again: sessions a week for a muscle, hours between hard ones."""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.checks.context import Context
from app.domain.checks.say import (
    amount,
    finding,
    how_far,
    lead,
    plural,
    session_place,
    week_place,
)
from app.domain.exercise import Muscle
from app.domain.facts import MUSCLES, DaySession, WeekFacts
from app.domain.findings import Finding
from app.domain.muscle_groups import GROUPS, muscle_name
from app.domain.program import day_name
from app.domain.ranges import Range
from app.domain.wording import listing, mid_sentence, tr

HARD_FROM = 3.0
"""Fractional sets from which a session is hard on a muscle. Common practice."""


def weekly_frequency(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Sessions a week that train each emphasised muscle, and the other groups together (sessions).

    Light weeks, and muscles without any set, are left alone.
    """
    if week.is_light:
        return
    band = context.band("weekly_frequency", "emphasised", index=index)
    for muscle in context.emphasis if band is not None else ():
        sessions = week.frequency.get(muscle, 0)
        if band is not None and week.sets.get(muscle) and sessions not in band:
            counted = plural(sessions, "{n} session", "{n} sessions")
            yield finding(
                "weekly_frequency",
                band,
                place=week_place(week.week),
                about=muscle.value,
                text=f"{muscle_name(muscle)} {counted}, {how_far(sessions, band)}",
                measured=sessions,
                where=tr("week {number}", number=index + 1),
            )
    if (others := context.band("weekly_frequency", "other", index=index)) is not None:
        yield from _other_groups(week, context, band=others, index=index)


def _other_groups(
    week: WeekFacts, context: Context, *, band: Range, index: int
) -> Iterator[Finding]:
    """One finding on all groups outside the emphasis that are trained too seldom or often."""
    counts = {
        group.name: max(week.frequency.get(muscle, 0) for muscle in group.muscles)
        for number, group in enumerate(GROUPS)
        if group.main and number not in context.emphasised_groups and week.by_group[number]
    }
    outside = {name: sessions for name, sessions in counts.items() if sessions not in band}
    if outside:
        least = min(outside.values())
        names = listing([mid_sentence(tr(name)) for name in outside])
        counted = plural(least, "{n} session", "{n} sessions")
        yield finding(
            "weekly_frequency",
            band,
            place=week_place(week.week),
            about="others",
            text=f"{lead(names)} {counted}, {how_far(least, band)}",
            measured=least,
            where=tr("week {number}", number=index + 1),
        )


def spacing(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Hours between two sessions of the week that are hard on the same muscle (hours)."""
    band = context.band("spacing", index=index)
    if band is None:
        return
    for number, later in enumerate(week.sessions):
        seen: set[Muscle] = set()
        for earlier in reversed(week.sessions[:number]):
            hours = 24.0 * (later.day - earlier.day)
            if hours not in band and (both := _hard_in_both(earlier, later, seen)):
                yield _again(both, earlier, later=later, hours=hours, band=band, week=week)


def spacing_over_sunday(
    before: WeekFacts, week: WeekFacts, *, context: Context, index: int
) -> Iterator[Finding]:
    """Hours between the last hard session of a muscle in one week and the first in the next."""
    band = context.band("spacing", index=index)
    if band is None:
        return
    seen: set[Muscle] = set()
    for later in week.sessions:
        for earlier in reversed(before.sessions):
            hours = 24.0 * (later.day - earlier.day + 7)
            if hours not in band and (both := _hard_in_both(earlier, later, seen)):
                yield _again(both, earlier, later=later, hours=hours, band=band, week=week)


def _hard_in_both(earlier: DaySession, later: DaySession, seen: set[Muscle]) -> list[Muscle]:
    """Muscles worked hard in both sessions and not seen yet; they are seen now."""
    both = [
        muscle
        for muscle, before, after in zip(
            MUSCLES, earlier.facts.by_muscle, later.facts.by_muscle, strict=True
        )
        if after >= HARD_FROM and before >= HARD_FROM and muscle not in seen
    ]
    seen.update(both)
    return both


def _again(
    muscles: list[Muscle],
    earlier: DaySession,
    *,
    later: DaySession,
    hours: float,
    band: Range,
    week: WeekFacts,
) -> Finding:
    names = listing([mid_sentence(muscle_name(muscle)) for muscle in muscles])
    after = (
        tr("the same day")
        if not hours
        else tr("{hours} h after {day}", hours=amount(hours), day=day_name(earlier.day))
    )
    return finding(
        "spacing",
        band,
        place=session_place(week.week, later.day, session=later.facts.session),
        about=f"after-{earlier.facts.session.strand}",
        text=tr(
            "{names} again {after}, {how_far}",
            names=lead(names),
            after=after,
            how_far=how_far(hours, band, "h"),
        ),
        measured=hours,
    )
