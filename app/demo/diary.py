"""What a member of the demo did and reported, written out from a few rules.

The table says where each load began and how it rose, which weeks stalled, what was left out or
done instead. What stands in the diary follows from that and the plan alone; nothing is random.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from app.domain import effort as efforts
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.program import Program, Slot, Week
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult

Table = Mapping[str, Any]

MARKS = ("mass_kg", "sleep", "soreness", "mood", "stress", "adherence")
"""What stands in a check-in behind its day, in order."""


def diary_from(table: Table, program: Program, catalogue: Catalogue) -> Diary:
    """The diary that a table of the demo's data describes."""
    first, last = table["weeks"]
    results = [
        result
        for number in range(first, last + 1)
        for result in _week(table, program, number=number, catalogue=catalogue)
    ]
    return Diary(tuple(_check_ins(table)), tuple(results))


def _check_ins(table: Table) -> Iterator[CheckIn]:
    girths = {day: sites for day, *sites in table.get("girths", ())}
    notes = dict(table.get("reports", ()))
    for day, *marks in table["check_ins"]:
        taken = tuple(Girth(Site(site), cm) for site, cm in girths.get(day, ()))
        yield CheckIn(
            date.fromisoformat(day),
            note=notes.get(day, ""),
            girths=taken,
            **dict(zip(MARKS, marks, strict=False)),
        )


def _week(
    table: Table, program: Program, *, number: int, catalogue: Catalogue
) -> Iterator[SlotResult]:
    """What was done of week `number`, counted from 1."""
    week = program.weeks[number - 1]
    missed = {day for at, day in table.get("missed", ()) if at == number}
    for day, session in week.sessions():
        if day in missed:
            continue
        on = program.week_start(number - 1) + timedelta(days=day)
        for place, slot in enumerate(session.slots):
            timed = catalogue[slot.exercise].timed
            sets = _sets(table, week, slot, number=number, place=place, timed=timed)
            result = SlotResult(program.id, slot.id, slot.exercise, on, sets)
            yield _told(table, result, number)


def _sets(
    table: Table, week: Week, slot: Slot, *, number: int, place: int, timed: bool
) -> tuple[SetDone, ...]:
    stalled = _stalled(table, number, slot.exercise)
    load_kg = _load_kg(table, number, slot.exercise)
    meant = efforts.as_rir(slot.effort, slot.reps.high).reps if not timed else None
    sets = []
    for turn in range(_done_sets(table, number, slot)):
        reps = slot.reps.high
        if stalled:
            reps -= 1 + turn // 2
        elif not week.light and turn == slot.sets - 1:
            reps += (1, 0, -1)[(number + place) % 3]
        nearer = 1.0 if stalled or turn == slot.sets - 1 else 0.0
        rir = None if meant is None else max(0.0, meant - nearer)
        sets.append(SetDone(load_kg, max(1, reps), rir))
    return tuple(sets)


def _stalled(table: Table, number: int, exercise: str) -> bool:
    return any(
        first <= number <= last and exercise == which
        for first, last, which in table.get("stalls", ())
    )


def _load_kg(table: Table, number: int, exercise: str) -> float:
    """The load of that week: from where it began, a step up every so many weeks."""
    if exercise not in table["loads"]:
        return 0.0
    begun, step, every = table["loads"][exercise]
    rising = sum(not _stalled(table, n, exercise) for n in range(1, number))
    return float(begun + step * (rising // every))


def _done_sets(table: Table, number: int, slot: Slot) -> int:
    for week, exercise, sets in table.get("left_out", ()):
        if (week, exercise) == (number, slot.exercise):
            return int(sets)
    return slot.sets


def _told(table: Table, result: SlotResult, number: int) -> SlotResult:
    """The result with what was done instead, and with what was said of it."""
    for week, exercise, other, load_kg in table.get("instead", ()):
        if (week, exercise) == (number, result.exercise):
            sets = tuple(replace(done, load_kg=float(load_kg)) for done in result.sets)
            return replace(result, exercise=ExerciseKey(other), sets=sets)
    for week, exercise, note in table.get("remarks", ()):
        if (week, exercise) == (number, result.exercise):
            return replace(result, note=note)
    return result
