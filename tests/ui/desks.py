"""Runa Estvik and her season, as tests of the window open them; and short ways to read a bench."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from app import resources
from app.domain.client import FreeTime, Increments, Limitation, Side, StrengthTest
from app.domain.edits.weeks import make_light, start_block
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Muscle
from app.domain.fit import fits
from app.domain.layout import lay_out, layout_from_mapping
from app.domain.program import Program, ProgramId, Slot, SlotId, empty_program
from app.ui.bench import Bench
from tests import builders

START = date(2026, 11, 23)
TODAY = date(2026, 11, 25)

RUNA = builders.client(
    team="Ombrel Valley Mountain Rescue",
    trained_years=3.0,
    emphasis=(Muscle.GLUTEALS, Muscle.QUADRICEPS),
    free=(
        FreeTime(75),
        FreeTime(0, "team evening"),
        FreeTime(30),
        FreeTime(75),
        FreeTime(45),
        FreeTime(60),
        FreeTime(0, "on call"),
    ),
    increments=Increments(),
    limitations=(
        Limitation(Joint.KNEE, Motion.IMPACT, Side.LEFT, until=date(2027, 2, 28), note="told"),
    ),
    tests=(
        StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5),
        StrengthTest(ExerciseKey("hip_thrust"), date(2026, 10, 2), 110, 6, 1),
    ),
    equipment=frozenset(Equipment),
)


TWO_DAYS = layout_from_mapping(
    "two_days",
    {
        "name": "Two lower-body days",
        "about": "Squat and hip thrust first on one day, hinge and split stance on the other.",
        "emphasis": ["gluteals", "quadriceps", "hamstrings"],
        "sessions": [
            {
                "title": "Lower body, squat and thrust",
                "day": "Mon",
                "warmup": ["brisk_walk", "hip_hinge_drill", "squat_drill"],
                "slots": [
                    ["back_squat | goblet_squat_to_box", 4, 10, 2, "core"],
                    ["hip_thrust | band_hip_thrust", 4, 10, 2, "core"],
                    ["leg_extension | step_up", 3, 12, 1, "assistance"],
                    ["lying_leg_curl | seated_leg_curl", 3, 12, 1, "assistance"],
                    ["standing_calf_raise_machine | calf_raise_block", 3, 12, 1, "assistance"],
                ],
            },
            {
                "title": "Lower body, hinge and split stance",
                "day": "Thu",
                "warmup": ["brisk_walk", "hip_hinge_drill", "bridge_drill"],
                "slots": [
                    ["romanian_deadlift | hex_bar_deadlift", 4, 10, 2, "core"],
                    ["leg_press | front_squat", 3, 10, 2, "core"],
                    ["split_squat | step_up", 3, 10, 2, "assistance"],
                    ["back_extension | cable_pull_through", 3, 12, 2, "assistance"],
                    ["standing_cable_abduction | abductor_machine", 2, 15, 1, "assistance"],
                    ["plank | dead_bug", 2, 30, 2, "assistance"],
                ],
            },
        ],
    },
    source="desks",
)
"""Two days that leave some ranges, so that there are findings to look at and to mend."""


def two_day_program() -> Program:
    """Six weeks of those two days in two blocks, the fourth week light."""
    empty = empty_program(ProgramId("ridge"), "Ridge season", start=START, weeks=6)
    laid = lay_out(
        start_block(empty, 4, name="Build"),
        TWO_DAYS,
        client=RUNA,
        catalogue=resources.catalogue(),
        fits=lambda exercise, day: fits(exercise, RUNA, START, day=day),
    )
    return make_light(laid, 3)


PROGRAM = two_day_program()


def slot_ids(bench: Bench, week: int = 0) -> list[SlotId]:
    """Ids of all slots of a week, in order."""
    return [slot.id for slot in bench.desk.program.weeks[week].slots()]


def without_program(bench: Bench) -> Bench:
    """The same client with no program open."""
    bench.desk.open(RUNA.id)
    return bench


def with_client(bench: Bench, **fields: Any) -> Bench:
    """The bench with some of the client's fields kept as changed."""
    bench.desk.keep_client("Change", replace(bench.desk.client, **fields))
    return bench


def slot(bench: Bench, at: int = 0, week: int = 0) -> Slot:
    """The n-th slot of a week."""
    return list(bench.desk.program.weeks[week].slots())[at]
