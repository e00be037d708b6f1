"""What checks and the tally need to know of a week, worked out once per week and per session.

Answers are remembered by the identity of the immutable parts of a plan, beside a reference that
keeps the identity from being reused: an edit that touches one session costs one session.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple, TypeVar

from app.domain.curve import find_curve, reps_at_fraction
from app.domain.dose import TRAINED_FROM, RepZone, rep_zone, set_fraction
from app.domain.effort import Effort, Rir
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle, Pattern
from app.domain.muscle_groups import GROUP_OF, GROUPS
from app.domain.program import Reps, Session, Slot, StrandId, Week
from app.domain.session_time import added_s, effective_rest_s, timetable

MUSCLES = tuple(Muscle)
_NUMBER = {muscle: number for number, muscle in enumerate(MUSCLES)}

MOST_REMEMBERED = 4096
"""Weeks and sessions remembered before the memory starts afresh."""


class Portrait(NamedTuple):
    """An exercise as the checks see it: parts of a set by number of muscle and of group."""

    exercise: Exercise
    muscles: tuple[tuple[int, float], ...]
    groups: tuple[tuple[int, float], ...]
    primes: tuple[Muscle, ...]
    is_drill: bool


class SlotFacts(NamedTuple):
    """A slot with its exercise resolved.

    rir: repetitions in reserve at the high end of the range, however the effort was written
    (below 0: the load does not allow them); percent: of 1RM, at the high end, to a tenth; rest_s:
    between two sets of this exercise, partners' sets of a pair included; is_drill: a warm-up
    drill, which is no working set.
    """

    slot: Slot
    exercise: Exercise
    primes: tuple[Muscle, ...]
    rir: float
    percent: float
    rest_s: float
    is_drill: bool


@dataclass(frozen=True, slots=True, eq=False)
class SessionFacts:
    """One session: its slots, sets per muscle, expected minutes and when each exercise begins.

    by_muscle: in the order of MUSCLES; by_group: in the order of GROUPS; zones: sets that are
    heavy, moderate and light by their repetitions.
    """

    session: Session
    slots: tuple[SlotFacts, ...]
    by_muscle: tuple[float, ...]
    by_group: tuple[float, ...]
    zones: tuple[int, ...]
    minutes: float
    starts: tuple[float, ...]

    @property
    def sets(self) -> dict[Muscle, float]:
        """Sets for each muscle that gets any."""
        return _named(self.by_muscle)


class DaySession(NamedTuple):
    """A session's facts and its day, 0 for Monday."""

    day: int
    facts: SessionFacts


class Placed(NamedTuple):
    """A working slot in its week: day, session and the slot's facts."""

    day: int
    session: Session
    at: SlotFacts


@dataclass(frozen=True, slots=True, eq=False)
class WeekFacts:
    """One week.

    slots: working ones, drills left out; counted: those of them whose sets are counted in
    repetitions and not in seconds; sets and frequency: for muscles that get any; by_group: in the
    order of GROUPS; trained: the groups that get any set, as bits; zones: sets that are heavy,
    moderate and light by their repetitions; exercises: keys of the working slots; training_days:
    days with any exercise.
    """

    week: Week
    sessions: tuple[DaySession, ...]
    slots: tuple[Placed, ...]
    counted: tuple[Placed, ...]
    by_strand: dict[StrandId, SlotFacts]
    sets: dict[Muscle, float]
    by_group: tuple[float, ...]
    trained: int
    frequency: dict[Muscle, int]
    zones: tuple[int, ...]
    exercises: frozenset[ExerciseKey]
    minutes_by_day: tuple[float, ...]
    training_days: int

    @property
    def is_light(self) -> bool:
        """True for a light week."""
        return self.week.light

    @property
    def is_empty(self) -> bool:
        """True if no working set is planned."""
        return not self.exercises


