"""Mends settle what they are offered for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain import checks
from app.domain.client import Client, FreeTime, Limitation, Screening, Side, Status
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion
from app.domain.findings import Finding
from app.domain.mends import mend_for, with_mends
from app.domain.program import Program
from app.resources import range_book
from tests.builders import CATALOGUE, client, program

KNEE = Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, past_degrees=90)
NOVICE = client(status=Status.NOVICE)
ILL = client(
    screenings=(Screening(date(2026, 10, 2), active=True, known_disease=True, symptoms=False),)
)


def found(plan: Program, who: Client, memo: checks.Memo | None = None) -> tuple[Finding, ...]:
    return checks.check(plan, who, CATALOGUE, range_book(), memo=memo)


def context(plan: Program, who: Client) -> checks.Context:
    return checks.Context(plan, who, CATALOGUE, range_book())


def first(rule: str, plan: Program, who: Client) -> Finding:
    return next(one for one in found(plan, who) if one.rule == rule)


EASY = "Mon: leg_extension 5x12 rest 90 | Thu: leg_extension 4x12 rest 90"

CASES = [
    ("weekly_sets", ["Mon: leg_extension 3x12 | Thu: leg_extension 2x12"], NOVICE, "Add 1 set"),
    ("weekly_sets", ["Mon: leg_press 9x12 | Thu: leg_press 6x12"], client(), "Take off 1 set"),
    ("session_sets", ["Mon: leg_extension 12x12"], client(), "Take off 2 sets"),
    ("exercise_sets", ["Mon: leg_extension 8x12"], client(), "Take off 2 sets"),
    (
        "set_rise",
        ["Mon: leg_extension 2x12", "Mon: leg_extension 8x12"],
        client(),
        "Take off 2 sets",
    ),
    ("rep_zone", ["Mon: curl 3x5-9"], NOVICE, "Set 8–9 repetitions"),
    ("exercise_reps", ["Mon: plank 3x10"], client(), "Set 15 seconds"),
    ("load_zone", ["Mon: back_squat 3x3 90%"], NOVICE, "Set 85 %"),
    ("effort", ["Mon: curl 3x10 RIR 0"], NOVICE, "Set RIR 2"),
    ("reserve", ["Mon: curl 3x10 RIR 8"], client(), "Set RIR 5"),
    ("moderate_only", ["Mon: curl 3x10 RIR 1"], ILL, "Set RIR 3"),
    ("rest", ["Mon: curl 3x10 rest 33"], client(), "Rest 1:03"),
    ("tempo", ["Mon: curl 3x10 tempo 6-0-6-0"], client(), "Set tempo 2-0-2-0"),
    ("limitation", ["Mon: split_squat 3x10"], client(limitations=(KNEE,)), "Step up"),
    ("equipment", ["Mon: bench_press 3x10"], client(equipment=frozenset()), "Push up"),
    ("skill", ["Mon: front_squat 3x10"], NOVICE, "Back squat"),
    ("dislikes", ["Mon: curl 3x10, chin_up 3x8"], client(), "Barbell row"),
    ("time_since_change", ["Mon: leg_press 3x10"] * 7, client(), "Back squat"),
    (
        "exercise_order",
        ["Mon: leg_extension 3x12, back_squat 3x8"],
        client(),
        "Move before leg extension",
    ),
    ("warm_up", ["Mon: back_squat 3x8 core"], client(), "Add a warm-up"),
    (
        "spacing",
        ["Mon: leg_extension 4x12 | Tue: leg_extension 4x12"],
        client(),
        "Move to Wednesday",
    ),
    ("spinal_load", ["Mon: back_squat 3x8 | Tue: deadlift 3x5"], client(), "Move to Wednesday"),
    ("light_weeks", [EASY] * 10, client(), "Make week 9 light"),
]


@pytest.mark.parametrize(("rule", "weeks", "who", "label"), CASES)
def test_a_mend_settles_its_finding(rule: str, weeks: list[str], who: Client, label: str) -> None:
    plan = program(*weeks)
    if rule == "dislikes":
        who = replace(who, dislikes=frozenset({ExerciseKey("chin_up")}))
    finding = first(rule, plan, who)
    mend = mend_for(finding, plan, context(plan, who))
    assert mend is not None
    assert mend.label == label
    assert finding.id not in {one.id for one in found(mend(plan), who)}


def test_too_many_minutes_lose_sets_of_assistance() -> None:
    # 6 min, ramp 4; squat 3 x (40 + 120) s and 1 min; curl 4 x (40 + 60) s and 1 min: 26.7 min
    plan = program("Mon: back_squat 3x10 rest 120 core, curl 4x10 rest 60")
    who = client(free=(FreeTime(24), *(FreeTime(),) * 6))
    finding = first("session_minutes", plan, who)
    mend = mend_for(finding, plan, context(plan, who))
    assert mend is not None
    assert mend.label == "Take off 2 sets"
    after = mend(plan)
    assert [slot.sets for slot in after.weeks[0].slots()] == [3, 2]
    assert finding.id not in {one.id for one in found(after, who)}


def test_a_day_that_is_not_free_has_no_obvious_mend() -> None:
    plan = program("Mon: curl 4x10")
    who = client(free=(*(FreeTime(),) * 6, FreeTime(60)))
    assert mend_for(first("session_minutes", plan, who), plan, context(plan, who)) is None


def test_what_nobody_could_do_is_not_offered() -> None:
    plan = program("Mon: leg_press 3x10")
    who = client(equipment=frozenset({Equipment.BODY}))
    assert mend_for(first("equipment", plan, who), plan, context(plan, who)) is None


def test_no_mend_goes_past_six_sets() -> None:
    plan = program("Mon: leg_extension 5x12")
    finding = first("weekly_sets", plan, NOVICE)  # 1 short of 6 in the first week
    mend = mend_for(finding, plan, context(plan, NOVICE))
    assert mend is not None
    plan = program(*[""] * 6, "Mon: leg_extension 5x12")  # 7 short of 12 in the seventh
    assert mend_for(first("weekly_sets", plan, client()), plan, context(plan, client())) is None


def test_findings_without_a_mend_stay_the_same_objects() -> None:
    plan = program("Mon: curl 3x10 rest 30")
    raw = found(plan, client())
    mended = with_mends(raw, plan, context(plan, client()))
    assert [one.id for one in mended] == [one.id for one in raw]
    rest = next(one for one in mended if one.rule == "rest")
    assert rest.mend is not None
    assert rest.mend.label == "Rest 1:00"
    assert all(new is old for new, old in zip(mended, raw, strict=True) if new.mend is None)


SLOT = st.tuples(
    st.sampled_from([one.key for one in CATALOGUE if one.key != "band_walk"]),
    st.integers(1, 9),
    st.integers(1, 25),
    st.sampled_from([0, 1, 3, 7]),
    st.sampled_from([20, 75, 150]),
    st.sampled_from(["", "core", "tempo 6-0-6-0"]),
)
DAYS = st.dictionaries(st.sampled_from(["Mon", "Tue", "Wed", "Fri"]), st.lists(SLOT, max_size=4))


@given(DAYS, st.sampled_from([Status.NOVICE, Status.INTERMEDIATE]))
def test_every_mend_that_is_offered_settles_its_finding(
    days: dict[str, list[tuple[str, int, int, int, int, str]]], status: Status
) -> None:
    text = " | ".join(
        f"{day}: "
        + ", ".join(f"{k} {s}x{r} RIR {e} rest {p} {more}" for k, s, r, e, p, more in slots)
        for day, slots in days.items()
    )
    plan = program("", text)
    who = client(
        status=status,
        limitations=(KNEE,),
        free=(FreeTime(45), FreeTime(60), FreeTime(), FreeTime(60), *(FreeTime(40),) * 3),
    )
    memo = checks.Memo()
    for finding in with_mends(found(plan, who, memo), plan, context(plan, who)):
        if finding.mend is not None:
            after = found(finding.mend(plan), who, memo)
            assert finding.id not in {one.id for one in after}, finding.mend.label
