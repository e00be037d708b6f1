"""What checks and the tally need to know of a week, worked out once per week and per session.

Answers are remembered by the identity of the immutable parts of a plan, beside a reference that
keeps the identity from being reused: an edit that touches one session costs one session.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from app.domain.curve import find_curve, reps_at_fraction
from app.domain.dose import TRAINED_FROM, RepZone, rep_zone, set_fraction
from app.domain.effort import Effort, Rir
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle, Pattern
from app.domain.muscle_groups import GROUP_OF, GROUPS
from app.domain.program import Session, Slot, Week
from app.domain.session_time import LOWER_BODY, effective_rest_s, timetable

MUSCLES = tuple(Muscle)
_NUMBER = {muscle: number for number, muscle in enumerate(MUSCLES)}
_ZONES = tuple(RepZone)

MOST_REMEMBERED = 4096
"""Weeks and sessions remembered before the memory starts afresh."""


class Portrait(NamedTuple):
    """An exercise as the checks see it: parts of a set by number of muscle and of group."""

    exercise: Exercise
    muscles: tuple[tuple[int, float], ...]
    groups: tuple[tuple[int, float], ...]
    is_drill: bool
    is_lower: bool


class SlotFacts(NamedTuple):
    """A slot with its exercise resolved.

    rir: repetitions in reserve at the high end of the range, however the effort was written
    (below 0: the load does not allow them); rest_s: between two sets of this exercise, partners'
    sets of a pair included; is_drill: a warm-up drill, which is no working set.
    """

    slot: Slot
    exercise: Exercise
    rir: float
    rest_s: float
    is_drill: bool
    is_lower: bool


@dataclass(frozen=True, slots=True, eq=False)
class SessionFacts:
    """One session: its slots, sets per muscle, expected minutes and when each exercise begins."""

    session: Session
    slots: tuple[SlotFacts, ...]
    sets: dict[Muscle, float]
    by_group: tuple[float, ...]
    minutes: float
    starts: tuple[float, ...]


class DaySession(NamedTuple):
    """A session's facts and its day, 0 for Monday."""

    day: int
    facts: SessionFacts


@dataclass(frozen=True, slots=True, eq=False)
class WeekFacts:
    """One week.

    sets and frequency: for muscles that get any; by_group: in the order of GROUPS; zones: sets
    that are heavy, moderate and light by their repetitions; exercises: keys of the working sets.
    """

    week: Week
    sessions: tuple[DaySession, ...]
    sets: dict[Muscle, float]
    by_group: tuple[float, ...]
    frequency: dict[Muscle, int]
    zones: tuple[int, ...]
    exercises: frozenset[ExerciseKey]
    minutes_by_day: tuple[float, ...]

    @property
    def is_light(self) -> bool:
        """True for a light week."""
        return self.week.light

    @property
    def is_empty(self) -> bool:
        """True if no working set is planned."""
        return not self.exercises

    @property
    def training_days(self) -> int:
        """Days with at least one session that has exercises."""
        return sum(minutes > 0 for minutes in self.minutes_by_day)


class FactsMemo:
    """Facts by identity, for one catalogue and one reps-%1RM curve."""

    def __init__(self, catalogue: Catalogue, curve: str = "textbook") -> None:
        self.catalogue = catalogue
        self.curve = find_curve(curve)
        self._portraits: dict[ExerciseKey, Portrait] = {}
        self._fractions: dict[tuple[Effort, float], float] = {}
        self._sessions: dict[int, SessionFacts] = {}
        self._weeks: dict[int, WeekFacts] = {}

    def portrait(self, key: ExerciseKey) -> Portrait:
        """The exercise with its muscles by number. Raises UnknownExercise."""
        found = self._portraits.get(key)
        if found is None:
            found = self._portraits[key] = _portrait(self.catalogue[key])
        return found

    def fraction(self, slot: Slot) -> float:
        """The fraction of 1RM that a set of the slot is done with, at its high repetitions."""
        question = (slot.effort, slot.reps.high)
        found = self._fractions.get(question)
        if found is None:
            found = set_fraction(slot.effort, slot.reps.high, self.curve)
            self._fractions[question] = found
        return found

    def rir(self, slot: Slot) -> float:
        """Repetitions left in reserve at the high end; below 0 if the load is too heavy for it."""
        if isinstance(slot.effort, Rir):
            return slot.effort.reps
        share = self.fraction(slot)
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
        muscles, groups = [0.0] * len(MUSCLES), [0.0] * len(GROUPS)
        slots = []
        for at, (slot, portrait) in enumerate(zip(session.slots, portraits, strict=True)):
            rest_s = effective_rest_s(session.slots, exercises, at) if slot.pair else slot.rest_s
            rir = self.rir(slot)
            slots.append(
                SlotFacts(
                    slot, portrait.exercise, rir, rest_s, portrait.is_drill, portrait.is_lower
                )
            )
            if portrait.is_drill:
                continue
            for number, part in portrait.muscles:
                muscles[number] += slot.sets * part
            for number, part in portrait.groups:
                groups[number] += slot.sets * part
        starts, minutes = timetable(session.slots, exercises)
        return SessionFacts(session, tuple(slots), _named(muscles), tuple(groups), minutes, starts)

    def _read_week(self, week: Week) -> WeekFacts:
        sets, frequency = dict[Muscle, float](), dict[Muscle, int]()
        groups, zones, minutes = [0.0] * len(GROUPS), [0] * len(_ZONES), [0.0] * 7
        sessions, exercises = [], set()
        for day, session in week.sessions():
            facts = self.session(session)
            sessions.append(DaySession(day, facts))
            minutes[day] += facts.minutes
            for muscle, count in facts.sets.items():
                sets[muscle] = sets.get(muscle, 0.0) + count
                if count >= TRAINED_FROM:
                    frequency[muscle] = frequency.get(muscle, 0) + 1
            for number, count in enumerate(facts.by_group):
                groups[number] += count
            for at in facts.slots:
                if not at.is_drill:
                    exercises.add(at.slot.exercise)
                    if not at.exercise.timed:
                        zones[_ZONES.index(rep_zone(at.slot.reps.middle))] += at.slot.sets
        return WeekFacts(
            week,
            tuple(sessions),
            sets,
            tuple(groups),
            frequency,
            tuple(zones),
            frozenset(exercises),
            tuple(minutes),
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
        is_drill=exercise.pattern is Pattern.DRILL,
        is_lower=exercise.pattern in LOWER_BODY,
    )


def _named(counts: list[float]) -> dict[Muscle, float]:
    return {muscle: count for muscle, count in zip(MUSCLES, counts, strict=True) if count}
