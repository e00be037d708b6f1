"""The usual layouts of coaches' tables, read by the guess alone."""

from __future__ import annotations

import pytest

from app.domain.effort import PercentOneRm, Rir
from app.domain.program import broken_laws
from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.guess import guess, part_of
from tests.exchange.coach_plan.shipped import WORDS
from tests.exchange.coach_plan.tables import NAMES, read, sheet, shorthand

EXPECTED = [
    "w1 Mon Lower: back_squat 3x5-5",
    "w1 Mon Lower: leg_extension 3x12-15",
    "w1 Thu Upper: barbell_row 4x8-8",
    "w2 Mon Lower: back_squat 3x4-4",
]

ROWS = """
Week | Day | Session | Exercise | Sets | Reps | RIR
1 | Monday | Lower | Back squat | 3 | 5 | 2
. | . | . | Leg extension | 3 | 12-15 | 1
. | Thursday | Upper | Barbell row | 4 | 8 | 2
2 | Monday | Lower | Back squat | 3 | 4 | 2
"""
GERMAN = """
Woche | Tag | Einheit | Übung | Sätze | Wdh. | RIR
1 | Montag | Lower | Back squat | 3 | 5 | 2
1 | Montag | Lower | Leg extension | 3 | 12-15 | 1
1 | Donnerstag | Upper | Barbell row | 4 | 8 | 2
2 | Montag | Lower | Back squat | 3 | 4 | 2
"""
SPANISH = """
Semana | Día | Sesión | Ejercicio | Series | Repeticiones
1 | lunes | Lower | Back squat | 3 | 5
1 | lunes | Lower | Leg extension | 3 | 12-15
1 | jueves | Upper | Barbell row | 4 | 8
2 | lunes | Lower | Back squat | 3 | 4
"""
SCHEME = """
Wk | Weekday | Workout | Exercise | Sets x Reps
W1 | Mon | Lower | Back squats | 3x5
W1 | Mon | Lower | Leg extensions | 3 x 12–15
W1 | Thu | Upper | BB row | 4 sets of 8
W2 | Mon | Lower | Back squat | 3×4
"""
SETS = """
Week | Day | Workout | Exercise | Set | Reps | Weight (kg)
1 | Monday | Lower | Back squat | 1 | 5 | 60
. | . | . | . | 2 | 5 | 60
. | . | . | . | 3 | 5 | 60
. | . | . | Leg extension | 1 | 15 | .
. | . | . | Leg extension | 2 | 12 | .
. | . | . | Leg extension | 3 | 12 | .
. | Thursday | Upper | Barbell row | 1 | 8 | .
. | . | . | . | 2 | 8 | .
. | . | . | . | 3 | 8 | .
. | . | . | . | 4 | 8 | .
2 | Monday | Lower | Back squat | 1 | 4 | 62,5
. | . | . | . | 2 | 4 | 62,5
. | . | . | . | 3 | 4 | 62,5
"""
BESIDE = """
. | . | . | Week 1 | Week 1 | Week 2 | Week 2
Day | Session | Exercise | Sets | Reps | Sets | Reps
Monday | Lower | Back squat | 3 | 5 | 3 | 4
. | . | Leg extension | 3 | 12-15 | . | .
Thursday | Upper | Barbell row | 4 | 8 | . | .
"""
BESIDE_SCHEME = """
Day | Session | Exercise | Week 1 | Week 2
Monday | Lower | Back squat | 3x5 | 3x4
. | . | Leg extension | 3x12-15 | .
Thursday | Upper | Barbell row | 4x8 | .
"""
BESIDE_NO_WEEKS = """
Day | Session | Exercise | Sets | Reps | Sets | Reps
Monday | Lower | Back squat | 3 | 5 | 3 | 4
. | . | Leg extension | 3 | 12-15 | . | .
Thursday | Upper | Barbell row | 4 | 8 | . | .
"""
HEADINGS = """
My plan
Week 1 | . | .
Monday - Lower | . | .
Exercise | Sets | Reps
Back squat | 3 | 5
Leg extension | 3 | 12-15
Thursday: Upper | . | .
Exercise | Sets | Reps
Barbell row | 4 | 8
Week 2 | . | .
Monday - Lower | . | .
Exercise | Sets | Reps
Back squat | 3 | 4
"""
NO_HEAD = """
Monday | Back squat | 3x5
. | Leg extension | 3x12-15
"""


