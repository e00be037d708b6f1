"""Programs, weeks and clients for the tests, written in one line of a coach's shorthand.

    week("Mon: back_squat 3x5 RIR 2, barbell_row 3x8-10 rest 90 | Thu: back_squat 5x3 85% core")

Days are parted by `|` and named by three letters (a day named twice has two sessions), exercises
by commas. After the key of an exercise, in any order: `3x8` or `3x8-10`, `RIR 2`, `80%` (of the
one-repetition maximum), `95%RM` (of the rep-max load), `rest 90`, `tempo 3-0-1-0`, `pair A`,
`core`, `60kg` (set by hand), `pin sets`. A leading `light |` makes the week light; drills of a
warm-up stand in brackets after the day, with a dose of their own or without:
`Mon (band_walk 2x8-10 bridge): ...`. `ramp 50%x5/60kgx3` sets ramp sets by hand, `ramp off` none.

The catalogue here is small and independent of the shipped one, so that a test says what it needs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import count
from typing import Any

from app.domain.client import Client, ClientId, FreeTime, Screening, Sex, Status
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import (
    Activation,
    Catalogue,
    Equipment,
    Exercise,
    ExerciseKey,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Reach,
    Work,
)
from app.domain.program import (
    EMPTY_WEEK,
    Block,
    Drill,
    DrillDose,
    Field,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.ramp import NO_RAMP, read_ramp

START = date(2026, 11, 23)
"""A Monday, the start of every program built here."""

_SCHEME = re.compile(r"(\d+)x(\d+)(?:-(\d+))?")

DAY_NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


class Numbers:
    """Ids for one program: a counter, and a strand for everything that recurs in its place."""

    def __init__(self) -> None:
        self._count = count(1)
        self._strands: dict[object, int] = {}
        self.last = 0

    def next(self) -> int:
        self.last = next(self._count)
        return self.last

    def strand(self, recurs_as: object) -> StrandId:
        if recurs_as not in self._strands:
            self._strands[recurs_as] = self.next()
        return StrandId(self._strands[recurs_as])


def week(text: str = "", *, numbers: Numbers | None = None, light: bool = False) -> Week:
    """The week that `text` describes; see the top of the module for the notation."""
    numbers = numbers or Numbers()
    week_id = WeekId(numbers.next())
    days = list(EMPTY_WEEK)
    for part in filter(None, (p.strip() for p in text.split("|"))):
        if part == "light":
            light = True
            continue
        head, _, body = part.partition(":")
        name, _, drills = head.partition("(")
        number = DAY_NAMES.index(name.strip())
        sessions = days[number].sessions
        warmup = drills_of(drills.rstrip(") "))
        built = _session((number, len(sessions)), body, warmup=warmup, numbers=numbers)
        days[number] = replace(days[number], sessions=(*sessions, built))
    return Week(week_id, tuple(days), light=light)


def drills_of(text: str) -> tuple[Drill, ...]:
    """Drills as they stand in the brackets after a day."""
    found: list[Drill] = []
    for word in text.split():
        if scheme := _SCHEME.fullmatch(word):
            rounds, low, high = scheme.groups()
            dose = DrillDose(int(rounds), Reps(int(low), int(high or low)))
            found[-1] = replace(found[-1], dose=dose)
        else:
            found.append(Drill(ExerciseKey(word)))
    return tuple(found)


def session(text: str, *, warmup: str = "") -> Session:
    """One session, in the notation for a day without its name; warmup: for its brackets."""
    return _session((0, 0), text, warmup=drills_of(warmup), numbers=Numbers())


def slot(text: str) -> Slot:
    """One slot, in the same notation."""
    return session(text).slots[0]


def program(*weeks: str, times: int = 1, numbers: Numbers | None = None, **fields: Any) -> Program:
    """A program of these weeks, the whole run repeated `times`; `fields` replace the defaults."""
    numbers = numbers or Numbers()
    built = tuple(week(text, numbers=numbers) for _ in range(times) for text in weeks)
    whole = Program(
        id=ProgramId("ridge"),
        name="Ridge season",
        start=START,
        weeks=built,
        blocks=(Block("Base", len(built)),),
        emphasis=(Muscle.QUADRICEPS,),
        next_id=numbers.last + 1,
    )
    return replace(whole, **fields)


def client(**fields: Any) -> Client:
    """An adult with six months of training, an hour every day and a full room; `fields` differ."""
    runa = Client(
        id=ClientId("runa"),
        name="Runa Estvik",
        born=date(1992, 3, 14),
        sex=Sex.FEMALE,
        height_cm=171.0,
        mass_kg=66.4,
        status=Status.INTERMEDIATE,
        emphasis=(Muscle.QUADRICEPS,),
        free=(FreeTime(60),) * 7,
        equipment=frozenset(Equipment),
        screenings=(
            Screening(date(2026, 10, 2), active=True, known_disease=False, symptoms=False),
        ),
    )
    return replace(runa, **fields)


def _session(
    place: tuple[int, int], text: str, *, warmup: tuple[Drill, ...], numbers: Numbers
) -> Session:
    session_id, seen = SessionId(numbers.next()), dict[str, int]()
    slots = []
    for words in filter(None, (part.split() for part in text.split(","))):
        key = words[0]
        seen[key] = seen.get(key, 0) + 1
        strand = numbers.strand((place, key, seen[key]))
        slots.append(_slot(words, SlotId(numbers.next()), strand=strand))
    title = f"{DAY_NAMES[place[0]]} {place[1] + 1}"
    return Session(
        session_id, numbers.strand(place), title=title, slots=tuple(slots), warmup=warmup
    )


def _slot(words: list[str], slot_id: SlotId, *, strand: StrandId) -> Slot:
    fields: dict[str, Any] = {"sets": 3, "reps": Reps(8, 8)}
    rest = iter(words[1:])
    pinned = set()
    for word in rest:
        if scheme := _SCHEME.fullmatch(word):
            sets, low, high = scheme.groups()
            fields |= {"sets": int(sets), "reps": Reps(int(low), int(high or low))}
        elif word == "pin":
            pinned.add(Field(next(rest)))
        else:
            fields |= _field(word, rest)
    if pinned:
        fields["pinned"] = frozenset(pinned)
    return Slot(slot_id, strand, ExerciseKey(words[0]), **fields)


def _field(word: str, rest: Iterator[str]) -> dict[str, object]:
    if word == "RIR":
        return {"effort": Rir(float(next(rest)))}
    if word.endswith(("%", "%RM")):
        figure = float(word.split("%", maxsplit=1)[0])
        effort: Effort = PercentRepMax(figure) if word.endswith("RM") else PercentOneRm(figure)
        return {"effort": effort}
    if word.endswith("kg"):
        return {"load_kg": float(word[:-2])}
    plain = {"rest": ("rest_s", int), "tempo": ("tempo", str), "pair": ("pair", str)}
    if word in plain:
        name, kind = plain[word]
        return {name: kind(next(rest))}
    if word == "ramp":
        steps = next(rest)
        return {"ramp": NO_RAMP if steps == "off" else read_ramp(steps.replace("/", ";"))}
    if word == "core":
        return {"role": Role.CORE}
    raise ValueError(f"{word!r} means nothing here")


def exercise(key: str, pattern: Pattern, work: str, **fields: Any) -> Exercise:
    """An exercise; `work` lists muscles, helpers with their part: 'quadriceps, hamstrings .5'."""
    parts = [part.split() for part in work.split(",")]
    muscles = tuple(Work(Muscle(w[0]), float(w[1]) if len(w) > 1 else 1.0) for w in parts)
    defaults: dict[str, Any] = {
        "equipment": (Equipment.BODY,),
        "load_kind": LoadKind.BODY,
        "multi_joint": True,
    }
    name = key.replace("_", " ").capitalize()
    return Exercise(ExerciseKey(key), name, pattern, muscles, **{**defaults, **fields})


def _bar(key: str, pattern: Pattern, work: str, **fields: Any) -> Exercise:
    defaults = {"equipment": (Equipment.BARBELL,), "load_kind": LoadKind.BARBELL, "skill": 2}
    return exercise(key, pattern, work, **{**defaults, **fields})


def _hand(key: str, pattern: Pattern, work: str, **fields: Any) -> Exercise:
    defaults = {"equipment": (Equipment.DUMBBELLS,), "load_kind": LoadKind.DUMBBELL_EACH}
    return exercise(key, pattern, work, **{**defaults, **fields})


def _machine(key: str, pattern: Pattern, work: str, needs: Equipment, **fields: Any) -> Exercise:
    defaults = {"equipment": (needs,), "load_kind": LoadKind.MACHINE}
    return exercise(key, pattern, work, **{**defaults, **fields})


def _bends(joint: Joint, degrees: int, motion: Motion = Motion.FLEXION) -> Reach:
    return Reach(joint, motion, degrees)


_BACK = (Equipment.BARBELL, Equipment.RACK)
_KNEE = (_bends(Joint.KNEE, 120), _bends(Joint.HIP, 110))
_OVERHEAD = (_bends(Joint.SHOULDER, 0, Motion.OVERHEAD),)
_SMALL: dict[str, Any] = {"multi_joint": False, "rep_low": 8, "rest_s": 75}

CATALOGUE = Catalogue(
    (
        _bar(
            "back_squat",
            Pattern.SQUAT,
            "quadriceps, gluteals, spinal_erectors .5, adductors .5",
            equipment=_BACK,
            spinal_load=3,
            rep_low=3,
            reaches=(*_KNEE, _bends(Joint.SPINE, 0, Motion.COMPRESSION)),
            easier=(ExerciseKey("goblet_squat"), ExerciseKey("leg_press")),
            activation=(Activation(Muscle.GLUTEALS, 29.4, 45.4, "contreras2015-thrust"),),
        ),
        _bar(
            "front_squat",
            Pattern.SQUAT,
            "quadriceps, gluteals .5, spinal_erectors .5",
            equipment=_BACK,
            skill=3,
            spinal_load=2,
            reaches=_KNEE,
        ),
        _hand(
            "goblet_squat",
            Pattern.SQUAT,
            "quadriceps, gluteals",
            load_kind=LoadKind.DUMBBELL_ONE,
            spinal_load=1,
            reaches=_KNEE,
            harder=(ExerciseKey("back_squat"),),
        ),
        _machine(
            "leg_press",
            Pattern.SQUAT,
            "quadriceps, gluteals .5",
            Equipment.LEG_PRESS,
            reaches=(_bends(Joint.KNEE, 90),),
        ),
        _hand(
            "split_squat",
            Pattern.SPLIT_STANCE,
            "quadriceps, gluteals",
            unilateral=True,
            reaches=(_bends(Joint.KNEE, 110),),
        ),
        _hand(
            "step_up",
            Pattern.SPLIT_STANCE,
            "quadriceps, gluteals",
            equipment=(Equipment.BOX, Equipment.DUMBBELLS),
            unilateral=True,
            reaches=(_bends(Joint.KNEE, 85),),
            activation=(Activation(Muscle.GLUTEALS, 169, 169, "neto2020"),),
        ),
        _bar(
            "romanian_deadlift",
            Pattern.HINGE,
            "hamstrings, gluteals .5, spinal_erectors .5",
            spinal_load=3,
            reaches=(_bends(Joint.HIP, 90), _bends(Joint.KNEE, 20)),
        ),
        _bar(
            "deadlift",
            Pattern.HINGE,
            "gluteals, hamstrings, spinal_erectors, quadriceps .5, forearms .5",
            skill=3,
            spinal_load=3,
            rep_low=1,
            reaches=(_bends(Joint.HIP, 100), _bends(Joint.KNEE, 80)),
        ),
        _bar(
            "hip_thrust",
            Pattern.THRUST,
            "gluteals, hamstrings .5",
            equipment=(Equipment.BARBELL, Equipment.BENCH),
            spinal_load=1,
            reaches=(_bends(Joint.KNEE, 90), _bends(Joint.HIP, 90)),
            activation=(Activation(Muscle.GLUTEALS, 69.5, 86.8, "contreras2015-thrust"),),
        ),
        exercise("bridge", Pattern.THRUST, "gluteals, hamstrings .5"),
        exercise(
            "low_bridge",
            Pattern.THRUST,
            "gluteals",
            activation=(Activation(Muscle.GLUTEALS, 25, 25, "ekstrom2007"),),
        ),
        _machine(
            "leg_extension",
            Pattern.KNEE_EXTENSION,
            "quadriceps",
            Equipment.LEG_EXTENSION,
            **_SMALL,
            reaches=(_bends(Joint.KNEE, 100),),
        ),
        _machine(
            "leg_curl",
            Pattern.KNEE_FLEXION,
            "hamstrings",
            Equipment.LEG_CURL,
            **_SMALL,
            reaches=(_bends(Joint.KNEE, 110),),
        ),
        exercise(
            "back_extension",
            Pattern.HIP_EXTENSION,
            "spinal_erectors, gluteals .5, hamstrings .5",
            equipment=(Equipment.BACK_EXTENSION_BENCH,),
            spinal_load=1,
        ),
        _machine("calf_raise", Pattern.CALF_RAISE, "calves", Equipment.CALF_MACHINE, **_SMALL),
        exercise(
            "side_lying_abduction",
            Pattern.HIP_ABDUCTION,
            "hip_abductors",
            unilateral=True,
            **_SMALL,
        ),
        _bar(
            "bench_press",
            Pattern.HORIZONTAL_PUSH,
            "chest, triceps .5, front_deltoid .5",
            equipment=(Equipment.BARBELL, Equipment.BENCH),
            rep_low=3,
        ),
        exercise("push_up", Pattern.HORIZONTAL_PUSH, "chest, triceps .5, front_deltoid .5"),
        _bar(
            "overhead_press",
            Pattern.VERTICAL_PUSH,
            "front_deltoid, side_deltoid .5, triceps .5",
            reaches=_OVERHEAD,
            spinal_load=1,
        ),
        _bar(
            "barbell_row",
            Pattern.HORIZONTAL_PULL,
            "latissimus, upper_back, biceps .5, spinal_erectors .5",
            spinal_load=2,
        ),
        exercise(
            "chin_up",
            Pattern.VERTICAL_PULL,
            "latissimus, biceps .5, upper_back .5",
            equipment=(Equipment.PULL_UP_BAR,),
            reaches=_OVERHEAD,
            body_share=1.0,
        ),
        _hand("curl", Pattern.ELBOW_FLEXION, "biceps", **_SMALL),
        exercise(
            "triceps_extension",
            Pattern.ELBOW_EXTENSION,
            "triceps",
            equipment=(Equipment.CABLE,),
            load_kind=LoadKind.CABLE,
            **_SMALL,
        ),
        _hand("lateral_raise", Pattern.SHOULDER_RAISE, "side_deltoid", **_SMALL),
        exercise("crunch", Pattern.TRUNK_FLEXION, "abdominals", **_SMALL),
        exercise(
            "plank",
            Pattern.TRUNK_BRACE,
            "abdominals, obliques .5",
            timed=True,
            rep_low=15,
            rep_high=60,
            load_kind=LoadKind.NONE,
        ),
        exercise(
            "band_walk",
            Pattern.DRILL,
            "hip_abductors .5",
            equipment=(Equipment.BAND,),
            load_kind=LoadKind.BAND,
            warmup_for=(Pattern.SQUAT, Pattern.HINGE, Pattern.THRUST, Pattern.SPLIT_STANCE),
        ),
    )
)
"""Two dozen exercises, their figures invented for the tests."""