class FactsMemo:
    """Facts by identity, for one catalogue and one reps-%1RM curve."""

    def __init__(self, catalogue: Catalogue, curve: str = "textbook") -> None:
        self.catalogue = catalogue
        self.curve = find_curve(curve)
        self._portraits: dict[ExerciseKey, Portrait] = {}
        self._percents: dict[tuple[Effort | float, float], float] = {}
        self._sessions: dict[int, SessionFacts] = {}
        self._weeks: dict[int, WeekFacts] = {}

    def portrait(self, key: ExerciseKey) -> Portrait:
        """The exercise with its muscles by number. Raises UnknownExercise."""
        found = self._portraits.get(key)
        if found is None:
            found = self._portraits[key] = _portrait(self.catalogue[key])
        return found

    def percent(self, slot: Slot) -> float:
        """% of 1RM that a set of the slot is done with, at its high repetitions, to a tenth."""
        effort = slot.effort
        # numbers are found much faster than values that have to be hashed field by field
        question = (effort.reps if isinstance(effort, Rir) else effort, slot.reps.high)
        found = self._percents.get(question)
        if found is None:
            found = round(100 * set_fraction(effort, slot.reps.high, self.curve), 1)
            self._percents[question] = found
        return found

    def rir(self, slot: Slot) -> float:
        """Repetitions left in reserve at the high end; below 0 if the load is too heavy for it."""
        if isinstance(slot.effort, Rir):
            return slot.effort.reps
        share = set_fraction(slot.effort, slot.reps.high, self.curve)
        if share > 1.0:
            return 1.0 - slot.reps.high
        to_failure = (
            self.curve.max_reps
            if share <= self.curve.lowest
            else reps_at_fraction(share, self.curve)
        )
        return round(to_failure - slot.reps.high, 9)

    def session(self, session: Session) -> SessionFacts:
        """The session's facts."""
        found = self._sessions.get(id(session))
        if found is None:
            if len(self._sessions) >= MOST_REMEMBERED:
                self._sessions.clear()
            found = self._sessions[id(session)] = self._read_session(session)
        return found

    def week(self, week: Week) -> WeekFacts:
        """The week's facts."""
        found = self._weeks.get(id(week))
        if found is None:
            if len(self._weeks) >= MOST_REMEMBERED:
                self._weeks.clear()
            found = self._weeks[id(week)] = self._read_week(week)
        return found

    def _read_session(self, session: Session) -> SessionFacts:
        portraits = [self.portrait(slot.exercise) for slot in session.slots]
        exercises = [portrait.exercise for portrait in portraits]
        muscles, groups, zones = [0.0] * len(MUSCLES), [0.0] * len(GROUPS), [0] * len(RepZone)
        slots = []
        for at, (slot, portrait) in enumerate(zip(session.slots, portraits, strict=True)):
            slots.append(
                SlotFacts(
                    slot,
                    portrait.exercise,
                    portrait.primes,
                    self.rir(slot),
                    self.percent(slot),
                    effective_rest_s(session.slots, exercises, at) if slot.pair else slot.rest_s,
                    portrait.is_drill,
                )
            )
            if portrait.is_drill:
                continue
            sets = slot.sets
            for number, part in portrait.muscles:
                muscles[number] += sets * part
            for number, part in portrait.groups:
                groups[number] += sets * part
            if not portrait.exercise.timed:
                zones[_zone_number(slot.reps)] += sets
        added = added_s(session.warmup, lambda key: self.portrait(key).exercise)
        starts, minutes = timetable(session.slots, exercises, added_warmup_s=added)
        return SessionFacts(
            session,
            tuple(slots),
            tuple(muscles),
            tuple(groups),
            tuple(zones),
            minutes,
            starts,
        )

    def _read_week(self, week: Week) -> WeekFacts:
        sessions = tuple(DaySession(day, self.session(session)) for day, session in week.sessions())
        slots = [
            Placed(day, facts.session, at)
            for day, facts in sessions
            for at in facts.slots
            if not at.is_drill
        ]
        by_group = _summed([facts.by_group for _, facts in sessions]) or (0.0,) * len(GROUPS)
        minutes = [0.0] * 7
        for day, facts in sessions:
            minutes[day] += facts.minutes
        by_muscle = [facts.by_muscle for _, facts in sessions]
        trained = [
            sum([count >= TRAINED_FROM for count in counts])
            for counts in zip(*by_muscle, strict=True)
        ]
        return WeekFacts(
            week,
            sessions,
            tuple(slots),
            tuple([one for one in slots if not one.at.exercise.timed]),
            {one.at.slot.strand: one.at for one in slots},
            _named([sum(counts) for counts in zip(*by_muscle, strict=True)]),
            by_group,
            sum([1 << number for number, count in enumerate(by_group) if count]),
            _named(trained),
            _summed([facts.zones for _, facts in sessions]) or (0,) * len(RepZone),
            frozenset([one.at.slot.exercise for one in slots]),
            tuple(minutes),
            sum([count > 0 for count in minutes]),
        )


def _portrait(exercise: Exercise) -> Portrait:
    by_group: dict[int, float] = {}
    for work in exercise.work:
        group = GROUP_OF[work.muscle]
        by_group[group] = max(work.fraction, by_group.get(group, 0.0))
    return Portrait(
        exercise,
        tuple((_NUMBER[work.muscle], work.fraction) for work in exercise.work),
        tuple(by_group.items()),
        exercise.primes,
        is_drill=exercise.pattern is Pattern.DRILL,
    )


@lru_cache(maxsize=256)
def _zone_of(middle: float) -> int:
    return tuple(RepZone).index(rep_zone(middle))


def _zone_number(reps: Reps) -> int:
    return _zone_of((reps.low + reps.high) / 2)


Count = TypeVar("Count", int, float)


def _named(counts: Sequence[Count]) -> dict[Muscle, Count]:
    # no session: no counts, and no muscle
    return {muscle: count for muscle, count in zip(MUSCLES, counts, strict=False) if count}


def _summed(counts: list[tuple[Count, ...]]) -> tuple[Count, ...]:
    return tuple(map(sum, zip(*counts, strict=True)))
