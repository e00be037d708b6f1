"""Every version of the plan file that was ever written can still be read.

The files in `plans` are frozen: a new version gets a new file, and none is ever written again.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from app import filing
from app.domain.client import (
    Client,
    ClientId,
    Consent,
    EnergyGoal,
    FreeTime,
    Goal,
    Increments,
    Limitation,
    Place,
    Screening,
    Sex,
    Side,
    Stage,
    Status,
    StrengthTest,
)
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import (
    Activation,
    Equipment,
    Exercise,
    ExerciseKey,
    Fault,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Reach,
    Work,
)
from app.domain.program import (
    Acceptance,
    Block,
    Day,
    Drill,
    DrillDose,
    Field,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.ramp import Ramp, RampStep
from app.exchange.plan_file import VERSION, Plan, write_plan
from tests.builders import CATALOGUE

FOLDER = Path(__file__).parent / "plans"
SQUAT, MARCH = ExerciseKey("back_squat"), ExerciseKey("sled_march")

CLIENT = Client(
    ClientId("ask"),
    "Ask Elverum",
    born=date(1990, 2, 28),
    sex=Sex.AVERAGE,
    height_cm=180.5,
    mass_kg=80,
    status=Status.ADVANCED,
    goal=Goal.STRENGTH,
    trained_years=4.5,
    team="Ombrel Valley",
    contact="by radio",
    note="Łukasz' brother.\nΩ",
    emphasis=(Muscle.GLUTEALS, Muscle.CHEST),
    free=(FreeTime(60), *(FreeTime(),) * 5, FreeTime(0, "on call")),
    equipment=frozenset({Equipment.BODY, Equipment.BARBELL, Equipment.SLED}),
    increments=Increments(bar_kg=15, plates_kg=(20, 1.25), bands=("red",)),
    limitations=(
        Limitation(
            Joint.KNEE,
            Motion.FLEXION,
            Side.LEFT,
            past_degrees=90,
            since=date(2026, 1, 1),
            until=date(2027, 1, 1),
            note="agreed",
        ),
    ),
    screenings=(
        Screening(
            date(2026, 9, 1),
            active=True,
            known_disease=True,
            symptoms=False,
            pregnant=True,
            cleared_on=date(2026, 9, 2),
            note="cleared",
        ),
    ),
    tests=(StrengthTest(SQUAT, date(2026, 9, 3), 102.5, 5, rir=1.5, note="belt"),),
    dislikes=frozenset({SQUAT}),
    kcal_now=2500,
    energy_goal=EnergyGoal.HOLD,
    activity_level=1.8,
    refer=("kidney disease",),
    units="lb",
    archived=True,
)

EXERCISE = Exercise(
    MARCH,
    "Sled march",
    Pattern.CARRY,
    work=(Work(Muscle.QUADRICEPS, 1), Work(Muscle.GLUTEALS, 0.5)),
    equipment=(Equipment.SLED,),
    load_kind=LoadKind.MACHINE,
    multi_joint=True,
    timed=True,
    aliases=("march",),
    body_share=0.25,
    skill=2,
    reaches=(Reach(Joint.KNEE, Motion.FLEXION, 90),),
    stress=((Joint.KNEE, 2),),
    set_up=("Lean in.",),
    cues=("Short steps.",),
    faults=(Fault("Rounded back", "Look ahead."),),
    easier=(SQUAT,),
    activation=(Activation(Muscle.QUADRICEPS, 40, 55.5, "made up for tests", "mean"),),
    figure="march",
    warmup_for=(Pattern.SQUAT,),
    own=True,
    version=3,
)

SLOTS = (
    Slot(
        SlotId(3),
        StrandId(4),
        SQUAT,
        sets=3,
        reps=Reps(5, 8),
        effort=PercentOneRm(77.5),
        rest_s=180,
        tempo="3-0-1-0",
        pair="A",
        note="deep",
        role=Role.CORE,
        load_kg=82.5,
        pinned=frozenset({Field.LOAD, Field.REST}),
    ),
    Slot(SlotId(5), StrandId(6), MARCH, sets=2, reps=Reps(30, 30), effort=Rir(2.5), pair="A"),
    Slot(SlotId(7), StrandId(8), SQUAT, sets=1, reps=Reps(3, 3), effort=PercentRepMax(95)),
)
SESSION = Session(SessionId(2), StrandId(9), "Legs", SLOTS, note="calm", warmup=(Drill(MARCH),))

PROGRAM = Program(
    ProgramId("p"),
    "Two weeks",
    date(2026, 10, 12),
    weeks=(
        Week(WeekId(1), days=(*(Day(),) * 2, Day((SESSION,), "late"), *(Day(),) * 4), note="first"),
        Week(WeekId(10), light=True),
    ),
    blocks=(Block("Base", 1), Block("Rest", 1)),
    emphasis=(Muscle.GLUTEALS,),
    curve="epley_inverse",
    accepted=(Acceptance("weekly_sets/w1//chest", "on purpose"),),
    next_id=11,
    archived=True,
)

TRAVELLER = replace(
    CLIENT,
    free=(FreeTime(60, place="Hut"), *CLIENT.free[1:]),
    tests=(*CLIENT.tests, StrengthTest(MARCH, date(2026, 9, 4), 40, 8, guessed_from=SQUAT)),
    stage=Stage.PAUSED,
    tags=("abroad", "rope party"),
    consent=Consent(date(2026, 9, 1), "signed"),
    keep_until=date(2028, 9, 1),
    places=(Place("Hut", frozenset({Equipment.BAND}), Increments(bands=("red", "blue"))),),
    likes=frozenset({MARCH}),
    language="nb",
    paper="A5",
    energy_equation="mifflin",
)

MEASURED = replace(TRAVELLER, fat_free_kg=61.5, energy_equation="cunningham_1991")

_DAY = PROGRAM.weeks[0].days[2]
_RAMPS = (Ramp((RampStep(5, percent=47.5), RampStep(2, load_kg=70))), None, Ramp(()))
LED_UP = replace(
    PROGRAM,
    weeks=(
        replace(
            PROGRAM.weeks[0],
            days=(
                *(Day(),) * 2,
                replace(
                    _DAY,
                    sessions=(
                        replace(
                            SESSION,
                            slots=tuple(map(lambda s, r: replace(s, ramp=r), SLOTS, _RAMPS)),
                            warmup=(Drill(MARCH), Drill(MARCH, DrillDose(2, Reps(20, 30)))),
                        ),
                    ),
                ),
                *(Day(),) * 4,
            ),
        ),
        PROGRAM.weeks[1],
    ),
)

PLANS = {
    1: Plan(CLIENT, PROGRAM, (EXERCISE,)),
    2: Plan(TRAVELLER, PROGRAM, (EXERCISE,)),
    3: Plan(MEASURED, PROGRAM, (EXERCISE,)),
    4: Plan(MEASURED, LED_UP, (EXERCISE,)),
}


def test_every_version_has_its_frozen_file() -> None:
    assert set(PLANS) == set(range(1, VERSION + 1))
    assert {path.name for path in FOLDER.iterdir()} == {f"{n}.plan.json" for n in PLANS}


def test_every_version_reads_as_what_was_written() -> None:
    for number, plan in PLANS.items():
        assert filing.open_plan(FOLDER / f"{number}.plan.json", CATALOGUE) == plan


def test_the_newest_version_is_still_written_the_same() -> None:
    frozen = (FOLDER / f"{VERSION}.plan.json").read_text(encoding="utf-8")
    assert write_plan(PLANS[VERSION]) == frozen


def test_one_change_is_a_few_changed_lines() -> None:
    before = write_plan(PLANS[VERSION]).splitlines()
    program = PLANS[VERSION].program
    assert program is not None
    week = program.weeks[0]
    session = week.days[2].sessions[0]
    slot = replace(session.slots[0], sets=4)
    session = replace(session, slots=(slot, *session.slots[1:]))
    days = (*week.days[:2], replace(week.days[2], sessions=(session,)), *week.days[3:])
    changed = replace(program, weeks=(replace(week, days=days), program.weeks[1]))
    after = write_plan(replace(PLANS[VERSION], program=changed)).splitlines()
    assert len(after) == len(before)
    assert sum(a != b for a, b in zip(before, after, strict=True)) == 1
