"""Mends that bring another exercise, another place or another week."""

from __future__ import annotations

from math import ceil

from app.domain.checks.arrangement import first_heavy
from app.domain.edits.parts import Spot
from app.domain.edits.place import move, move_session, replace_exercise, set_warmup
from app.domain.edits.weeks import make_light
from app.domain.findings import Edit, edit
from app.domain.mends.ask import Ask
from app.domain.program import Span, day_name
from app.domain.wording import mid_sentence, tr


def swap(ask: Ask) -> Edit | None:
    """The best substitute that the client can do and does not dislike, from this week on."""
    return _swapped(ask, most_skill=None)


def swap_for_less_skill(ask: Ask) -> Edit | None:
    """The best substitute that asks for no more skill than the range."""
    band = ask.finding.range
    return _swapped(ask, most_skill=None if band is None else band.high)


def _swapped(ask: Ask, most_skill: float | None) -> Edit | None:
    slot, client = ask.slot, ask.context.client
    at = ask.at
    session = ask.program.weeks[at.week].days[at.day].sessions[at.session]
    on = ask.context.day_date(at.week, at.day)
    # the same strand is asked about in many weeks: only what can change the choice tells them apart
    question = (
        most_skill,
        slot.exercise,
        slot.strand,
        slot.reps,
        frozenset(other.exercise for other in session.slots),
        tuple(limitation.applies_on(on) for limitation in client.limitations),
    )
    if question not in ask.choices:
        from app.domain import substitute  # a page of findings rarely asks for it

        ranked = substitute.rank(slot, ask.program, client, ask.context.catalogue)
        ask.choices[question] = next(
            (
                one.exercise
                for one in ranked
                if not one.blocked
                and one.exercise.key not in client.dislikes
                and (most_skill is None or one.exercise.skill <= most_skill)
            ),
            None,
        )
    chosen = ask.choices[question]
    if chosen is None:
        return None
    return edit(
        chosen.name,
        replace_exercise,
        slot_id=slot.id,
        exercise=chosen,
        old=ask.context.catalogue[slot.exercise],
        span=Span.FROM_HERE,
    )


def earlier(ask: Ask) -> Edit | None:
    """The exercise moved to before the first single-joint one for one of its prime movers."""
    at = ask.at
    session = ask.program.weeks[at.week].days[at.day].sessions[at.session]
    primes = set(ask.context.catalogue[session.slots[at.slot].exercise].primes)
    for position, slot in enumerate(session.slots[: at.slot]):
        exercise = ask.context.catalogue[slot.exercise]
        if not exercise.multi_joint and primes & set(exercise.primes):
            to = Spot(at.week, at.day, session.id, position)
            name = mid_sentence(exercise.name[0]) + exercise.name[1:]
            return edit(
                tr("Move before {name}", name=name), move, slot_id=session.slots[at.slot].id, to=to
            )
    return None


def warm_up(ask: Ask) -> Edit | None:
    """Drills that lead up to the session's first heavy lift, from this week on."""
    found = ask.session
    if found is None:
        return None
    index, day, session = found
    from app.domain.warmup import compose

    composed = compose(
        session,
        ask.context.catalogue,
        ask.context.client,
        ask.context.emphasis,
        on=ask.context.day_date(index, day),
    )
    first = first_heavy(ask.context.facts.session(session))
    if first is None or not any(
        first.exercise.pattern in ask.context.catalogue[key].warmup_for for key in composed.keys
    ):
        return None
    label = tr("Add a warm-up") if not session.warmup else tr("Change the warm-up")
    drills = composed.proposed(session.warmup)
    return edit(label, set_warmup, session_id=session.id, warmup=drills, span=Span.FROM_HERE)


def other_day(ask: Ask) -> Edit | None:
    """The session moved to the nearest later free and empty day that is far enough from others."""
    found = ask.session
    if found is None or ask.finding.range is None or not ask.finding.range.low:
        return None
    index, day, session = found
    week = ask.program.weeks[index]
    apart = ceil(ask.finding.range.low / 24)
    busy = [number for number, other in week.sessions() if other.id != session.id]
    for to in (*range(day + 1, 7), *range(day - 1, -1, -1)):
        free = ask.context.client.free[to].minutes > 0
        if free and all(abs(to - other) >= apart for other in busy):
            return edit(
                tr("Move to {to}", to=day_name(to)), move_session, session_id=session.id, day=to
            )
    return None


def lighten(ask: Ask) -> Edit | None:
    """The week made light in which the range would first be left."""
    if ask.finding.place.week is None or ask.finding.measured is None or ask.finding.range is None:
        return None
    last = ask.program.week_index(ask.finding.place.week)
    index = last - int(ask.finding.measured) + 1 + int(ask.finding.range.high or 0)
    return edit(tr("Make week {number} light", number=index + 1), make_light, index=index)
