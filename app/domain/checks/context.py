"""For whom a program is checked, and what of it stays the same while weeks are edited."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from datetime import date, timedelta

from app.domain.activation import highest_amplitude
from app.domain.client import Client, Limitation
from app.domain.exercise import Catalogue, Equipment, Exercise, ExerciseKey, Motion, Muscle, Reach
from app.domain.facts import FactsMemo, WeekFacts
from app.domain.findings import Finding
from app.domain.muscle_groups import GROUP_OF
from app.domain.program import Program
from app.domain.ranges import Range, RangeBook

ANGLELESS = frozenset({Motion.OVERHEAD, Motion.COMPRESSION, Motion.IMPACT})
"""Motions that a limitation rules out as such, whatever angle it names."""


@dataclass(frozen=True, slots=True)
class Breach:
    """A limitation that an exercise breaks, and the reach that breaks it."""

    limitation: Limitation
    reach: Reach


class Context:
    """A client, a catalogue, a range book and a program's aims, with what follows from them.

    Bands and exercise verdicts are remembered, because a drag asks for them hundreds of times.
    """

    def __init__(
        self, program: Program, client: Client, catalogue: Catalogue, ranges: RangeBook
    ) -> None:
        self.client = client
        self.catalogue = catalogue
        self.ranges = ranges
        self.start = program.start
        self.curve = program.curve
        self.emphasis: tuple[Muscle, ...] = program.emphasis or client.emphasis
        self.emphasised_groups = frozenset(GROUP_OF[muscle] for muscle in self.emphasis)
        self.facts = FactsMemo(catalogue, program.curve)
        self.kept: dict[object, object] = {}
        """What single rules work out once, by a key of their own."""
        self.unchanging: dict[
            int, tuple[WeekFacts, frozenset[ExerciseKey], tuple[Finding, ...]]
        ] = {}
        """Findings on exercises that stay the same, by the identity of the week they stand in."""
        self._bands: dict[tuple[str, str, int], Range | None] = {}
        self._caps: dict[int, Range | None] = {}
        self._dated = _dated_rules(ranges)
        self._edges = _week_edges(ranges)
        self._phases: dict[int, int] = {}
        self._first_of: dict[tuple[int | None, int], int] = {}
        self._breaches: dict[ExerciseKey, tuple[Breach, ...]] = {}
        self._amplitudes: dict[tuple[ExerciseKey, Muscle], float | None] = {}
        self._missing: dict[tuple[ExerciseKey, str], tuple[Equipment, ...]] = {}

    def suits(
        self, program: Program, client: Client, catalogue: Catalogue, ranges: RangeBook
    ) -> bool:
        """True if what is remembered here still holds for these."""
        return (
            self.client is client
            and self.catalogue is catalogue
            and self.ranges is ranges
            and self.start == program.start
            and self.curve == program.curve
            and self.emphasis == (program.emphasis or client.emphasis)
        )

    def band(self, rule: str, kind: str = "", *, index: int = 0) -> Range | None:
        """The range of a rule for this client in the plan's week `index`; None without one."""
        question = (rule, kind, self._phase(index) if rule in self._dated else 0)
        try:
            return self._bands[question]
        except KeyError:
            found = self.ranges.find(
                rule,
                self.client.status,
                goal=self.client.goal,
                kind=kind,
                age=self.client.age_on(self.week_start(index)),
                week=index + 1,
            )
            self._bands[question] = found
            return found

    def _phase(self, index: int) -> int:
        """The first week asked about that is like week `index` for every range.

        Alike are weeks of the same age of the client and between the same edges of ranges.
        """
        phase = self._phases.get(index)
        if phase is None:
            age = self.client.age_on(self.week_start(index))
            key = (age, bisect_right(self._edges, index + 1))
            phase = self._phases[index] = self._first_of.setdefault(key, index)
        return phase

    def cap(self, day: int) -> Range | None:
        """The minutes that the client has on a weekday, as a range; None if nothing is known."""
        if day not in self._caps:
            known = any(free.minutes for free in self.client.free)
            band = self.band("session_minutes") if known else None
            minutes = float(self.client.free[day].minutes)
            self._caps[day] = band and replace(own_word(band), high=minutes)
        return self._caps[day]

    def week_start(self, index: int) -> date:
        """The Monday of week `index`."""
        return self.start + timedelta(weeks=index)

    def day_date(self, index: int, day: int) -> date:
        """The date of a day, 0 for Monday, of week `index`."""
        return self.start + timedelta(weeks=index, days=day)

    def breaches(self, exercise: Exercise) -> tuple[Breach, ...]:
        """Limitations of the client, in force or not, that the exercise breaks."""
        found = self._breaches.get(exercise.key)
        if found is None:
            found = self._breaches[exercise.key] = breaches(exercise, self.client)
        return found

    def amplitude(self, exercise: Exercise, muscle: Muscle) -> float | None:
        """The highest amplitude reported of the exercise for the muscle, % MVIC; None without."""
        question = (exercise.key, muscle)
        if question not in self._amplitudes:
            self._amplitudes[question] = highest_amplitude(exercise, muscle)
        return self._amplitudes[question]

    def missing(self, exercise: Exercise, day: int) -> tuple[Equipment, ...]:
        """Equipment that the exercise needs and that is not where the client trains that day."""
        question = (exercise.key, self.client.free[day].place)
        found = self._missing.get(question)
        if found is None:
            found = self._missing[question] = missing_equipment(exercise, self.client, day)
        return found


