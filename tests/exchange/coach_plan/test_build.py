"""Programs made of the lines of a table."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import FreeTime
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.program import Field, ProgramId, Reps, broken_laws
from app.exchange.coach_plan.asked import Asked
from app.exchange.coach_plan.build import Wanted, build, weeks_in
from app.exchange.coach_plan.lines import Line
from tests.builders import client
from tests.exchange.coach_plan.tables import CATALOGUE, START, read, sheet, shorthand

MEANT = {
    "squat": ExerciseKey("back_squat"),
    "row": ExerciseKey("barbell_row"),
    "plank": next(e.key for e in CATALOGUE if e.timed),
}
WANTED = Wanted(ProgramId("p"), "Read", START, 1, MEANT)


THREE = Asked(3, 5, 5)


def line(name: str, asked: Asked = THREE, **fields: Any) -> Line:
    made = Line((1,), 0, None, "Lower", name, asked, False, "row 2")
    return replace(made, **fields)


def test_the_same_exercise_is_one_strand_through_the_weeks() -> None:
    made = build(
        [line("squat"), line("squat", weeks=(2,)), line("squat", weeks=(2,), asked=Asked(1, 3, 3))],
        replace(WANTED, weeks=2),
        client=client(),
        catalogue=CATALOGUE,
    ).program
    (first,), (second, third) = (tuple(week.slots()) for week in made.weeks)
    assert first.strand == second.strand != third.strand
    assert broken_laws(made) == ()


def test_weeks_past_the_table_repeat_its_last_one() -> None:
    made = build(
        [line("squat"), line("row", weeks=(2,))],
        replace(WANTED, weeks=4),
        client=client(),
        catalogue=CATALOGUE,
    ).program
    assert [text.split(": ")[1] for text in shorthand(made)] == [
        "back_squat 3x5-5",
        *["barbell_row 3x5-5"] * 3,
    ]


def test_names_without_an_exercise_are_left_out_and_counted() -> None:
    built = build([line("squat"), line("magic")], WANTED, client=client(), catalogue=CATALOGUE)
    assert (built.taken, built.left_out) == (1, 1)


def test_nothing_left_is_refused() -> None:
    with pytest.raises(CoachError, match="No line"):
        build([line("magic")], WANTED, client=client(), catalogue=CATALOGUE)
    with pytest.raises(CoachError, match="no name"):
        build([line("squat")], replace(WANTED, name=" "), client=client(), catalogue=CATALOGUE)


def test_what_is_not_told_is_usual_and_that_is_said() -> None:
    built = build([line("squat", asked=Asked())], WANTED, client=client(), catalogue=CATALOGUE)
    assert [one.sentence for one in built.remarks] == [
        "row 2: No repetitions are told; usual ones are taken.",
        "row 2: No sets are told; 3 are taken.",
    ]


def test_seconds_belong_to_timed_exercises() -> None:
    asked = Asked(3, 30, 30, seconds=True)
    built = build(
        [line("squat", asked=asked), line("plank", asked=asked), line("plank", Asked(3, 40, 40))],
        WANTED,
        client=client(),
        catalogue=CATALOGUE,
    )
    squat, plank, other = built.program.weeks[0].slots()
    assert squat.reps != Reps(30, 30)
    assert (plank.reps, other.reps) == (Reps(30, 30), Reps(40, 40))
    assert any("is not timed" in one.text for one in built.remarks)
    assert any("is taken for seconds" in one.text for one in built.remarks)


def test_a_load_is_one_set_by_hand() -> None:
    asked = Asked(3, 5, 5, load_kg=60)
    (slot,) = (
        build([line("squat", asked=asked)], WANTED, client=client(), catalogue=CATALOGUE)
        .program.weeks[0]
        .slots()
    )
    assert slot.load_kg == 60
    assert slot.pinned == {Field.LOAD}


def test_a_pair_needs_two() -> None:
    lines = [line("squat", Asked(3, 5, 5, pair="A")), line("row", Asked(3, 5, 5, pair="B"))]
    lines += [line("squat", Asked(3, 5, 5, pair="B"))]
    made = build(lines, WANTED, client=client(), catalogue=CATALOGUE).program
    assert [slot.pair for slot in made.weeks[0].slots()] == ["", "B", "B"]


def test_training_days_take_the_client_s_free_days() -> None:
    free = tuple(FreeTime(60 if day in (1, 5) else 0) for day in range(7))
    lines = [line("squat", day=None, nth=1), line("row", day=None, nth=2)]
    made = build(lines, WANTED, client=client(free=free), catalogue=CATALOGUE).program
    assert [day for day, _ in made.weeks[0].sessions()] == [1, 5]


def test_the_start_is_a_monday_and_weeks_are_counted() -> None:
    made = build(
        [line("squat")],
        replace(WANTED, start=date(2026, 11, 26)),
        client=client(),
        catalogue=CATALOGUE,
    )
    assert made.program.start == START
    assert weeks_in([line("squat", weeks=(2, 7))]) == 7
    assert weeks_in([]) == 1


@given(
    st.lists(
        st.builds(
            line,
            st.sampled_from(sorted(MEANT)),
            st.builds(
                lambda sets, low, more, load: Asked(sets, low, low + more, load_kg=load),
                st.none() | st.integers(1, 20),
                st.integers(1, 500),
                st.integers(0, 100),
                st.none() | st.floats(0, 1000),
            ),
            weeks=st.lists(st.integers(1, 5), min_size=1, max_size=3).map(tuple),
            day=st.none() | st.integers(0, 6),
            nth=st.none() | st.integers(1, 14),
            session=st.sampled_from(["", "A", "B"]),
        ),
        min_size=1,
        max_size=20,
    )
)
def test_whatever_is_read_makes_a_sound_program(lines: list[Line]) -> None:
    wanted = replace(WANTED, weeks=weeks_in(lines))
    built = build(lines, wanted, client=client(), catalogue=CATALOGUE)
    assert broken_laws(built.program) == ()
    slots = [slot for week in built.program.weeks for slot in week.slots()]
    assert len(slots) == sum(len(one.weeks) for one in lines)


def test_our_own_table_comes_back_whole() -> None:
    made = read(sheet("Week|Day|Session|Exercise|Sets|Reps\n1|Monday|Lower|Back squat|3|5"))
    assert shorthand(made.program) == ["w1 Mon Lower: back_squat 3x5-5"]
