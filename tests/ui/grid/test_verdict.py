"""What a day's foot says of an edit that nobody has made yet."""

from __future__ import annotations

from dataclasses import replace

from app.domain.checks.context import Context
from app.domain.client import FreeTime, Limitation
from app.domain.exercise import ExerciseKey, Joint, Motion, Muscle
from app.domain.findings import Finding, Place, Weight
from app.domain.ranges import Range, RangeBook
from app.ui.carry import Carried, Via
from app.ui.grid import verdict
from app.ui.grid.geometry import Target
from app.ui.grid.hand import Hand
from app.ui.grid.verdict import Row, Word
from tests.ui.grid import scene


def judged(exercise: str, *weeks: str, **client) -> dict[int, verdict.Verdict]:
    on = scene.bench(*weeks, **client)
    hand = Hand(on, Carried(exercise=ExerciseKey(exercise)), via=Via.KEYS)
    sessions = on.desk.program.weeks[0].days
    targets = tuple(
        Target(day, sessions[day].sessions[0].id if sessions[day].sessions else None)
        for day in range(7)
    )
    return {v.day: v for v in hand.judge(targets)}


def test_a_day_without_time_is_not_free_and_says_why():
    said = judged("leg_extension")
    assert (said[1].word, said[1].lines) == (Word.NOT_FREE, ("team evening",))
    assert said[6].word is Word.NOT_FREE


def test_a_day_next_to_a_hard_one_is_too_soon_before_and_after():
    said = judged("leg_extension", "Thu: leg_press 4x10, split_squat 3x10")
    assert said[2].word is Word.TOO_SOON
    assert said[2].lines == ("24 h before Thursday",)
    assert said[4].lines == ("24 h after Thursday",)


def test_the_day_that_mends_a_finding_fits_better_and_only_one_does():
    said = judged("leg_extension", "Mon: back_squat 4x10 | Thu: leg_press 4x10, curl")
    better = [day for day, one in said.items() if one.word is Word.FITS_BETTER]
    assert len(better) <= 1
    said = judged("leg_extension", "Mon: back_squat 6x10 | Thu: leg_press 4x10")
    better = [day for day, one in said.items() if one.word is Word.FITS_BETTER]
    assert better == [0]
    assert said[0].lines[0] == "Quadriceps 10 → 13 of 12–20"


def test_a_day_that_would_run_over_is_too_long_with_its_minutes():
    said = judged("leg_extension", "Sat: bench_press 9x10 rest 180, barbell_row 5x10 rest 180")
    assert said[5].word is Word.TOO_LONG
    assert said[5].lines[-1].startswith("Minutes ")
    assert said[5].lines[-1].endswith(" of 60")


def test_a_forbidden_exercise_is_a_conflict_wherever_there_is_time():
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90)
    on = scene.bench(limitations=(knee,))
    on.desk.ranges = RangeBook(
        {
            **scene.RANGES.ranges,
            "limitation": (
                Range("limitation", None, None, "", "common practice", weight="conflict"),
            ),
        }
    )
    hand = Hand(on, Carried(exercise=ExerciseKey("back_squat")), via=Via.KEYS)
    said = {v.day: v for v in hand.judge((Target(4), Target(6)))}
    assert said[4].word is Word.CONFLICT
    assert said[6].word is Word.NOT_FREE


def test_the_day_a_slot_stands_on_says_so():
    on = scene.bench()
    carried = Carried(slots=(scene.slot_id(on, 0, 0),), source=on.source)
    session = on.desk.program.weeks[0].days[0].sessions[0].id
    hand = Hand(on, carried, via=Via.KEYS)
    assert hand.judge((Target(0, session),))[0].word is Word.HERE


def test_a_refused_edit_is_not_possible():
    on = scene.bench()
    hand = Hand(on, Carried(exercise=ExerciseKey("nothing")), via=Via.KEYS)
    assert hand.judge((Target(0),))[0].word is Word.NOT_POSSIBLE


def test_without_any_availability_no_day_is_called_not_free():
    said = judged("curl", "Mon: back_squat", free=(FreeTime(),) * 7)
    assert Word.NOT_FREE not in {one.word for one in said.values()}


def test_rows_put_emphasised_and_changed_muscles_first():
    on = scene.bench("Mon: back_squat 4x10")
    context = Context(on.desk.program, on.desk.client, on.desk.catalogue, on.desk.ranges)
    exercise = on.desk.catalogue[ExerciseKey("back_squat")]
    before = context.facts.week(on.desk.program.weeks[0])
    empty = context.facts.week(scene.bench("Mon: curl").desk.program.weeks[0])
    muscles = verdict.muscles_of((exercise,))
    rows = verdict.muscle_rows(empty, before, context, muscles=muscles, index=0)
    assert [row.name for row in rows] == ["Quadriceps", "Gluteals"]
    assert rows[0] == Row("Quadriceps", 0.0, 4.0, "12–20")


def test_of_what_changes_the_muscle_led_away_from_its_range_comes_first():
    on = scene.bench("Mon: back_squat 4x10")
    program = replace(on.desk.program, emphasis=(Muscle.QUADRICEPS, Muscle.HAMSTRINGS))
    context = Context(program, on.desk.client, on.desk.catalogue, on.desk.ranges)
    week = "Mon: romanian_deadlift 12x10"
    before, after = (
        context.facts.week(scene.bench(one).desk.program.weeks[0])
        for one in (week, "Mon: back_squat 4x10, romanian_deadlift 8x10")
    )
    muscles = (Muscle.QUADRICEPS, Muscle.HAMSTRINGS)
    rows = verdict.muscle_rows(before, after, context, muscles=muscles, index=0)
    assert [row.name for row in rows] == ["Hamstrings", "Quadriceps"]


def test_a_row_reads_as_before_arrow_after_of_range():
    assert Row("Quadriceps", 10, 13, "12–20").text == "Quadriceps 10 → 13 of 12–20"
    assert Row("Calves", 3, 6, "from 4").text == "Calves 3 → 6, from 4"
    assert Row("Minutes", 52, 52, "60", cap=True).text == "Minutes 52 of 60"
    assert Row("Minutes", 0, 13.5, "").text == "Minutes 0 → 13.5"


def test_findings_are_said_in_few_words():
    minutes = Finding(
        "session_minutes",
        Weight.OUTSIDE,
        Place(day=3),
        "thursday",
        "Thursday 64 min, 4 over the cap of 60",
        measured=64,
        range=Range("session_minutes", None, 60, "min", "common practice"),
        below=False,
    )
    sets = Finding("weekly_sets", Weight.OUTSIDE, Place(), "quadriceps", "Q 10", below=True)
    other = Finding("order", Weight.REMARK, Place(), "x", "Curl before squat")
    assert verdict.short_text(minutes) == "4 min over the cap"
    assert verdict.short_text(sets) == "Quadriceps short"
    assert verdict.short_text(other) == "Curl before squat"


def test_two_sessions_on_one_day_are_said_to_be():
    same = Finding("spacing", Weight.OUTSIDE, Place(day=2), "x", "text", measured=0.0)
    assert verdict.spacing_text(same, 2) == "twice on the same day"


def test_a_day_that_runs_over_already_does_not_fit_more():
    text = "Sat: bench_press 9x10 rest 180, barbell_row 9x10 rest 180"
    said = judged("leg_extension", text)
    assert said[5].word is Word.TOO_LONG
