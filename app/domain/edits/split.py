"""Changing the split: two days of one kind folded into one, or one opened into two.

The coach picks the slots; the rest follows: sets are trimmed so that the session keeps inside
its minutes, and the effort of the core work moves with the number of days.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.domain.edits.parts import (
    drop_lone_pairs,
    locate_session,
    map_weeks,
    require_day,
    session_in,
    with_day,
    with_session,
    without_session,
)
from app.domain.effort import Effort
from app.domain.errors import EditError
from app.domain.program import (
    Field,
    Program,
    Role,
    Session,
    SessionId,
    Slot,
    Span,
    StrandId,
    Week,
    day_name,
)
from app.domain.wording import tr


@dataclass(frozen=True, slots=True)
class Fold:
    """Two sessions to become one.

    leaving: the session that goes; into: the one that stays; strands: what folds in, in order;
    core_effort: for unpinned core work, None leaves it; sets: (strand, most sets) where some go.
    """

    leaving: SessionId
    into: SessionId
    strands: tuple[StrandId, ...]
    core_effort: Effort | None = None
    sets: tuple[tuple[StrandId, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Unfold:
    """One session to become two.

    session: the one that is opened; day: where the second goes; strands: what goes there;
    core_effort and sets as in `Fold`; title: of the second session.
    """

    session: SessionId
    day: int
    strands: tuple[StrandId, ...]
    core_effort: Effort | None = None
    sets: tuple[tuple[StrandId, int], ...] = ()
    title: str = ""


def fold(program: Program, plan: Fold, *, span: Span = Span.FROM_HERE) -> Program:
    """The program with two sessions made one in every week that `span` reaches.

    Raises EditError unless they are two sessions of one week.
    """
    week_index, _, leaving = locate_session(program, plan.leaving)
    other_index, _, into = locate_session(program, plan.into)
    if week_index != other_index or leaving.id == into.id:
        raise EditError(
            tr("Two different sessions of one week are needed."),
            mend=tr("Choose the second session."),
        )

    def change(week: Week) -> Week:
        found, target = session_in(week, leaving.strand), session_in(week, into.strand)
        if found is None or target is None:
            return week
        coming = [s for s in found[1].slots if s.strand in plan.strands]
        coming.sort(key=lambda s: plan.strands.index(s.strand))
        slots = ordered((*target[1].slots, *(replace(s, pair="") for s in coming)))
        merged = replace(target[1], slots=tuple(adjusted(s, plan, week=week) for s in slots))
        return without_session(with_session(week, merged), leaving.strand)

    return map_weeks(program, program.reach(week_index, span), change)


def unfold(program: Program, plan: Unfold, *, span: Span = Span.FROM_HERE) -> Program:
    """The program with one session opened into two in every week that `span` reaches.

    Raises EditError if nothing, or everything, would go to the second session.
    """
    week_index, day, session = locate_session(program, plan.session)
    strands = {slot.strand for slot in session.slots}
    if not set(plan.strands) & strands or strands <= set(plan.strands):
        raise EditError(
            tr("Each of the two sessions needs at least one exercise."),
            mend=tr("Choose some, but not all, of the exercises."),
        )
    if require_day(plan.day) == day:
        raise EditError(
            tr("{day} is where the first session is.", day=day_name(day)),
            mend=tr("Choose another day for the second."),
        )
    strand = StrandId(program.next_id)
    next_id = program.next_id + 1
    weeks = list(program.weeks)
    for index in program.reach(week_index, span):
        found = session_in(weeks[index], session.strand)
        if found is None or not _parts(found[1], plan.strands):
            continue
        second = Session(SessionId(next_id), strand, plan.title)
        next_id += 1
        weeks[index] = _opened(weeks[index], found[1], second=second, plan=plan)
    return replace(program, weeks=tuple(weeks), next_id=next_id)


def _parts(session: Session, strands: tuple[StrandId, ...]) -> bool:
    """True if some of the session's exercises would stay and some would go."""
    return len({slot.strand in strands for slot in session.slots}) == 2


def _opened(week: Week, session: Session, *, second: Session, plan: Unfold) -> Week:
    def part(wanted: Callable[[Slot], bool]) -> tuple[Slot, ...]:
        slots = tuple(adjusted(s, plan, week=week) for s in session.slots if wanted(s))
        return drop_lone_pairs(slots)

    stays = part(lambda s: s.strand not in plan.strands)
    goes = part(lambda s: s.strand in plan.strands)
    week = with_session(week, replace(session, slots=stays))
    there = week.days[plan.day]
    second = replace(second, slots=goes, warmup=session.warmup)
    return with_day(week, plan.day, replace(there, sessions=(*there.sessions, second)))


def ordered(slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
    """Core work before assistance, otherwise as they stood; pairs stay together.

    Multi-joint before single-joint work: acsm2009.
    """
    core_pairs = {slot.pair for slot in slots if slot.pair and slot.role is Role.CORE}
    return tuple(sorted(slots, key=lambda s: s.role is not Role.CORE and s.pair not in core_pairs))


def adjusted(slot: Slot, plan: Fold | Unfold, *, week: Week) -> Slot:
    """The slot with the plan's effort and sets, where the coach has not pinned them."""
    changed = slot
    if (
        plan.core_effort is not None
        and slot.role is Role.CORE
        and Field.EFFORT not in slot.pinned
        and slot.effort != plan.core_effort
    ):
        changed = replace(changed, effort=plan.core_effort)
    sets = dict(plan.sets).get(slot.strand)
    if sets is not None and Field.SETS not in slot.pinned and not week.light and sets < slot.sets:
        changed = replace(changed, sets=sets)
    return changed


def trimmed_sets(
    slots: tuple[Slot, ...], minutes_of: Callable[[tuple[Slot, ...]], float], cap: float
) -> tuple[tuple[StrandId, int], ...]:
    """The sets to take off, assistance first and last first, until the minutes fit under `cap`.

    minutes_of: expected minutes of a session with those slots. No slot goes under two sets; if
    that is not enough the rest is left to the coach. Empty where nothing need change.
    """
    current = list(slots)
    order = sorted(range(len(current)), key=lambda k: (current[k].role is Role.CORE, -k))
    changed: dict[StrandId, int] = {}
    while minutes_of(tuple(current)) > cap:
        victim = next(
            (k for k in order if current[k].sets > 2 and Field.SETS not in current[k].pinned), None
        )
        if victim is None:
            break
        current[victim] = replace(current[victim], sets=current[victim].sets - 1)
        changed[current[victim].strand] = current[victim].sets
    return tuple(changed.items())