def own_word(band: Range, word: str = "") -> Range:
    """The range with the client's own word as its source: `word`, or what its note says."""
    return replace(band, source=word or band.note or band.source, note="")


def _all_ranges(ranges: RangeBook) -> list[Range]:
    shipped = [one for several in ranges.ranges.values() for one in several]
    return shipped + [override.range for override in ranges.overrides]


def _dated_rules(ranges: RangeBook) -> frozenset[str]:
    """Rules whose ranges depend on the plan's week or the client's age."""
    return frozenset(
        one.rule
        for one in _all_ranges(ranges)
        if any(
            edge is not None
            for edge in (one.who.age_low, one.who.age_high, one.who.week_low, one.who.week_high)
        )
    )


def _week_edges(ranges: RangeBook) -> list[int]:
    """Weeks of a plan, counted from 1, from which some range begins or no longer holds."""
    edges = set()
    for one in _all_ranges(ranges):
        if one.who.week_low is not None:
            edges.add(one.who.week_low)
        if one.who.week_high is not None:
            edges.add(one.who.week_high + 1)
    return sorted(edges)


def breaches(exercise: Exercise, client: Client) -> tuple[Breach, ...]:
    """Limitations of the client, in force or not, that the exercise's reaches break."""
    return tuple(
        Breach(limitation, reach)
        for limitation in client.limitations
        for reach in exercise.reaches
        if _breaks(reach, limitation)
    )


def _breaks(reach: Reach, limitation: Limitation) -> bool:
    if reach.joint is not limitation.joint or reach.motion is not limitation.motion:
        return False
    if limitation.past_degrees is None or reach.motion in ANGLELESS:
        return True
    return reach.degrees > limitation.past_degrees


def missing_equipment(
    exercise: Exercise, client: Client, day: int | None = None
) -> tuple[Equipment, ...]:
    """Equipment that the exercise needs and the client does not have.

    day: the weekday (0 for Monday) whose place counts; without one, what is missing at the place
    of the client's that lacks least, and nothing if one of them has it all.
    """
    if day is not None or not client.places:
        there = client.equipment if day is None else client.equipment_on(day)
        return _lacking(exercise, there)
    trained_at = [client.equipment, *(place.equipment for place in client.places)]
    return min((_lacking(exercise, there) for there in trained_at), key=len)


def _lacking(exercise: Exercise, there: frozenset[Equipment]) -> tuple[Equipment, ...]:
    return tuple(
        thing for thing in exercise.equipment if thing is not Equipment.BODY and thing not in there
    )
