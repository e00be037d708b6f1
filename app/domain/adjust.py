"""Adjusting a coming week from what was done: a suggestion a slot, and the edit that keeps them.

What was done is held against what was meant on that day; where the coming week asks other
repetitions or another effort, the suggested load is carried over along the curve. Nothing here
decides: the coach accepts, changes or ignores each suggestion.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain import effort as efforts
from app.domain.client import Client
from app.domain.edits.fields import set_field
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.loads import body_kg, load_for, newest_test
from app.domain.program import Field, Program, Reps, Slot, SlotId, Span
from app.domain.progress.next_load import Adjustment, Move, next_load
from app.domain.reach import nearest_in_reach
from app.domain.results import SlotResult
from app.domain.units import mass_text
from app.domain.wording import date_text, tr
from app.domain.working import Line, Working

_WITHOUT_KG = (LoadKind.BAND, LoadKind.NONE)
SAME_KG = 0.005
"""Loads nearer than this are the same."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What the results suggest for one slot of the coming week.

    adjustment: for what was meant when it was last done; load_kg and reps: for the coming slot,
    None where they are to stay; planned_kg: its load as the plan has it; last: what was last done
    of it; moot: why the suggestion may be moot, or empty.
    """

    slot: Slot
    exercise: Exercise
    adjustment: Adjustment
    load_kg: float | None
    reps: Reps | None
    planned_kg: float | None
    last: SlotResult | None = None
    carried: str = ""
    moot: str = ""

    @property
    def changes(self) -> bool:
        """True if there is something to keep."""
        new_load = self.load_kg is not None and (
            self.planned_kg is None or abs(self.load_kg - self.planned_kg) > SAME_KG
        )
        return new_load or self.reps is not None

    @property
    def why(self) -> str:
        """The reason as a sentence or two."""
        return " ".join(text for text in (self.moot, self.adjustment.text, self.carried) if text)

    def working(self, unit: str) -> Working:
        """How the suggestion came about."""
        lines = list(self.adjustment.lines)
        if self.carried and self.load_kg is not None:
            lines.append(Line(tr("This week"), mass_text(self.load_kg, unit), self.carried))
        if self.planned_kg is not None:
            lines.append(Line(tr("Planned"), mass_text(self.planned_kg, unit), self.moot))
        return Working(self.exercise.name, tr("suggestion"), tuple(lines), self.adjustment.sources)


def coming_week(program: Program, results: Iterable[SlotResult], today: date) -> int:
    """The week to adjust, from 0: the one after the last that has results, else that of today."""
    week_of = {slot.id: index for index, week in enumerate(program.weeks) for slot in week.slots()}
    done = [week_of[r.slot] for r in results if r.program == program.id and r.slot in week_of]
    last = len(program.weeks) - 1
    if done:
        return min(last, max(done) + 1)
    return max(0, min(last, (today - program.start).days // 7))


def advise(
    program: Program,
    week: int,
    results: Sequence[SlotResult],
    *,
    client: Client,
    catalogue: Catalogue,
) -> tuple[Advice, ...]:
    """A suggestion for every slot of a week, in its order.

    results: of any programs; those of this one's earlier weeks count. A slot whose exercise was
    replaced by another on the day is judged by the days on which it was done itself.
    """
    strands: dict[int, list[tuple[Slot, SlotResult]]] = {}
    slots = {slot.id: slot for one in program.weeks[:week] for slot in one.slots()}
    for result in sorted(results, key=lambda r: r.on):
        slot = slots.get(result.slot)
        if result.program == program.id and slot is not None:
            strands.setdefault(slot.strand, []).append((slot, result))
    found = []
    for slot in program.weeks[week].slots():
        if slot.exercise in catalogue:
            past = [
                (was, result)
                for was, result in strands.get(slot.strand, ())
                if result.exercise == slot.exercise == was.exercise
            ]
            found.append(_advice(slot, past, program, client=client, catalogue=catalogue))
    return tuple(found)


def _advice(
    slot: Slot,
    past: Sequence[tuple[Slot, SlotResult]],
    program: Program,
    *,
    client: Client,
    catalogue: Catalogue,
) -> Advice:
    exercise = catalogue[slot.exercise]
    load = load_for(slot, exercise, client, program.curve)
    planned_kg = None if load is None else load.load_kg
    done = [(was, result) for was, result in past if result.sets]
    was = done[-1][0] if done else slot
    # a day with another target is no second opinion on this one
    alike = [r for s, r in done if (s.reps, s.effort) == (was.reps, was.effort)]
    found = next_load(
        was,
        alike,
        client.increments,
        kind=exercise.load_kind,
        curve=program.curve,
        unit=client.units,
    )
    last = done[-1][1] if done else None
    if last is None or found.load_kg is None:
        return Advice(slot, exercise, found, None, None, planned_kg)
    load_kg, carried = _carried(found.load_kg, was, slot, exercise, program, client)
    same_aim = was.reps == slot.reps
    reps = found.reps if found.move is Move.ADD_REPS and same_aim else None
    return Advice(
        slot,
        exercise,
        found,
        load_kg,
        reps,
        planned_kg,
        last,
        carried,
        _moot(exercise, client, last, slot),
    )


def _carried(
    load_kg: float, was: Slot, slot: Slot, exercise: Exercise, program: Program, client: Client
) -> tuple[float | None, str]:
    """The load for the coming slot, and what was carried over, as a sentence."""
    own_weight_alone = exercise.load_kind is LoadKind.BODY and not load_kg
    if exercise.load_kind in _WITHOUT_KG or own_weight_alone:
        return None, ""
    if load_kg < 0:  # help stands in no plan
        return None, tr("Tell the client: a plan holds no load for help.")
    if (was.reps, was.effort) == (slot.reps, slot.effort) or exercise.timed:
        return load_kg, ""
    try:
        ratio = efforts.fraction(slot.effort, slot.reps.high, program.curve) / efforts.fraction(
            was.effort, was.reps.high, program.curve
        )
    except CoachError:  # past the end of the curve
        return load_kg, ""
    own_kg = body_kg(exercise, client)
    wanted = max(0.0, (load_kg + own_kg) * ratio - own_kg)
    reached = nearest_in_reach(
        wanted, client.increments, kind=exercise.load_kind, unit=client.units
    )
    text = tr(
        "For {now} instead of {then} that comes to {load}.",
        then=_aim(was),
        now=_aim(slot),
        load=mass_text(reached.load_kg, client.units),
    )
    return max(0.0, reached.load_kg), text


def _aim(slot: Slot) -> str:
    """'10 at RIR 2'."""
    low, high = slot.reps.low, slot.reps.high
    reps = f"{low}" if low == high else f"{low}–{high}"
    return tr("{reps} at {effort}", reps=reps, effort=efforts.text(slot.effort, high))


def _moot(exercise: Exercise, client: Client, last: SlotResult, slot: Slot) -> str:
    test = newest_test(exercise, client)
    if test is not None and test.on >= last.on:
        return tr(
            "A test of {day} is newer than these results, and the load follows from it.",
            day=date_text(test.on),
        )
    if slot.load_kg is not None:
        return tr("This load was set by hand.")
    return ""


# ---------------------------------------------------------------------------- keeping


@dataclass(frozen=True, slots=True)
class Change:
    """What the coach takes for one slot: a load, repetitions, or both; None leaves them."""

    slot: SlotId
    load_kg: float | None = None
    reps: Reps | None = None


def adjust(program: Program, changes: Sequence[Change]) -> Program:
    """The program with the changes set and pinned in their own week. Raises EditError."""
    for change in changes:
        if change.load_kg is not None:
            program = set_field(
                program, change.slot, Field.LOAD, value=change.load_kg, span=Span.THIS_WEEK
            )
        if change.reps is not None:
            program = set_field(
                program, change.slot, Field.REPS, value=change.reps, span=Span.THIS_WEEK
            )
    return program


def reason(advices: Iterable[Advice], changes: Iterable[Change], unit: str) -> str:
    """Why each change was kept, in one line: 'Squat 62.5 kg: the target was passed…'."""
    by_slot = {advice.slot.id: advice for advice in advices}
    told = []
    for change in changes:
        advice = by_slot[change.slot]
        to = "" if change.load_kg is None else f" {mass_text(change.load_kg, unit)}"
        if change.load_kg is not None and (
            advice.load_kg is None or abs(change.load_kg - advice.load_kg) > SAME_KG
        ):
            why = tr("changed by the coach.")
        else:
            why = advice.adjustment.text
        told.append(f"{advice.exercise.name}{to}: {why}")
    return " ".join(told)
