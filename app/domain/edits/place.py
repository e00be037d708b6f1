"""Edits that say what stands where: place, move, copy, remove, replace, pair, sessions."""

from __future__ import annotations

from dataclasses import replace

from app.domain.edits.fields import set_ramp
from app.domain.edits.parts import (
    Spot,
    drop_lone_pairs,
    find_slot,
    locate,
    locate_session,
    map_slots,
    map_weeks,
    require_day,
    require_week,
    session_in,
    settled,
    slot_at,
    strand_in,
    with_day,
    with_session,
    with_week,
    without_session,
    without_strand,
)
from app.domain.edits.prescribe import Prescription, make_slot, start_for, swapped
from app.domain.errors import EditError
from app.domain.exercise import Exercise
from app.domain.program import (
    Drill,
    Program,
    Session,
    SessionId,
    Slot,
    SlotId,
    Span,
    StrandId,
    Week,
    day_name,
    require_name,
)
from app.domain.ramp import Ramp
from app.domain.wording import tr

MAX_SLOTS = 24
"""Exercises in one session; more is surely a slip (common practice)."""


class _Ids:
    """Hands out the program's next free numbers within one edit."""

    def __init__(self, program: Program) -> None:
        self.next = program.next_id

    def take(self) -> int:
        self.next += 1
        return self.next - 1


def _anchor(program: Program, spot: Spot) -> tuple[StrandId | None, StrandId | None]:
    """The session strand at the spot, and the strand of the slot that comes before it."""
    week = require_week(program, spot.week)
    day = week.days[require_day(spot.day)]
    if spot.session is None:
        session = day.sessions[0] if day.sessions else None
    else:
        session = next((s for s in day.sessions if s.id == spot.session), None)
        if session is None:
            raise EditError(
                tr(
                    "Week {week}, {day} has no such session.",
                    week=spot.week + 1,
                    day=day_name(spot.day),
                ),
                mend=tr("Drop on another day, or add a session first."),
            )
    if session is None:
        return None, None
    last = len(session.slots)
    position = last if spot.position is None else min(spot.position, last)
    before = session.slots[position - 1].strand if position > 0 else None
    return session.strand, before


def _insert(
    week: Week, slot: Slot, *, day: int, session: Session, before: StrandId | None, at_end: bool
) -> Week:
    """The week with `slot` in its session of that strand, which is made on `day` if missing."""
    found = session_in(week, session.strand)
    if found is None:
        fresh = replace(session, slots=(slot,))
        old_day = week.days[day]
        return with_day(week, day, replace(old_day, sessions=(*old_day.sessions, fresh)))
    _, there = found
    strands = [s.strand for s in there.slots]
    if before is not None and before in strands:
        position = strands.index(before) + 1
    else:
        position = len(strands) if at_end else 0
    if len(strands) >= MAX_SLOTS:
        raise EditError(
            tr("The session has {strands} exercises already.", strands=len(strands)),
            mend=tr("Remove one first, or use another session."),
        )
    slots = (*there.slots[:position], slot, *there.slots[position:])
    return with_session(week, replace(there, slots=_unpaired_if_split(slots, position)))


def _tidied(week: Week, strand: StrandId) -> Week:
    """The week without pairing letters in that session that pair nothing any more."""
    found = session_in(week, strand)
    if found is None:
        return week
    return with_session(week, replace(found[1], slots=drop_lone_pairs(found[1].slots)))


def _unpaired_if_split(slots: tuple[Slot, ...], position: int) -> tuple[Slot, ...]:
    """The slots, with a pairing letter cleared where the new slot stands amid the pair."""
    before = slots[position - 1].pair if position > 0 else ""
    after = slots[position + 1].pair if position + 1 < len(slots) else ""
    if before and before == after and slots[position].pair != before:
        return tuple(replace(s, pair="") if s.pair == before else s for s in slots)
    return slots


