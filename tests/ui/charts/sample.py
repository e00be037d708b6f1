"""A client with tests, results and check-ins for the charts, made by rule and not by chance."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from app.domain.client import EnergyGoal, StrengthTest
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import ProgramId
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from app.ui.charts.kinds import Asked
from tests.builders import CATALOGUE, START, client, program

SQUAT = ExerciseKey("back_squat")
MISSING = (3, 7)


def _plan():
    made = program("Mon: back_squat 4x5, goblet_squat 3x10 | Thu: back_squat 4x3", times=12)
    weeks = tuple(replace(week, light=n % 5 == 4) for n, week in enumerate(made.weeks))
    return replace(made, weeks=weeks, emphasis=(Muscle.QUADRICEPS, Muscle.GLUTEALS))


PLAN = _plan()


def _results():
    made = []
    for index, week in enumerate(PLAN.weeks[:9]):
        if index in MISSING:
            continue
        for day, session in week.sessions():
            for slot in session.slots:
                load = 80.0 + index if slot.exercise == SQUAT else 24.0
                sets = slot.sets - (index % 2)
                made.append(
                    SlotResult(
                        ProgramId("ridge"),
                        slot.id,
                        slot.exercise,
                        START + timedelta(weeks=index, days=day),
                        (SetDone(load, slot.reps.high, 2.0),) * sets,
                    )
                )
    return tuple(made)


CHECKS = tuple(
    CheckIn(
        START + timedelta(days=day),
        mass_kg=round(66.4 + 0.03 * day + day % 3 * 0.2, 1),
        sleep=1 + day % 5,
        mood=4 if day % 2 else None,
        girths=(Girth(Site.WAIST, 74.0 - 0.02 * day), Girth(Site.THIGH, 55.0 + day % 2 * 0.3)),
    )
    for day in range(0, 63, 3)
    if not 20 < day < 36
)
DIARY = Diary(CHECKS, _results())
RUNA = client(
    tests=(
        StrengthTest(SQUAT, START - timedelta(days=4), 87, 5),
        StrengthTest(ExerciseKey("goblet_squat"), START, 26, 8),
    ),
    energy_goal=EnergyGoal.GAIN,
)
ASKED = Asked(RUNA, PLAN, DIARY, CATALOGUE)
NOTHING = Asked(client(), None, Diary(), CATALOGUE)
