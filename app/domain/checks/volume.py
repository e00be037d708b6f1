"""Sets: for each muscle in a week and in one session, and muscles that get none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.domain.checks.context import Context
from app.domain.checks.say import finding, how_far, lead, plural, session_place, week_place
from app.domain.facts import WeekFacts
from app.domain.findings import Finding, Place
from app.domain.muscle_groups import GROUPS, muscle_name
from app.domain.wording import listing, mid_sentence, tr


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
        (group.key, tr(group.name), week.by_group[number], "other")
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
            text=f"{name} {plural(sets, '{n} set', '{n} sets')}, {how_far(sets, band)}",
            measured=sets,
            where=tr("week {number}", number=index + 1),
        )


def session_sets(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Fractional sets for one muscle in one session (sets)."""
    band = context.band("session_sets", index=index)
    if band is None:
        return
    for day, facts in week.sessions:
        if max(facts.by_muscle) in band:
            continue
        for muscle, sets in facts.sets.items():
            if sets in band:
                continue
            yield finding(
                "session_sets",
                band,
                place=session_place(week.week, day, session=facts.session),
                about=muscle.value,
                text=tr(
                    "{muscle_name} {sets} in one session, {how_far}",
                    muscle_name=muscle_name(muscle),
                    sets=plural(sets, "{n} set", "{n} sets"),
                    how_far=how_far(sets, band),
                ),
                measured=sets,
            )


def left_out(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Muscle groups that get no set at all, in some or in every week (weeks without).

    Light and empty weeks are not counted; emphasised muscles are `weekly_sets`' matter.
    """
    band = context.band("left_out")
    filled = [week for week in weeks if not week.is_light and not week.is_empty]
    if band is None or not filled:
        return
    ever, always = 0, ~0
    for week in filled:
        ever |= week.trained
        always &= week.trained
    never: list[str] = []
    for number, group in enumerate(GROUPS):
        bit = 1 << number
        if not group.main or number in context.emphasised_groups or always & bit:
            continue
        if not ever & bit:
            never.append(mid_sentence(tr(group.name)))
            continue
        without = sum(not week.trained & bit for week in filled)
        if without not in band:
            text = tr(
                "{group} without a set in {without} of {filled} weeks",
                group=tr(group.name),
                without=without,
                filled=len(filled),
            )
            yield finding(
                "left_out", band, place=Place(), about=group.key, text=text, measured=without
            )
    if never and len(filled) not in band:
        yield finding(
            "left_out",
            band,
            place=Place(),
            about="never",
            text=tr("{never} without a set in the whole program", never=lead(listing(never))),
            measured=len(filled),
        )
