"""A program as a value: weeks, days, sessions and slots, and the laws they keep.

Everything is immutable; edits (`app.domain.edits`) make new programs that share every part that
did not change. Ids are whole numbers handed out by the program itself (`next_id`), so an edit is
the same wherever and whenever it is applied.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum, StrEnum
from typing import NewType

from app.domain.effort import Effort, Rir
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.ramp import Ramp
from app.domain.units import require, require_whole
from app.domain.wording import mark, tr

SlotId = NewType("SlotId", int)
SessionId = NewType("SessionId", int)
WeekId = NewType("WeekId", int)
StrandId = NewType("StrandId", int)
ProgramId = NewType("ProgramId", str)

MAX_WEEKS = 52
MAX_SETS = 20
MAX_REPS = 100
MAX_SECONDS = 600  # a timed set counts seconds as repetitions
MAX_ROUNDS = 10  # of a warm-up drill; more is training and no warm-up
MAX_PREPARED = 5  # more is no help to a client who has to choose at the rack
DAYS = (
    mark("Monday"),
    mark("Tuesday"),
    mark("Wednesday"),
    mark("Thursday"),
    mark("Friday"),
    mark("Saturday"),
    mark("Sunday"),
)


def day_name(day: int) -> str:
    """The name of a weekday, 0 for Monday, as it is said at the moment."""
    return tr(DAYS[day])


class Role(StrEnum):
    """What an exercise is for in its session, as textbooks tell them apart."""

    CORE = "core"
    ASSISTANCE = "assistance"


class Field(StrEnum):
    """The parts of a prescription that a coach can pin by hand."""

    SETS = "sets"
    REPS = "reps"
    EFFORT = "effort"
    REST = "rest"
    TEMPO = "tempo"
    LOAD = "load"


class Span(Enum):
    """How far an edit reaches from the week it is made in."""

    THIS_WEEK = "this week"
    FROM_HERE = "from here"
    WHOLE_BLOCK = "whole block"
    WHOLE_PROGRAM = "whole program"


@dataclass(frozen=True, slots=True)
class Reps:
    """A repetition range; both ends equal for a single target. Seconds for timed exercises.

    Raises QuantityError for parts of a repetition and outside 1 to MAX_SECONDS.
    """

    low: int
    high: int

    def __post_init__(self) -> None:
        require_whole("repetitions", self.low, low=1, high=MAX_SECONDS)
        require_whole("repetitions", self.high, low=self.low, high=MAX_SECONDS)

    @property
    def middle(self) -> float:
        """The middle of the range."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Slot:
    """One exercise's place in one session of one week, with its prescription.

    strand: the same for this slot in every week; rest_s between sets; tempo as four figures
    ('3-0-1-0', X for as fast as can be) or empty; pair: a letter from A to Z shared by alternated
    exercises, or empty;
    load_kg: only where the coach set a load by hand (otherwise it follows from the tests);
    prepared: what the client may do instead, in the coach's order, as the booklet prints it;
    ramp: the ramp sets before it, where the coach set them (otherwise they follow from the load).
    Raises QuantityError outside the ranges, and CoachError for another tempo or pair and for
    substitutes that break their law.
    """

    id: SlotId
    strand: StrandId
    exercise: ExerciseKey
    sets: int
    reps: Reps
    effort: Effort = Rir(2)
    rest_s: int = 120
    tempo: str = ""
    pair: str = ""
    note: str = ""
    role: Role = Role.ASSISTANCE
    load_kg: float | None = None
    pinned: frozenset[Field] = frozenset()
    prepared: tuple[ExerciseKey, ...] = ()
    ramp: Ramp | None = None

    def __post_init__(self) -> None:
        require_whole("sets", self.sets, low=1, high=MAX_SETS)
        require_whole(tr("rest, s"), self.rest_s, low=0, high=1200)
        if self.tempo:
            require_tempo(self.tempo)
        if self.pair:
            require_pair(self.pair)
        if self.load_kg is not None:
            require("load, kg", self.load_kg, low=0, high=1000)
        if self.prepared:
            require_prepared(self.prepared, self.exercise)


_TEMPO = re.compile(r"(\d{1,2}(\.\d{1,2})?|[Xx])(-(\d{1,2}(\.\d{1,2})?|[Xx])){3}", re.ASCII)