def _session_for(
    program: Program, spot: Spot, strand: StrandId | None, ids: _Ids
) -> tuple[StrandId, Session]:
    """The session at the spot as a pattern for other weeks; a fresh one if there is none."""
    if strand is None:
        fresh = Session(SessionId(0), StrandId(ids.take()), "")
        return fresh.strand, fresh
    found = session_in(program.weeks[spot.week], strand)
    assert found is not None
    return strand, replace(found[1], slots=())


def _put(
    program: Program, spot: Spot, *, make: list[tuple[int, Slot]], ids: _Ids, tidy: bool = True
) -> Program:
    """The program with each (week, slot) of `make` inserted where `spot` says.

    tidy: False while the rest of a pair is still to come.
    """
    session_strand, before = _anchor(program, spot)
    _, pattern = _session_for(program, spot, session_strand, ids)
    at_end = spot.position is None or before is not None
    weeks = list(program.weeks)
    for index, slot in make:
        fresh = replace(pattern, id=SessionId(ids.take()))
        weeks[index] = _insert(
            weeks[index], slot, day=spot.day, session=fresh, before=before, at_end=at_end
        )
        if tidy:
            weeks[index] = _tidied(weeks[index], pattern.strand)
    return settled(program, weeks, next_id=ids.next)


def place(
    program: Program,
    exercise: Exercise,
    *,
    at: Spot,
    span: Span = Span.THIS_WEEK,
    prescription: Prescription | None = None,
) -> Program:
    """The program with `exercise` placed at the spot in every week that `span` reaches.

    Without a prescription each week's own usual repetitions are taken.
    """
    require_week(program, at.week)
    ids = _Ids(program)
    strand = StrandId(ids.take())
    make = [
        (
            index,
            make_slot(
                exercise,
                prescription or start_for(exercise, program.weeks[index]),
                slot_id=SlotId(ids.take()),
                strand=strand,
            ),
        )
        for index in program.reach(at.week, span)
    ]
    return _put(program, at, make=make, ids=ids)


def move(program: Program, slot_id: SlotId, *, to: Spot, span: Span = Span.THIS_WEEK) -> Program:
    """The program with the slot's strand moved to the spot in every week that `span` reaches.

    To another week only this one slot goes, whatever the span.
    """
    at = locate(program, slot_id)
    slot = slot_at(program, at)
    require_week(program, to.week)
    if to.week != at.week:
        return _move_to_week(program, slot, at_week=at.week, to=to)
    session = program.weeks[at.week].days[at.day].sessions[at.session]
    session_strand, before = _anchor(program, to)
    if session_strand == session.strand and to.position in (at.slot, at.slot + 1):
        return program
    if before == slot.strand:  # dropped right behind itself: its own predecessor anchors it
        before = session.slots[at.slot - 1].strand if at.slot else None
    ids = _Ids(program)
    _, pattern = _session_for(program, to, session_strand, ids)
    weeks = list(program.weeks)
    for index in program.reach(at.week, span):
        there = strand_in(weeks[index], slot.strand)
        if there is None:
            continue
        bare = _lifted(weeks[index], there, out_of=pattern.strand)
        if bare is None:
            bare, there = without_strand(weeks[index], slot.strand), replace(there, pair="")
        fresh = replace(
            pattern, id=_session_id_in(weeks[index], pattern.strand) or SessionId(ids.take())
        )
        at_end = to.position is None or before is not None
        weeks[index] = _insert(bare, there, day=to.day, session=fresh, before=before, at_end=at_end)
        weeks[index] = _tidied(weeks[index], pattern.strand)
    return settled(program, weeks, next_id=ids.next)


def _lifted(week: Week, slot: Slot, *, out_of: StrandId) -> Week | None:
    """The week without the slot, its pair waiting for it; None if it stands in another session."""
    found = session_in(week, out_of)
    if found is None or slot not in found[1].slots:
        return None
    kept = tuple(other for other in found[1].slots if other is not slot)
    return with_session(week, replace(found[1], slots=kept))


def _session_id_in(week: Week, strand: StrandId) -> SessionId | None:
    found = session_in(week, strand)
    return found[1].id if found else None


