"""Which edit letting go means: one function from what is carried and where to an `Edit`.

Mouse, keys and single clicks all come through here, so they cannot differ in what they do.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.edits import place
from app.domain.edits.parts import Spot, find_slot, locate, map_weeks, without_strand
from app.domain.errors import EditError
from app.domain.exercise import Catalogue
from app.domain.findings import Edit, edit
from app.domain.program import Program, Session, SlotId, Span, day_name
from app.domain.wording import tr
from app.ui.carry import Carried
from app.ui.grid.geometry import Target


@dataclass(frozen=True, slots=True)
class Ground:
    """What a drop falls on: the program, its open week, how far the edit reaches."""

    program: Program
    catalogue: Catalogue
    week: int
    span: Span
    source: str


def edit_for(carried: Carried, target: Target, ground: Ground, *, copy: bool = False) -> Edit:
    """The edit that letting go at the target means, named as the undo menu says it.

    Raises EditError for slots of another window and for slots that are gone, and UnknownExercise
    for an exercise that the library does not hold.
    """
    if carried.exercise is not None:
        return _exercise_edit(carried, target, ground)
    if carried.source != ground.source:
        raise EditError(
            tr("These exercises belong to another window."),
            mend=tr("Copy them there and paste them here."),
        )
    if not carried.slots:
        raise EditError(tr("Nothing is carried."), mend=tr("Pick an exercise up first."))
    if target.onto is not None and len(carried.slots) == 1 and not carried.whole:
        return _onto_edit(carried.slots[0], target.onto, ground, copy=copy)
    return _slots_edit(carried, target, ground, copy=copy)


def _exercise_edit(carried: Carried, target: Target, ground: Ground) -> Edit:
    assert carried.exercise is not None
    exercise = ground.catalogue[carried.exercise]
    if target.onto is not None:
        old = ground.catalogue[find_slot(ground.program, target.onto).exercise]
        return edit(
            tr("Substitute {exercise} for {old}", exercise=exercise.name, old=old.name),
            place.replace_exercise,
            slot_id=target.onto,
            exercise=exercise,
            old=old,
            span=ground.span,
        )
    return edit(
        tr("Place {exercise} on {day_name}", exercise=exercise.name, day_name=day_name(target.day)),
        place.place,
        exercise=exercise,
        at=spot_of(target, ground.week),
        span=ground.span,
    )


def _onto_edit(slot_id: SlotId, onto: SlotId, ground: Ground, *, copy: bool) -> Edit:
    name, other = _name(slot_id, ground), _name(onto, ground)
    verb = tr("Copy") if copy else tr("Move")
    return edit(
        tr("{verb} {name} into the place of {other}", verb=verb, name=name, other=other),
        put_in_place,
        slot_id=slot_id,
        onto=onto,
        copied=copy,
        span=ground.span,
    )


def _slots_edit(carried: Carried, target: Target, ground: Ground, *, copy: bool) -> Edit:
    slots = carried.slots
    session = None if copy or target.session is not None else _whole_session(carried, ground)
    if session is not None:
        return edit(
            tr(
                "Move {session} to {day_name}",
                session=session.title or tr("session"),
                day_name=day_name(target.day),
            ),
            place.move_session,
            session_id=session.id,
            day=target.day,
            span=ground.span,
        )
    what = what_text(slots, ground)
    spot = spot_of(target, ground.week)
    if copy:
        label = tr("Copy {what} to {day_name}", what=what, day_name=day_name(target.day))
        return edit(label, copy_all, slot_ids=slots, to=spot, span=ground.span)
    if crosses_weeks(slots, ground):
        label = tr(
            "Move {what} to {day_name} of week {number}",
            what=what,
            day_name=day_name(target.day),
            number=ground.week + 1,
        )
        return edit(label, move_all, slot_ids=slots, to=spot, span=ground.span)
    within = all(_stands_in(slot, target, ground) for slot in slots)
    label = tr(
        "Move {what} {tr} {day_name}",
        what=what,
        tr=tr("within") if within else tr("to"),
        day_name=day_name(target.day),
    )
    return edit(label, move_all, slot_ids=slots, to=spot, span=ground.span)


def _whole_session(carried: Carried, ground: Ground) -> Session | None:
    """The session of the open week whose cards these are, all of them; None if there is none.

    A lone card is meant as a card, unless its session was taken by the head.
    """
    if len(carried.slots) < 2 and not carried.whole:
        return None
    return next(
        (
            session
            for _, session in ground.program.weeks[ground.week].sessions()
            if tuple(slot.id for slot in session.slots) == carried.slots
        ),
        None,
    )


def crosses_weeks(slots: tuple[SlotId, ...], ground: Ground) -> bool:
    """True if moving any of these slots takes it out of another week, which no span repeats."""
    return any(locate(ground.program, slot).week != ground.week for slot in slots)


def _stands_in(slot_id: SlotId, target: Target, ground: Ground) -> bool:
    at = locate(ground.program, slot_id)
    return (at.week, at.day) == (ground.week, target.day)


def _name(slot_id: SlotId, ground: Ground) -> str:
    return ground.catalogue[find_slot(ground.program, slot_id).exercise].name


def what_text(slots: tuple[SlotId, ...], ground: Ground) -> str:
    """The exercise's name, or '3 exercises'."""
    return _name(slots[0], ground) if len(slots) == 1 else tr("{slots} exercises", slots=len(slots))


