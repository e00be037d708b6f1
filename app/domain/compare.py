"""Two states of a program side by side: which slots changed, came and went, week by week.

Weeks are matched by their id and slots by their strand, so that what moved is not taken for
something that went and something else that came.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from enum import StrEnum

from app.domain.exercise import Catalogue, Muscle
from app.domain.facts import FactsMemo
from app.domain.program import DAYS, Program, Slot, StrandId, Week

_LEFT_ASIDE = frozenset({"id", "strand", "pinned"})
"""Fields of a slot that a client never sees."""

_WORDS = {
    "rest_s": "rest",
    "load_kg": "load set by hand",
    "prepared": "prepared substitutes",
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
    """Where a slot stands: the day, 0 for Monday, and the title of its session."""

    day: int
    session: str

    @property
    def text(self) -> str:
        """'Monday, Lower body'."""
        return f"{DAYS[self.day]}, {self.session}" if self.session else DAYS[self.day]


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
    was = {week.id: index for index, week in enumerate(before.weeks)}
    kept = {week.id for week in after.weeks}
    pairs: list[tuple[int | None, int | None]] = []
    gone = iter([(i, w) for i, w in enumerate(before.weeks) if w.id not in kept])
    waiting = next(gone, None)
    for index, week in enumerate(after.weeks):
        earlier = was.get(week.id)
        while waiting is not None and earlier is not None and waiting[0] < earlier:
            pairs.append((waiting[0], None))
            waiting = next(gone, None)
        pairs.append((earlier, index))
    while waiting is not None:
        pairs.append((waiting[0], None))
        waiting = next(gone, None)
    return tuple(
        _week_pair(
            None if i is None else (i, before.weeks[i]),
            None if k is None else (k, after.weeks[k]),
            emphasis=emphasis,
            memos=memos,
        )
        for i, k in pairs
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
        slot.strand: (Place(day, session.title), slot)
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
    mark = Mark.CHANGED if differs else Mark.MOVED if was.day != becomes.day else Mark.SAME
    if was.day != becomes.day:
        differs = ("day", *differs)
    return Row(mark, before, after, was, becomes, differs)


def differences(before: Slot, after: Slot) -> tuple[str, ...]:
    """What differs between two prescriptions, in words: ('sets', 'rest')."""
    return tuple(
        _WORDS.get(one.name, one.name)
        for one in fields(Slot)
        if one.name not in _LEFT_ASIDE and getattr(before, one.name) != getattr(after, one.name)
    )


def _notes(before: Week, after: Week) -> Iterator[str]:
    """What else differs in a week: light or not, notes, titles and warm-ups of sessions."""
    if before.light != after.light:
        yield "light now" if after.light else "no longer light"
    if before.note != after.note:
        yield "note of the week"
    for number, (old, new) in enumerate(zip(before.days, after.days, strict=True)):
        if old.note != new.note:
            yield f"note of {DAYS[number]}"
    was = {session.strand: session for _, session in before.sessions()}
    for day, session in after.sessions():
        earlier = was.get(session.strand)
        if earlier is None:
            continue
        for name, word in (("title", "title"), ("note", "note"), ("warmup", "warm-up")):
            if getattr(earlier, name) != getattr(session, name):
                yield f"{word} of the session on {DAYS[day]}"
