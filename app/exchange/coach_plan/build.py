"""A program of the lines of a table: weeks, sessions and slots, with strands through the weeks."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.domain.client import Client
from app.domain.edits.prescribe import make_slot, role_for, start_for
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.program import (
    DAYS,
    EMPTY_WEEK,
    MAX_REPS,
    Block,
    Day,
    Field,
    Program,
    ProgramId,
    Reps,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
    require_name,
)
from app.domain.wording import tr
from app.exchange.coach_plan.lines import Line, Remark
from app.exchange.sheets.sheet import SheetError

SPREAD = {
    1: (0,),
    2: (0, 3),
    3: (0, 2, 4),
    4: (0, 1, 3, 4),
    5: (0, 1, 2, 4, 5),
    6: (0, 1, 2, 3, 4, 5),
}
"""Weekdays for so many training days, where neither table nor client says which. Common practice:
a day between where there is room."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the program is to be. weeks: how many; where the table has fewer, its last one goes on.

    meant: the exercise for each name of the table; a name that is not in it is left out.
    """

    program_id: ProgramId
    name: str
    start: date
    weeks: int
    meant: Mapping[str, ExerciseKey]


@dataclass(frozen=True, slots=True)
class Built:
    """The program, how many lines are in it and left out, and what had to be decided."""

    program: Program
    taken: int
    left_out: int
    remarks: tuple[Remark, ...]


def build(lines: Sequence[Line], wanted: Wanted, *, client: Client, catalogue: Catalogue) -> Built:
    """The program that the lines make for the client.

    Raises SheetError if no line is left, and CoachError for an empty name.
    """
    builder = _Builder(wanted, client, catalogue, lines)
    kept = [line for line in lines if line.exercise in wanted.meant]
    if not kept:
        raise SheetError(
            tr("No line of the table is left to make a program of."),
            mend=tr("Choose the column of the exercises, and an exercise for their names."),
        )
    return builder.built(kept, left_out=len(lines) - len(kept))


def weeks_in(lines: Iterable[Line]) -> int:
    """The last week that the lines speak of; 1 for none."""
    return max((max(line.weeks) for line in lines), default=1)


class _Builder:
    def __init__(
        self, wanted: Wanted, client: Client, catalogue: Catalogue, lines: Sequence[Line]
    ) -> None:
        self.wanted, self.catalogue = wanted, catalogue
        self.days = _weekdays(lines, client)
        self.remarks: list[Remark] = []
        self.next_id = wanted.weeks + 1
        self.strands: dict[object, StrandId] = {}

    def new_id(self) -> int:
        self.next_id += 1
        return self.next_id - 1

    def strand(self, recurs_as: object) -> StrandId:
        """The same strand for what recurs in every week."""
        if recurs_as not in self.strands:
            self.strands[recurs_as] = StrandId(self.new_id())
        return self.strands[recurs_as]

    def built(self, lines: Sequence[Line], *, left_out: int) -> Built:
        wanted = self.wanted
        by_week: defaultdict[int, list[Line]] = defaultdict(list)
        for line in lines:
            for week in line.weeks:
                by_week[week].append(line)
        last = max(by_week)
        weeks = []
        for number in range(1, wanted.weeks + 1):
            mine = by_week.get(number, []) if number <= last else by_week[last]
            weeks.append(self._week(number, mine))
        start = wanted.start - timedelta(days=wanted.start.weekday())
        program = Program(
            id=wanted.program_id,
            name=require_name(wanted.name, "program"),
            start=start,
            weeks=tuple(weeks),
            blocks=(Block(tr("Block {n}", n=1), len(weeks)),),
            next_id=self.next_id,
        )
        return Built(program, len(lines), left_out, tuple(dict.fromkeys(self.remarks)))

    def _week(self, number: int, lines: Sequence[Line]) -> Week:
        sessions: dict[tuple[int, str], list[Line]] = {}
        for line in lines:
            sessions.setdefault((self.days[_day_key(line)], line.session), []).append(line)
        days: list[tuple[Session, ...]] = [()] * 7
        counts: Counter[int] = Counter()
        light = any(line.light for line in lines)
        for (day, title), mine in sessions.items():
            counts[day] += 1
            strand = self.strand(("session", day, counts[day]))
            slots = self._slots(mine, at=(day, counts[day]), light=light)
            session = Session(SessionId(self.new_id()), strand, title or tr(DAYS[day]), slots)
            days[day] = (*days[day], session)
        content = tuple(Day(one) for one in days) if lines else EMPTY_WEEK
        return Week(WeekId(number), content, light=light)

    def _slots(
        self, lines: Sequence[Line], *, at: tuple[int, int], light: bool
    ) -> tuple[Slot, ...]:
        counts: Counter[ExerciseKey] = Counter()
        letters = Counter(line.asked.pair for line in lines)
        slots = []
        for line in lines:
            exercise = self.catalogue[self.wanted.meant[line.exercise]]
            counts[exercise.key] += 1
            strand = self.strand((*at, exercise.key, counts[exercise.key]))
            pair = line.asked.pair if letters[line.asked.pair] > 1 else ""
            slot = self._slot(line, exercise, strand, light=light)
            slots.append(replace(slot, pair=pair))
        return tuple(slots)

    def _slot(self, line: Line, exercise: Exercise, strand: StrandId, *, light: bool) -> Slot:
        asked = line.asked
        usual = start_for(exercise, Week(WeekId(0), light=light), role_for(exercise))
        reps = self._reps(line, exercise)
        if asked.sets is None:
            self._say(line, tr("No sets are told; {n} are taken.", n=usual.sets))
        made = replace(
            usual,
            sets=asked.sets or usual.sets,
            reps=reps or usual.reps,
            effort=asked.effort or usual.effort,
            rest_s=usual.rest_s if asked.rest_s is None else asked.rest_s,
            tempo=asked.tempo,
            note=asked.note,
        )
        slot = make_slot(exercise, made, slot_id=SlotId(self.new_id()), strand=strand)
        if asked.load_kg is None:
            return slot
        return replace(slot, load_kg=asked.load_kg, pinned=slot.pinned | {Field.LOAD})

    def _reps(self, line: Line, exercise: Exercise) -> Reps | None:
        """The repetitions of the line; None where there are none that the exercise can have."""
        low, high = line.asked.low, line.asked.high
        if low is None or high is None:
            self._say(line, tr("No repetitions are told; usual ones are taken."))
            return None
        if exercise.timed and not line.asked.seconds:
            self._say(
                line, tr("{name} is timed: {n} is taken for seconds.", **_said(exercise, low))
            )
        if not exercise.timed and (line.asked.seconds or high > MAX_REPS):
            said = tr("{name} is not timed: usual repetitions are taken.", name=exercise.name)
            self._say(line, said)
            return None
        return Reps(low, high)

    def _say(self, line: Line, text: str) -> None:
        self.remarks.append(Remark(line.where, text))


def _said(exercise: Exercise, low: int) -> dict[str, object]:
    return {"name": exercise.name, "n": low}


def numbered_after(program: Program, last: int) -> Program:
    """The program with every number raised by `last`, so that none of it was handed out before."""

    def slot(one: Slot) -> Slot:
        return replace(one, id=SlotId(one.id + last), strand=StrandId(one.strand + last))

    def session(one: Session) -> Session:
        slots = tuple(slot(part) for part in one.slots)
        number, strand = SessionId(one.id + last), StrandId(one.strand + last)
        return replace(one, id=number, strand=strand, slots=slots)

    weeks = tuple(
        replace(
            week,
            id=WeekId(week.id + last),
            days=tuple(
                replace(day, sessions=tuple(session(one) for one in day.sessions))
                for day in week.days
            ),
        )
        for week in program.weeks
    )
    return replace(program, weeks=weeks, next_id=program.next_id + last)


DayKey = tuple[str, object]


def _day_key(line: Line) -> DayKey:
    """By what a line's day is told from others: the weekday, else its number, else its title."""
    if line.day is not None:
        return ("day", line.day)
    return ("nth", line.nth) if line.nth is not None else ("title", line.session)


def _weekdays(lines: Sequence[Line], client: Client) -> dict[DayKey, int]:
    """The weekday for each training day: the one told, else a free one of the client's."""
    keys = list(dict.fromkeys(_day_key(line) for line in lines))
    told = {key: int(str(key[1])) for key in keys if key[0] == "day"}
    asked = [key for key in keys if key[0] != "day"]
    if all(key[0] == "nth" for key in asked):
        asked.sort(key=lambda key: int(str(key[1])))
    taken = set(told.values())
    free = [day for day, time in enumerate(client.free) if time.minutes and day not in taken]
    if len(free) < len(asked):
        free = [day for day in range(7) if day not in taken] or list(range(7))
    spread = SPREAD.get(len(asked), tuple(range(7)))
    for number, key in enumerate(asked):
        wish = spread[number % len(spread)]
        told[key] = min(free, key=lambda day: abs(day - wish))
        if len(free) > 1:
            free.remove(told[key])
    return told