def spot_of(target: Target, week: int) -> Spot:
    """The target as a place in the program."""
    return Spot(week, target.day, target.session, target.position)


# -- edits of several slots, which the program's own edits make one by one ----------------------


def move_all(
    program: Program, *, slot_ids: tuple[SlotId, ...], to: Spot, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with these slots, in their order, moved to the spot.

    The position counts the slots as they stand before the edit.
    """
    if len(slot_ids) == 1:
        return place.move(program, slot_ids[0], to=to, span=span)
    before = _anchor(program, slot_ids, to)
    for slot_id in slot_ids:
        spot = to if to.session is None else _after(program, before, to)
        program = place.move(program, slot_id, to=spot, span=span)
        if to.session is None:
            at = locate(program, slot_id)
            session = program.weeks[at.week].days[at.day].sessions[at.session]
            to = Spot(at.week, at.day, session.id, None)
        before = slot_id
    return program


def _anchor(program: Program, slot_ids: tuple[SlotId, ...], to: Spot) -> SlotId | None:
    """The slot before the position that stays where it is."""
    sessions = program.weeks[to.week].days[to.day].sessions
    session = next((s for s in sessions if s.id == to.session), None)
    if session is None:
        return None
    end = len(session.slots) if to.position is None else to.position
    stays = [slot.id for slot in session.slots[:end] if slot.id not in slot_ids]
    return stays[-1] if stays else None


def _after(program: Program, before: SlotId | None, to: Spot) -> Spot:
    """The spot right behind `before`, or at the top of the session without one."""
    position = 0 if before is None else locate(program, before).slot + 1
    return Spot(to.week, to.day, to.session, position)


def copy_all(
    program: Program, *, slot_ids: tuple[SlotId, ...], to: Spot, span: Span = Span.THIS_WEEK
) -> Program:
    """The program with copies of these slots, in their order, at the spot."""
    for offset, slot_id in enumerate(slot_ids):
        position = None if to.position is None else to.position + offset
        spot = Spot(to.week, to.day, to.session, position)
        program = place.copy(program, slot_id, to=spot, span=span)
    return program


def remove_all(
    program: Program, *, slot_ids: tuple[SlotId, ...], span: Span = Span.THIS_WEEK
) -> Program:
    """The program without these slots' strands in every week reached."""
    for slot_id in slot_ids:
        program = place.remove(program, slot_id, span=span)
    return program


def put_in_place(
    program: Program,
    *,
    slot_id: SlotId,
    onto: SlotId,
    copied: bool = False,
    span: Span = Span.THIS_WEEK,
) -> Program:
    """The program with the slot, or a copy of it, where `onto` stood, which goes.

    The slot keeps its own prescription. `onto` goes in those weeks alone that the slot comes to:
    a move out of another week comes to one, whatever the span.
    """
    if slot_id == onto:
        return program
    at, gone = locate(program, onto), find_slot(program, onto).strand
    session = program.weeks[at.week].days[at.day].sessions[at.session]
    spot = Spot(at.week, at.day, session.id, at.slot)
    put = place.copy if copied else place.move
    after = put(program, slot_id, to=spot, span=span)
    crosses = not copied and locate(program, slot_id).week != at.week
    reach = (at.week,) if crosses else program.reach(at.week, span)
    come_to = [index for index in reach if after.weeks[index] is not program.weeks[index]]
    return map_weeks(after, come_to, lambda week: without_strand(week, gone))
