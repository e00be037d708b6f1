"""Writing a scheme into the weeks of a program; what is pinned or out of reach stays as it is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from app.domain.edits.parts import map_slots
from app.domain.edits.weeks import lightened, make_ordinary
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir, as_percent_rep_max, fraction
from app.domain.exercise import Catalogue, Exercise
from app.domain.program import Field, Program, Reps, Role, Slot, SlotId, StrandId, Week
from app.domain.progression.paths import targets
from app.domain.progression.scheme import Scheme, Series, SetsPath


def apply(program: Program, scheme: Scheme | Series, catalogue: Catalogue) -> Program:
    """The program with the scheme written into its weeks.

    Fields that the coach pinned, timed exercises' seconds, weeks out of the scheme's reach and
    strands it does not name are left alone; weeks that do not change are the same objects.
    Where the scheme sets light weeks, earlier ones in its reach become ordinary first.
    Applying it twice gives the same as once. Raises EditError for weeks not in the program.
    """
    if isinstance(scheme, Series):
        for part in scheme.schemes:
            program = apply(program, part, catalogue)
        return program
    span = scheme.span(program)
    reps = targets(scheme.path, len(span))
    weeks = list(_with_ordinary(program, scheme, span).weeks)
    for at, index in enumerate(span):
        light = weeks[index].light or scheme.makes_light(index)
        place = _Place(curve=program.curve, at=at, weeks=len(span), light=light)
        weeks[index] = _with_reps(
            weeks[index], scheme, reps=reps[at], catalogue=catalogue, place=place
        )
    if scheme.sets is not None:
        _spread_sets(weeks, scheme, scheme.sets, span=span)
    for index in span:
        if scheme.makes_light(index):
            weeks[index] = lightened(weeks[index])
    if all(new is old for new, old in zip(weeks, program.weeks, strict=True)):
        return program
    return replace(program, weeks=tuple(weeks))


def _with_ordinary(program: Program, scheme: Scheme, span: range) -> Program:
    """The program with light weeks that the scheme does not want made ordinary."""
    if not scheme.sets_light_weeks:
        return program
    for index in span:
        if program.weeks[index].light and not scheme.makes_light(index):
            program = make_ordinary(program, index)
    return program


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """Which week of the scheme is being written: `at` of `weeks`, counted from 0."""

    curve: str
    at: int
    weeks: int
    light: bool


def _with_reps(
    week: Week, scheme: Scheme, *, reps: tuple[Reps, ...], catalogue: Catalogue, place: _Place
) -> Week:
    """The week with repetitions and effort rewritten, session by session."""
    turns: dict[SlotId, Reps] = {}
    training = (session for _, session in week.sessions() if session.slots)
    for turn, session in enumerate(training):
        turns.update((slot.id, reps[turn % len(reps)]) for slot in session.slots)

    def change(slot: Slot) -> Slot:
        if scheme.strands and slot.strand not in scheme.strands:
            return slot
        exercise = catalogue[slot.exercise]
        target = _reps(scheme, slot, exercise=exercise, target=turns[slot.id])
        effort = _effort(scheme, slot, at=place.at, weeks=place.weeks)
        if place.light and effort is not None and target is not None:
            lowest = scheme.lowest(slot, exercise)
            target, effort = eased(
                target, effort, fewer=scheme.fewer_reps, lowest=lowest, curve=place.curve
            )
        return _rewritten(slot, target, effort)

    return map_slots(week, change)


def _reps(scheme: Scheme, slot: Slot, *, exercise: Exercise, target: Reps) -> Reps | None:
    """The slot's new repetitions; None where they stay."""
    if exercise.timed or Field.REPS in slot.pinned:
        return None
    return scheme.floors.kept(target, slot, exercise)


def _effort(scheme: Scheme, slot: Slot, *, at: int, weeks: int) -> Effort | None:
    """The slot's new effort; None where it stays."""
    path = scheme.effort_path(slot)
    return None if path is None or Field.EFFORT in slot.pinned else path.at(at, weeks)


