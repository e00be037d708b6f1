"""Finding parts of a program and putting changed ones back; everything else is shared."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from app.domain.errors import EditError
from app.domain.program import (
    DAYS,
    Day,
    Program,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
)
from app.domain.wording import tr


@dataclass(frozen=True, slots=True)
class Spot:
    """A place to put something: week index, day (0 for Monday), session and position in it.

    session None: the day's first session, or a new one where the day has none;
    position None: at the end. Positions count the slots as they stand before the edit.
    """

    week: int
    day: int
    session: SessionId | None = None
    position: int | None = None


@dataclass(frozen=True, slots=True)
class At:
    """Where a slot stands: week, day, session and slot by number."""

    week: int
    day: int
    session: int
    slot: int


def locate(program: Program, slot_id: SlotId) -> At:
    """Where the slot stands. Raises EditError if the program no longer holds it."""
    for week_number, week in enumerate(program.weeks):
        for day_number, day in enumerate(week.days):
            for session_number, session in enumerate(day.sessions):
                for slot_number, slot in enumerate(session.slots):
                    if slot.id == slot_id:
                        return At(week_number, day_number, session_number, slot_number)
    raise EditError(
        tr("That exercise is no longer in the program."),
        mend=tr("Choose another, or undo the last edit."),
    )


def slot_at(program: Program, at: At) -> Slot:
    """The slot that stands there."""
    return program.weeks[at.week].days[at.day].sessions[at.session].slots[at.slot]


def find_slot(program: Program, slot_id: SlotId) -> Slot:
    """The slot with this id. Raises EditError if there is none."""
    return slot_at(program, locate(program, slot_id))


def locate_session(program: Program, session_id: SessionId) -> tuple[int, int, Session]:
    """Week index, day and session of this id. Raises EditError if there is none."""
    for week_number, week in enumerate(program.weeks):
        for day_number, session in week.sessions():
            if session.id == session_id:
                return week_number, day_number, session
    raise EditError(
        tr("That session is no longer in the program."),
        mend=tr("Choose another, or undo the last edit."),
    )


def strand_in(week: Week, strand: StrandId) -> Slot | None:
    """The week's slot of this strand, if the week has one."""
    return next((slot for slot in week.slots() if slot.strand == strand), None)


def session_in(week: Week, strand: StrandId) -> tuple[int, Session] | None:
    """Day and session of this strand in the week, if the week has one."""
    return next(((d, s) for d, s in week.sessions() if s.strand == strand), None)


def with_week(program: Program, index: int, week: Week) -> Program:
    """The program with week `index` replaced."""
    weeks = program.weeks
    return replace(program, weeks=(*weeks[:index], week, *weeks[index + 1 :]))


def with_day(week: Week, number: int, day: Day) -> Week:
    """The week with one day replaced; the same week if nothing changed."""
    if day is week.days[number]:
        return week
    return replace(week, days=(*week.days[:number], day, *week.days[number + 1 :]))


def with_session(week: Week, session: Session) -> Week:
    """The week with the session of the same id replaced; it stays where it is."""
    for number, day in enumerate(week.days):
        for k, old in enumerate(day.sessions):
            if old.id == session.id:
                if old is session or old == session:
                    return week
                sessions = (*day.sessions[:k], session, *day.sessions[k + 1 :])
                return with_day(week, number, replace(day, sessions=sessions))
    return week


def map_slots(week: Week, change: Callable[[Slot], Slot]) -> Week:
    """The week with `change` applied to each slot; unchanged parts stay the same objects."""
    for _, session in tuple(week.sessions()):
        slots = tuple(map(change, session.slots))
        if any(new is not old for new, old in zip(slots, session.slots, strict=True)):
            week = with_session(week, replace(session, slots=slots))
    return week


def map_weeks(program: Program, indices: Iterable[int], change: Callable[[Week], Week]) -> Program:
    """The program with `change` applied to some weeks; the same program if none changed."""
    weeks = list(program.weeks)
    for index in indices:
        weeks[index] = change(weeks[index])
    return settled(program, weeks, next_id=program.next_id)


def without_strand(week: Week, strand: StrandId) -> Week:
    """The week without that strand's slot; a session left bare goes with it."""
    for _, session in tuple(week.sessions()):
        slots = tuple(slot for slot in session.slots if slot.strand != strand)
        if len(slots) == len(session.slots):
            continue
        slots = drop_lone_pairs(slots)
        if not slots and is_bare(session):
            week = without_session(week, session.strand)
        else:
            week = with_session(week, replace(session, slots=slots))
    return week


def is_bare(session: Session) -> bool:
    """True if nothing but its slots speaks for keeping the session."""
    return not (session.title or session.note or session.warmup)


def without_session(week: Week, strand: StrandId) -> Week:
    """The week without the session of that strand."""
    for number, day in enumerate(week.days):
        kept = tuple(s for s in day.sessions if s.strand != strand)
        if len(kept) != len(day.sessions):
            week = with_day(week, number, replace(day, sessions=kept))
    return week


def drop_lone_pairs(slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
    """The slots, without a pairing letter where no neighbour is of the pair any more."""
    letters = ["", *(slot.pair for slot in slots), ""]
    return tuple(
        replace(slot, pair="") if slot.pair and slot.pair not in letters[k : k + 3 : 2] else slot
        for k, slot in enumerate(slots)
    )


def require_day(day: int) -> int:
    """The day itself, known to be 0 to 6. Raises EditError."""
    if not 0 <= day < len(DAYS):
        raise EditError(
            tr("There is no day number {day}.", day=day), mend=tr("Days run from 0 to 6.")
        )
    return day


def require_week(program: Program, index: int) -> Week:
    """The week of that index. Raises EditError naming what there is."""
    if not 0 <= index < len(program.weeks):
        raise EditError(
            tr("There is no week {number}.", number=index + 1),
            where=program.name,
            mend=tr("The program has weeks 1 to {weeks}.", weeks=len(program.weeks)),
        )
    return program.weeks[index]


def settled(before: Program, weeks: list[Week], *, next_id: int) -> Program:
    """The program with these weeks, in which every part that came out equal is the old object.

    An edit that takes a slot out and puts it back must not look like a change.
    """
    kept = tuple(_settled_week(old, new) for old, new in zip(before.weeks, weeks, strict=True))
    if next_id == before.next_id and all(
        new is old for new, old in zip(kept, before.weeks, strict=True)
    ):
        return before
    return replace(before, weeks=kept, next_id=next_id)


def _settled_week(old: Week, new: Week) -> Week:
    if new is old or new == old:
        return old
    sessions = {session.id: session for _, session in old.sessions()}
    days = tuple(
        replace(day, sessions=tuple(_same(sessions.get(s.id), s) for s in day.sessions))
        for day in new.days
    )
    same_days = (d if d != o else o for d, o in zip(days, old.days, strict=True))
    return replace(new, days=tuple(same_days))


def _same(old: Session | None, new: Session) -> Session:
    return old if old is not None and old == new else new
