"""The person a plan is for: what the coach asked, measured and agreed on.

Only what the engine and the booklet need; contact details and notes stay plain text.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import NewType

from app.domain.errors import CoachError
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Muscle
from app.domain.program import require_name
from app.domain.units import (
    HEAVIEST_PLATE_KG,
    KG_PER_LB,
    LIGHTEST_PLATE_KG,
    require,
    require_bar,
    require_plate,
)
from app.domain.wording import mark, tr

ClientId = NewType("ClientId", str)


class Sex(StrEnum):
    """Sex for the equations; AVERAGE takes the mean of both."""

    FEMALE = "f"
    MALE = "m"
    AVERAGE = "average"


class Status(StrEnum):
    """Training status: novice (no experience or years off), intermediate (about six months of
    regular training), advanced (years). Source: acsm2009.
    """

    NOVICE = "novice"
    INTERMEDIATE = "intermediate"
    ADVANCED = "advanced"


class Goal(StrEnum):
    """What the training is for."""

    HYPERTROPHY = "hypertrophy"
    STRENGTH = "strength"
    HEALTH = "health"


class EnergyGoal(StrEnum):
    """Where body mass is meant to go."""

    GAIN = mark("gain")
    HOLD = mark("hold")
    LOSE = mark("lose")


class Stage(StrEnum):
    """Where the work with a client stands."""

    ENQUIRY = "enquiry"
    ACTIVE = "active"
    PAUSED = "paused"
    ENDED = "ended"


class Side(StrEnum):
    """Which side a limitation is on."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class FreeTime:
    """What a client has on one weekday: minutes for training (0: not free) and why.

    place: the name of the place trained at; empty for the usual one.
    """

    minutes: int = 0
    note: str = ""
    place: str = ""

    def __post_init__(self) -> None:
        require("minutes a day", self.minutes, low=0, high=600)


@dataclass(frozen=True, slots=True)
class Limitation:
    """A joint motion that is ruled out, past an angle or altogether, for a time.

    past_degrees: angles beyond it are forbidden; None forbids the motion as such.
    since and until are inclusive; None leaves that end open. until is the day to look again with
    whoever set the limitation: it lifts nothing, the checks then ask instead of forbidding.
    """

    joint: Joint
    motion: Motion
    side: Side = Side.BOTH
    past_degrees: int | None = None
    since: date | None = None
    until: date | None = None
    note: str = ""

    def applies_on(self, day: date) -> bool:
        """True if the limitation is in force on `day`."""
        return (self.since is None or self.since <= day) and (
            self.until is None or day <= self.until
        )


@dataclass(frozen=True, slots=True)
class StrengthTest:
    """Repetitions done to (near) failure with a load.

    load_kg in the exercise's own terms (per hand for dumbbells; with body-weight exercises what
    was added: 0 for none, below 0 for help, down to -100); rir: repetitions left in reserve as
    the client judged it; guessed_from: the related exercise that a confirmed guess was made from,
    None for a test that was done.
    """

    exercise: ExerciseKey
    on: date
    load_kg: float
    reps: int
    rir: float = 0.0
    note: str = ""
    guessed_from: ExerciseKey | None = None

    def __post_init__(self) -> None:
        require("load lifted, kg", self.load_kg, low=-100, high=600)
        require("repetitions", self.reps, low=1, high=30)
        require("repetitions in reserve", self.rir, low=0, high=10)


_USUAL_BANDS = (mark("light"), mark("medium"), mark("heavy"))


def band_name(grade: str) -> str:
    """The grade of a band: the usual ones as they are said at the moment, others as written."""
    return tr(grade) if grade in _USUAL_BANDS else grade


