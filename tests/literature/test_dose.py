"""Weekly sets, sessions, minutes, rest, tempo, load and amplitudes."""

from __future__ import annotations

from typing import Any

import pytest

from app.domain import checks, dose
from app.domain.activation import GLUTEAL_TO_TFL, GLUTEAL_TO_TFL_RANGE, band_of_amplitude
from app.domain.client import Goal, Status
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.findings import Finding, Weight
from app.domain.session_time import Pace, timetable
from app.resources import catalogue, range_book
from tests.builders import CATALOGUE, client, program, session, week
from tests.literature.table import Answer, Row, check, close, numbers, rows, says

FORMULA = Pace(repetition_s=3, warmup_s=0, setup_s=120, rest_after_last=False, set_up_first=False)


def found(rule: str, text: str, *, plan_week: int = 7, **fields: Any) -> list[Finding]:
    """Findings of a rule on one week, late enough in a plan for its full ranges."""
    plan = program(*[""] * (plan_week - 1), text)
    every = checks.check(plan, client(**fields), CATALOGUE, range_book())
    return [one for one in every if one.rule == rule]


def volume(row: Row) -> Answer:
    if "method" in row.inputs:
        built = week("Mon: bench_press 4x8, triceps_extension 3x12")
        counted = dose.weekly_sets(built, CATALOGUE, row.given("method"))
        return close(counted[Muscle.TRICEPS], float(row.expected), float(row.tolerance))
    if "extra sets" in row.inputs:
        gain = dose.extra_gain_percent(row.number("extra sets"))
        return close(gain, numbers(row.expected)[0], float(row.tolerance))
    sets = int(row.number("weekly sets"))
    if "warn" in row.inputs:
        warned = found("weekly_sets", f"Mon: calf_raise {sets}x12")
        floor = [one.range.low for one in warned if one.about == "calves" and one.range]
        return says(f"warn (<{floor[0]:g})" if floor else "ok", row.expected)
    if "Schoenfeld2017" in row.inputs:
        return says(dose.volume_band(sets), row.expected)
    return says(_baz_valle(sets), row.expected)


def _baz_valle(sets: int) -> str:
    """The band of the review, by the range that rests on it."""
    half = sets // 2
    plan = f"Mon: leg_extension {half}x12 | Thu: leg_extension {sets - half}x12"
    said = [one for one in found("weekly_sets", plan) if one.about == "quadriceps"]
    if not said:
        return "moderate (12-20)"
    assert said[0].source == "bazvalle2022"
    return "low (<12)" if said[0].below else "high (>20)"


def sessions(row: Row) -> Answer:
    if row.inputs.startswith("status"):
        band = range_book().find(
            "training_days", Status(row.given("status")), goal=Goal.HYPERTROPHY, age=30
        )
        assert band is not None
        return says(f"{band.low:g}-{band.high:g} d/wk", row.expected)
    if "strength ES" in row.inputs:
        return close(dose.strength_effect(int(row.number("sessions"))), float(row.expected), 0)
    said = found("weekly_frequency", "Mon: barbell_row 4x8", goal=Goal.HEALTH)
    low = next(one.range.low for one in said if "back" in one.text.lower() and one.range)
    return says(f"below WHO minimum ({low:g})", row.expected)


def rest(row: Row) -> Answer:
    if row.inputs.startswith("hypertrophy"):
        for slot in ("curl 3x10", "back_squat 3x10 core"):
            (said,) = found("rest", f"Mon: {slot} rest {row.number('rest'):g}")
            assert (said.source, said.below) == ("singer2024", True)
        return Answer("advise longer", row.expected.startswith("advise longer"))
    (said,) = found(
        "rest", f"Mon: back_squat 5x5 core rest {row.number('rest'):g}", goal=Goal.STRENGTH
    )
    assert said.range is not None
    minutes = [(edge or 0) / 60 for edge in (said.range.low, said.range.high)]
    return says(f"below {minutes[0]:g}-{minutes[1]:g} min advice", row.expected)


def tempo(row: Row) -> Answer:
    seconds = row.number("repetition duration")
    said = found("tempo", f"Mon: curl 3x10 tempo {seconds / 2:g}-0-{seconds / 2:g}-0")
    words = {Weight.OUTSIDE: "warn", Weight.REMARK: "note"}
    got = words[said[0].weight] if said else "ok"
    return Answer(got, row.expected.split()[0] == got)


def load(row: Row) -> Answer:
    percent = row.number("%1RM")
    if "hypertrophy" in row.inputs:
        (said,) = found("load_zone", f"Mon: curl 3x20 {percent:g}%")
        low = said.range.low if said.range else None
        return Answer(f"warn (<{low:g} %)", row.expected.startswith(f"warn (<{low:g} %"))
    (aim,) = dose.load_serves(percent)
    outer = {0: "ok", -1: "lower edge", 1: "upper edge"}
    side = (not dose.load_serves(percent + 0.1)) - (not dose.load_serves(percent - 0.1))
    return says(f"{outer[side if aim == 'power' else 0]} {aim}", row.expected)


def session_time(row: Row) -> Answer:
    count, sets = (int(n) for n in numbers(row.inputs)[:2])
    built = session(", ".join([f"curl {sets}x8-12 rest 90"] * count))
    exercises = [CATALOGUE[slot.exercise] for slot in built.slots]
    minutes = timetable(built.slots, exercises, pace=FORMULA)[1]
    formula, published = numbers(row.expected)[:2]
    right = abs(minutes - formula) <= 0.05 and abs(minutes / published - 1) <= 0.20
    return Answer(f"{minutes:.1f} min", right)