def require_tempo(tempo: str) -> str:
    """`tempo` itself, once it is known to be four figures such as '3-0-1-0'. Raises CoachError."""
    if not _TEMPO.fullmatch(tempo):
        raise CoachError(
            tr("{tempo!r} is no tempo.", tempo=tempo),
            mend=tr("Write four figures, '3-0-1-0', X for as fast as can be, or leave it empty."),
        )
    return tempo


def require_pair(pair: str) -> str:
    """`pair` itself, once it is known to be one letter from A to Z. Raises CoachError."""
    if len(pair) != 1 or not "A" <= pair <= "Z":
        raise CoachError(
            tr("{pair!r} does not name a pair.", pair=pair),
            mend=tr("Write one letter from A to Z, or none."),
        )
    return pair


def require_prepared(
    prepared: tuple[ExerciseKey, ...], exercise: ExerciseKey
) -> tuple[ExerciseKey, ...]:
    """`prepared` itself, once it is known to keep the law of a slot that holds `exercise`.

    The law: at most MAX_PREPARED, each once, never the slot's own exercise. Raises CoachError.
    """
    if len(prepared) > MAX_PREPARED:
        raise CoachError(
            tr("{prepared} substitutes are prepared for one exercise.", prepared=len(prepared)),
            mend=tr(
                "Keep the {max_prepared} that serve the client best.", max_prepared=MAX_PREPARED
            ),
        )
    if exercise in prepared:
        raise CoachError(
            tr("An exercise is prepared as a substitute for itself."),
            mend=tr("Choose another one."),
        )
    if len(set(prepared)) < len(prepared):
        raise CoachError(tr("A substitute is prepared twice."), mend=tr("Name each of them once."))
    return prepared


@dataclass(frozen=True, slots=True)
class DrillDose:
    """How much of a warm-up drill: rounds of so many repetitions, seconds for a timed drill.

    Raises QuantityError for parts of a round and outside 1 to MAX_ROUNDS.
    """

    rounds: int
    reps: Reps

    def __post_init__(self) -> None:
        require_whole("rounds", self.rounds, low=1, high=MAX_ROUNDS)


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill before a session; dose: None for as much as the zone of the drill says."""

    exercise: ExerciseKey
    dose: DrillDose | None = None


@dataclass(frozen=True, slots=True)
class Session:
    """One training session: its slots in order.

    strand: the same for this session in every week; warmup: the drills before it, in order.
    """

    id: SessionId
    strand: StrandId
    title: str
    slots: tuple[Slot, ...] = ()
    note: str = ""
    warmup: tuple[Drill, ...] = ()


@dataclass(frozen=True, slots=True)
class Day:
    """One day of a week: its sessions in order and a note."""

    sessions: tuple[Session, ...] = ()
    note: str = ""


EMPTY_WEEK = (Day(),) * 7


@dataclass(frozen=True, slots=True)
class Week:
    """Seven days, Monday first. A light week is meant to shed fatigue."""

    id: WeekId
    days: tuple[Day, ...] = EMPTY_WEEK
    light: bool = False
    note: str = ""

    def sessions(self) -> Iterator[tuple[int, Session]]:
        """Each session with the number of its day, 0 for Monday."""
        for number, day in enumerate(self.days):
            for session in day.sessions:
                yield number, session

    def slots(self) -> Iterator[Slot]:
        """Every slot of the week, in order."""
        for _, session in self.sessions():
            yield from session.slots


@dataclass(frozen=True, slots=True)
class Block:
    """A run of weeks with one purpose; `weeks` says how many it holds."""

    name: str
    weeks: int


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding that the coach has looked at and keeps, with the reason.

    finding: the finding's id, which is stable while its cause is.
    """

    finding: str
    reason: str


