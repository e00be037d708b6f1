"""A program of one client made into one for another: what does not fit is replaced or left out.

Nothing is changed silently: every change is told in words, with its place and its reason, so that
a coach can look at the list before the program is given to anybody.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from enum import StrEnum

from app.domain.client import Client
from app.domain.edits.prescribe import swapped
from app.domain.errors import EditError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.fit import fits, misfit
from app.domain.loads import day_text
from app.domain.program import (
    Day,
    Drill,
    Field,
    Program,
    ProgramId,
    Session,
    Slot,
    StrandId,
    Week,
    day_name,
)
from app.domain.substitute import rank
from app.domain.units import mass_text
from app.domain.wording import tr, trn


class ChangeKind(StrEnum):
    """What sort of change a refit made, in the order they are listed."""

    SWAPPED = "replaced"
    LEFT_OUT = "left out"
    PREPARED = "substitute"
    DRILL = "warm-up"
    LOAD = "load"
    ACCEPTED = "accepted"
    NOTES = "notes"
    START = "start"


@dataclass(frozen=True, slots=True)
class Change:
    """One change in words: what is different, where, and why."""

    kind: ChangeKind
    what: str
    where: str
    why: str

    @property
    def sentence(self) -> str:
        """All of it as one line: 'Goblet squat for Back squat (Monday, week 1): needs rack.'"""
        where = f" ({self.where})" if self.where else ""
        return f"{self.what}{where}: {self.why}."


@dataclass(frozen=True, slots=True)
class Refit:
    """The program as it would be the other client's, and what is different in it."""

    program: Program
    changes: tuple[Change, ...]


def refit(
    program: Program,
    client: Client,
    catalogue: Catalogue,
    *,
    program_id: ProgramId,
    start: date,
) -> Refit:
    """The program for `client`, under another id, beginning in the week of `start`.

    An exercise that does not fit on its day is replaced by the best substitute that does, or left
    out; so are drills and prepared substitutes. Loads set by hand and accepted findings belonged
    to somebody else and go. Raises EditError if nothing of it fits.
    """
    start -= timedelta(days=start.weekday())
    moved = replace(program, id=program_id, start=start, accepted=(), archived=False)
    fitter = _Fitter(moved, client, catalogue)
    weeks = tuple(fitter.week(index) for index in range(len(moved.weeks)))
    if _has_slots(moved.weeks) and not _has_slots(weeks):
        raise EditError(
            tr(
                "No exercise of {program!r} fits {client}.",
                program=program.name,
                client=client.name,
            ),
            mend=tr("Enter the equipment in reach, or begin with a layout."),
        )
    changes = (*fitter.changes(), *_of_the_whole(program, start))
    order = list(ChangeKind)
    return Refit(
        replace(moved, weeks=weeks), tuple(sorted(changes, key=lambda c: order.index(c.kind)))
    )


def _has_slots(weeks: Iterable[Week]) -> bool:
    return any(True for week in weeks for _ in week.slots())


def _of_the_whole(program: Program, start: date) -> Iterable[Change]:
    """Changes that have no place in a week."""
    if count := len(program.accepted):
        findings = trn("1 accepted finding speaks", "{n} accepted findings speak", count)
        why = tr("what was accepted for one client is not for another")
        yield Change(ChangeKind.ACCEPTED, tr("{findings} up again", findings=findings), "", why)
    if count := sum(map(bool, _notes(program))):
        notes = trn("1 note comes along", "{n} notes come along", count)
        why = tr("written for somebody else, so read before you hand anything out")
        yield Change(ChangeKind.NOTES, notes, "", why)
    if start != program.start:
        what = tr("Begins on {start}", start=day_text(start))
        yield Change(
            ChangeKind.START, what, "", tr("it began on {start}", start=day_text(program.start))
        )


def _notes(program: Program) -> Iterable[str]:
    """The notes of a program, alike ones once."""
    found = [note for week in program.weeks for note in _notes_of(week)]
    return dict.fromkeys(found)


def _notes_of(week: Week) -> Iterable[str]:
    yield week.note
    for day in week.days:
        yield day.note
        for session in day.sessions:
            yield session.note
            yield from (slot.note for slot in session.slots)


_Told = tuple[ChangeKind, str, str, str]
"""Kind, what, day, why: changes that agree in these are one, whatever weeks they are in."""