LAYOUTS = {
    "rows": ROWS,
    "german": GERMAN,
    "spanish": SPANISH,
    "scheme": SCHEME,
    "sets": SETS,
    "beside": BESIDE,
    "beside scheme": BESIDE_SCHEME,
    "beside without weeks": BESIDE_NO_WEEKS,
    "headings": HEADINGS,
}


@pytest.mark.parametrize("text", LAYOUTS.values(), ids=LAYOUTS.keys())
def test_every_usual_layout_gives_the_same_program(text: str) -> None:
    made = read(sheet(text))
    assert shorthand(made.program) == EXPECTED
    assert broken_laws(made.program) == ()
    assert made.built.left_out == 0


def test_a_sheet_can_be_a_week() -> None:
    one = sheet("\n".join(line.partition("|")[2] for line in ROWS.strip().split("\n")[:4]), "W1")
    two = sheet("Day|Session|Exercise|Sets|Reps\nMonday|Lower|Back squat|3|4", "Week 2")
    made = read(one, two)
    assert made.mapping.sheet_weeks
    assert shorthand(made.program) == EXPECTED


def test_what_the_columns_say_is_asked() -> None:
    made = read(
        sheet(
            "Exercise|Sets|Reps|RPE|Rest (min)|Tempo|Load (lb)|Notes\n"
            "Back squat|3|5|8|3|3-0-1-0|100|Sit back\n"
            "A1. Leg extension|3|12|9|1,5|.|.|.\n"
            "A2. Leg curl, seated|3|12|9|1,5|.|.|."
        )
    )
    squat, *_ = made.program.weeks[0].slots()
    assert squat.effort == Rir(2)
    assert squat.rest_s == 180
    assert squat.tempo == "3-0-1-0"
    assert squat.load_kg == pytest.approx(45.359, abs=0.001)
    assert squat.note == "Sit back"


def test_per_cent_as_a_share_or_a_number() -> None:
    made = read(sheet("Exercise|Sets|Reps|% 1RM\nBack squat|3|5|0.8\nFront squat|3|5|75"))
    assert [s.effort for s in made.program.weeks[0].slots()] == [PercentOneRm(80), PercentOneRm(75)]


def test_a_table_without_headings_is_told_by_its_cells() -> None:
    made = read(sheet(NO_HEAD))
    assert shorthand(made.program) == [
        "w1 Mon Monday: back_squat 3x5-5",
        "w1 Mon Monday: leg_extension 3x12-15",
    ]


def test_bare_numbers_behind_the_exercise_are_sets_and_reps() -> None:
    made = read(sheet("Back squat|3|5\nLeg extension|3|12\nBarbell row|4|8"))
    assert [c.part for c in made.mapping.columns] == [Part.EXERCISE, Part.SETS, Part.REPS]


@pytest.mark.parametrize(
    ("head", "part"),
    [
        ("Exercize", Part.EXERCISE),
        ("Repetitons", Part.REPS),
        ("Sets:", Part.SETS),
        ("Load (kg per hand)", Part.LOAD),
        ("Reps #", Part.REPS),
        ("Colour", Part.IGNORED),
        ("", Part.IGNORED),
        ("%%%", Part.IGNORED),
    ],
)
def test_slips_in_headings_are_forgiven(head: str, part: Part) -> None:
    assert part_of(head, WORDS) is part


def test_units_come_from_the_headings() -> None:
    made = guess(
        [sheet("Exercise|Sets|Reps|Weight (lbs)\nBack squat|3|5|100")],
        WORDS,
        is_exercise=NAMES.is_exercise,
    )
    assert made.unit == "lb"


def test_a_heading_in_the_middle_of_notes_is_no_head() -> None:
    made = read(sheet("Plan for the spring||\n||\nExercise|Sets|Reps\nBack squat|3|5"))
    assert made.mapping.head == 2