@dataclass(frozen=True, slots=True)
class Increments:
    """What there is to load with, kg.

    plates_kg: sizes for a bar, pairs of each as needed; dumbbells_kg: lightest, step, heaviest;
    machine_step_kg and cable_step_kg: the step of the stacks; bands: grades from light to heavy,
    none where there are none. Raises QuantityError that names what there cannot be, and
    CoachError for a band without a name.
    """

    bar_kg: float = 20.0
    plates_kg: tuple[float, ...] = (25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25)
    dumbbells_kg: tuple[float, float, float] = (2.0, 2.0, 40.0)
    machine_step_kg: float = 5.0
    cable_step_kg: float = 2.5
    bands: tuple[str, ...] = _USUAL_BANDS

    def __post_init__(self) -> None:
        require_bar(self.bar_kg)
        for size_kg in self.plates_kg:
            require_plate(size_kg)
        if len(self.dumbbells_kg) != 3:
            raise CoachError(
                tr(
                    "The dumbbells have {dumbbells_kg} figures.",
                    dumbbells_kg=len(self.dumbbells_kg),
                ),
                mend=tr("Give three: the lightest, the step and the heaviest, kg."),
            )
        lightest, step, heaviest = self.dumbbells_kg
        require("lightest dumbbell, kg", lightest, low=LIGHTEST_PLATE_KG, high=200)
        require("step of the dumbbells, kg", step, low=LIGHTEST_PLATE_KG, high=HEAVIEST_PLATE_KG)
        require("heaviest dumbbell, kg", heaviest, low=lightest, high=200)
        for what, size in (
            (mark("machine step, kg"), self.machine_step_kg),
            (mark("cable step, kg"), self.cable_step_kg),
        ):
            require(what, size, low=LIGHTEST_PLATE_KG, high=HEAVIEST_PLATE_KG)
        for band in self.bands:
            require_name(band, "band")

    @classmethod
    def pounds(cls) -> Increments:
        """What a gym with pounds commonly has, in kg: bar 45 lb, plates down to 2.5 lb, dumbbells
        5 to 100 lb by 5, stacks by 10 lb. Common practice.
        """
        return cls(
            bar_kg=45 * KG_PER_LB,
            plates_kg=tuple(size * KG_PER_LB for size in (45, 35, 25, 10, 5, 2.5)),
            dumbbells_kg=(5 * KG_PER_LB, 5 * KG_PER_LB, 100 * KG_PER_LB),
            machine_step_kg=10 * KG_PER_LB,
            cable_step_kg=10 * KG_PER_LB,
        )


_KILOGRAMS = Increments()


@dataclass(frozen=True, slots=True)
class Place:
    """A place to train at beside the usual one, with what stands there.

    Raises CoachError for an empty name.
    """

    name: str
    equipment: frozenset[Equipment] = frozenset({Equipment.BODY})
    increments: Increments = field(default_factory=Increments)

    def __post_init__(self) -> None:
        require_name(self.name, "place")


@dataclass(frozen=True, slots=True)
class Consent:
    """The client's agreement that records on health are kept: when it was given, and how."""

    on: date
    note: str = ""


class Outcome(StrEnum):
    """What a screening says about starting, worded as a prompt and never as a diagnosis."""

    MAY_START = "may_start"
    MODERATE_ONLY = "moderate_only"  # up to moderate effort until a practitioner has cleared more
    SEE_PRACTITIONER = "see_practitioner"  # no training before clearance


@dataclass(frozen=True, slots=True)
class Screening:
    """Answers to the pre-participation questions, and clearance by a practitioner if any.

    Source of the logic: riebe2015 (in our words; value from memory).
    """

    on: date
    active: bool
    known_disease: bool
    symptoms: bool
    pregnant: bool = False
    cleared_on: date | None = None
    note: str = ""


NO_TIME = (FreeTime(),) * 7

MOST_MASS_KG = 350

LEAST_FAT_FREE_KG = 1
"""Above nothing; whether it is less than the body mass is asked where it is used (`energy`)."""

PAPERS = ("", "A4", mark("Letter"), "A5")
"""Sizes of paper for a client's papers; empty for the coach's."""


def tidy_tags(tags: Iterable[str]) -> tuple[str, ...]:
    """Tags without white space around them, blanks and doubles, sorted."""
    return tuple(sorted({tag.strip() for tag in tags} - {""}))


