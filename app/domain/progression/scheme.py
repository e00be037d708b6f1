"""A scheme: which weeks, how the repetitions move, and what effort and sets do meanwhile."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.errors import EditError
from app.domain.exercise import Exercise
from app.domain.program import MAX_REPS, Program, Reps, Role, Slot, StrandId
from app.domain.progression.paths import RepPath, Stepwise, Wave
from app.domain.units import require
from app.domain.wording import tr

_STEPS = {Rir: 1.0, PercentOneRm: 2.5, PercentRepMax: 2.5}
"""What an effort on its way is rounded to."""


@dataclass(frozen=True, slots=True)
class Floors:
    """The fewest repetitions by what an exercise is for. Common practice.

    Core lifts follow the path. Assistance and single-joint exercises never go below their floor,
    nor out of the exercise's own usable zone.
    """

    core: int = 1
    assistance: int = 8
    single_joint: int = 8

    def __post_init__(self) -> None:
        for value in (self.core, self.assistance, self.single_joint):
            require("lowest repetitions", value, low=1, high=30)

    def lowest(self, slot: Slot, exercise: Exercise) -> int:
        """The floor that holds for this slot, light weeks included."""
        if slot.role is Role.CORE and exercise.multi_joint:
            return self.core
        floor = self.assistance if exercise.multi_joint else self.single_joint
        return max(floor, exercise.rep_low)

    def kept(self, reps: Reps, slot: Slot, exercise: Exercise) -> Reps:
        """The target, moved as little as needed to keep the floor that holds for this slot."""
        floor, ceiling = self.lowest(slot, exercise), MAX_REPS
        if slot.role is not Role.CORE or not exercise.multi_joint:
            ceiling = max(floor, exercise.rep_high)
        low = min(max(reps.low, floor), ceiling)
        high = min(low + reps.high - reps.low, ceiling)
        return reps if low == reps.low and high == reps.high else Reps(low, high)


@dataclass(frozen=True, slots=True)
class EffortPath:
    """Effort that moves evenly from the first week to the last; both of the same form.

    RIR moves in whole repetitions, per cent in steps of 2.5.
    """

    first: Effort
    last: Effort

    def __post_init__(self) -> None:
        if type(self.first) is not type(self.last):
            raise EditError(
                tr("The effort begins in one form and ends in another."),
                mend=tr("Give both as RIR, as % of 1RM or as % of the rep-max load."),
            )

    def at(self, week: int, weeks: int) -> Effort:
        """The effort of week `week` of `weeks`, counted from 0."""
        start, end = _amount(self.first), _amount(self.last)
        if week == 0 or start == end:
            return self.first
        if week == weeks - 1:
            return self.last
        step = _STEPS[type(self.first)]
        way = start + (end - start) * week / (weeks - 1)
        return type(self.first)(
            min(max(round(way / step) * step, min(start, end)), max(start, end))
        )


def _amount(effort: Effort) -> float:
    return effort.reps if isinstance(effort, Rir) else effort.percent


@dataclass(frozen=True, slots=True)
class SetsPath:
    """Sets that rise (or fall) by `change` for each slot until the last week.

    They start from what each strand has in the first ordinary week. most_rise: the largest rise
    of the week's sets on the ordinary week before, as a part (0.2 is common practice); where it
    would be passed, later slots wait.
    """

    change: int
    most_rise: float = 0.2

    def __post_init__(self) -> None:
        require("change in sets", self.change, low=-10, high=10)
        require("largest weekly rise", self.most_rise, low=0, high=1)

    def wanted(self, base: int, *, week: int, weeks: int) -> int:
        """The sets of a slot in week `week` of `weeks`, before the cap; at least 1, at most 20."""
        moved = round(self.change * week / (weeks - 1)) if weeks > 1 else 0
        return min(20, max(1, base + moved))


LIGHT_LOWEST = 3
"""A light week takes no set under so many repetitions, though a path may. Common practice."""


@dataclass(frozen=True, slots=True)
class Light:
    """Light weeks: every so many weeks of the scheme, and the weeks named.

    Half the sets, rounded down (see `edits.weeks.lightened`). Where the scheme sets the effort,
    `fewer_reps` are taken off each set and put in reserve, so that the load stays what it was;
    no further than the floors, the path's own lowest and LIGHT_LOWEST allow. A scheme that sets
    light weeks sets all of them: earlier ones in its reach become ordinary.
    Sources: rogerson2024 (about every 5.6 weeks, mostly fewer sets; value from memory), bell2023.
    """

    every: int | None = 4
    weeks: frozenset[int] = frozenset()
    fewer_reps: int = 2

    def __post_init__(self) -> None:
        if self.every is not None:
            require("weeks from one light week to the next", self.every, low=2, high=52)
        require("fewer repetitions", self.fewer_reps, low=0, high=5)


@dataclass(frozen=True, slots=True)
class Scheme:
    """A progression over the weeks `first` to `last` (indices from 0, both included).

    last None: to the end of the program. effort: for core lifts, and for the others too unless
    assistance_effort is given; None leaves effort as it is. strands: only these (empty: all).
    """

    path: RepPath = Stepwise()
    first: int = 0
    last: int | None = None
    floors: Floors = Floors()
    effort: EffortPath | None = None
    assistance_effort: EffortPath | None = None
    sets: SetsPath | None = None
    light: Light | None = None
    strands: frozenset[StrandId] = frozenset()

    def span(self, program: Program) -> range:
        """The week indices it reaches in the program. Raises EditError outside the program."""
        end = len(program.weeks) - 1 if self.last is None else self.last
        if not 0 <= self.first <= end < len(program.weeks):
            raise EditError(
                tr(
                    "Weeks {first} to {end} are not all in the program.",
                    first=self.first + 1,
                    end=end + 1,
                ),
                where=program.name,
                mend=tr(
                    "Choose from weeks 1 to {weeks}, the first before the last.",
                    weeks=len(program.weeks),
                ),
            )
        return range(self.first, end + 1)

    def makes_light(self, index: int) -> bool:
        """True if week `index` (from 0) is to be a light one."""
        at = index - self.first
        if isinstance(self.path, Wave) and self.path.is_light(at):
            return True
        if self.light is None:
            return False
        in_turn = self.light.every is not None and (at + 1) % self.light.every == 0
        return in_turn or index in self.light.weeks

    @property
    def sets_light_weeks(self) -> bool:
        """True if it says itself which of its weeks are light; else those of the plan stay."""
        by_wave = isinstance(self.path, Wave) and self.path.light_end
        return by_wave or self.light is not None

    def lowest(self, slot: Slot, exercise: Exercise) -> int:
        """The fewest repetitions that a light week may leave this slot."""
        floor = max(LIGHT_LOWEST, self.floors.lowest(slot, exercise))
        return max(floor, self.path.lowest) if isinstance(self.path, Wave) else floor

    def effort_path(self, slot: Slot) -> EffortPath | None:
        """The effort path that holds for the slot."""
        if slot.role is Role.ASSISTANCE and self.assistance_effort is not None:
            return self.assistance_effort
        return self.effort

    @property
    def fewer_reps(self) -> int:
        """What light weeks take off each set."""
        return (self.light or Light()).fewer_reps


@dataclass(frozen=True, slots=True)
class Series:
    """Schemes one after another, each with its own weeks."""

    schemes: tuple[Scheme, ...]


def by_block(program: Program, schemes: tuple[Scheme, ...]) -> Series:
    """One scheme for each block of the program, in order. Raises EditError if they do not match."""
    if len(schemes) != len(program.blocks):
        raise EditError(
            tr(
                "{schemes} schemes for {blocks} blocks.",
                schemes=len(schemes),
                blocks=len(program.blocks),
            ),
            where=program.name,
            mend=tr("Give one scheme for each block."),
        )
    reaches = (program.block_range(number) for number in range(len(schemes)))
    return Series(
        tuple(
            replace(scheme, first=reach.start, last=reach.stop - 1)
            for scheme, reach in zip(schemes, reaches, strict=True)
        )
    )
