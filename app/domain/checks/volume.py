"""Sets: for each muscle in a week and in one session."""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.checks.context import Context
from app.domain.checks.say import finding, how_far, plural, session_place, week_place
from app.domain.facts import WeekFacts
from app.domain.findings import Finding
from app.domain.muscle_groups import GROUPS, muscle_name


def weekly_sets(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Fractional sets a week of each emphasised muscle and each trained group (sets).

    Light weeks may have fewer; groups without any set are `left_out`'s matter.
    """
    if week.is_empty:
        return
    counts = [
        (muscle.value, muscle_name(muscle), week.sets.get(muscle, 0.0), "emphasised")
        for muscle in context.emphasis
    ]
    counts += [
        (group.key, group.name, week.by_group[number], "other")
        for number, group in enumerate(GROUPS)
        if group.main and number not in context.emphasised_groups and week.by_group[number]
    ]
    for about, name, sets, kind in counts:
        band = context.band("weekly_sets", kind, index=index)
        if band is None or sets in band or (week.is_light and band.short_by(sets)):
            continue
        yield finding(
            "weekly_sets",
            band,
            place=week_place(week.week),
            about=about,
            text=f"{name} {plural(sets, 'set', 'sets')}, {how_far(sets, band)}",
            measured=sets,
            where=f"week {index + 1}",
        )


def session_sets(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Fractional sets for one muscle in one session (sets)."""
    band = context.band("session_sets", index=index)
    if band is None:
        return
    for day, facts in week.sessions:
        for muscle, sets in facts.sets.items():
            if sets in band:
                continue
            yield finding(
                "session_sets",
                band,
                place=session_place(week.week, day, session=facts.session),
                about=muscle.value,
                text=f"{muscle_name(muscle)} {plural(sets, 'set', 'sets')} in one session, "
                f"{how_far(sets, band)}",
                measured=sets,
            )