@dataclass(frozen=True, slots=True)
class Client:
    """One client. Everything but the id and the name may be missing.

    free: seven weekdays, Monday first; emphasis: muscles in order of priority; kcal_now: what the
    client eats now, kcal a day, where known; energy_goal: None while energy is no subject;
    activity_level: physical activity level, training included (FAO classes: 1.40 to 2.40);
    refer: reasons why numbers on energy must come from a practitioner ('kidney disease',
    'history of disordered eating'); units: 'kg' or 'lb', in which loads are shown. A client with
    pounds and the usual steps in kg gets the usual steps in pounds. equipment and increments are
    those of the usual place, places the others; tags: words of the coach's own, sorted, each once;
    keep_until: until when records are agreed to be kept; language: BCP 47 code for the client's
    papers, and paper: its size (A4, Letter, A5), empty for the coach's; energy_equation: a resting
    equation that the coach chose, empty for the program's own choice; fat_free_kg: as measured,
    None where it never was.
    Raises QuantityError outside the ranges, and CoachError for an empty name, another unit or
    paper, two places of one name, and a weekday at a place that there is not.
    """

    id: ClientId
    name: str
    born: date | None = None
    sex: Sex | None = None
    height_cm: float | None = None
    mass_kg: float | None = None
    status: Status = Status.NOVICE
    goal: Goal = Goal.HYPERTROPHY
    trained_years: float = 0.0
    team: str = ""
    contact: str = ""
    note: str = ""
    emphasis: tuple[Muscle, ...] = ()
    free: tuple[FreeTime, ...] = NO_TIME
    equipment: frozenset[Equipment] = frozenset({Equipment.BODY})
    increments: Increments = field(default_factory=Increments)
    limitations: tuple[Limitation, ...] = ()
    screenings: tuple[Screening, ...] = ()
    tests: tuple[StrengthTest, ...] = ()
    dislikes: frozenset[ExerciseKey] = frozenset()
    kcal_now: float | None = None
    energy_goal: EnergyGoal | None = None
    activity_level: float = 1.55
    refer: tuple[str, ...] = ()
    units: str = "kg"
    archived: bool = False
    stage: Stage = Stage.ACTIVE
    tags: tuple[str, ...] = ()
    consent: Consent | None = None
    keep_until: date | None = None
    places: tuple[Place, ...] = ()
    likes: frozenset[ExerciseKey] = frozenset()
    language: str = ""
    paper: str = ""
    energy_equation: str = ""
    fat_free_kg: float | None = None

    def __post_init__(self) -> None:
        require_name(self.name, "client")
        require("years of training", self.trained_years, low=0, high=100)
        require("activity level", self.activity_level, low=1.0, high=2.5)
        for what, value, low, high in (
            (mark("height, cm"), self.height_cm, 100, 250),
            (mark("body mass, kg"), self.mass_kg, 25, MOST_MASS_KG),
            (mark("fat-free mass, kg"), self.fat_free_kg, LEAST_FAT_FREE_KG, MOST_MASS_KG),
            (mark("energy eaten now, kcal a day"), self.kcal_now, 300, 15_000),
        ):
            if value is not None:
                require(what, value, low=low, high=high)
        if len(self.free) != 7:
            raise CoachError(
                tr("{free} days have free time.", free=len(self.free)),
                mend=tr("Give all seven days of the week."),
            )
        if self.units not in ("kg", "lb"):
            raise CoachError(
                tr("{units!r} is no unit for loads.", units=self.units), mend=tr("Choose kg or lb.")
            )
        if self.units == "lb" and self.increments == _KILOGRAMS:
            # steps of 2.5 kg are in nobody's reach where plates are in pounds
            object.__setattr__(self, "increments", Increments.pounds())
        object.__setattr__(self, "tags", tidy_tags(self.tags))
        if self.paper not in PAPERS:
            raise CoachError(
                tr("{paper!r} is no size of paper.", paper=self.paper),
                mend=tr("Choose A4, Letter or A5."),
            )
        self._require_places()

    def _require_places(self) -> None:
        names = [place.name for place in self.places]
        for number, name in enumerate(names):
            if name in names[:number]:
                raise CoachError(
                    tr("Two places are called {name}.", name=name),
                    mend=tr("Give one of them another name."),
                )
        for free in self.free:
            if free.place and free.place not in names:
                raise CoachError(
                    tr("There is no place called {name}.", name=free.place),
                    mend=tr("Choose one of the client's places, or the usual one."),
                )

    def equipment_on(self, weekday: int) -> frozenset[Equipment]:
        """What there is to train with on a weekday (0 for Monday)."""
        place = self._place_on(weekday)
        return self.equipment if place is None else place.equipment

    def increments_on(self, weekday: int) -> Increments:
        """What there is to load with on a weekday (0 for Monday)."""
        place = self._place_on(weekday)
        return self.increments if place is None else place.increments

    def _place_on(self, weekday: int) -> Place | None:
        name = self.free[weekday].place
        return next((place for place in self.places if place.name == name), None)

    @property
    def latest_screening(self) -> Screening | None:
        """The newest screening, if there is one."""
        return max(self.screenings, key=lambda s: s.on, default=None)

    def age_on(self, day: date) -> int | None:
        """Whole years on `day`; None without a birth date."""
        if self.born is None:
            return None
        before = (day.month, day.day) < (self.born.month, self.born.day)
        return day.year - self.born.year - before
