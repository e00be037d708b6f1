"""A small program to write schemes into: core squat, assistance curl, timed plank."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from app.domain.edits.parts import map_slots
from app.domain.edits.weeks import fill_weeks
from app.domain.effort import Rir
from app.domain.exercise import (
    Catalogue,
    Exercise,
    ExerciseKey,
    LoadKind,
    Muscle,
    Pattern,
    Work,
)
from app.domain.program import (
    Day,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    empty_program,
)

SQUAT = Exercise(
    key=ExerciseKey("back_squat"),
    name="Back squat",
    pattern=Pattern.SQUAT,
    work=(Work(Muscle.QUADRICEPS, 1.0),),
    equipment=(),
    load_kind=LoadKind.BARBELL,
    multi_joint=True,
)
STEP_UP = replace(SQUAT, key=ExerciseKey("step_up"), name="Step-up", unilateral=True, rep_low=6)
CURL = replace(SQUAT, key=ExerciseKey("leg_curl"), name="Leg curl", multi_joint=False, rep_low=10)
PLANK = replace(SQUAT, key=ExerciseKey("plank"), name="Plank", timed=True, load_kind=LoadKind.NONE)
CATALOGUE = Catalogue((SQUAT, STEP_UP, CURL, PLANK))


def training(first_id: int, strand: int, title: str) -> Session:
    """One session with the four exercises."""
    slots = (
        (SQUAT, Role.CORE, Reps(10, 10), 4),
        (STEP_UP, Role.ASSISTANCE, Reps(10, 10), 3),
        (CURL, Role.ASSISTANCE, Reps(12, 12), 3),
        (PLANK, Role.ASSISTANCE, Reps(40, 40), 2),
    )
    return Session(
        SessionId(first_id),
        StrandId(strand),
        title,
        tuple(
            Slot(
                SlotId(first_id + n),
                StrandId(strand + n),
                exercise.key,
                sets,
                reps,
                effort=Rir(2),
                role=role,
            )
            for n, (exercise, role, reps, sets) in enumerate(slots, start=1)
        ),
    )


def plan(weeks: int, days: tuple[int, ...] = (0, 3)) -> Program:
    """A program that trains on these days of every week with the same sessions."""
    program = empty_program(ProgramId("test"), "Test", start=date(2026, 11, 30), weeks=weeks)
    number = program.next_id
    week = program.weeks[0]
    filled = [Day()] * 7
    for day in days:
        filled[day] = Day((training(number, number, f"Day {day}"),))
        number += 10
    first = replace(week, days=tuple(filled))
    program = replace(program, weeks=(first, *program.weeks[1:]), next_id=number)
    return fill_weeks(program, 0, range(1, weeks))


def pin(program: Program, chosen: frozenset[SlotId], fields) -> Program:
    """The program with these fields of these slots pinned."""
    return replace(
        program,
        weeks=tuple(
            map_slots(
                week,
                lambda slot: replace(slot, pinned=fields) if slot.id in chosen else slot,
            )
            for week in program.weeks
        ),
    )


def slots_of(program: Program, exercise: Exercise) -> list[list[Slot]]:
    """The slots of one exercise, week by week."""
    return [[s for s in week.slots() if s.exercise == exercise.key] for week in program.weeks]
