"""Trends of strength and body mass, and how much of a week was done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.client import StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.loads import LIGHTEST_TEST_KG
from app.domain.program import SlotId, Week
from app.domain.results import CheckIn, SetDone, SlotResult
from app.domain.strength import MAX_REPS, OneRepMax, estimate_one_rep_max
from app.domain.trend import Point, Regression, Trend, trend


@dataclass(frozen=True, slots=True)
class DatedMax:
    """The best estimate of a one-repetition maximum on one day."""

    on: date
    one_rm: OneRepMax


def maxima(
    exercise: ExerciseKey,
    tests: Iterable[StrengthTest],
    results: Iterable[SlotResult] = (),
    *,
    body_kg: float = 0.0,
) -> tuple[DatedMax, ...]:
    """The best 1RM estimate of each day, oldest first, from tests and from sets that were done.

    body_kg: the part of the body's mass that is lifted along, added to every load; without it
    tests at own weight and with help are left out.
    Sets count where their reserve was noted and is 5 at most (hackett2017: larger ones are
    misjudged), and within 10 repetitions to failure, where the equations hold.
    """
    best: dict[date, OneRepMax] = {}

    def offer(day: date, found: OneRepMax) -> None:
        if day not in best or found.median > best[day].median:
            best[day] = found

    for test in tests:
        lifted_kg = test.load_kg + body_kg
        if test.exercise != exercise or lifted_kg < LIGHTEST_TEST_KG:
            continue
        if test.reps + test.rir <= MAX_REPS:
            offer(test.on, estimate_one_rep_max(lifted_kg, test.reps, test.rir))
    for result in results:
        if result.exercise == exercise:
            for done in result.sets:
                lifted_kg = done.load_kg + body_kg
                if lifted_kg >= LIGHTEST_TEST_KG and tells_strength(done):
                    offer(result.on, estimate_one_rep_max(lifted_kg, done.reps, done.rir or 0.0))
    return tuple(DatedMax(day, best[day]) for day in sorted(best))


def tells_strength(done: SetDone) -> bool:
    """True if a set says enough about the maximum."""
    if done.rir is None or done.rir > 5:
        return False
    return done.reps >= 1 and done.reps + done.rir <= 10


def strength_trend(points: Sequence[DatedMax], regression: Regression) -> Trend:
    """The robust trend of estimated 1RM, kg a week. Raises CoachError for under 3 days."""
    return trend([Point(p.on, p.one_rm.median) for p in points], regression)


def mass_trend(check_ins: Iterable[CheckIn], regression: Regression) -> Trend:
    """The robust trend of body mass, kg a week. Raises CoachError for under 3 weighings."""
    points = [Point(c.on, c.mass_kg) for c in check_ins if c.mass_kg is not None]
    return trend(points, regression)


@dataclass(frozen=True, slots=True)
class Adherence:
    """What of a week was done: sets and sessions, planned and done (no more than planned)."""

    planned_sets: int
    done_sets: int
    planned_sessions: int
    done_sessions: int

    @property
    def share(self) -> float:
        """The part of the planned sets that was done; 1.0 where nothing was planned."""
        return self.done_sets / self.planned_sets if self.planned_sets else 1.0


def adherence(week: Week, results: Iterable[SlotResult]) -> Adherence:
    """How much of the week was done. A session counts once one of its sets was done."""
    done: dict[SlotId, int] = {}
    for result in results:
        done[result.slot] = done.get(result.slot, 0) + len(result.sets)
    sessions = [session for _, session in week.sessions() if session.slots]
    slots = [slot for session in sessions for slot in session.slots]
    return Adherence(
        planned_sets=sum(slot.sets for slot in slots),
        done_sets=sum(min(slot.sets, done.get(slot.id, 0)) for slot in slots),
        planned_sessions=len(sessions),
        done_sessions=sum(any(done.get(slot.id) for slot in s.slots) for s in sessions),
    )
