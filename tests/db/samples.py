"""A file with rows in every table, and the values it holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from app.domain.client import (
    Client,
    ClientId,
    Consent,
    EnergyGoal,
    FreeTime,
    Increments,
    Limitation,
    Place,
    Screening,
    Sex,
    Stage,
    StrengthTest,
)
from app.domain.edits.fields import set_prepared
from app.domain.exercise import (
    Equipment,
    Exercise,
    ExerciseKey,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
)
from app.domain.exercise import Work as MuscleWork
from app.domain.program import Acceptance
from app.domain.ranges import Override, Range, Who
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from app.domain.work import Coach, Issue, IssueId, PrintedLoad, Work
from db.store import Store
from tests.builders import program

RUNA = Client(
    id=ClientId("runa"),
    name="Runa Estvik",
    born=date(1994, 2, 28),
    sex=Sex.FEMALE,
    height_cm=181.5,
    mass_kg=74.25,
    team="Ombrel Valley Mountain Rescue",
    contact="by radio",
    note="Łukasz’s rope partner; “tall”",
    emphasis=(Muscle.GLUTEALS, Muscle.QUADRICEPS),
    free=(FreeTime(75), FreeTime(), FreeTime(0, "night watch", "Hut"), *(FreeTime(),) * 4),
    equipment=frozenset({Equipment.BODY, Equipment.BARBELL, Equipment.RACK}),
    increments=Increments(plates_kg=(20.0, 10.0, 2.5, 0.5)),
    limitations=(Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90, since=date(2026, 3, 1)),),
    screenings=(Screening(date(2026, 1, 2), True, known_disease=False, symptoms=False),),
    tests=(
        StrengthTest(ExerciseKey("back_squat"), date(2026, 1, 3), 62.5, 5, rir=1.5),
        StrengthTest(
            ExerciseKey("pull_up"),
            date(2026, 1, 3),
            -12.5,
            6,
            guessed_from=ExerciseKey("lat_pulldown"),
        ),
    ),
    dislikes=frozenset({ExerciseKey("burpee")}),
    kcal_now=2640.0,
    energy_goal=EnergyGoal.GAIN,
    activity_level=1.7,
    refer=("kidney disease",),
    stage=Stage.PAUSED,
    tags=("abroad", "rope party"),
    consent=Consent(date(2026, 1, 2), "signed"),
    keep_until=date(2028, 1, 2),
    places=(
        Place(
            "Hut",
            frozenset({Equipment.BODY, Equipment.BAND}),
            Increments(plates_kg=(5.0,), bands=("red", "blue")),
        ),
    ),
    likes=frozenset({ExerciseKey("step_up")}),
    language="de",
    paper="A5",
    energy_equation="mifflin",
    fat_free_kg=55.5,
)

PLAN = replace(
    program(
        "Mon (band_walk bridge 2x12-15): back_squat 3x8-10 RIR 2 core ramp 50%x5/52.5kgx2, "
        "leg_curl 3x12 95%RM pair A ramp off",
        "light | Mon: back_squat 2x5 80% 60kg pin sets pin load | Thu: hip_thrust 3x10",
    ),
    emphasis=(Muscle.GLUTEALS,),
    accepted=(Acceptance("frequency/program//gluteals", "one day is all there is"),),
)
PLAN = set_prepared(
    PLAN,
    PLAN.weeks[0].days[0].sessions[0].slots[0].id,
    prepared=(ExerciseKey("goblet_squat"), ExerciseKey("leg_press")),
)
PLAN = replace(
    PLAN,
    weeks=(
        PLAN.weeks[0],
        replace(
            PLAN.weeks[1],
            note="nights",
            days=(*PLAN.weeks[1].days[:6], replace(PLAN.weeks[1].days[6], note="rest")),
        ),
    ),
)

DIARY = Diary(
    check_ins=(
        CheckIn(
            date(2026, 1, 11),
            mass_kg=74.5,
            kcal=2600.0,
            sleep=4,
            soreness=3,
            mood=5,
            note="Łukasz drove",
            stress=2,
            adherence=0.9,
            girths=(Girth(Site.WAIST, 78.5), Girth(Site.THIGH, 59.0)),
            pictures=("2026-01-11-front.jpg",),
        ),
        CheckIn(date(2026, 1, 18), mass_kg=74.25),
    ),
    results=tuple(
        SlotResult(
            PLAN.id,
            slot.id,
            slot.exercise,
            date(2026, 1, 5),
            (SetDone(52.5, 10, 2.0), SetDone(52.5, 9), SetDone(-5.0, 8, 0.5)),
            note="“light”",
        )
        for slot in PLAN.weeks[0].slots()
    ),
)

COACH = Coach("Tavi Hellmark", "at the hut", "Ombrel Valley Mountain Rescue")

STEP_OVER = Exercise(
    key=ExerciseKey("wall_step_over"),
    name="Wall step-over",
    pattern=Pattern.SPLIT_STANCE,
    work=(MuscleWork(Muscle.GLUTEALS, 1.0), MuscleWork(Muscle.QUADRICEPS, 0.5)),
    equipment=(Equipment.BODY,),
    load_kind=LoadKind.BODY,
    multi_joint=True,
    stress=((Joint.KNEE, 1),),
    own=True,
)

OVERRIDE = Override(
    Range("frequency", 1.0, None, "sessions/week", "common practice", who=Who(age_low=18)),
    by="Tavi Hellmark",
    on=date(2026, 2, 1),
    why="one training day",
)

ISSUE = Issue(
    id=IssueId("issue-1"),
    on=date(2026, 2, 2),
    coach=COACH,
    client=RUNA,
    program=PLAN,
    loads=tuple(PrintedLoad(slot.id, 52.5) for slot in PLAN.weeks[0].slots()),
)


def fill(store: Store) -> Work:
    """Puts rows into every table of the store; what is open afterwards."""
    work = Work(RUNA, PLAN, DIARY)
    store.set_coach(COACH)
    store.set_setting("open", "runa")
    store.save_exercise(STEP_OVER)
    store.add_range_override(OVERRIDE)
    store.save(None, work, label="Add the program")
    store.add_issue(ISSUE)
    return work


def filled_file(path: Path) -> Path:
    """A closed file with rows in every table."""
    store = Store.open(path)
    fill(store)
    store.close()
    return path
