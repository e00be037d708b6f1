"""The program as the booklet sums it up: per week the sets, the reps of the core lifts, the block.

Computed once per booklet; every page reads the same figures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from statistics import median

from app.domain.dose import weekly_sets
from app.domain.exercise import Catalogue, Muscle, Pattern
from app.domain.program import Program, Role, Week


@dataclass(frozen=True, slots=True)
class WeekSum:
    """One week in figures.

    number counts from 1; muscles: fractional sets for each muscle that gets any; sets: of the
    first emphasised muscle, or of all exercises where nothing is emphasised; reps: lowest, middle
    and highest target of the core lifts (of all where no lift is core), None without any.
    """

    number: int
    start: date
    light: bool
    block: str
    muscles: Mapping[Muscle, float]
    sets: float
    reps: tuple[int, float, int] | None
    empty: bool


@dataclass(frozen=True, slots=True)
class Season:
    """All weeks in figures; emphasis is the first emphasised muscle, if there is one."""

    weeks: tuple[WeekSum, ...]
    emphasis: Muscle | None

    @property
    def light(self) -> tuple[int, ...]:
        """The numbers of the light weeks."""
        return tuple(week.number for week in self.weeks if week.light)

    @property
    def most_sets(self) -> float:
        """The sets of the fullest week."""
        return max((week.sets for week in self.weeks), default=0.0)


def sum_up(program: Program, catalogue: Catalogue) -> Season:
    """The program in figures. Raises UnknownExercise for a slot the catalogue does not hold."""
    emphasis = program.emphasis[0] if program.emphasis else None
    weeks = []
    for index, week in enumerate(program.weeks):
        muscles = weekly_sets(week, catalogue)
        every = float(sum(slot.sets for slot in week.slots()))
        weeks.append(
            WeekSum(
                number=index + 1,
                start=program.week_start(index),
                light=week.light,
                block=program.blocks[program.block_of(index)].name,
                muscles=muscles,
                sets=every if emphasis is None else muscles.get(emphasis, 0.0),
                reps=_core_reps(week, catalogue),
                empty=not every,
            )
        )
    return Season(tuple(weeks), emphasis)


def _core_reps(week: Week, catalogue: Catalogue) -> tuple[int, float, int] | None:
    """Lowest, middle and highest repetitions of the core lifts."""
    counted = [
        slot
        for slot in week.slots()
        if not catalogue[slot.exercise].timed
        and catalogue[slot.exercise].pattern is not Pattern.DRILL
    ]
    core = [slot for slot in counted if slot.role is Role.CORE] or counted
    if not core:
        return None
    low = min(slot.reps.low for slot in core)
    high = max(slot.reps.high for slot in core)
    return low, median(slot.reps.middle for slot in core), high
