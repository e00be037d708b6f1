"""The warm-up line: drills with their dose, ramp sets that lead up to the printed load."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.warmup_text import drill_text, ramps_of, warmup_text
from app.domain.client import FreeTime, Increments, Place
from app.domain.exercise import Catalogue, Equipment, ExerciseKey, Pattern
from app.domain.program import Drill, DrillDose, Reps
from app.domain.strength import ramp_sets
from tests.booklet.sample import content, issue, lifter
from tests.builders import CATALOGUE, exercise, program

NBSP = "\u00a0"


def line(text: str, **client) -> str:
    whole = program(text)
    book = open_book(issue(whole, lifter(**client)), content(), Options())
    session = next(session for _, session in whole.weeks[0].sessions())
    return warmup_text(book, session).replace(NBSP, " ")


def test_ramp_sets_are_those_of_the_first_loaded_core_lift():
    text = line("Tue (band_walk): back_squat 3x8 60kg core, leg_extension 3x10 30kg core")
    steps = ramp_sets(60.0, 20.0, lifter().increments)
    said = ", ".join(
        f"{s.load_kg:g}{' kg' if not at else ''} × {s.reps}" for at, s in enumerate(steps)
    )
    assert text.endswith(f"ramp sets {said}")
    assert text.count("ramp sets") == 1


def test_a_second_core_lift_with_other_prime_movers_has_its_own():
    text = line("Tue: back_squat 3x8 60kg core, bench_press 3x8 40kg core")
    assert "ramp sets Back squat: 20 kg × 8" in text
    assert "ramp sets Bench press: 20 kg × 8" in text


def test_without_a_printed_load_there_are_no_ramp_sets():
    whole = program("Tue: curl 3x8 core, back_squat 3x8")
    book = open_book(issue(whole, lifter(tests=())), content(), Options())
    session = next(session for _, session in whole.weeks[0].sessions())
    assert ramps_of(book, session) == ()
    assert line("Tue: curl 3x8", tests=()) == "5 minutes easy movement"


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"rep_low": 10, "rep_high": 12}, "Leg swing × 10"),
        ({"rep_low": 8, "rep_high": 12}, "Leg swing × 8–10"),
        ({"rep_low": 5, "rep_high": 8}, "Leg swing × 5–8"),
        ({"rep_low": 30, "timed": True}, "Leg swing, 30 s"),
        ({"rep_low": 60, "timed": True}, "Leg swing, 1 minute"),
        ({"rep_low": 180, "timed": True}, "Leg swing, 3 minutes"),
        ({"rep_low": 90, "timed": True}, "Leg swing, 90 s"),
    ],
)
def test_a_drill_says_how_much_of_it(fields, said: str):
    drill = exercise("leg_swing", Pattern.DRILL, "hip_flexors .5", **fields)
    assert drill_text(Drill(drill.key), drill).replace(NBSP, " ") == said


@pytest.mark.parametrize(
    ("fields", "dose", "said"),
    [
        ({}, DrillDose(1, Reps(12, 12)), "Leg swing × 12"),
        ({}, DrillDose(2, Reps(8, 10)), "Leg swing 2 × 8–10"),
        ({"timed": True}, DrillDose(1, Reps(90, 90)), "Leg swing, 90 s"),
        ({"timed": True}, DrillDose(3, Reps(20, 30)), "Leg swing 3 × 20–30 s"),
        ({"timed": True}, DrillDose(2, Reps(120, 120)), "Leg swing 2 × 2 minutes"),
    ],
)
def test_a_drill_says_the_dose_that_the_coach_set(fields, dose: DrillDose, said: str):
    drill = exercise("leg_swing", Pattern.DRILL, "hip_flexors .5", **fields)
    assert drill_text(Drill(drill.key, dose), drill).replace(NBSP, " ") == said


def test_ramp_sets_of_the_coach_are_printed_and_none_where_they_are_off():
    assert line("Tue: back_squat 3x8 60kg core ramp 50%x5/45kgx3").endswith(
        "ramp sets 30 kg × 5, 45 × 3"
    )
    assert "ramp sets" not in line("Tue: back_squat 3x8 60kg core ramp off")
    named = line("Tue: back_squat 3x8 60kg core ramp off, bench_press 3x8 40kg core ramp 50%x5")
    assert named.endswith("ramp sets Bench press: 20 kg × 5"), "the only one, but not of the first"


def test_a_drill_that_warms_the_whole_body_takes_the_place_of_easy_movement():
    walk = replace(CATALOGUE[ExerciseKey("band_walk")], timed=True, rep_low=300)
    others = tuple(e for e in CATALOGUE if e.key != "band_walk")
    catalogue = Catalogue((*others, walk))
    whole = program("Tue (band_walk): curl 3x8")
    book = open_book(issue(whole, catalogue=catalogue), content(catalogue=catalogue), Options())
    session = next(session for _, session in whole.weeks[0].sessions())
    assert warmup_text(book, session).replace(NBSP, " ") == "Band walk, 5 minutes"


def test_ramp_sets_go_by_the_place_of_their_day():
    coarse = Place("hut", frozenset(Equipment), Increments(plates_kg=(20.0, 10.0)))
    days = (FreeTime(60), FreeTime(60, place="hut"), *(FreeTime(),) * 5)
    text = line("Tue: back_squat 3x8 60kg core", places=(coarse,), free=days)
    steps = ramp_sets(60.0, 20.0, coarse.increments)
    assert steps != ramp_sets(60.0, 20.0, lifter().increments)
    assert text.endswith(
        ", ".join(f"{s.load_kg:g}{'' if at else ' kg'} × {s.reps}" for at, s in enumerate(steps))
    )
