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
from app.domain.exercise import Catalogue, Equipment, Exercise, LoadKind, Muscle, Reach, joint_name
from app.domain.program import Program, ProgramId, Slot, empty_program
from app.domain.substitute import Substitute
from app.domain.wording import mark, mid_sentence, tr
from app.resources import Reference
from app.ui.library import rows
from app.ui.library.narrow import SKILLS
from app.ui.words import clock, full_date, list_of, number

SPINE = (mark("none"), mark("light"), mark("moderate"), mark("heavy, along the spine or bent over"))
TFL_FROM = "selkowitz2013"
FACTS_FROM = mark(
    "Demand, spine, stress, reaches, zone, rest, tempo and set-up time are usual "
    "technique: common practice, values from memory."
)

FEELS = {1: mark("a little"), 2: mark("clearly"), 3: mark("a lot")}
"""Load on the spine and stress on joints in words, as the exercise files grade them."""

LOADS = {
    LoadKind.BARBELL: mark("bar and plates together"),
    LoadKind.DUMBBELL_EACH: mark("in each hand"),
    LoadKind.DUMBBELL_ONE: mark("one dumbbell or kettlebell"),
    LoadKind.MACHINE: mark("on the machine"),
    LoadKind.CABLE: mark("on the cable"),
    LoadKind.BODY: mark("own weight, load added if any"),
    LoadKind.BAND: mark("grade of the band"),
    LoadKind.NONE: mark("nothing to load"),
}

Fact = tuple[str, str]


def facts(exercise: Exercise, names: Mapping[Muscle, str]) -> tuple[Fact, ...]:
    """Everything but the wording, as pairs of a label and a text; empty texts are left out."""
    zone = rows.range_text(exercise.rep_low, exercise.rep_high)
    share = (
        tr("{body_share} % of body mass", body_share=number(exercise.body_share * 100))
        if exercise.body_share
        else ""
    )
    every = (
        (tr("Muscles"), rows.muscles_text(exercise, names)),
        (
            tr("Movement"),
            tr("{plain}, {plane} plane", plain=_plain(exercise.pattern), plane=exercise.plane),
        ),
        (
            tr("Joints"),
            tr("several move the load") if exercise.multi_joint else tr("one moves the load"),
        ),
        (tr("Sides"), tr("one at a time") if exercise.unilateral else tr("both together")),
        (tr("Equipment"), rows.equipment_text(exercise)),
        (tr("Load"), tr(LOADS[exercise.load_kind])),
        (tr("Own mass"), share),
        (tr("Demand"), tr(SKILLS[exercise.skill]).lower()),
        (tr("Spine"), tr(SPINE[exercise.spinal_load])),
        (tr("Stress"), _stress(exercise)),
        (tr("Reaches"), ", ".join(_reach(one) for one in exercise.reaches)),
        (tr("Zone"), f"{zone} {('s' if exercise.timed else tr('repetitions'))}"),
        (tr("Usual rest"), clock(exercise.rest_s)),
        (tr("Usual tempo"), exercise.tempo),
        (tr("Set-up time"), clock(exercise.setup_s)),
        (tr("Prepares"), ", ".join(_plain(one) for one in exercise.warmup_for)),
    )
    return tuple((label, text) for label, text in every if text)


def _plain(word: str) -> str:
    return str(word).replace("_", " ")


def _stress(exercise: Exercise) -> str:
    ranked = sorted(exercise.stress, key=lambda pair: -pair[1])
    return ", ".join(
        f"{mid_sentence(joint_name(joint))} {tr(FEELS[level])}" for joint, level in ranked
    )


def _reach(reach: Reach) -> str:
    """'knee flexion 110°', or 'spine compression' where angles do not apply."""
    return f"{reach.joint} {reach.motion}" + (f" {reach.degrees}°" if reach.degrees else "")


def tfl_text(exercise: Exercise, references: Mapping[str, Reference]) -> str:
    """How much the gluteals work beside the tensor fasciae latae, where one study measured it."""
    index = GLUTEAL_TO_TFL.get(exercise.key)
    if index is None:
        return ""
    low, high = GLUTEAL_TO_TFL_RANGE
    label = tr(", value from memory") if exercise.key in FROM_MEMORY else ""
    return tr(
        "Gluteal-to-TFL index {index}{label} (higher: more gluteals, less tensor "
        "fasciae latae; eleven exercises had {low} to {high}, {study_text}).",
        index=index,
        label=label,
        low=low,
        high=high,
        study_text=rows.study_text(TFL_FROM, references),
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
    need = (
        tr(
            "Needs {equipment_text}, which {first} does not have.",
            equipment_text=equipment_text(missing),
            first=first,
        )
        if missing
        else ""
    )
    return (*says, *((need,) if need else ()))


def _limit(limitation: Limitation) -> str:
    until = limitation.until
    return limitation_text(limitation) + (
        tr(" lasts until {until}", until=full_date(until)) if until else tr(" has no end yet")
    )


def stand_ins(
    exercise: Exercise, catalogue: Catalogue, *, client: Client | None, program: Program | None
) -> tuple[Substitute, ...]:
    """What could stand in for the exercise, best first, those the client cannot do last.

    Where the exercise stands in the program its slot is asked for; else one made for the question,
    which nobody keeps. Without a client everything is in reach.
    """
    who = client or Client(ClientId(""), tr("Nobody"), equipment=frozenset(Equipment))
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
    empty = empty_program(ProgramId(""), tr("Asked"), start=start, weeks=1, emphasis=emphasis)
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
        return tr("Not in {program}.", program=program.name)
    return tr("In {program}: {list}.", program=program.name, list=list_of(list(runs)))
