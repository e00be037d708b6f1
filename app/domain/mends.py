"""What would settle a finding: an edit as a value, where there is an obvious one.

Worked out only for findings that somebody looks at, never during a drag. A mend is an offer: it
takes the smallest step that brings the measure to the near end of its range, and leaves the rest
to the coach.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from math import ceil, floor

from app.domain import substitute
from app.domain.checks.arrangement import first_heavy
from app.domain.checks.context import Context
from app.domain.dose import session_minutes
from app.domain.edits.fields import add_sets, set_field
from app.domain.edits.parts import At, Spot, locate, slot_at
from app.domain.edits.place import move, move_session, replace_exercise, set_warmup
from app.domain.edits.split import trimmed_sets
from app.domain.edits.weeks import make_light
from app.domain.effort import PercentOneRm, Rir
from app.domain.exercise import Exercise, Muscle
from app.domain.findings import Edit, Finding, edit
from app.domain.muscle_groups import GROUPS
from app.domain.program import DAYS, Field, Program, Reps, Session, Slot, SlotId, Span
from app.domain.warmup import compose

MOST_SETS = 6
"""Sets of one exercise that a mend does not go beyond. Source: acsm2009."""

REST_STEP_S = 5


def mend_for(finding: Finding, program: Program, context: Context) -> Edit | None:
    """The edit that would settle the finding; None where none is obvious.

    The finding must be of this program: a slot that is gone raises EditError.
    """
    make = _MAKERS.get(finding.rule)
    return None if make is None else make(finding, program, context)


def with_mends(
    findings: Iterable[Finding], program: Program, context: Context
) -> tuple[Finding, ...]:
    """The findings, each with its mend where there is one."""
    return tuple(
        one if (mend := mend_for(one, program, context)) is None else replace(one, mend=mend)
        for one in findings
    )


def take_off(program: Program, sets: tuple[tuple[SlotId, int], ...]) -> Program:
    """The program with so many sets fewer for each of those slots, in this week alone."""
    for slot_id, count in sets:
        program = add_sets(program, slot_id, by=-count)
    return program


def _sets_word(count: int) -> str:
    return f"{count} set" if count == 1 else f"{count} sets"


# -- sets --------------------------------------------------------------------------------------


def _more_or_fewer_sets(finding: Finding, program: Program, context: Context) -> Edit | None:
    band, measured = finding.range, finding.measured
    if band is None or measured is None:
        return None
    slots = _slots_for(finding, program, context)
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
    """Sets added to the slot that needs fewest: prime movers first, then the shortest slot."""
    fitting = [
        (part, slot, ceil(short / part))
        for part, slot in slots
        if slot.sets + ceil(short / part) <= MOST_SETS
    ]
    if not fitting:
        return None
    _, slot, count = min(fitting, key=lambda one: (-one[0], one[1].sets, one[1].id))
    return edit(f"Add {_sets_word(count)}", add_sets, slot_id=slot.id, by=count)


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
    return edit(f"Take off {_sets_word(count)}", add_sets, slot_id=slot.id, by=-count)


def _exercise_sets(finding: Finding, program: Program, context: Context) -> Edit | None:
    band, slot = finding.range, _slot(finding, program)
    if band is None or band.high is None or slot.sets <= band.high:
        return None
    return _take([(1.0, slot)], slot.sets - floor(band.high))


def _fewer_minutes(finding: Finding, program: Program, context: Context) -> Edit | None:
    """Sets taken off the day's longest session, assistance first, until the time fits."""
    place, cap = finding.place, finding.range and finding.range.high
    if not cap or place.week is None or place.day is None:
        return None
    sessions = program.weeks[program.week_index(place.week)].days[place.day].sessions
    minutes = [session_minutes(one, context.catalogue).expected for one in sessions]
    longest = max(range(len(sessions)), key=minutes.__getitem__)
    session, others = sessions[longest], sum(minutes) - minutes[longest]

    def minutes_of(slots: tuple[Slot, ...]) -> float:
        return session_minutes(replace(session, slots=slots), context.catalogue).expected + others

    # findings round to whole minutes, so that half a minute over still fits
    trimmed = dict(trimmed_sets(session.slots, minutes_of, cap + 0.49))
    sets = tuple(
        (slot.id, slot.sets - trimmed[slot.strand])
        for slot in session.slots
        if slot.strand in trimmed and slot.sets > trimmed[slot.strand]
    )
    left = tuple(replace(s, sets=trimmed.get(s.strand, s.sets)) for s in session.slots)
    if not sets or minutes_of(left) > cap + 0.5:
        return None
    return edit(f"Take off {_sets_word(sum(count for _, count in sets))}", take_off, sets=sets)


