"""Two states of a program side by side: which slots changed, came and went, week by week.

Weeks are matched by their id and slots by their strand, so that what moved is not taken for
something that went and something else that came.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from enum import StrEnum

from app.domain.exercise import Catalogue, Muscle
from app.domain.facts import FactsMemo
from app.domain.program import Program, Slot, StrandId, Week, day_name
from app.domain.wording import mark, tr

_LEFT_ASIDE = frozenset({"id", "strand", "pinned"})
"""Fields of a slot that a client never sees."""

_WORDS = {
    "sets": mark("sets"),
    "reps": mark("reps"),
    "exercise": mark("exercise"),
    "effort": mark("effort"),
    "tempo": mark("tempo"),
    "role": mark("role"),
    "pair": mark("pair"),
    "note": mark("note"),
    "rest_s": mark("rest"),
    "load_kg": mark("load set by hand"),
    "prepared": mark("prepared substitutes"),
    "ramp": mark("ramp sets"),
}


class Mark(StrEnum):
    """How a slot of one state stands to the other."""

    SAME = "same"
    CHANGED = "changed"
    MOVED = "moved"
    ADDED = "added"
    REMOVED = "removed"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a slot stands: the day, 0 for Monday, the title of its session and its strand."""

    day: int
    session: str
    strand: StrandId

    @property
    def text(self) -> str:
        """'Monday, Lower body'."""
        return f"{day_name(self.day)}, {self.session}" if self.session else day_name(self.day)


@dataclass(frozen=True, slots=True)
class Row:
    """One slot in both states; None where it is not there. differs: what is different, in words."""

    mark: Mark
    before: Slot | None
    after: Slot | None
    was: Place | None
    becomes: Place | None
    differs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SetCount:
    """Sets of one muscle in a week, before and after; 0 where the week is not there."""

    muscle: Muscle
    before: float
    after: float


@dataclass(frozen=True, slots=True)
class WeekPair:
    """One week in both states, by its index in each; None where it is not there.

    rows: in the order of the later state, what went behind what stood before it; notes: what else
    of the week differs, in words.
    """

    before: int | None
    after: int | None
    rows: tuple[Row, ...]
    sets: tuple[SetCount, ...]
    notes: tuple[str, ...] = ()

    @property
    def changed(self) -> bool:
        """True if anything in the week differs."""
        alone = self.before is None or self.after is None
        return alone or bool(self.notes) or any(row.mark is not Mark.SAME for row in self.rows)

    def count(self, mark: Mark) -> int:
        """How many slots have that mark."""
        return sum(row.mark is mark for row in self.rows)


def compare(before: Program, after: Program, catalogue: Catalogue) -> tuple[WeekPair, ...]:
    """All weeks of both states in order, those of the later one first where they part.

    The sets are those of the later state's emphasis, and of the earlier one's where it had other
    muscles.
    """
    emphasis = tuple(dict.fromkeys((*after.emphasis, *before.emphasis)))
    memos = FactsMemo(catalogue, before.curve), FactsMemo(catalogue, after.curve)
    found = []
    furthest = -1
    for i, k in _matched(before, after):
        old = None if i is None else (i, before.weeks[i])
        new = None if k is None else (k, after.weeks[k])
        pair = _week_pair(old, new, emphasis=emphasis, memos=memos)
        if i is not None and k is not None:
            if i < furthest:
                pair = replace(pair, notes=(tr("moved, was week {i}", i=i + 1), *pair.notes))
            furthest = max(furthest, i)
        found.append(pair)
    return tuple(found)


def _matched(before: Program, after: Program) -> Iterator[tuple[int | None, int | None]]:
    """The index of each week in both states, what went before what stood behind it."""
    was = {week.id: index for index, week in enumerate(before.weeks)}
    kept = {week.id for week in after.weeks}
    gone = [index for index, week in enumerate(before.weeks) if week.id not in kept]
    for index, week in enumerate(after.weeks):
        earlier = was.get(week.id)
        while gone and earlier is not None and gone[0] < earlier:
            yield gone.pop(0), None
        yield earlier, index
    for index in gone:
        yield index, None


def whole_differences(before: Program, after: Program) -> tuple[str, ...]:
    """What differs of the program as a whole, in words: ('name', 'first week')."""
    return tuple(
        word
        for name, word in (
            ("name", tr("name")),
            ("start", tr("first week")),
            ("emphasis", tr("emphasis")),
            ("blocks", tr("blocks")),
            ("curve", tr("curve that loads rest on")),
        )
        if getattr(before, name) != getattr(after, name)
    )


