"""How long a session takes, and when each exercise begins.

A session is a warm-up and then its exercises in turn: ramp sets before the lifts that have them
(`app.domain.lead_up`), a minute to set up, and for every set the repetitions and the rest
behind it. A full ramp is counted where the coach set none, since no load is known here; a drill's
dose counts where the coach set it. Exercises that share a pairing letter are alternated: one set
of each, a short change-over between them, one rest for the round. All figures are common practice;
the time of a repetition at ordinary speed, 2 to 4 s, follows acsm2009.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import floor

from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.lead_up import leading_up, usual_sets, zone_dose
from app.domain.program import Drill, DrillDose, Reps, Session, Slot


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast a session is gone through; all times in seconds.

    end: which end of a repetition range is done, 0 the low and 1 the high one; repetition_s: where
    no tempo is written; setup_s: None for the exercise's own; rest_share: how much of the written
    rest is taken; rest_after_last: the rest is taken before the next exercise too; set_up_first:
    the first exercise is set up after the warm-up and not during it.
    """

    end: float = 0.5
    repetition_s: float = 4.0
    warmup_s: float = 360.0
    ramp_set_s: float = 60.0
    setup_s: float | None = None
    change_s: float = 20.0
    rest_share: float = 1.0
    rest_after_last: bool = True
    set_up_first: bool = True


ORDINARY = Pace()
BRISK = Pace(end=0.0, repetition_s=2.0, warmup_s=300.0, ramp_set_s=45.0, setup_s=0.0, change_s=10.0)
"""The low end of repetitions, quick ones, and the next exercise set up during the rest."""
UNHURRIED = Pace(
    end=1.0, warmup_s=600.0, ramp_set_s=90.0, setup_s=120.0, change_s=30.0, rest_share=1.15
)
"""The high end of repetitions, a long warm-up, set-up twice as long, rests that run over."""


@dataclass(frozen=True, slots=True)
class Minutes:
    """Minutes a session takes: gone through briskly, as a rule, and without hurry."""

    low: float
    expected: float
    high: float


@lru_cache(maxsize=256)
def tempo_s(tempo: str) -> float | None:
    """Seconds of one repetition at a tempo of four figures, '3-0-1-0'; None if none is written.

    An X (as fast as can be) counts as half a second.
    """
    parts = tempo.upper().replace("X", "0.5").split("-")
    try:
        return sum(float(part) for part in parts) if tempo else None
    except ValueError:
        return None


def set_s(slot: Slot, exercise: Exercise, pace: Pace = ORDINARY) -> float:
    """Seconds of work in one set; both sides of a unilateral exercise."""
    return _work_s(slot.reps, exercise, pace, slot.tempo)


def _work_s(reps: Reps, exercise: Exercise, pace: Pace, tempo: str = "") -> float:
    low = reps.low
    count = low + pace.end * (reps.high - low)
    if not exercise.timed:
        count *= (tempo_s(tempo) or pace.repetition_s) if tempo else pace.repetition_s
    return 2 * count if exercise.unilateral else count


def added_s(
    drills: Sequence[Drill],
    exercise_of: Callable[[ExerciseKey], Exercise],
    pace: Pace = ORDINARY,
) -> float:
    """Seconds that the doses which the coach set add to the usual warm-up; below 0 if less.

    A drill without one is part of the usual warm-up.
    """
    added = 0.0
    for drill in drills:
        if drill.dose is not None:
            exercise = exercise_of(drill.exercise)
            usual = zone_dose(exercise)
            added += _drill_s(drill.dose, exercise, pace) - _drill_s(usual, exercise, pace)
    return added


def _drill_s(dose: DrillDose, exercise: Exercise, pace: Pace) -> float:
    return dose.rounds * _work_s(dose.reps, exercise, pace)


def ramp_minutes(session: Session, catalogue: Catalogue) -> tuple[float, ...]:
    """Minutes of the ramp sets before each slot, as a rule."""
    exercises = [catalogue[slot.exercise] for slot in session.slots]
    found = leading_up(session.slots, exercises, sets_of=usual_sets)
    return tuple(len(sets) * ORDINARY.ramp_set_s / 60 for sets in found)


def whole_minutes(minutes: float) -> int:
    """Minutes as every part of the program tells them: whole ones, a half rounded up."""
    return floor(minutes + 0.5)