# -- prescriptions -----------------------------------------------------------------------------


def _slot(finding: Finding, program: Program) -> Slot:
    return slot_at(program, _at(finding, program))


def _at(finding: Finding, program: Program) -> At:
    if finding.place.slot is None:
        raise ValueError(f"{finding.rule} is not about a slot")
    return locate(program, finding.place.slot)


def _set(label: str, slot: Slot, field: Field, *, value: object) -> Edit:
    return edit(label, set_field, slot_id=slot.id, field=field, value=value)


def _reps(finding: Finding, program: Program, context: Context) -> Edit | None:
    band, slot = finding.range, _slot(finding, program)
    if band is None:
        return None
    low = min(max(slot.reps.low, ceil(band.low or 1)), floor(band.high or 600))
    high = min(max(slot.reps.high, low), floor(band.high or 600))
    unit = "seconds" if context.catalogue[slot.exercise].timed else "repetitions"
    words = f"{low}" if low == high else f"{low}–{high}"
    return _set(f"Set {words} {unit}", slot, Field.REPS, value=Reps(low, high))


def _reserve(finding: Finding, program: Program, context: Context) -> Edit | None:
    band = finding.range
    if band is None or finding.measured is None:
        return None
    rir = band.low if band.short_by(finding.measured) else band.high
    if rir is None:
        return None
    label = f"Set RIR {rir:g}"
    return _set(label, _slot(finding, program), Field.EFFORT, value=Rir(rir))


def _load(finding: Finding, program: Program, context: Context) -> Edit | None:
    """Only where a percentage is written: otherwise the load follows from repetitions."""
    band, slot = finding.range, _slot(finding, program)
    if band is None or finding.measured is None or not isinstance(slot.effort, PercentOneRm):
        return None
    percent = band.low if band.short_by(finding.measured) else band.high
    if percent is None:
        return None
    return _set(f"Set {percent:g} %", slot, Field.EFFORT, value=PercentOneRm(percent))


def _rest(finding: Finding, program: Program, context: Context) -> Edit | None:
    band, slot = finding.range, _slot(finding, program)
    if band is None or finding.measured is None:
        return None
    change = band.short_by(finding.measured) or -band.over_by(finding.measured)
    steps = ceil(change / REST_STEP_S) if change > 0 else floor(change / REST_STEP_S)
    rest_s = max(0, slot.rest_s + steps * REST_STEP_S)
    return _set(f"Rest {rest_s // 60}:{rest_s % 60:02}", slot, Field.REST, value=rest_s)


def _tempo(finding: Finding, program: Program, context: Context) -> Edit | None:
    slot = _slot(finding, program)
    usual = context.catalogue[slot.exercise].tempo
    return _set(f"Set tempo {usual}", slot, Field.TEMPO, value=usual)


# -- other exercises, other places -------------------------------------------------------------


def _swap(finding: Finding, program: Program, context: Context) -> Edit | None:
    return _swapped(finding, program, context=context, fits=lambda _: True)


def _swap_for_less_skill(finding: Finding, program: Program, context: Context) -> Edit | None:
    band = finding.range
    return _swapped(
        finding, program, context=context, fits=lambda one: band is None or one.skill in band
    )


def _swapped(
    finding: Finding,
    program: Program,
    *,
    context: Context,
    fits: Callable[[Exercise], bool],
) -> Edit | None:
    """The best substitute that fits, from this week on."""
    slot = _slot(finding, program)
    for one in substitute.rank(slot, program, context.client, context.catalogue):
        if one.blocked:
            return None
        liked = one.exercise.key not in context.client.dislikes
        if liked and fits(one.exercise):
            return edit(
                one.exercise.name,
                replace_exercise,
                slot_id=slot.id,
                exercise=one.exercise,
                old=context.catalogue[slot.exercise],
                span=Span.FROM_HERE,
            )
    return None