@dataclass(slots=True)
class _Fitter:
    """Goes through the weeks, remembers what it chose for a strand, and keeps an account."""

    program: Program
    client: Client
    catalogue: Catalogue
    chosen: dict[tuple[StrandId, ExerciseKey, str], Exercise | None] = field(default_factory=dict)
    told: dict[_Told, list[int]] = field(default_factory=dict)

    def changes(self) -> Iterable[Change]:
        """What was told, with the weeks of each change gathered."""
        for (kind, what, day, why), weeks in self.told.items():
            yield Change(kind, what, f"{day}, {weeks_text(weeks)}", why)

    def week(self, index: int) -> Week:
        """The week as it fits; the same object if all of it does."""
        week = self.program.weeks[index]
        days = []
        for number, day in enumerate(week.days):
            on = self.program.week_start(index) + timedelta(days=number)
            made = tuple(
                one
                for session in day.sessions
                if (one := self._session(session, on=on, index=index)) is not None
            )
            days.append(day if made == day.sessions else Day(made, day.note))
        return week if tuple(days) == week.days else replace(week, days=tuple(days))

    def _tell(self, kind: ChangeKind, what: str, *, at: tuple[int, date], why: str) -> None:
        index, on = at
        weeks = self.told.setdefault((kind, what, day_name(on.weekday()), why), [])
        if index not in weeks:
            weeks.append(index)

    def _session(self, session: Session, *, on: date, index: int) -> Session | None:
        """The session as it fits that day; None if it had exercises and none is left."""
        at = (index, on)
        keys = [slot.exercise for slot in session.slots]
        taken = {key for key in keys if self._fits(self.catalogue[key], on)}
        slots = []
        for slot in session.slots:
            made = self._slot(slot, taken=taken, at=at)
            if made is not None:
                taken.add(made.exercise)
                slots.append(self._without_what_was_anothers(made, at=at))
        if session.slots and not slots:
            what = (
                tr("The session {session!r} left out", session=session.title)
                if session.title
                else tr("A session")
            )
            self._tell(ChangeKind.LEFT_OUT, what, at=at, why=tr("nothing of it fits"))
            return None
        made_session = replace(session, slots=_unpaired(slots), warmup=self._drills(session, at))
        return session if made_session == session else made_session

    def _fits(self, exercise: Exercise, on: date) -> bool:
        """True if it fits that day, at the place that the client trains at then."""
        return fits(exercise, self.client, on, day=on.weekday())

    def _drills(self, session: Session, at: tuple[int, date]) -> tuple[Drill, ...]:
        kept = []
        for one in session.warmup:
            drill = self.catalogue[one.exercise]
            if why := misfit(drill, self.client, at[1], day=at[1].weekday()):
                what = tr("{drill} left out of the warm-up", drill=drill.name)
                self._tell(ChangeKind.DRILL, what, at=at, why=why)
            else:
                kept.append(one)
        return tuple(kept)

    def _slot(self, slot: Slot, *, taken: set[ExerciseKey], at: tuple[int, date]) -> Slot | None:
        """The slot with an exercise that fits; None if there is none."""
        old = self.catalogue[slot.exercise]
        why = misfit(old, self.client, at[1], day=at[1].weekday())
        if not why:
            return slot
        new = self._choose(slot, why=why, taken=taken, on=at[1])
        if new is None:
            why += tr(", and no substitute fits")
            self._tell(ChangeKind.LEFT_OUT, tr("{old} left out", old=old.name), at=at, why=why)
            return None
        self._tell(
            ChangeKind.SWAPPED, tr("{new} for {old}", new=new.name, old=old.name), at=at, why=why
        )
        return swapped(slot, old, new)

    def _choose(
        self, slot: Slot, *, why: str, taken: set[ExerciseKey], on: date
    ) -> Exercise | None:
        """What was chosen for the strand before, as long as it fits; else the best that does."""
        key = (slot.strand, slot.exercise, why)
        known = self.chosen.get(key)
        if known is not None and known.key not in taken and self._fits(known, on):
            return known
        ranked = rank(slot, self.program, self.client, self.catalogue)
        found = next(
            (
                one.exercise
                for one in ranked
                if one.exercise.key not in taken and self._fits(one.exercise, on)
            ),
            None,
        )
        self.chosen[key] = found
        return found

    def _without_what_was_anothers(self, slot: Slot, *, at: tuple[int, date]) -> Slot:
        """The slot without a load set by hand and without substitutes that do not fit."""
        name = self.catalogue[slot.exercise].name
        if slot.load_kg is not None or Field.LOAD in slot.pinned:
            if slot.load_kg is not None:
                load = mass_text(slot.load_kg, self.client.units)
                why = tr("it was set by hand for somebody else")
                self._tell(
                    ChangeKind.LOAD,
                    tr("{load} of {name} taken out", load=load, name=name),
                    at=at,
                    why=why,
                )
            slot = replace(slot, load_kg=None, pinned=slot.pinned - {Field.LOAD})
        if slot.ramp is not None and slot.ramp.has_kg:
            what = tr("Ramp sets of {name} in kilograms taken out", name=name)
            why = tr("they were set for somebody else")
            self._tell(ChangeKind.LOAD, what, at=at, why=why)
            slot = replace(slot, ramp=None)
        kept = []
        for key in slot.prepared:
            other = self.catalogue[key]
            if why := misfit(other, self.client, at[1], day=at[1].weekday()):
                what = tr("{other} no longer prepared beside {name}", other=other.name, name=name)
                self._tell(ChangeKind.PREPARED, what, at=at, why=why)
            else:
                kept.append(key)
        return slot if len(kept) == len(slot.prepared) else replace(slot, prepared=tuple(kept))


def _unpaired(slots: list[Slot]) -> tuple[Slot, ...]:
    """The slots, without the letter of one whose partners are gone."""
    letters = [slot.pair for slot in slots]
    return tuple(
        replace(slot, pair="") if slot.pair and letters.count(slot.pair) < 2 else slot
        for slot in slots
    )


def weeks_text(indices: Iterable[int]) -> str:
    """'week 3', 'weeks 1 to 4', 'weeks 1 to 3, 5': weeks counted from 0, in words from 1."""
    runs: list[list[int]] = []
    for number in sorted(index + 1 for index in set(indices)):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        tr("{first} to {last}", first=run[0], last=run[-1]) if len(run) > 1 else f"{run[0]}"
        for run in runs
    ]
    many = len(runs) > 1 or len(runs[0]) > 1
    return f"{(tr('weeks') if many else tr('week'))} {', '.join(parts)}"