def start_minutes(
    session: Session, catalogue: Catalogue, pace: Pace = ORDINARY
) -> tuple[float, ...]:
    """The minute, from the start of the warm-up, at which each slot's first working set is due."""
    return _timetable_of(session, catalogue, pace)[0]


def session_minutes(session: Session, catalogue: Catalogue) -> Minutes:
    """Minutes the session takes: low, expected, high. All 0 for a session without exercises."""
    paces = (BRISK, ORDINARY, UNHURRIED)
    return Minutes(*(_timetable_of(session, catalogue, pace)[1] for pace in paces))


def _timetable_of(
    session: Session, catalogue: Catalogue, pace: Pace
) -> tuple[tuple[float, ...], float]:
    exercises = [catalogue[slot.exercise] for slot in session.slots]
    added = added_s(session.warmup, catalogue.__getitem__, pace)
    return timetable(session.slots, exercises, pace=pace, added_warmup_s=added)


def timetable(
    slots: Sequence[Slot],
    exercises: Sequence[Exercise],
    *,
    pace: Pace = ORDINARY,
    added_warmup_s: float = 0.0,
) -> tuple[tuple[float, ...], float]:
    """The minute at which each slot begins, and the minute at which all is done.

    exercises: those of the slots, in their order; added_warmup_s: what the warm-up takes more than
    usual, below 0 for less (it never takes less than nothing).
    """
    if not slots:
        return (), 0.0
    starts: list[float] = []
    now_s = max(0.0, pace.warmup_s + added_warmup_s)
    ramps = leading_up(slots, exercises, sets_of=usual_sets)
    at = 0
    while at < len(slots):
        end = at + 1
        letter = slots[at].pair
        while letter and end < len(slots) and slots[end].pair == letter:
            end += 1
        for ramp in ramps[at:end]:
            now_s += pace.ramp_set_s * len(ramp)
        if end - at == 1:
            starts.append(now_s / 60)
            now_s += _alone_s(slots[at], exercises[at], pace)
            setup_s = _setup_s(exercises[at], pace)
        else:
            offsets, length_s = _round_s(slots[at:end], exercises[at:end], pace)
            starts.extend((now_s + offset) / 60 for offset in offsets)
            now_s += length_s
            setup_s = max(_setup_s(exercise, pace) for exercise in exercises[at:end])
        if at or pace.set_up_first:
            now_s += setup_s
        at = end
    return tuple(starts), now_s / 60


def _setup_s(exercise: Exercise, pace: Pace) -> float:
    return exercise.setup_s if pace.setup_s is None else pace.setup_s


def _alone_s(slot: Slot, exercise: Exercise, pace: Pace) -> float:
    """Seconds of all sets of one slot with the rests behind them."""
    rests = slot.sets if pace.rest_after_last else slot.sets - 1
    return slot.sets * set_s(slot, exercise, pace) + rests * slot.rest_s * pace.rest_share


def _round_s(
    slots: Sequence[Slot], exercises: Sequence[Exercise], pace: Pace
) -> tuple[list[float], float]:
    """When each slot of a pair begins, and how long all its rounds take, s."""
    work = [set_s(slot, ex, pace) for slot, ex in zip(slots, exercises, strict=True)]
    offsets: list[float] = []
    total = 0.0
    for turn in range(max(slot.sets for slot in slots)):
        members = [k for k, slot in enumerate(slots) if slot.sets > turn]
        for k in members:
            if k != members[0]:
                total += pace.change_s
            if turn == 0:
                offsets.append(total)
            total += work[k]
        total += max(slots[k].rest_s for k in members) * pace.rest_share
    if not pace.rest_after_last:
        total -= max(slot.rest_s for slot in slots) * pace.rest_share
    return offsets, total


def effective_rest_s(slots: Sequence[Slot], exercises: Sequence[Exercise], at: int) -> float:
    """Seconds between two sets of slot `at`: its rest, and in a pair the partners' sets as well."""
    letter = slots[at].pair
    if not letter:
        return slots[at].rest_s
    partners = [
        k for k, slot in enumerate(slots) if slot.pair == letter and k != at and slot.sets > 1
    ]
    turns = sum(set_s(slots[k], exercises[k]) + ORDINARY.change_s for k in partners)
    return max(slots[at].rest_s, *(slots[k].rest_s for k in partners), 0) + turns