def _rewritten(slot: Slot, reps: Reps | None, effort: Effort | None) -> Slot:
    """The slot with these fields; the same object if nothing changes."""
    reps = slot.reps if reps is None else reps
    effort = slot.effort if effort is None else effort
    if (reps, effort) == (slot.reps, slot.effort):
        return slot
    return replace(slot, reps=reps, effort=effort)


def eased(
    reps: Reps, effort: Effort, *, fewer: int, lowest: int = 1, curve: str = "textbook"
) -> tuple[Reps, Effort]:
    """Fewer repetitions with the same load, the difference left in reserve.

    Never under `lowest` repetitions, nor past 10 in reserve; what lies under it already stays.
    """
    fewer = max(0, min(fewer, reps.low - lowest))
    match effort:
        case Rir(in_reserve):
            fewer = min(fewer, int(10 - in_reserve))
            lighter: Effort = Rir(in_reserve + fewer)
        case PercentOneRm():
            lighter = effort
        case PercentRepMax():
            share = PercentOneRm(100 * fraction(effort, reps.high, curve))
            lighter = as_percent_rep_max(share, reps.high - fewer, curve)
    return Reps(reps.low - fewer, reps.high - fewer), lighter


def _spread_sets(weeks: list[Week], scheme: Scheme, path: SetsPath, *, span: range) -> None:
    """Rewrite the sets of the scheme's weeks in place, under the cap on the rise.

    Light weeks get half of what an ordinary week would have had there.
    """
    light = {i for i in span if weeks[i].light or scheme.makes_light(i)}
    starts = _starts(weeks, [i for i in span if i not in light])
    before: int | None = None
    for index in span:
        wanted = {
            slot.id: _wanted(starts[slot.strand], path, index=index, end=span.stop)
            for slot in weeks[index].slots()
            if slot.strand in starts
            and Field.SETS not in slot.pinned
            and (not scheme.strands or slot.strand in scheme.strands)
        }
        if index in light:
            wanted = {key: max(1, sets // 2) for key, sets in wanted.items()}
            week = map_slots(weeks[index], _set_to(wanted))
            weeks[index] = week if week.light else replace(week, light=True)
            continue
        if before is not None:
            most = int(before * (1 + path.most_rise) + 1e-9)
            wanted = _capped(weeks[index], wanted, starts=starts, most=most)
        weeks[index] = map_slots(weeks[index], _set_to(wanted))
        before = sum(slot.sets for slot in weeks[index].slots())


_Starts = dict[StrandId, tuple[int, int]]
"""For each strand, the first ordinary week it stands in and its sets there."""


def _starts(weeks: list[Week], ordinary: list[int]) -> _Starts:
    starts: _Starts = {}
    for index in ordinary:
        for slot in weeks[index].slots():
            starts.setdefault(slot.strand, (index, slot.sets))
    return starts


def _wanted(start: tuple[int, int], path: SetsPath, *, index: int, end: int) -> int:
    """The sets the path wants in week `index`, from where the strand starts."""
    first, base = start
    return path.wanted(base, week=max(0, index - first), weeks=end - first)


def _set_to(wanted: dict[SlotId, int]) -> Callable[[Slot], Slot]:
    """A change that gives each slot the sets wanted for it."""

    def change(slot: Slot) -> Slot:
        sets = wanted.get(slot.id, slot.sets)
        return slot if sets == slot.sets else replace(slot, sets=sets)

    return change


def _capped(
    week: Week, wanted: dict[SlotId, int], *, starts: _Starts, most: int
) -> dict[SlotId, int]:
    """The sets wanted, with added ones taken back from the last slot on until `most` holds.

    Core lifts keep their added sets longest. Sets that a strand began with are never taken.
    """
    total = sum(wanted.get(slot.id, slot.sets) for slot in week.slots())
    last_first = tuple(reversed(tuple(week.slots())))
    waiting = sorted(last_first, key=lambda slot: slot.role is Role.CORE)
    capped = dict(wanted)
    for slot in waiting:
        if slot.id not in capped:
            continue
        spare = max(0, capped[slot.id] - starts[slot.strand][1])
        taken = min(spare, max(0, total - most))
        capped[slot.id] -= taken
        total -= taken
    return capped
