"""The warm-up line of a session: easy movement, drills, and the sets that lead up to the load."""

from __future__ import annotations

from app.booklet.book import Book
from app.booklet.fonts import NBSP
from app.booklet.words import mass_number, number_of_reps
from app.domain import warmup
from app.domain.client import Increments
from app.domain.edits.parts import locate
from app.domain.exercise import Exercise
from app.domain.lead_up import dose_of
from app.domain.program import Drill, Role, Session, Slot
from app.domain.strength import RampSet
from app.domain.warmup import is_general
from app.domain.wording import mark, tr

EASY_S = 300
"""Easy movement before a session without a drill that warms the whole body. Common practice."""
EASY = mark("5\N{NO-BREAK SPACE}minutes easy movement")


def ramps_of(book: Book, session: Session) -> tuple[tuple[Exercise, tuple[RampSet, ...]], ...]:
    """The lifts that have ramp sets, with those sets: as the coach set them, or worked out."""
    ramps = warmup.ramps_of(
        session,
        book.exercise,
        load_of=lambda slot: book.loads.get(slot.id),
        increments=_steps(book, session.slots[0]) if session.slots else Increments(),
    )
    return tuple((book.exercise(ramp.exercise), ramp.sets) for ramp in ramps)


def ramp_of(book: Book, slot: Slot, exercise: Exercise) -> tuple[RampSet, ...]:
    """The ramp sets that lead up to a slot's printed load."""
    load_kg = book.loads.get(slot.id)
    return warmup.ramp_to(slot, exercise, load_kg, increments=_steps(book, slot))


def _steps(book: Book, slot: Slot) -> Increments:
    """What there is to load with at the place of the slot's day."""
    client = book.issue.client
    if not client.places:
        return client.increments
    return client.increments_on(locate(book.issue.program, slot.id).day)


def ramp_text(book: Book, ramp: tuple[RampSet, ...]) -> str:
    """'20 kg × 8, 40 × 5, 55 × 3'."""
    units = book.issue.client.units
    return ", ".join(
        f"{mass_number(step.load_kg, units)}{f'{NBSP}{units}' if not at else ''}"
        f"{NBSP}×{NBSP}{step.reps}"
        for at, step in enumerate(ramp)
    )


def drill_text(drill: Drill, exercise: Exercise) -> str:
    """A drill with its dose: 'Brisk walk, 3 minutes', 'Arm circles × 8–10', 'Bridge 2 × 12'."""
    words = drill_dose_text(drill, exercise)
    once = exercise.timed and dose_of(drill, exercise).rounds == 1
    return f"{exercise.name}, {words}" if once else f"{exercise.name} {words}"


def drill_dose_text(drill: Drill, exercise: Exercise) -> str:
    """How much of a drill: '3 minutes', '× 8–10', '2 × 12', '2 × 30 s'."""
    dose = dose_of(drill, exercise)
    rounds = f"{dose.rounds}{NBSP}×{NBSP}" if dose.rounds > 1 else ""
    if exercise.timed:
        return rounds + warmup.seconds_text(dose.reps).replace(" ", NBSP)
    return (rounds or f"×{NBSP}") + number_of_reps(dose.reps)


def easy_s(book: Book, session: Session) -> int:
    """Seconds of easy movement that the session's line begins with."""
    for drill in session.warmup:
        if is_general(exercise := book.exercise(drill.exercise)):
            dose = dose_of(drill, exercise)
            return dose.rounds * dose.reps.low
    return EASY_S


def warmup_text(book: Book, session: Session) -> str:
    """The whole line: 'Brisk walk, 3 minutes; Arm circles × 8–10; ramp sets 20 kg × 8, 40 × 5'."""
    drills = [(drill, book.exercise(drill.exercise)) for drill in session.warmup]
    parts = [drill_text(drill, exercise) for drill, exercise in drills]
    if not any(is_general(exercise) for _, exercise in drills):
        parts.insert(0, tr(EASY))
    ramps = [(exercise.name, ramp_text(book, ramp)) for exercise, ramp in ramps_of(book, session)]
    first = next((slot for slot in session.slots if slot.role is Role.CORE), None)
    if len(ramps) == 1 and first and ramps[0][0] == book.exercise(first.exercise).name:
        parts.append(tr("ramp sets {sets}", sets=ramps[0][1]))
    else:
        parts += [
            tr("ramp sets {exercise}: {sets}", exercise=name, sets=text) for name, text in ramps
        ]
    return "; ".join(parts)
