from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from scipy.stats import theilslopes

from app.domain.client import EnergyGoal, StrengthTest
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import ProgramId
from app.domain.progress import mass_series, strength_series, told, weeks_done
from app.domain.results import CheckIn, SetDone, SlotResult
from tests.builders import CATALOGUE, START, client, program

PLAN = program("Mon: back_squat 3x5", times=4)
SQUAT = CATALOGUE[ExerciseKey("back_squat")]


def checks(*values, goal=None, plan=None, **fields):
    made = [
        CheckIn(START + timedelta(weeks=week), mass_kg=kg)
        for week, kg in enumerate(values)
        if kg is not None
    ]
    return mass_series(
        client(energy_goal=goal, **fields), made, regression=theilslopes, program=plan
    )


def results(*weeks):
    slots = [next(week.slots()) for week in PLAN.weeks]
    return [
        SlotResult(
            ProgramId("ridge"),
            slots[week].id,
            SQUAT.key,
            START + timedelta(weeks=week),
            (SetDone(60, 5, 2),) * sets,
        )
        for week, sets in weeks
    ]


def counted(*weeks):
    return weeks_done(PLAN, results(*weeks), CATALOGUE, load_kg=lambda _: 60.0)


def test_a_rising_mass_says_so_with_its_interval():
    text = told.mass_text(checks(66, 66.5, 67, 67.5), "kg")
    assert "4 weighings from 23 Nov 2026 to 14 Dec 2026; the last is 67.5 kg." in text
    assert "+0.50 kg a week (+0.50 to +0.50) over 3 weeks: clearly rising" in text


def test_pounds_are_pounds_everywhere():
    text = told.mass_text(checks(66, 66.5, 67, 67.5), "lb")
    assert "148.8 lb" in text
    assert "+1.10 lb a week" in text


def test_missing_weeks_are_said():
    text = told.mass_text(checks(66, None, None, 66.4, 66.5), "kg")
    assert "No weighing in the weeks of 30 Nov 2026, 7 Dec 2026" in text
    many = told.mass_text(checks(66, *[None] * 6, 66.4, 66.5), "kg")
    assert "and 2 more" in many


def test_the_trend_is_told_beside_its_corridor():
    gain = EnergyGoal.GAIN
    assert "below the corridor" in told.mass_text(checks(66, 65, 64, goal=gain, plan=PLAN), "kg")
    assert "above the corridor" in told.mass_text(checks(66, 68, 70, goal=gain, plan=PLAN), "kg")
    inside = checks(66, 66.25, 66.5, goal=gain, plan=PLAN)
    assert "lies in the corridor" in told.mass_text(inside, "kg")


def test_nothing_weighed_is_said():
    assert "No body mass" in told.mass_text(checks(), "kg")


def test_strength_names_its_tests_and_its_last_interval():
    runa = client(tests=(StrengthTest(SQUAT.key, START, 80, 5),))
    series = strength_series(SQUAT, runa, results((1, 2), (2, 2)), regression=theilslopes)
    text = told.strength_text(series, "kg")
    assert "3 estimates of the one-repetition maximum" in text
    assert "1 of them a test" in text
    assert "Trend:" in text
    sets = strength_series(SQUAT, client(), results((1, 2), (2, 2)), regression=theilslopes)
    assert told.strength_text(sets, "kg").startswith(
        "Back squat: 2 estimates of the one-repetition maximum from 30 Nov 2026 to 7 Dec 2026, "
        "all from sets done."
    )
    nothing = strength_series(SQUAT, client(), [], regression=theilslopes)
    assert "nothing to estimate" in told.strength_text(nothing, "kg")


def test_volume_and_adherence_count_entered_weeks_only():
    weeks = counted((0, 3), (2, 2))
    assert told.volume_text(weeks) == "5 of 6 planned sets were done in 2 weeks with entries."
    text = told.adherence_text(weeks)
    assert text == "83% of the planned sets were done. Nothing was entered for week 2."
    assert told.tonnage_text(weeks, "kg").startswith("1,500 kg lifted in 2 weeks")
    assert "No results" in told.volume_text(counted())
    assert "No results" in told.adherence_text(counted())
    assert "No results" in told.tonnage_text(counted(), "kg")


def test_what_planned_is_counted_with_is_said():
    def said(*printed):
        weeks = counted((0, 3), (2, 2))
        on = [START if at in printed else None for at in range(len(weeks))]
        return told.tonnage_text(
            [replace(week, printed_on=day) for week, day in zip(weeks, on, strict=True)], "kg"
        )

    # 3 sets of 5 with 60 kg in each of the two weeks with entries
    assert "Planned for them: 1,800 kg. Planned is counted with today's loads." in said()
    assert "with the loads printed in the booklet for 1 week, else with today's." in said(0)
    assert "with the loads printed in the booklets for 2 weeks, else" in said(0, 1)
    assert "printed in the booklets that were handed out." in said(0, 1, 2, 3)
    assert told.loads_text([]) == ""
    assert told.tonnage_text(counted(), "kg").endswith("with today's loads.")


def test_sets_without_a_load_are_said_not_to_be_in_the_plan():
    weeks = weeks_done(PLAN, results((0, 1)), CATALOGUE, load_kg=lambda _: None)
    text = told.tonnage_text(weeks, "kg")
    assert "Where the plan has no load, it counts with what was lifted." in text
    assert "9 planned sets have no load" in text


def test_sets_per_muscle_are_told_as_planned_and_done():
    text = told.muscles_text(counted((0, 3), (1, 1)), [Muscle.QUADRICEPS])
    assert text == "Quadriceps: 3 to 3 sets a week planned, 2 done on average."
    assert "No muscle" in told.muscles_text(counted(), [])