def _week_pair(
    before: tuple[int, Week] | None,
    after: tuple[int, Week] | None,
    *,
    emphasis: tuple[Muscle, ...],
    memos: tuple[FactsMemo, FactsMemo],
) -> WeekPair:
    old = before[1] if before else None
    new = after[1] if after else None
    sets = [memo.week(w).sets if w else {} for memo, w in zip(memos, (old, new), strict=True)]
    counts = tuple(SetCount(m, sets[0].get(m, 0.0), sets[1].get(m, 0.0)) for m in emphasis)
    rows = tuple(compare_weeks(old, new))
    notes = tuple(_notes(old, new)) if old and new else ()
    return WeekPair(before and before[0], after and after[0], rows, counts, notes)


def _placed(week: Week | None) -> dict[StrandId, tuple[Place, Slot]]:
    """Slots by strand with their places, in order."""
    if week is None:
        return {}
    return {
        slot.strand: (Place(day, session.title, session.strand), slot)
        for day, session in week.sessions()
        for slot in session.slots
    }


def compare_weeks(before: Week | None, after: Week | None) -> Iterator[Row]:
    """A row for every slot that either of the two holds."""
    old, new = _placed(before), _placed(after)
    gone = [strand for strand in old if strand not in new]
    order = list(old)
    for strand, (place, slot) in new.items():
        if strand in old:
            while gone and order.index(gone[0]) < order.index(strand):
                yield _removed(*old[gone.pop(0)])
            yield _both(old[strand], (place, slot))
        else:
            yield Row(Mark.ADDED, None, slot, None, place)
    for strand in gone:
        yield _removed(*old[strand])


def _removed(place: Place, slot: Slot) -> Row:
    return Row(Mark.REMOVED, slot, None, place, None)


def _both(old: tuple[Place, Slot], new: tuple[Place, Slot]) -> Row:
    (was, before), (becomes, after) = old, new
    differs = differences(before, after)
    moved = (
        tr("day")
        if was.day != becomes.day
        else tr("session")
        if was.strand != becomes.strand
        else ""
    )
    mark = Mark.CHANGED if differs else Mark.MOVED if moved else Mark.SAME
    return Row(mark, before, after, was, becomes, (moved, *differs) if moved else differs)


def differences(before: Slot, after: Slot) -> tuple[str, ...]:
    """What differs between two prescriptions, in words: ('sets', 'rest')."""
    return tuple(
        tr(_WORDS.get(one.name, one.name))
        for one in fields(Slot)
        if one.name not in _LEFT_ASIDE and getattr(before, one.name) != getattr(after, one.name)
    )


def _notes(before: Week, after: Week) -> Iterator[str]:
    """What else differs in a week: light or not, notes, and what `_of_sessions` tells."""
    if before.light != after.light:
        yield tr("light now") if after.light else tr("no longer light")
    if before.note != after.note:
        yield tr("note of the week")
    for number, (old, new) in enumerate(zip(before.days, after.days, strict=True)):
        if old.note != new.note:
            yield tr("note of {day}", day=day_name(number))
    yield from _of_sessions(before, after)


def _of_sessions(before: Week, after: Week) -> Iterator[str]:
    """Sessions that came, went or changed their order, and their titles, notes and warm-ups."""
    was = {session.strand: (day, session) for day, session in before.sessions()}
    now = {session.strand: (day, session) for day, session in after.sessions()}
    for strand, (day, session) in now.items():
        if strand not in was:
            yield tr("another session on {day}", day=day_name(day))
            continue
        earlier_day, earlier = was[strand]
        if earlier_day != day:
            yield tr(
                "session of {earlier_day} on {day}",
                earlier_day=day_name(earlier_day),
                day=day_name(day),
            )
        for name, word in (
            ("title", tr("title")),
            ("note", tr("note")),
            ("warmup", tr("warm-up")),
        ):
            if getattr(earlier, name) != getattr(session, name):
                yield tr("{word} of the session on {day}", word=word, day=day_name(day))
        if _reordered([s.strand for s in earlier.slots], [s.strand for s in session.slots]):
            yield tr("order of the session on {day}", day=day_name(day))
    for strand, (day, _) in was.items():
        if strand not in now:
            yield tr("a session less on {day}", day=day_name(day))
    for number, (old, new) in enumerate(zip(before.days, after.days, strict=True)):
        if _reordered([s.strand for s in old.sessions], [s.strand for s in new.sessions]):
            yield tr("order of the sessions on {day}", day=day_name(number))


def _reordered(before: list[StrandId], after: list[StrandId]) -> bool:
    """True if what is in both stands in another order."""
    return [s for s in before if s in after] != [s for s in after if s in before]
