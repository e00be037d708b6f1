"""What the client can do at all: time, limitations, equipment."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from app.domain.checks.context import Breach, Context, own_word
from app.domain.checks.say import day_place, day_text, finding, slot_finding
from app.domain.client import Limitation, Side
from app.domain.exercise import Equipment, Motion, equipment_name, joint_name
from app.domain.facts import Placed, WeekFacts
from app.domain.findings import Finding
from app.domain.program import DAYS, day_name
from app.domain.session_time import whole_minutes
from app.domain.wording import listing, mark, mid_sentence, tr


def session_minutes(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Expected minutes of each day's sessions against the time the client has (min)."""
    for day, minutes in enumerate(week.minutes_by_day):
        measured = whole_minutes(minutes)
        if not measured or (band := context.cap(day)) is None or measured in band:
            continue
        cap = band.high or 0
        if cap:
            over = tr("{measured:g} over the cap of {cap:g}", measured=measured - cap, cap=cap)
        else:
            note = context.client.free[day].note
            over = tr(
                "but {day} is not free{word}", day=day_name(day), word=f" ({note})" if note else ""
            )
        yield finding(
            "session_minutes",
            band,
            place=day_place(week.week, day),
            about=DAYS[day].lower(),
            text=f"{day_name(day)} {measured} min, {over}",
            measured=measured,
        )


_DOES = {
    Motion.FLEXION: mark("bends"),
    Motion.EXTENSION: mark("straightens"),
    Motion.ABDUCTION: mark("spreads"),
    Motion.ADDUCTION: mark("draws in"),
    Motion.ROTATION: mark("turns"),
    Motion.OVERHEAD: mark("works overhead with"),
    Motion.COMPRESSION: mark("loads"),
    Motion.IMPACT: mark("jolts"),
}


def limitation(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Exercises that ask a joint for what the client's limitation rules out on that date."""
    band = context.band("limitation", index=index)
    if band is None or not context.client.limitations:
        return
    for placed in week.slots:
        broken = context.breaches(placed.at.exercise)
        for breach in _in_force(broken, context.day_date(index, placed.day)) if broken else ():
            yield slot_finding(
                "limitation",
                own_word(band, limitation_text(breach.limitation)),
                week=week,
                placed=placed,
                text=breach_text(breach),
                detail=_motion_key(breach),
            )


def limitation_ended(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """What a limitation ruled out, in the first week after its last day that asks for it again.

    A date is when to look again with whoever set the limitation; it lifts nothing by itself.
    """
    band = context.band("limitation_ended")
    if band is None:
        return
    told = set()
    for ended in sorted(context.client.limitations, key=_last_day, reverse=True):
        if ended.until is None:
            continue
        for week, placed, breach in _first_again(weeks, context, ended=ended):
            one = slot_finding(
                "limitation_ended",
                own_word(band, limitation_text(ended)),
                week=week,
                placed=placed,
                text=tr(
                    "{breach_text}, ruled out until {until}: ask before it comes back",
                    breach_text=breach_text(breach),
                    until=day_text(ended.until),
                ),
                detail=_motion_key(breach),
            )
            if one.id not in told:
                told.add(one.id)
                yield one


def _last_day(limitation: Limitation) -> date:
    return limitation.until or date.max


def _first_again(
    weeks: Sequence[WeekFacts], context: Context, *, ended: Limitation
) -> list[tuple[WeekFacts, Placed, Breach]]:
    """Slots of the first week past the last day that break `ended`, unless another forbids them."""
    for index, week in enumerate(weeks):
        again = []
        for placed in week.slots:
            day = context.day_date(index, placed.day)
            broken = context.breaches(placed.at.exercise) if day > _last_day(ended) else ()
            if not broken:
                continue
            still = {_motion_key(breach) for breach in _in_force(broken, day)}
            again += [
                (week, placed, breach)
                for breach in broken
                if breach.limitation == ended and _motion_key(breach) not in still
            ]
        if again:
            return again
    return []


def _in_force(broken: tuple[Breach, ...], day: date) -> tuple[Breach, ...]:
    """Breaches of limitations in force on that day, the first for each motion and side."""
    first: dict[str, Breach] = {}
    for breach in broken:
        if breach.limitation.applies_on(day):
            first.setdefault(_motion_key(breach), breach)
    return tuple(first.values())


def _motion_key(breach: Breach) -> str:
    ruled_out = breach.limitation
    return f"{ruled_out.joint}-{ruled_out.motion}-{ruled_out.side}"


def limitation_text(ruled_out: Limitation) -> str:
    """'limitation of 2 Oct 2026', or 'limitation' where nobody wrote since when."""
    since = ruled_out.since
    return tr("limitation") if since is None else tr("limitation of {since}", since=day_text(since))


def breach_text(breach: Breach) -> str:
    """'bends the left knee past 90°'."""
    ruled_out = breach.limitation
    side = "" if ruled_out.side is Side.BOTH else f"{tr(ruled_out.side.value)} "
    past = ruled_out.past_degrees
    far = "" if past is None or not breach.reach.degrees else tr(" past {past}°", past=past)
    return tr(
        "{motion} the {side}{joint}{far}",
        motion=tr(_DOES[ruled_out.motion]),
        side=side,
        joint=mid_sentence(joint_name(ruled_out.joint)),
        far=far,
    )


def equipment(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Exercises that need something that is not where the client trains that day."""
    band = context.band("equipment", index=index)
    if band is None:
        return
    for placed in week.slots:
        if missing := context.missing(placed.at.exercise, placed.day):
            needs = tr("needs {equipment_text}", equipment_text=equipment_text(missing))
            place = context.client.free[placed.day].place
            if place:
                needs = tr("{needs}, not at {place}", needs=needs, place=place)
            yield slot_finding(
                "equipment",
                own_word(band),
                week=week,
                placed=placed,
                text=needs,
                measured=len(missing),
            )


def equipment_text(things: tuple[Equipment, ...]) -> str:
    """'barbell and rack'."""
    return listing([equipment_name(thing) for thing in things])
