"""The weeks of a program as they were planned and as they were done.

What was done is counted like what was planned: a set counts 1 for a prime mover and a part for a
muscle that helps; both hands and both sides are in the tonnage; timed sets have none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from statistics import fmean
from types import MappingProxyType

from app.domain.dose import load_sides, tonnage_kg, weekly_sets
from app.domain.exercise import Catalogue, ExerciseKey, Muscle, Pattern
from app.domain.handed_out import PrintedWeek
from app.domain.program import Program, Slot, SlotId, Week, WeekId
from app.domain.progress.trends import Adherence, adherence
from app.domain.results import SlotResult


@dataclass(frozen=True, slots=True)
class WeekDone:
    """One week of a program: planned beside done.

    number: from 1; done_kg and done: None where nothing was entered for the week (`entered`);
    planned_kg: with the loads of the booklet handed out for it, else the plan's, and where there is
    none with what was lifted in that place; printed_on: the day of that booklet, None without one;
    as_lifted: planned sets of the latter kind; without_load: planned sets that have neither.
    """

    number: int
    start: date
    light: bool
    planned_sets: int
    planned_kg: float
    without_load: int
    as_lifted: int
    planned_muscles: Mapping[Muscle, float]
    done: Adherence | None
    done_sets: int | None
    done_kg: float | None
    done_muscles: Mapping[Muscle, float]
    printed_on: date | None = None

    @property
    def entered(self) -> bool:
        """True if any result was entered for the week."""
        return self.done is not None


LoadOf = Callable[[Slot], float | None]

NOTHING_PRINTED: Mapping[WeekId, PrintedWeek] = MappingProxyType({})


def weeks_done(
    program: Program,
    results: Iterable[SlotResult],
    catalogue: Catalogue,
    *,
    load_kg: LoadOf,
    printed: Mapping[WeekId, PrintedWeek] = NOTHING_PRINTED,
) -> tuple[WeekDone, ...]:
    """Every week of the program with what was done in it.

    results: of this program; one counts for the week its slot stands in, and where the slot has
    been removed since, for the week of its day. load_kg: what a slot is meant to be done with;
    printed: weeks as they were handed out, whose loads count before that where a slot still has the
    exercise that was printed.
    """
    by_week = _by_week(program, results)
    return tuple(
        _week_done(
            program,
            index,
            by_week.get(index, ()),
            catalogue,
            load_kg=load_kg,
            printed=printed.get(week.id),
        )
        for index, week in enumerate(program.weeks)
    )


def _by_week(program: Program, results: Iterable[SlotResult]) -> dict[int, tuple[SlotResult, ...]]:
    stands: dict[SlotId, int] = {
        slot.id: index for index, week in enumerate(program.weeks) for slot in week.slots()
    }
    found: dict[int, list[SlotResult]] = {}
    for result in results:
        index = stands.get(result.slot, (result.on - program.start).days // 7)
        if 0 <= index < len(program.weeks):
            found.setdefault(index, []).append(result)
    return {index: tuple(part) for index, part in found.items()}


def _week_done(
    program: Program,
    index: int,
    results: tuple[SlotResult, ...],
    catalogue: Catalogue,
    *,
    load_kg: LoadOf,
    printed: PrintedWeek | None,
) -> WeekDone:
    week = program.weeks[index]
    lifted = _lifted(results)

    def own_load_kg(slot: Slot) -> float | None:
        if printed is not None and printed.has(slot):
            return printed.loads.get(slot.id)
        return load_kg(slot)

    def meant_kg(slot: Slot) -> float | None:
        own_kg = own_load_kg(slot)
        return lifted.get((slot.id, slot.exercise)) if own_kg is None else own_kg

    return WeekDone(
        number=index + 1,
        start=program.week_start(index),
        light=week.light,
        planned_sets=_working_sets(week, catalogue),
        planned_kg=tonnage_kg(week.slots(), catalogue, meant_kg),
        without_load=_without_load(week, catalogue, meant_kg),
        as_lifted=_without_load(week, catalogue, own_load_kg)
        - _without_load(week, catalogue, meant_kg),
        planned_muscles=weekly_sets(week, catalogue),
        done=adherence(week, results) if results else None,
        done_sets=_sets_done(results, catalogue) if results else None,
        done_kg=_kg_done(results, catalogue) if results else None,
        done_muscles=_muscles_done(results, catalogue),
        printed_on=None if printed is None else printed.on,
    )


def _lifted(results: Iterable[SlotResult]) -> dict[tuple[SlotId, ExerciseKey], float]:
    """The mean load that was lifted in each slot, kg."""
    return {
        (result.slot, result.exercise): fmean(done.load_kg for done in result.sets)
        for result in results
        if result.sets
    }


def _working_sets(week: Week, catalogue: Catalogue) -> int:
    slots = (s for s in week.slots() if catalogue[s.exercise].pattern is not Pattern.DRILL)
    return sum(slot.sets for slot in slots)


def _without_load(week: Week, catalogue: Catalogue, load_kg: LoadOf) -> int:
    return sum(
        slot.sets
        for slot in week.slots()
        if not catalogue[slot.exercise].timed and load_kg(slot) is None
    )


def _known(results: Iterable[SlotResult], catalogue: Catalogue) -> Iterable[SlotResult]:
    for result in results:
        if result.exercise in catalogue and catalogue[result.exercise].pattern is not Pattern.DRILL:
            yield result


def _sets_done(results: Iterable[SlotResult], catalogue: Catalogue) -> int:
    return sum(len(result.sets) for result in _known(results, catalogue))


def _kg_done(results: Iterable[SlotResult], catalogue: Catalogue) -> float:
    total = 0.0
    for result in _known(results, catalogue):
        exercise = catalogue[result.exercise]
        if not exercise.timed:
            lifted = sum(done.load_kg * done.reps for done in result.sets)
            total += lifted * load_sides(exercise)
    return total


def _muscles_done(results: Iterable[SlotResult], catalogue: Catalogue) -> Mapping[Muscle, float]:
    total = dict.fromkeys(Muscle, 0.0)
    for result in _known(results, catalogue):
        for work in catalogue[result.exercise].work:
            total[work.muscle] += len(result.sets) * work.fraction
    return {muscle: sets for muscle, sets in total.items() if sets}
