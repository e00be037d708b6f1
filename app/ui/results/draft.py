"""A session as it is being filled in: lines as typed, slot by slot, until they are results."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise
from app.domain.log_sheet import (
    LEFT_OUT,
    Asked,
    Fault,
    LoadDoubt,
    Typed,
    as_planned,
    doubt_loads,
    load_text,
    read_lines,
    typed_result,
)
from app.domain.program import ProgramId, SlotId
from app.domain.results import Diary, ResultKey, SetDone, SlotResult
from app.ui.results.meant import MeantSession

Read = tuple[tuple[SetDone, ...], list[Fault]]
"""Sets, and lines that cannot be read."""


class Known:
    """What a diary tells of a program's slots and of each exercise, looked up once."""

    def __init__(self, diary: Diary, program: ProgramId) -> None:
        self.diary = diary
        self._of_slot: dict[SlotId, dict[date, SlotResult]] = {}
        self._of_exercise: dict[str, list[SlotResult]] = {}
        for result in diary.results:
            if result.program == program:
                self._of_slot.setdefault(result.slot, {})[result.on] = result
            if result.sets:
                self._of_exercise.setdefault(result.exercise, []).append(result)

    def result(self, slot: SlotId, on: date) -> SlotResult | None:
        """What was done of a slot on a day."""
        return self._of_slot.get(slot, {}).get(on)

    def days(self, slots: Iterable[SlotId]) -> tuple[date, ...]:
        """The days on which any of the slots has a result, in order."""
        return tuple(sorted({day for slot in slots for day in self._of_slot.get(slot, ())}))

    def count(self, slots: Iterable[SlotId]) -> int:
        """How many of the slots have a result."""
        return sum(bool(self._of_slot.get(slot)) for slot in slots)

    def last_kg(self, exercise: Exercise, before: date) -> float | None:
        """The heaviest load that was last done of an exercise before a day."""
        for result in reversed(self._of_exercise.get(exercise.key, ())):
            if result.on < before:
                return max(done.load_kg for done in result.sets)
        return None


@dataclass(slots=True)
class SlotDraft:
    """One slot: what was meant, what was done instead if anything, the lines, the remark.

    last_kg: what was last done of the exercise, if it is known.
    """

    meant: Asked
    done: Exercise
    lines: list[Typed]
    note: str = ""
    last_kg: float | None = None
    _last_read: tuple[object, Read] | None = field(default=None, compare=False, repr=False)

    @property
    def asked(self) -> Asked:
        """What the lines are read against: a load that was printed is for what was meant alone."""
        if self.done.key == self.meant.exercise.key:
            return self.meant
        return replace(self.meant, exercise=self.done, load_kg=None)

    @property
    def is_swapped(self) -> bool:
        """True if another exercise was done than was meant."""
        return self.done.key != self.meant.exercise.key

    def _read(self) -> Read:
        """The lines as sets, with those that cannot be read; read once until they change."""
        key = (tuple(self.lines), self.meant, self.done)
        if self._last_read is None or self._last_read[0] != key:
            self._last_read = key, read_lines(self.lines, self.asked)
        return self._last_read[1]

    def read(self) -> tuple[SlotResult | None, list[tuple[int, CoachError]]]:
        """The result without its program and day, and the lines that cannot be read."""
        sets, faults = self._read()
        wrong = [(fault.line, fault.error) for fault in faults]
        told = sets or self.note or any(line.is_skipped for line in self.lines)
        if not told:
            return None, wrong
        slot = self.meant.slot
        result = SlotResult(ProgramId(""), slot.id, self.done.key, date.min, sets, self.note)
        return result, wrong

    def plan(self, curve: str) -> None:
        """Say that all of it was done as meant."""
        self.lines = list(as_planned(self.asked, curve, usual_kg=self.last_kg))

    def leave_out(self) -> None:
        """Say that it was left out."""
        self.lines = [LEFT_OUT] * max(1, self.meant.slot.sets)

    def multiply(self, factor: float) -> None:
        """Put every load that is typed into the other unit."""
        sets, _ = self._read()
        done = iter(sets)
        for number, line in enumerate(self.lines):
            if line.is_empty or line.is_skipped or not line.reps:
                continue
            one = next(done, None)
            if one is not None:
                text = load_text(one.load_kg * factor, self.asked.unit)
                self.lines[number] = replace(line, load=text)

    def doubt(self) -> LoadDoubt | None:
        """The question on its loads, if there is one."""
        sets, _ = self._read()
        known = self.last_kg if self.last_kg is not None else self.asked.load_kg
        return doubt_loads(sets, self.asked, known)

    def heaviest(self) -> float:
        """The heaviest load of its lines, kg."""
        sets, _ = self._read()
        return max((one.load_kg for one in sets), default=0.0)


class SessionDraft:
    """A session on a day, as it is being filled in."""

    def __init__(
        self,
        meant: MeantSession,
        known: Known,
        *,
        program: ProgramId,
        catalogue: Catalogue,
        unit: str,
        today: date,
        on: date | None = None,
    ) -> None:
        self.meant, self.program, self.catalogue = meant, program, catalogue
        self.days = known.days(slot.id for slot in meant.session.slots)
        if on is None:
            on = self.days[-1] if self.days else min(meant.planned, today)
        self.on = on
        self.kept_on = on
        self.slots: list[SlotDraft] = []
        for slot in meant.session.slots:
            if slot.exercise not in catalogue:
                continue
            asked = Asked(slot, catalogue[slot.exercise], meant.load_kg(slot), unit)
            self.slots.append(self._slot(asked, known))

    def _slot(self, asked: Asked, known: Known) -> SlotDraft:
        result = known.result(asked.slot.id, self.on)
        done = asked.exercise
        if result is not None and result.exercise in self.catalogue:
            done = self.catalogue[result.exercise]
        draft = SlotDraft(asked, done, [], last_kg=known.last_kg(done, self.on))
        draft.lines = list(typed_result(result, draft.asked))
        draft.note = "" if result is None else result.note
        return draft

    def results(self) -> tuple[SlotResult, ...]:
        """What the lines tell so far."""
        found = []
        for draft in self.slots:
            result, _ = draft.read()
            if result is not None:
                found.append(replace(result, program=self.program, on=self.on))
        return tuple(found)

    def faults(self) -> tuple[tuple[int, int, CoachError], ...]:
        """Lines that cannot be read: slot, line and why."""
        return tuple(
            (number, line, error)
            for number, draft in enumerate(self.slots)
            for line, error in draft.read()[1]
        )

    def keys(self) -> tuple[ResultKey, ...]:
        """What its results are kept under now."""
        return tuple((self.kept_on, self.program, d.meant.slot.id) for d in self.slots)

    def applied(self, diary: Diary) -> Diary:
        """The diary with what the lines tell, in the place of what this session had in it."""
        after = diary.without_results(self.keys()).with_results(self.results())
        return diary if after.results == diary.results else after
