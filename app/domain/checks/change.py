"""From week to week: rises in sets and load, light weeks, and exercises that never change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.domain.checks.context import Context
from app.domain.checks.say import (
    amount,
    finding,
    how_far,
    plural,
    slot_finding,
    week_place,
)
from app.domain.exercise import ExerciseKey
from app.domain.facts import MOST_REMEMBERED, WeekFacts
from app.domain.findings import Finding
from app.domain.muscle_groups import muscle_name
from app.domain.ranges import Range
from app.domain.wording import tr


def set_rise(
    before: WeekFacts, week: WeekFacts, *, context: Context, index: int
) -> Iterator[Finding]:
    """Sets that an emphasised muscle gains over the week before (sets).

    Nothing is said after a light or an empty week: the sets only come back.
    """
    band = context.band("set_rise", index=index)
    if band is None or before.is_light or before.is_empty:
        return
    for muscle in context.emphasis:
        rise = week.sets.get(muscle, 0.0) - before.sets.get(muscle, 0.0)
        if rise not in band:
            yield finding(
                "set_rise",
                band,
                place=week_place(week.week),
                about=muscle.value,
                text=tr(
                    "{muscle_name} {rise} more than in week {index}, {how_far}",
                    muscle_name=muscle_name(muscle),
                    rise=plural(rise, "{n} set", "{n} sets"),
                    index=index,
                    how_far=how_far(rise, band),
                ),
                measured=rise,
                where=tr("week {number}", number=index + 1),
            )


def load_rise(
    before: WeekFacts, week: WeekFacts, *, context: Context, index: int
) -> Iterator[Finding]:
    """The rise in load over the week before at the same repetitions (%).

    Loads set by hand are compared in kg, others as fractions of 1RM.
    """
    band = context.band("load_rise", index=index)
    if band is None or before.is_light:
        return
    for placed in week.counted:
        at, was = placed.at, before.by_strand.get(placed.at.slot.strand)
        if was is None or (at.percent <= was.percent and at.slot.load_kg is None):
            continue
        by_hand = was.slot.load_kg and at.slot.load_kg and at.slot.load_kg / was.slot.load_kg
        percent = round(100 * ((by_hand or at.percent / was.percent) - 1), 1)
        if percent in band:
            continue
        # after other repetitions, or another exercise, it is another load and no rise
        if was.exercise is at.exercise and was.slot.reps == at.slot.reps:
            text = tr(
                "{percent} % more load than in week {index}, {how_far}",
                percent=amount(percent),
                index=index,
                how_far=how_far(percent, band),
            )
            yield slot_finding(
                "load_rise", band, week=week, placed=placed, text=text, measured=percent
            )


def light_week_dose(
    before: WeekFacts, week: WeekFacts, *, context: Context, index: int
) -> Iterator[Finding]:
    """A light week's sets as a share of the week before (%)."""
    band = context.band("light_week_dose", index=index)
    if band is None or not week.is_light or before.is_light or week.is_empty or before.is_empty:
        return
    percent = round(100 * _all_sets(week) / _all_sets(before))
    if percent not in band:
        yield finding(
            "light_week_dose",
            band,
            place=week_place(week.week),
            about="sets",
            text=tr(
                "Week {number} is light, with {percent} % of the sets of week {index}, {how_far}",
                number=index + 1,
                percent=percent,
                index=index,
                how_far=how_far(percent, band),
            ),
            measured=percent,
            where=tr("week {number}", number=index + 1),
        )


def _all_sets(week: WeekFacts) -> int:
    return sum(placed.at.slot.sets for placed in week.slots)


def light_weeks(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Training weeks in a row without a light one (weeks); an empty week rests as well."""
    band = context.band("light_weeks")
    if band is None:
        return
    run = 0
    for index, week in enumerate(weeks):
        run = 0 if week.is_light or week.is_empty else run + 1
        ends = index + 1 == len(weeks) or weeks[index + 1].is_light or weeks[index + 1].is_empty
        if not ends or run in band:
            continue
        first = index + 2 - run
        yield finding(
            "light_weeks",
            band,
            place=week_place(week.week),
            about=f"from-{weeks[first - 1].week.id}",
            text=tr(
                "Weeks {first} to {number} without a light week: {run} weeks, {how_far}",
                first=first,
                number=index + 1,
                run=run,
                how_far=how_far(run, band),
            ),
            measured=run,
            where=tr("week {number}", number=index + 1),
        )


def time_since_change(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Weeks in a row with the same exercise (weeks); told once, where the range is left."""
    band = context.band("time_since_change")
    if band is None or band.high is None:
        return
    limit = int(band.high) + 1
    for index in range(limit - 1, len(weeks)):
        run = [week.exercises for week in weeks[index + 1 - limit : index + 1]]
        due = frozenset.intersection(*run)
        if due and index >= limit:
            due -= weeks[index - limit].exercises
        if due:
            yield from _the_same(due, limit, week=weeks[index], band=band, context=context)


def _the_same(
    due: frozenset[ExerciseKey], weeks: int, *, week: WeekFacts, band: Range, context: Context
) -> tuple[Finding, ...]:
    """A finding on the first slot of each exercise that is due; kept while the week stays."""
    kept = context.unchanging.get(id(week))
    if kept is None or kept[:2] != (week, due):
        found = []
        left = set(due)
        for placed in week.slots:
            if (key := placed.at.slot.exercise) in left:
                left.remove(key)
                text = tr("the same for {weeks} weeks", weeks=weeks)
                found.append(
                    slot_finding(
                        "time_since_change",
                        band,
                        week=week,
                        placed=placed,
                        text=text,
                        measured=weeks,
                    )
                )
        if len(context.unchanging) >= MOST_REMEMBERED:
            context.unchanging.clear()
        kept = context.unchanging[id(week)] = (week, due, tuple(found))
    return kept[2]
