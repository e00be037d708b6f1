"""What there is to say on an exercise: facts, what rules it out, and what could stand in for it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from app.domain import substitute
from app.domain.activation import FROM_MEMORY, GLUTEAL_TO_TFL, GLUTEAL_TO_TFL_RANGE
from app.domain.checks.context import breaches, missing_equipment
from app.domain.checks.possible import breach_text, equipment_text, limitation_text
from app.domain.client import Client, ClientId, Limitation
from app.domain.edits.parts import Spot
from app.domain.edits.place import place
from app.domain.exercise import Catalogue, Equipment, Exercise, LoadKind, Muscle, Reach
from app.domain.program import Program, ProgramId, Slot, empty_program
from app.domain.substitute import Substitute
from app.resources import Reference
from app.ui.library import rows
from app.ui.library.narrow import SKILLS
from app.ui.words import clock, full_date, list_of, number

SPINE = ("none", "light", "moderate", "heavy, along the spine or bent over")
TFL_FROM = "selkowitz2013"
FACTS_FROM = (
    "Demand, spine, stress, reaches, zone, rest, tempo and set-up time are usual technique: common "
    "practice, values from memory."
)

FEELS = {1: "a little", 2: "clearly", 3: "a lot"}
"""Load on the spine and stress on joints in words, as the exercise files grade them."""

LOADS = {
    LoadKind.BARBELL: "bar and plates together",
    LoadKind.DUMBBELL_EACH: "in each hand",
    LoadKind.DUMBBELL_ONE: "one dumbbell or kettlebell",
    LoadKind.MACHINE: "on the machine",
    LoadKind.CABLE: "on the cable",
    LoadKind.BODY: "own weight, load added if any",
    LoadKind.BAND: "grade of the band",
    LoadKind.NONE: "nothing to load",
}

Fact = tuple[str, str]


def facts(exercise: Exercise, names: Mapping[Muscle, str]) -> tuple[Fact, ...]:
    """Everything but the wording, as pairs of a label and a text; empty texts are left out."""
    zone = rows.range_text(exercise.rep_low, exercise.rep_high)
    share = f"{number(exercise.body_share * 100)} % of body mass" if exercise.body_share else ""
    every = (
        ("Muscles", rows.muscles_text(exercise, names)),
        ("Movement", f"{_plain(exercise.pattern)}, {exercise.plane} plane"),
        ("Joints", "several move the load" if exercise.multi_joint else "one moves the load"),
        ("Sides", "one at a time" if exercise.unilateral else "both together"),
        ("Equipment", rows.equipment_text(exercise)),
        ("Load", LOADS[exercise.load_kind]),
        ("Own mass", share),
        ("Demand", SKILLS[exercise.skill].lower()),
        ("Spine", SPINE[exercise.spinal_load]),
        ("Stress", _stress(exercise)),
        ("Reaches", ", ".join(_reach(one) for one in exercise.reaches)),
        ("Zone", f"{zone} {'s' if exercise.timed else 'repetitions'}"),
        ("Usual rest", clock(exercise.rest_s)),
        ("Usual tempo", exercise.tempo),
        ("Set-up time", clock(exercise.setup_s)),
        ("Prepares", ", ".join(_plain(one) for one in exercise.warmup_for)),
    )
    return tuple((label, text) for label, text in every if text)


def _plain(word: str) -> str:
    return str(word).replace("_", " ")


def _stress(exercise: Exercise) -> str:
    ranked = sorted(exercise.stress, key=lambda pair: -pair[1])
    return ", ".join(f"{joint} {FEELS[level]}" for joint, level in ranked)


def _reach(reach: Reach) -> str:
    """'knee flexion 110°', or 'spine compression' where angles do not apply."""
    return f"{reach.joint} {reach.motion}" + (f" {reach.degrees}°" if reach.degrees else "")


def tfl_text(exercise: Exercise, references: Mapping[str, Reference]) -> str:
    """How much the gluteals work beside the tensor fasciae latae, where one study measured it."""
    index = GLUTEAL_TO_TFL.get(exercise.key)
    if index is None:
        return ""
    low, high = GLUTEAL_TO_TFL_RANGE
    label = ", value from memory" if exercise.key in FROM_MEMORY else ""
    return (
        f"Gluteal-to-TFL index {index}{label} (higher: more gluteals, less tensor fasciae "
        f"latae; eleven exercises had {low} to {high}, {rows.study_text(TFL_FROM, references)})."
    )


def ruled_out(exercise: Exercise, client: Client, on: date) -> tuple[str, ...]:
    """Why the client cannot do it on that day: limitations first, then equipment; or nothing."""
    broken = [b for b in breaches(exercise, client) if b.limitation.applies_on(on)]
    first = client.name.split()[0]
    says = dict.fromkeys(
        f"{breach_text(breach).capitalize()}. {first}'s {_limit(breach.limitation)}."
        for breach in broken
    )
    missing = missing_equipment(exercise, client)
    need = f"Needs {equipment_text(missing)}, which {first} does not have." if missing else ""
    return (*says, *((need,) if need else ()))


def _limit(limitation: Limitation) -> str:
    until = limitation.until
    return limitation_text(limitation) + (
        f" lasts until {full_date(until)}" if until else " has no end yet"
    )


def stand_ins(
    exercise: Exercise, catalogue: Catalogue, *, client: Client | None, program: Program | None
) -> tuple[Substitute, ...]:
    """What could stand in for the exercise, best first, those the client cannot do last.

    Where the exercise stands in the program its slot is asked for; else one made for the question,
    which nobody keeps. Without a client everything is in reach.
    """
    who = client or Client(ClientId(""), "Nobody", equipment=frozenset(Equipment))
    slot = None if program is None else _slot_in(program, exercise)
    if program is None or slot is None:
        start = date(2001, 1, 1) if program is None else program.start
        slot, program = _alone(exercise, start, program)
    return substitute.rank(slot, program, who, catalogue)


def _slot_in(program: Program, exercise: Exercise) -> Slot | None:
    every = (slot for week in program.weeks for slot in week.slots())
    return next((slot for slot in every if slot.exercise == exercise.key), None)


def _alone(exercise: Exercise, start: date, like: Program | None) -> tuple[Slot, Program]:
    """A program of one week that holds the exercise alone."""
    emphasis = () if like is None else like.emphasis
    empty = empty_program(ProgramId(""), "Asked", start=start, weeks=1, emphasis=emphasis)
    program = place(empty, exercise, at=Spot(0, 0))
    return next(iter(program.weeks[0].slots())), program


def relatives(exercise: Exercise, catalogue: Catalogue) -> tuple[tuple[str, Exercise], ...]:
    """The easier and the harder forms that are in the catalogue, each with its word."""
    every = [("easier", key) for key in exercise.easier] + [
        ("harder", key) for key in exercise.harder
    ]
    return tuple((word, catalogue[key]) for word, key in every if key in catalogue)


def used_text(exercise: Exercise, program: Program | None) -> str:
    """'In the open program: Mon in weeks 1 to 6 and Mon, Thu in week 7.'"""
    if program is None:
        return ""
    runs = rows.weeks_used(program, exercise.key)
    if not runs:
        return f"Not in {program.name}."
    return f"In {program.name}: {list_of(list(runs))}."