def amplitude_band(row: Row) -> Answer:
    got = band_of_amplitude(row.number("%MVIC"))
    return Answer(got, row.expected.endswith(got))


MEASURED = {
    "side plank abduction, dominant leg below": "side_plank_abduction",
    "side plank abduction, dominant leg above": "side_plank_abduction",
    "forward step-up bodyweight": "step_up",
    "lateral step-up bodyweight": "lateral_step_up",
    "prone hip extension 10RM": "prone_hip_extension",
    "back squat 10RM, mean": "back_squat",
}
SITES = {
    "GMed": Muscle.HIP_ABDUCTORS,
    "GMax": Muscle.GLUTEALS,
    "lower GMax": Muscle.GLUTEALS,
    "biceps femoris": Muscle.HAMSTRINGS,
}
STUDIES = {
    "Boren 2011": "boren2011",
    "MacAskill 2014": "macaskill2014",
    "Contreras 2015": "contreras2015-thrust",
}


def amplitude(row: Row) -> Answer:
    """The shipped figure of that study that is nearest to the published one."""
    exercise = catalogue()[ExerciseKey(MEASURED[row.given("exercise")])]
    muscle = SITES[row.given("muscle")]
    study = next(key for name, key in STUDIES.items() if row.source.startswith(name))
    published = numbers(row.expected)[0]
    edges = [
        edge
        for one in exercise.activation
        if (one.muscle, one.study) == (muscle, study)
        for edge in (one.low, one.high)
    ]
    nearest = min(edges, key=lambda edge: abs(edge - published))
    got = f"{nearest:g} %MVIC; band {band_of_amplitude(nearest)}"
    return says(got, row.expected)


INDEXED = {
    "sidestep": "lateral_band_walk",
    "quadruped hip extension (both)": "quadruped_hip_extension",
}


def index(row: Row) -> Answer:
    if "all 11" in row.inputs:
        return says("{}..{}".format(*GLUTEAL_TO_TFL_RANGE), row.expected)
    name = row.given("exercise") if ";" in row.inputs else ""
    return close(GLUTEAL_TO_TFL[ExerciseKey(INDEXED[name])], float(row.expected), 0)


ANSWERS = {
    "volume": volume,
    "frequency": sessions,
    "rest": rest,
    "tempo": tempo,
    "load": load,
    "session-time": session_time,
    "emg-band": amplitude_band,
    "emg-value": amplitude,
    "emg-index": index,
}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_dose_and_ranges_agree_with_the_literature(row: Row) -> None:
    check(row, ANSWERS)


@pytest.mark.parametrize(
    ("text", "sets"),
    [
        # hip thrust 4 and squat 3 direct, Romanian deadlift 3 helping, twice a week (pelland2024)
        ("hip_thrust 4x8, back_squat 3x8, romanian_deadlift 3x8", 17.0),
        ("back_squat 3x8", 6.0),
        ("romanian_deadlift 4x8", 4.0),
    ],
)
def test_helping_sets_count_half_over_the_week(text: str, sets: float) -> None:
    built = week(f"Mon: {text} | Thu: {text}")
    assert dose.weekly_sets(built, CATALOGUE)[Muscle.GLUTEALS] == sets


def test_six_exercises_take_48_minutes_by_the_plain_formula() -> None:
    # 6 exercises, 3 x 10, 3 s a repetition, 120 s rest, 120 s between, 300 s warm-up
    built = session(", ".join(["curl 3x10 rest 120"] * 6))
    exercises = [CATALOGUE[slot.exercise] for slot in built.slots]
    assert timetable(built.slots, exercises, pace=FORMULA)[1] + 5 == pytest.approx(48.0, abs=0.1)


@pytest.mark.parametrize(("hours", "warned"), [(24, True), (48, False)])
def test_the_same_muscle_rests_48_hours(hours: int, warned: bool) -> None:
    # acsm-guidelines: non-consecutive days for the same muscle group
    day = {24: "Tue", 48: "Wed"}[hours]
    plan = f"Mon: leg_extension 4x12 | {day}: leg_extension 4x12"
    assert bool(found("spacing", plan)) is warned


def test_light_loads_need_near_failure_effort() -> None:
    # schoenfeld2017-load: light loads grew muscle in sets to failure; 45 % with six left is far
    plan = "Mon: curl 3x29 RIR 6"
    (said,) = found("reserve", plan)
    assert said.source == "schoenfeld2017-load"
    assert found("reserve", "Mon: curl 3x10 RIR 2") == []


@pytest.mark.parametrize(("percent", "right"), [(79, False), (80, True)])
def test_strength_asks_for_80_percent(percent: int, right: bool) -> None:
    # acsm2026
    assert ("strength" in dose.load_serves(percent)) is right
    plan = f"Mon: back_squat 3x3 {percent}% core"
    assert (not found("heavy_work", plan, goal=Goal.STRENGTH)) is right


@pytest.mark.parametrize(("sessions_a_week", "effect"), [(1, 0.74), (4, 1.08), (6, 1.08)])
def test_strength_rose_with_sessions(sessions_a_week: int, effect: float) -> None:
    # grgic2018-frequency
    assert dose.strength_effect(sessions_a_week) == effect


@pytest.mark.parametrize(
    ("sets", "band"), [(4.5, "low (<5)"), (9.5, "medium (5-9)"), (25, "high (10+)")]
)
def test_half_sets_have_a_band_too(sets: float, band: str) -> None:
    # schoenfeld2017-volume
    assert dose.volume_band(sets) == band
