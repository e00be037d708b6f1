"""How the repetition target moves from week to week.

Each path gives, for a number of weeks, the targets of every week: one for each session of the
week in turn, so that a path with one target treats all sessions alike. No model of progression
is clearly better than another (acsm2026, grgic2017-periodisation): the coach chooses.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import assert_never

from app.domain.errors import CoachError
from app.domain.program import MAX_WEEKS, Reps
from app.domain.units import require
from app.domain.wording import tr

MOST_REPS = 30
"""No path asks for more repetitions than this."""


def _require_reps(what: str, *values: int) -> None:
    for value in values:
        require(what, value, low=1, high=MOST_REPS)


def staircase(first: int, last: int, weeks: int) -> tuple[int, ...]:
    """Whole numbers from `first` in the first week to `last` in the last, never turning back.

    With weeks enough every number between is used, each for as many weeks as the next, give or
    take one; the longer steps come early. With fewer weeks the numbers are spread evenly.
    """
    require("number of weeks", weeks, low=1, high=MAX_WEEKS)
    if weeks == 1:
        return (first,)
    down = last < first
    steps = abs(last - first)
    if weeks > steps:
        rungs = [week * (steps + 1) // weeks for week in range(weeks)]
    else:
        rungs = [(2 * week * steps + weeks - 1) // (2 * (weeks - 1)) for week in range(weeks)]
    return tuple(first - rung if down else first + rung for rung in rungs)


@dataclass(frozen=True, slots=True)
class Stepwise:
    """A staircase of repetitions: 15 to 3 over 21 weeks steps down every week or two.

    width: how far the range reaches above the target (0: a single number); whole: the weeks of
    the whole staircase and skip: how many of them lie before the first week, for an excerpt of a
    longer plan.
    """

    first_reps: int = 15
    last_reps: int = 3
    width: int = 0
    whole: int | None = None
    skip: int = 0

    def __post_init__(self) -> None:
        _require_reps("repetitions", self.first_reps, self.last_reps)
        require("width of the range", self.width, low=0, high=10)
        require("weeks skipped", self.skip, low=0, high=MAX_WEEKS - 1)


@dataclass(frozen=True, slots=True)
class Undulating:
    """Another target for each session of the week, in turn: (12, 6, 9) for three sessions.

    last: where each of them arrives in the last week; empty: they stay.
    """

    reps: tuple[int, ...] = (12, 6, 9)
    last: tuple[int, ...] = ()
    width: int = 0

    def __post_init__(self) -> None:
        _require_reps("repetitions", *self.reps, *self.last)
        require("width of the range", self.width, low=0, high=10)
        if not self.reps or (self.last and len(self.last) != len(self.reps)):
            raise CoachError(
                tr(
                    "{reps} targets to begin with and {last} to end with.",
                    reps=len(self.reps),
                    last=len(self.last),
                ),
                mend=tr("Give as many for the last week as for the first."),
            )


@dataclass(frozen=True, slots=True)
class Wave:
    """Repetitions fall over a few weeks and begin again a little lower: 12 10 8, 10 8 6 ...

    lower_by: how much each wave lies below the last; lowest: where waves stop sinking;
    light_end: each wave ends in a light week at its last target.
    """

    reps: tuple[int, ...] = (12, 10, 8)
    lower_by: int = 2
    lowest: int = 3
    light_end: bool = True
    width: int = 0

    def __post_init__(self) -> None:
        _require_reps("repetitions", *self.reps, self.lowest)
        require("width of the range", self.width, low=0, high=10)
        require("repetitions lower each wave", self.lower_by, low=0, high=10)
        require("weeks of a wave", len(self.reps), low=1, high=MAX_WEEKS)

    @property
    def length(self) -> int:
        """Weeks of one wave, its light week included."""
        return len(self.reps) + self.light_end

    def is_light(self, week: int) -> bool:
        """True for the light week at the end of a wave; `week` counts from 0."""
        return self.light_end and week % self.length == self.length - 1


@dataclass(frozen=True, slots=True)
class DoubleProgression:
    """The same range every week; the load rises once the upper end is done in every set."""

    low: int = 8
    high: int = 12

    def __post_init__(self) -> None:
        _require_reps("repetitions", self.low, self.high)
        require("upper end of the range", self.high, low=self.low, high=MOST_REPS)


RepPath = Stepwise | Undulating | Wave | DoubleProgression


def targets(path: RepPath, weeks: int) -> tuple[tuple[Reps, ...], ...]:
    """For each of `weeks` weeks, the target of its sessions in turn.

    Raises QuantityError outside 1 to 52 weeks, and where an excerpt runs past its whole.
    """
    require("number of weeks", weeks, low=1, high=MAX_WEEKS)
    match path:
        case Stepwise():
            return _stepwise(path, weeks)
        case Undulating():
            ends = path.last or path.reps
            stairs = [staircase(a, b, weeks) for a, b in zip(path.reps, ends, strict=True)]
            return tuple(
                tuple(_range(reps, path.width) for reps in week)
                for week in zip(*stairs, strict=True)
            )
        case Wave():
            return tuple((_range(_crest(path, week), path.width),) for week in range(weeks))
        case DoubleProgression():
            return ((Reps(path.low, path.high),),) * weeks
        case _:
            assert_never(path)


def _range(reps: int, width: int) -> Reps:
    return Reps(reps, reps + width)


def _stepwise(path: Stepwise, weeks: int) -> tuple[tuple[Reps, ...], ...]:
    whole = path.whole if path.whole is not None else path.skip + weeks
    require("weeks of the whole staircase", whole, low=path.skip + weeks, high=MAX_WEEKS)
    stairs = staircase(path.first_reps, path.last_reps, whole)
    return tuple((_range(reps, path.width),) for reps in stairs[path.skip : path.skip + weeks])


def _crest(path: Wave, week: int) -> int:
    """The target of one week of a wave."""
    wave, at = divmod(week, path.length)
    reps = path.reps[min(at, len(path.reps) - 1)]
    return max(path.lowest, reps - wave * path.lower_by)
