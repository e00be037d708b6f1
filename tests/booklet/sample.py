"""Issues to print in tests: a small plan of two days, and what a booklet needs besides it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from app.booklet import Content, Paper
from app.domain.client import Client, StrengthTest
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Fault, Muscle
from app.domain.loads import load_for
from app.domain.program import Block, Program
from app.domain.ranges import Range, RangeBook, Who
from app.domain.work import Coach, Issue, IssueId, PrintedLoad
from tests.builders import CATALOGUE, Numbers, client, program, week

WIDE = (Paper.A4, Paper.LETTER)
"""Paper on which names, figures and boxes stand side by side."""

FONTS = Path(__file__).parents[2] / "resources" / "fonts"


@dataclass(frozen=True, slots=True)
class Source:
    """A reference as the booklet asks for it."""

    short: str
    text: str


SOURCES = {
    key: Source(f"{key[:-4].capitalize()} {key[-4:]}", f"{key} (a source made up for tests).")
    for key in (
        "bazvalle2022",
        "haff2016",
        "hackett2017",
        "zourdos2016",
        "singer2024",
        "acsm2009",
        "pelland2024",
        "riebe2015",
    )
}

RANGES = RangeBook(
    {
        "weekly_sets": (
            Range(
                "weekly_sets", 12, 20, "sets/week", "bazvalle2022", who=Who(kind=("emphasised",))
            ),
        )
    }
)

LOWER = (
    "Tue (band_walk): hip_thrust {s}x{r} RIR 2 rest 150 core, back_squat 3x{r} RIR 2 rest 150 core,"
    " step_up 2x{r} RIR 2 rest 90, calf_raise 3x12 RIR 1 rest 75 |"
    "Fri: romanian_deadlift 3x{r} RIR 2 rest 150 core, split_squat 3x{r} RIR 2 pair A rest 0,"
    " plank 2x30 pair A rest 90, leg_curl 6x10-12 75% rest 60 tempo 3-0-1-0,"
    " side_lying_abduction 2x15 RIR 1 rest 60 |"
    "Sun: bench_press 3x{r} RIR 2 rest 150 core, chin_up 3x6 RIR 2 rest 150, curl 2x12-15 90%RM"
)


def taught(exercise: Exercise) -> Exercise:
    """The exercise with words for a client."""
    return replace(
        exercise,
        set_up=("Stand tall, feet under the hips.", "Take the load with both hands."),
        cues=("Breathe in and brace.", "Go down until the thighs are level.", "Stand up again."),
        faults=(Fault("The heels lift", "Sit back a little; use a smaller range."),),
    )


TAUGHT = Catalogue(tuple(taught(exercise) for exercise in CATALOGUE))


def content(**fields: Any) -> Content:
    """What a booklet needs besides the issue; `fields` differ."""
    plain: Mapping[str, Any] = {
        "catalogue": TAUGHT,
        "fonts": FONTS,
        "references": SOURCES,
        "ranges": RANGES,
    }
    return Content(**{**plain, **fields})


def season(weeks: int = 21) -> Program:
    """A plan in which reps fall from 15 to 3; every fifth week is light."""
    numbers = Numbers()
    built = tuple(
        week(
            LOWER.format(s=2 if at % 5 == 4 else 4, r=round(15 - 12 * at / max(weeks - 1, 1))),
            numbers=numbers,
            light=at % 5 == 4,
        )
        for at in range(weeks)
    )
    names = ("Settle", "Build", "Load", "Carry", "Peak")
    lengths = [5] * (weeks // 5) + ([weeks % 5] if weeks % 5 else [])
    blocks = tuple(
        Block(names[at] if at < len(names) else f"Block {at + 1}", length)
        for at, length in enumerate(lengths)
    )
    whole = program("", name="Uphill with the stretcher", emphasis=(Muscle.GLUTEALS,))
    return replace(whole, weeks=built, blocks=blocks, next_id=numbers.last + 1)


def lifter(**fields: Any) -> Client:
    """A client with tests of most lifts."""
    day = date(2026, 10, 5)
    loads = {
        "hip_thrust": 90.0,
        "back_squat": 65.0,
        "romanian_deadlift": 70.0,
        "bench_press": 42.5,
        "step_up": 12.0,
        "split_squat": 14.0,
        "calf_raise": 40.0,
        "leg_curl": 30.0,
    }
    tests = tuple(StrengthTest(ExerciseKey(key), day, load_kg, 8) for key, load_kg in loads.items())
    return client(**{"name": "Jorunn Aske", "tests": tests, **fields})


def issue(
    whole: Program | None = None, who: Client | None = None, catalogue: Catalogue = TAUGHT
) -> Issue:
    """The issue of a plan to a client, its loads worked out."""
    whole = whole or season()
    who = who or lifter()
    loads = []
    for each in whole.weeks:
        for slot in each.slots():
            load = load_for(slot, catalogue[slot.exercise], who, whole.curve)
            loads.append(PrintedLoad(slot.id, None if load is None else load.load_kg))
    return Issue(
        id=IssueId("issue-1"),
        on=date(2026, 11, 16),
        coach=Coach("Tavi Hellmark", "", "Ombrel Valley Mountain Rescue, volunteer team"),
        client=who,
        program=whole,
        loads=tuple(loads),
    )