def _move_to_week(program: Program, slot: Slot, *, at_week: int, to: Spot) -> Program:
    ids = _Ids(program)
    strand = slot.strand
    if strand_in(program.weeks[to.week], strand) is not None:
        strand = StrandId(ids.take())
    without = without_strand(program.weeks[at_week], slot.strand)
    bare = with_week(program, at_week, without)
    moved = replace(slot, strand=strand, pair="")
    return _put(bare, to, make=[(to.week, moved)], ids=ids)


def copy(program: Program, slot_id: SlotId, *, to: Spot, span: Span = Span.THIS_WEEK) -> Program:
    """The program with a copy of the slot, as a strand of its own, at the spot.

    Each reached week copies its own prescription where it has the strand.
    """
    source = find_slot(program, slot_id)
    require_week(program, to.week)
    ids = _Ids(program)
    strand = StrandId(ids.take())
    make = []
    for index in program.reach(to.week, span):
        own = strand_in(program.weeks[index], source.strand) or source
        make.append((index, replace(own, id=SlotId(ids.take()), strand=strand, pair="")))
    return _put(program, to, make=make, ids=ids)


def paste(
    program: Program, slots: tuple[Slot, ...], *, to: Spot, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with copies of `slots` (from anywhere) at the spot, in their order."""
    for offset, slot in enumerate(slots):
        ids = _Ids(program)
        strand = StrandId(ids.take())
        position = None if to.position is None else to.position + offset
        make = [
            (index, replace(slot, id=SlotId(ids.take()), strand=strand))
            for index in program.reach(to.week, span)
        ]
        last = offset == len(slots) - 1
        program = _put(program, replace(to, position=position), make=make, ids=ids, tidy=last)
    return program


def remove(program: Program, slot_id: SlotId, *, span: Span = Span.THIS_WEEK) -> Program:
    """The program without the slot's strand in every week that `span` reaches."""
    at = locate(program, slot_id)
    strand = slot_at(program, at).strand
    return map_weeks(
        program, program.reach(at.week, span), lambda week: without_strand(week, strand)
    )


def replace_exercise(
    program: Program,
    slot_id: SlotId,
    *,
    exercise: Exercise,
    old: Exercise | None = None,
    span: Span = Span.THIS_WEEK,
) -> Program:
    """The program with `exercise` in the slot's place wherever its strand holds the same one.

    old: the exercise that stood there, so that its usual rest can be told from a chosen one.
    """
    at = locate(program, slot_id)
    slot = slot_at(program, at)

    def change(other: Slot) -> Slot:
        if other.strand != slot.strand or other.exercise != slot.exercise:
            return other
        return swapped(other, old, exercise)

    if slot.exercise == exercise.key:
        return program
    return map_weeks(program, program.reach(at.week, span), lambda week: map_slots(week, change))


def pair(program: Program, slot_ids: tuple[SlotId, ...], *, span: Span = Span.THIS_WEEK) -> Program:
    """The program with these neighbouring slots of one session paired: done in turn.

    Raises EditError unless they are two or more neighbours of one session.
    """
    places = sorted((locate(program, i) for i in slot_ids), key=lambda at: at.slot)
    first = places[0]
    numbers = [at.slot for at in places]
    together = all(
        (at.week, at.day, at.session) == (first.week, first.day, first.session) for at in places
    )
    if len(places) < 2 or not together or numbers != list(range(numbers[0], numbers[-1] + 1)):
        raise EditError(
            tr("Only neighbours in one session can be paired."),
            mend=tr("Move them next to each other, select both, then pair."),
        )
    strands = {slot_at(program, at).strand for at in places}

    def change(week: Week) -> Week:
        for _, session in week.sessions():
            if strands <= {slot.strand for slot in session.slots}:
                taken = {s.pair for s in session.slots if s.strand not in strands}
                letter = next(c for c in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if c not in taken)
                slots = tuple(
                    replace(s, pair=letter) if s.strand in strands else s for s in session.slots
                )
                return with_session(week, replace(session, slots=drop_lone_pairs(slots)))
        return week

    return map_weeks(program, program.reach(first.week, span), change)


def unpair(program: Program, slot_id: SlotId, *, span: Span = Span.THIS_WEEK) -> Program:
    """The program with the slot's pair dissolved in every week that `span` reaches."""
    at = locate(program, slot_id)
    strand = slot_at(program, at).strand

    def change(week: Week) -> Week:
        for _, session in week.sessions():
            mine = next((s for s in session.slots if s.strand == strand), None)
            if mine is not None and mine.pair:
                slots = tuple(
                    replace(s, pair="") if s.pair == mine.pair else s for s in session.slots
                )
                return with_session(week, replace(session, slots=slots))
        return week

    return map_weeks(program, program.reach(at.week, span), change)


def add_session(
    program: Program, week: int, *, day: int, title: str = "", span: Span = Span.THIS_WEEK
) -> Program:
    """The program with an empty session at the end of the day in every week reached."""
    require_week(program, week)
    require_day(day)
    ids = _Ids(program)
    strand = StrandId(ids.take())
    weeks = list(program.weeks)
    for index in program.reach(week, span):
        fresh = Session(SessionId(ids.take()), strand, title)
        old = weeks[index].days[day]
        weeks[index] = with_day(weeks[index], day, replace(old, sessions=(*old.sessions, fresh)))
    return replace(program, weeks=tuple(weeks), next_id=ids.next)


def move_session(
    program: Program, session_id: SessionId, *, day: int, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with the whole session moved to another day of its week."""
    index, _, session = locate_session(program, session_id)
    require_day(day)

    def change(week: Week) -> Week:
        found = session_in(week, session.strand)
        if found is None or found[0] == day:
            return week
        bare = without_session(week, session.strand)
        there = bare.days[day]
        return with_day(bare, day, replace(there, sessions=(*there.sessions, found[1])))

    return map_weeks(program, program.reach(index, span), change)


def remove_session(
    program: Program, session_id: SessionId, *, span: Span = Span.THIS_WEEK
) -> Program:
    """The program without that session in every week that `span` reaches."""
    index, _, session = locate_session(program, session_id)
    return map_weeks(
        program, program.reach(index, span), lambda week: without_session(week, session.strand)
    )


def rename_session(
    program: Program, session_id: SessionId, *, title: str, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with the session titled anew in every week that `span` reaches."""
    index, _, session = locate_session(program, session_id)
    title = require_name(title, "session")

    def change(week: Week) -> Week:
        found = session_in(week, session.strand)
        if found is None or found[1].title == title:
            return week
        return with_session(week, replace(found[1], title=title))

    return map_weeks(program, program.reach(index, span), change)


def set_warmup(
    program: Program,
    session_id: SessionId,
    *,
    warmup: tuple[Drill, ...] | None = None,
    ramps: tuple[tuple[SlotId, Ramp | None], ...] = (),
    span: Span = Span.THIS_WEEK,
) -> Program:
    """The program with those drills before the session, and those ramp sets before its slots.

    warmup: None for the drills that each week has; ramps: of slots whose ramp sets change, None
    for what is worked out. Raises EditError for a slot that is no longer there.
    """
    index, _, session = locate_session(program, session_id)
    for slot_id, ramp in ramps:
        program = set_ramp(program, slot_id, ramp=ramp, span=span)
    if warmup is None:
        return program

    def change(week: Week) -> Week:
        found = session_in(week, session.strand)
        if found is None or found[1].warmup == warmup:
            return week
        return with_session(week, replace(found[1], warmup=warmup))

    return map_weeks(program, program.reach(index, span), change)


def clear_day(program: Program, week: int, *, day: int, span: Span = Span.THIS_WEEK) -> Program:
    """The program with no session on that day in every week that `span` reaches."""
    require_week(program, week)
    require_day(day)

    def change(old: Week) -> Week:
        if not old.days[day].sessions:
            return old
        return with_day(old, day, replace(old.days[day], sessions=()))

    return map_weeks(program, program.reach(week, span), change)
