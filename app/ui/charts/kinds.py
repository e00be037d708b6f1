"""The charts there are, whose they are, and what one of them is as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from app.domain.client import Client
from app.domain.exercise import Catalogue, ExerciseKey, Muscle
from app.domain.handed_out import PrintedWeek
from app.domain.program import Program, WeekId
from app.domain.progress.reported import GirthSeries, MarkSeries
from app.domain.progress.series import EVERY_DAY, Days, MassSeries, StrengthSeries
from app.domain.progress.weeks import WeekDone
from app.domain.results import Diary
from app.domain.wording import mark

MOST_MUSCLES = 6
"""More small charts of muscles than these cannot be read side by side."""


class Kind(StrEnum):
    """The charts there are, in the order of the list."""

    STRENGTH = "strength"
    SETS = "sets"
    TONNAGE = "tonnage"
    ADHERENCE = "adherence"
    MASS = "mass"
    MUSCLES = "muscles"
    GIRTHS = "girths"
    MARKS = "marks"


NAMES = {
    Kind.STRENGTH: mark("Strength"),
    Kind.SETS: mark("Sets against plan"),
    Kind.TONNAGE: mark("Tonnage against plan"),
    Kind.ADHERENCE: mark("Adherence"),
    Kind.MASS: mark("Body mass"),
    Kind.MUSCLES: mark("Sets for each muscle"),
    Kind.GIRTHS: mark("Girths"),
    Kind.MARKS: mark("Sleep, soreness, stress, mood"),
}

NO_PROGRAM = mark("No program is open. Open one of the client's programs to see its weeks here.")
NO_RESULTS = mark(
    "No results yet. Enter what was done under Client, Enter results, or take in a booklet "
    "that came back filled."
)
NO_MASS = mark("No body mass yet. Enter a check-in under Client, Check-ins.")
NO_GIRTHS = mark("No girth yet. Enter one with a check-in under Client, Check-in.")
NO_MARKS = mark("No marks yet. Ask for sleep and mood with a check-in under Client, Check-in.")
NO_STRENGTH = mark(
    "No strength to show yet. Enter a strength test, or results with the repetitions left in "
    "reserve: both under Client."
)


ACTS = {
    "check_in": mark("Enter a check-in…"),
    "results": mark("Enter results…"),
    "strength_test": mark("Enter a test…"),
}
"""The forms that fill an empty chart, as the button below its sentence names them."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Whose charts these are, and all they draw on. printed: weeks as they were handed out."""

    client: Client
    program: Program | None
    diary: Diary
    catalogue: Catalogue
    printed: Mapping[WeekId, PrintedWeek] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Choice:
    """Which chart. exercise: for strength; days: the days that are shown; muscles: for theirs."""

    kind: Kind
    days: Days = EVERY_DAY
    exercise: ExerciseKey | None = None
    muscles: tuple[Muscle, ...] = ()


@dataclass(frozen=True, slots=True)
class Chart:
    """One chart as values.

    empty: what to do next where there is nothing to draw, else empty; act: the key in ACTS of the
    form that does it; text: what is to be seen,
    in sentences; head and rows: the same as a table; series: what the drawing needs.
    """

    kind: Kind
    title: str
    units: str
    text: str
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    empty: str = ""
    act: str = ""
    strength: StrengthSeries | None = None
    mass: MassSeries | None = None
    weeks: tuple[WeekDone, ...] = ()
    muscles: tuple[Muscle, ...] = ()
    girths: tuple[GirthSeries, ...] = ()
    marks: tuple[MarkSeries, ...] = ()
