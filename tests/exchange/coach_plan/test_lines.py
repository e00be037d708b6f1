"""Lines of tables: what they inherit, and what is said of those that are not understood."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.coach_plan import lines
from app.exchange.coach_plan.columns import Column, Mapping, Part
from app.exchange.coach_plan.guess import guess
from app.exchange.coach_plan.lines import Remark, read_lines
from app.exchange.sheets.sheet import Sheet, SheetError
from tests.exchange.coach_plan.shipped import WORDS
from tests.exchange.coach_plan.tables import NAMES, read, sheet, shorthand
from tests.exchange.coach_plan.test_asked import CELLS

HEAD = "Week|Day|Session|Exercise|Sets|Reps|Notes\n"


def test_what_is_not_understood_is_said_with_its_place() -> None:
    made = read(sheet(HEAD + "1|Monday|Lower|Back squat|3|plenty|.\nlater|.|.|Back squat|3|5|."))
    assert "row 2: 'plenty' is not understood." in made.said
    assert "row 3: 'later' is no week." in made.said


def test_sets_without_an_exercise_are_said() -> None:
    made = read(sheet(HEAD + "1|Monday|Lower|Back squat|3|5|.\n.|.|.|.|3|5|."))
    assert "row 3: There is no exercise beside it." in made.said


def test_a_run_of_weeks_is_all_of_them() -> None:
    made = read(sheet(HEAD + "1-3|Monday|Lower|Back squat|3|5|."))
    assert len(made.program.weeks) == 3
    assert [line[:2] for line in shorthand(made.program)] == ["w1", "w2", "w3"]


def test_training_days_without_a_weekday_are_spread() -> None:
    made = read(
        sheet("Day|Exercise|Sets|Reps\nDay 1|Back squat|3|5\nDay 2|Deadlift|3|5\n3|Push-up|3|8")
    )
    assert [line.split()[1] for line in shorthand(made.program)] == ["Mon", "Wed", "Fri"]


def test_sessions_by_name_alone_are_days() -> None:
    made = read(
        sheet(
            "Workout|Exercise|Sets|Reps\nLower|Back squat|3|5\nUpper|Barbell row|3|8\n.|Push-up|3|8"
        )
    )
    assert [line.split(":")[0] for line in shorthand(made.program)] == [
        "w1 Mon Lower",
        "w1 Thu Upper",
        "w1 Thu Upper",
    ]


def test_dates_say_week_and_day() -> None:
    rows = (
        ("Date", "Exercise", "Sets", "Reps"),
        (date(2026, 3, 4), "Back squat", 3, 5),
        ("11.03.2026", "Back squat", 3, 4),
        ("someday", "Back squat", 3, 3),
        (date(2029, 3, 4), "Back squat", 3, 2),
    )
    made = read(Sheet("Plan", rows))
    assert [line.split(":")[0] for line in shorthand(made.program)][:2] == [
        "w1 Wed Wednesday",
        "w2 Wed Wednesday",
    ]
    assert any("'someday' is no date" in one for one in made.said)
    assert any("outside the plan's weeks" in one for one in made.said)


def test_a_name_with_its_prescription_is_taken_apart() -> None:
    made = read(sheet("Exercise|Notes\nBack squat 3x5|.\nLeg extension: 3x12|slow"))
    assert [line.split(": ")[1] for line in shorthand(made.program)] == [
        "back_squat 3x5-5",
        "leg_extension 3x12-12",
    ]


def test_a_light_week_is_told_by_its_column_or_heading() -> None:
    head = "Week|Light week|Exercise|Sets|Reps\n"
    made = read(sheet(head + "1|.|Back squat|3|5\n2|yes|Back squat|2|5"))
    assert [week.light for week in made.program.weeks] == [False, True]
    head = "Exercise|Sets|Reps\n"
    made = read(sheet(head + "Week 1||\nBack squat|3|5\nWeek 2 (deload)||\nBack squat|2|5"))
    assert [week.light for week in made.program.weeks] == [False, True]


def test_sets_that_differ_are_said() -> None:
    made = read(sheet("Exercise|Set|Reps|Load (kg)|RIR\nBack squat|1|5|60|2\nBack squat|2|5|65|1"))
    assert {s.split(": ")[1] for s in made.said} == {
        "The sets differ in effort; the first is taken.",
        "The sets differ in load; the first is taken.",
    }


def test_places_name_the_sheet_where_there_are_several() -> None:
    one = sheet("Exercise|Sets|Reps\nBack squat|3|plenty", "W1")
    made = read(one, sheet("Exercise|Sets|Reps\nBack squat|3|5", "W2"))
    assert "W1, row 2: 'plenty' is not understood." in made.said


def test_without_a_column_of_exercises_nothing_is_read() -> None:
    with pytest.raises(SheetError, match="exercises"):
        read_lines([sheet("a|b")], Mapping((Column(), Column())), WORDS, is_exercise=bool)


def test_a_table_that_goes_on_and_on_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lines, "MOST_LINES", 3)
    with pytest.raises(SheetError, match="3 lines"):
        read(sheet("Exercise|Sets|Reps\n" + "Back squat|3|5\n" * 5))


def test_a_remark_is_one_sentence() -> None:
    assert Remark("row 2", "No.").sentence == "row 2: No."
    assert Remark("", "No.").sentence == "No."


TABLES = st.lists(st.lists(CELLS, max_size=6).map(tuple), min_size=1, max_size=8).map(tuple)
MAPPED = st.lists(
    st.builds(Column, st.sampled_from(list(Part)), st.integers(0, 3)), min_size=6, max_size=6
)


@given(TABLES)
def test_any_cells_are_guessed_at_and_read_or_refused(rows: tuple) -> None:
    made = guess([Sheet("A", rows)], WORDS, is_exercise=NAMES.is_exercise)
    if made.holds(Part.EXERCISE):
        read_lines([Sheet("A", rows)], made, WORDS, is_exercise=NAMES.is_exercise)


@given(TABLES, MAPPED, st.booleans(), st.integers(-1, 3))
def test_any_mapping_reads_any_cells(
    rows: tuple, columns: list[Column], one: bool, head: int
) -> None:
    columns[0] = Column(Part.EXERCISE)
    mapping = Mapping(tuple(columns), head=head, set_rows=one, sheet_weeks=one)
    reading = read_lines([Sheet("A", rows)] * 2, mapping, WORDS, is_exercise=lambda _: False)
    for line in reading.lines:
        assert line.weeks
        assert all(1 <= week <= 52 for week in line.weeks)
