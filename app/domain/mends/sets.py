"""Mends that add sets or take some off."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, floor

from app.domain.checks.context import Context
from app.domain.dose import session_minutes
from app.domain.edits.fields import add_sets
from app.domain.exercise import Muscle
from app.domain.findings import Edit, Finding, edit
from app.domain.mends.ask import Ask
from app.domain.muscle_groups import GROUPS
from app.domain.program import Program, Slot, SlotId
from app.domain.session_time import whole_minutes
from app.domain.wording import tr, trn

MOST_SETS = 6
"""Sets of one exercise that a mend does not go beyond. Source: acsm2009."""


def change_sets(program: Program, changes: tuple[tuple[SlotId, int], ...]) -> Program:
    """The program with so many sets more or fewer for each of those slots, in this week alone."""
    for slot_id, by in changes:
        program = add_sets(program, slot_id, by=by)
    return program


def _sets_word(count: int) -> str:
    return trn("{n} set", "{n} sets", count)


def more_or_fewer_sets(ask: Ask) -> Edit | None:
    """Sets added for a muscle that is short, or taken off one that has too many."""
    band, measured = ask.finding.range, ask.finding.measured
    if band is None or measured is None:
        return None
    slots = _slots_for(ask.finding, ask.program, ask.context)
    if short := band.short_by(measured):
        return _add(slots, short)
    return _take(slots, band.over_by(measured))


def _slots_for(finding: Finding, program: Program, context: Context) -> list[tuple[float, Slot]]:
    """Slots of the finding's week (or session) that train its muscle, with their part of a set."""
    week = program.weeks[program.week_index(finding.place.week)] if finding.place.week else None
    muscles = _muscles_of(finding.about)
    found = []
    for _, session in week.sessions() if week else ():
        if finding.place.session not in (None, session.id):
            continue
        for slot in session.slots:
            exercise = context.catalogue[slot.exercise]
            part = max((exercise.fraction(muscle) for muscle in muscles), default=0.0)
            if part > 0:
                found.append((part, slot))
    return found


def _muscles_of(about: str) -> tuple[Muscle, ...]:
    if about in set(Muscle):
        return (Muscle(about),)
    return next((group.muscles for group in GROUPS if group.key == about), ())


def _add(slots: list[tuple[float, Slot]], short: float) -> Edit | None:
    """Sets added where fewest do: to one prime mover's slot, or shared if one has no room."""
    by_worth = sorted(slots, key=lambda one: (-one[0], one[1].sets, one[1].id))
    for part, slot in by_worth:
        if slot.sets + (count := ceil(short / part)) <= MOST_SETS:
            return edit(
                tr("Add {sets_word}", sets_word=_sets_word(count)),
                add_sets,
                slot_id=slot.id,
                by=count,
            )
    changes = []
    for part, slot in by_worth:
        count = min(ceil(short / part), max(0, MOST_SETS - slot.sets))
        if count and short > 0:
            changes.append((slot.id, count))
            short -= count * part
    if short > 0:
        return None
    total = _sets_word(sum(count for _, count in changes))
    return edit(tr("Add {total}", total=total), change_sets, changes=tuple(changes))


def _take(slots: list[tuple[float, Slot]], over: float) -> Edit | None:
    """Sets taken off the slot that has most of them; at least one stays."""
    fitting = [
        (part, slot, ceil(over / part))
        for part, slot in slots
        if slot.sets - ceil(over / part) >= 1
    ]
    if not fitting or over <= 0:
        return None
    _, slot, count = max(fitting, key=lambda one: (one[0], one[1].sets, -one[1].id))
    return edit(
        tr("Take off {sets_word}", sets_word=_sets_word(count)),
        add_sets,
        slot_id=slot.id,
        by=-count,
    )


def exercise_sets(ask: Ask) -> Edit | None:
    """Sets taken off an exercise that has too many."""
    band, slot = ask.finding.range, ask.slot
    if band is None or band.high is None or slot.sets <= band.high:
        return None
    return _take([(1.0, slot)], slot.sets - floor(band.high))


def fewer_minutes(ask: Ask) -> Edit | None:
    """Sets taken off the day's longest session, assistance first, until the time fits."""
    place, cap = ask.finding.place, ask.finding.range and ask.finding.range.high
    if not cap or place.week is None or place.day is None:
        return None
    sessions = ask.program.weeks[ask.program.week_index(place.week)].days[place.day].sessions
    minutes = [session_minutes(one, ask.context.catalogue).expected for one in sessions]
    longest = max(range(len(sessions)), key=minutes.__getitem__)
    session, others = sessions[longest], sum(minutes) - minutes[longest]

    def minutes_of(slots: tuple[Slot, ...]) -> float:
        own = session_minutes(replace(session, slots=slots), ask.context.catalogue).expected
        return whole_minutes(own + others)

    from app.domain.edits.split import trimmed_sets

    trimmed = dict(trimmed_sets(session.slots, minutes_of, cap))
    sets = tuple(
        (slot.id, trimmed[slot.strand] - slot.sets)
        for slot in session.slots
        if slot.strand in trimmed and slot.sets > trimmed[slot.strand]
    )
    left = tuple(replace(s, sets=trimmed.get(s.strand, s.sets)) for s in session.slots)
    if not sets or minutes_of(left) > cap + 0.5:
        return None
    return edit(
        tr("Take off {sets_word}", sets_word=_sets_word(-sum((by for _, by in sets)))),
        change_sets,
        changes=sets,
    )