def _earlier(finding: Finding, program: Program, context: Context) -> Edit | None:
    """The exercise moved to before the first single-joint one for one of its prime movers."""
    at = _at(finding, program)
    session = program.weeks[at.week].days[at.day].sessions[at.session]
    primes = set(context.catalogue[session.slots[at.slot].exercise].primes)
    for position, slot in enumerate(session.slots[: at.slot]):
        exercise = context.catalogue[slot.exercise]
        if not exercise.multi_joint and primes & set(exercise.primes):
            to = Spot(at.week, at.day, session.id, position)
            name = exercise.name[0].lower() + exercise.name[1:]
            return edit(f"Move before {name}", move, slot_id=session.slots[at.slot].id, to=to)
    return None


def _session(finding: Finding, program: Program) -> tuple[int, int, Session] | None:
    place = finding.place
    if place.week is None or place.day is None:
        return None
    index = program.week_index(place.week)
    for session in program.weeks[index].days[place.day].sessions:
        if session.id == place.session:
            return index, place.day, session
    return None


def _warm_up(finding: Finding, program: Program, context: Context) -> Edit | None:
    found = _session(finding, program)
    if found is None:
        return None
    index, day, session = found
    drills = compose(
        session,
        context.catalogue,
        context.client,
        context.emphasis,
        on=context.day_date(index, day),
    ).keys
    first = first_heavy(context.facts.session(session))
    if first is None or not any(
        first.exercise.pattern in context.catalogue[key].warmup_for for key in drills
    ):
        return None
    label = "Add a warm-up" if not session.warmup else "Change the warm-up"
    return edit(label, set_warmup, session_id=session.id, warmup=drills, span=Span.FROM_HERE)


def _other_day(finding: Finding, program: Program, context: Context) -> Edit | None:
    """The session moved to the nearest later free and empty day that is far enough from others."""
    found = _session(finding, program)
    if found is None or finding.range is None or not finding.range.low:
        return None
    index, day, session = found
    week = program.weeks[index]
    apart = ceil(finding.range.low / 24)
    busy = [number for number, other in week.sessions() if other.id != session.id]
    for to in (*range(day + 1, 7), *range(day - 1, -1, -1)):
        free = context.client.free[to].minutes > 0
        if free and all(abs(to - other) >= apart for other in busy):
            return edit(f"Move to {DAYS[to]}", move_session, session_id=session.id, day=to)
    return None


def _lighten(finding: Finding, program: Program, context: Context) -> Edit | None:
    """The week made light in which the range would first be left."""
    if finding.place.week is None or finding.measured is None or finding.range is None:
        return None
    last = program.week_index(finding.place.week)
    index = last - int(finding.measured) + 1 + int(finding.range.high or 0)
    return edit(f"Make week {index + 1} light", make_light, index=index)


_MAKERS: dict[str, Callable[[Finding, Program, Context], Edit | None]] = {
    "weekly_sets": _more_or_fewer_sets,
    "session_sets": _more_or_fewer_sets,
    "set_rise": _more_or_fewer_sets,
    "exercise_sets": _exercise_sets,
    "session_minutes": _fewer_minutes,
    "rep_zone": _reps,
    "exercise_reps": _reps,
    "load_zone": _load,
    "effort": _reserve,
    "reserve": _reserve,
    "moderate_only": _reserve,
    "rest": _rest,
    "tempo": _tempo,
    "limitation": _swap,
    "equipment": _swap,
    "dislikes": _swap,
    "time_since_change": _swap,
    "skill": _swap_for_less_skill,
    "exercise_order": _earlier,
    "warm_up": _warm_up,
    "spacing": _other_day,
    "spinal_load": _other_day,
    "light_weeks": _lighten,
}
"""What makes the mend of a rule; rules that are not here have no obvious one."""
