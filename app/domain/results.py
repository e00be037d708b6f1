"""What was really done and noted: sets with their loads, and check-ins between sessions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from itertools import pairwise
from typing import TypeVar

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.program import MAX_SECONDS, ProgramId, SlotId, require_name
from app.domain.units import require
from app.domain.wording import mark, tr


@dataclass(frozen=True, slots=True)
class SetDone:
    """One set as it was done.

    load_kg in the exercise's own terms (0 for own weight alone, below 0 for help); reps: seconds
    for timed exercises; rir: repetitions left in reserve as the client judged it, None unknown.
    """

    load_kg: float
    reps: int
    rir: float | None = None

    def __post_init__(self) -> None:
        require("load lifted, kg", self.load_kg, low=-300, high=1000)
        require("repetitions done", self.reps, low=0, high=MAX_SECONDS)
        if self.rir is not None:
            require("repetitions in reserve", self.rir, low=0, high=10)


ResultKey = tuple[date, ProgramId, SlotId]
"""What a diary holds one result for, in the order it holds them."""


@dataclass(frozen=True, slots=True)
class SlotResult:
    """What was done of one slot on one day, set by set; no sets: it was left out.

    slot: its number in `program`; exercise: what was done, which may not be what was meant.
    """

    program: ProgramId
    slot: SlotId
    exercise: ExerciseKey
    on: date
    sets: tuple[SetDone, ...]
    note: str = ""

    @property
    def key(self) -> ResultKey:
        """The day, program and slot that there is one result for."""
        return self.on, self.program, self.slot


class Site(StrEnum):
    """Where a girth is taken, head to foot."""

    NECK = "neck"
    CHEST = "chest"
    WAIST = "waist"
    HIPS = "hips"
    UPPER_ARM = "upper_arm"
    THIGH = "thigh"
    CALF = "calf"


_SITES = tuple(Site)


@dataclass(frozen=True, slots=True)
class Girth:
    """The distance around the body at a site, cm."""

    site: Site
    cm: float

    def __post_init__(self) -> None:
        require("girth, cm", self.cm, low=10, high=300)


@dataclass(frozen=True, slots=True)
class CheckIn:
    """What a client reports between sessions; what was not asked is None.

    mass_kg in the morning; kcal eaten that day; sleep, soreness, mood and stress from 1 (poor) to
    5 (good; 5 is no soreness, no stress); adherence: the part of the training that was done, 0 to
    1, as the client judged it; girths: one a site, head to foot; pictures: names of files in the
    folder for pictures beside the coach's file. Raises QuantityError outside the ranges, and
    CoachError for two girths at one site and for names that lead elsewhere.
    """

    on: date
    mass_kg: float | None = None
    kcal: float | None = None
    sleep: int | None = None
    soreness: int | None = None
    mood: int | None = None
    note: str = ""
    stress: int | None = None
    adherence: float | None = None
    girths: tuple[Girth, ...] = ()
    pictures: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.mass_kg is not None:
            require("body mass, kg", self.mass_kg, low=25, high=400)
        if self.kcal is not None:
            require("energy eaten, kcal", self.kcal, low=0, high=15_000)
        for name, value in (
            (mark("sleep"), self.sleep),
            (mark("soreness"), self.soreness),
            (mark("mood"), self.mood),
            (mark("stress"), self.stress),
        ):
            if value is not None:
                require(name, value, low=1, high=5)
        if self.adherence is not None:
            require("part of the training done", self.adherence, low=0, high=1)
        if self.girths:
            self._order_girths()
        for name in self.pictures:
            require_name(name, "picture")
            if name in (".", "..") or "/" in name or "\\" in name:
                raise CoachError(
                    tr("{name!r} is no name of a picture.", name=name),
                    mend=tr("Add the picture again from its folder."),
                )

    def _order_girths(self) -> None:
        girths = tuple(sorted(self.girths, key=lambda girth: _SITES.index(girth.site)))
        if any(a.site == b.site for a, b in pairwise(girths)):
            raise CoachError(
                tr("Two girths are given for one site."), mend=tr("Keep one of the two.")
            )
        object.__setattr__(self, "girths", girths)


T = TypeVar("T", CheckIn, SlotResult)


@dataclass(frozen=True, slots=True)
class Diary:
    """All that one client did and reported.

    check_ins by day, one a day; results by day, program and slot, one for each of these. Given in
    another order they are sorted. Raises CoachError for two of one key.
    """

    check_ins: tuple[CheckIn, ...] = ()
    results: tuple[SlotResult, ...] = ()

    def __post_init__(self) -> None:
        days = [check_in.on for check_in in self.check_ins]
        if not all(a < b for a, b in pairwise(days)):
            object.__setattr__(self, "check_ins", _in_order(self.check_ins, days))
        keys = [result.key for result in self.results]
        if not all(a < b for a, b in pairwise(keys)):
            object.__setattr__(self, "results", _in_order(self.results, keys))

    def check_in(self, day: date) -> CheckIn | None:
        """What was reported on `day`, if anything was."""
        return next((one for one in self.check_ins if one.on == day), None)

    def with_check_in(self, check_in: CheckIn) -> Diary:
        """The diary with `check_in` in the place of that day's."""
        others = tuple(one for one in self.check_ins if one.on != check_in.on)
        return Diary((*others, check_in), self.results)

    def without_check_in(self, day: date) -> Diary:
        """The diary with nothing reported on `day`."""
        return Diary(tuple(one for one in self.check_ins if one.on != day), self.results)

    def with_results(self, results: Iterable[SlotResult]) -> Diary:
        """The diary with `results`, each in the place of the one of its key."""
        kept = {result.key: result for result in self.results}
        kept.update((result.key, result) for result in results)
        return Diary(self.check_ins, tuple(kept.values()))

    def without_results(self, keys: Iterable[ResultKey]) -> Diary:
        """The diary without the results of these keys."""
        gone = frozenset(keys)
        return Diary(self.check_ins, tuple(r for r in self.results if r.key not in gone))

    def results_of(self, program: ProgramId) -> tuple[SlotResult, ...]:
        """What was done of one program, in the order of days and slots."""
        return tuple(result for result in self.results if result.program == program)


def _in_order(values: tuple[T, ...], keys: list[date] | list[ResultKey]) -> tuple[T, ...]:
    if len(set(keys)) < len(keys):
        raise CoachError(
            tr("Two entries of the diary stand for the same day and exercise."),
            mend=tr("Keep one of the two."),
        )
    order = sorted(range(len(keys)), key=keys.__getitem__)
    return tuple(values[place] for place in order)