@dataclass(frozen=True, slots=True)
class Program:
    """One client's plan.

    start: the Monday of the first week; blocks: together as long as `weeks`; emphasis: the
    muscles the program is for, most important first; curve: the reps-%1RM curve loads rest on;
    next_id: the next free number for slots, sessions, weeks and strands.
    """

    id: ProgramId
    name: str
    start: date
    weeks: tuple[Week, ...]
    blocks: tuple[Block, ...]
    emphasis: tuple[Muscle, ...] = ()
    curve: str = "textbook"
    accepted: tuple[Acceptance, ...] = ()
    next_id: int = 1
    archived: bool = False

    def week_start(self, index: int) -> date:
        """The Monday of week `index`, counted from 0."""
        return self.start + timedelta(weeks=index)

    def block_of(self, index: int) -> int:
        """The number of the block that week `index` lies in."""
        end = 0
        for number, block in enumerate(self.blocks):
            end += block.weeks
            if index < end:
                return number
        raise IndexError(index)

    def block_range(self, number: int) -> range:
        """The week indices of block `number`."""
        first = sum(block.weeks for block in self.blocks[:number])
        return range(first, first + self.blocks[number].weeks)

    def reach(self, index: int, span: Span) -> range:
        """The week indices that an edit made in week `index` reaches with `span`."""
        match span:
            case Span.THIS_WEEK:
                return range(index, index + 1)
            case Span.FROM_HERE:
                return range(index, len(self.weeks))
            case Span.WHOLE_BLOCK:
                return self.block_range(self.block_of(index))
            case Span.WHOLE_PROGRAM:
                return range(len(self.weeks))

    def week_index(self, week_id: WeekId) -> int:
        """Where the week with this id stands, counted from 0. Raises KeyError."""
        for index, week in enumerate(self.weeks):
            if week.id == week_id:
                return index
        raise KeyError(week_id)


def empty_program(
    program_id: ProgramId, name: str, *, start: date, weeks: int, emphasis: tuple[Muscle, ...] = ()
) -> Program:
    """A program of `weeks` empty weeks in one block, beginning on the Monday of `start`'s week.

    Raises CoachError for an empty name and QuantityError outside 1 to MAX_WEEKS weeks.
    """
    require("number of weeks", weeks, low=1, high=MAX_WEEKS)
    name = require_name(name, "program")
    return Program(
        id=program_id,
        name=name,
        start=start - timedelta(days=start.weekday()),
        weeks=tuple(Week(WeekId(number)) for number in range(1, weeks + 1)),
        blocks=(Block(tr("Block 1"), weeks),),
        emphasis=emphasis,
        next_id=weeks + 1,
    )


def require_text(text: str, what: str) -> str:
    """`text` without white space around it. Raises CoachError if nothing is left."""
    text = " ".join(text.split())
    if not text:
        raise CoachError(
            tr("{what}: nothing is entered.", what=tr(what)), mend=tr("Write at least one letter.")
        )
    return text


def require_name(name: str, what: str) -> str:
    """`name` without white space around it. Raises CoachError if nothing is left."""
    name = " ".join(name.split())
    if not name:
        raise CoachError(
            tr("The {what} has no name.", what=tr(what)),
            mend=tr("Give it one of at least one letter."),
        )
    if len(name) > 200:
        raise CoachError(
            tr("The {what}'s name has {name} letters.", what=tr(what), name=len(name)),
            mend=tr("Keep it under 200."),
        )
    return name


def broken_laws(program: Program) -> tuple[str, ...]:
    """Sentences on every law of shape that the program breaks; empty for a sound one.

    The laws: 1 to MAX_WEEKS weeks, seven days each, blocks that add up, a start on Monday, ids
    that are unique and below `next_id`, strands that occur at most once a week.
    """
    broken: list[str] = []
    if not 1 <= len(program.weeks) <= MAX_WEEKS:
        broken.append(
            tr(
                "{weeks} weeks; a program has 1 to {max_weeks}.",
                weeks=len(program.weeks),
                max_weeks=MAX_WEEKS,
            )
        )
    if any(len(week.days) != 7 for week in program.weeks):
        broken.append(tr("A week does not have seven days."))
    if sum(block.weeks for block in program.blocks) != len(program.weeks):
        broken.append(tr("The blocks do not add up to the weeks."))
    if any(block.weeks < 1 for block in program.blocks):
        broken.append(tr("A block has no week."))
    if program.start.weekday() != 0:
        broken.append(
            tr("The program starts on {start}, which is not a Monday.", start=program.start)
        )
    ids: list[int] = [week.id for week in program.weeks]
    for week in program.weeks:
        for _, session in week.sessions():
            ids += [session.id, *(slot.id for slot in session.slots)]
        strands = [slot.strand for slot in week.slots()]
        strands += [session.strand for _, session in week.sessions()]
        if len(set(strands)) != len(strands):
            broken.append(tr("Two parts of week {id} share a strand.", id=week.id))
    if len(set(ids)) != len(ids):
        broken.append(tr("Two parts of the program share an id."))
    if ids and max(ids) >= program.next_id:
        broken.append(tr("An id lies past the program's next free number."))
    return tuple(broken)
