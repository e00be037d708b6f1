from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import (
    Client,
    ClientId,
    FreeTime,
    Increments,
    Limitation,
    Place,
    StrengthTest,
)
from app.domain.effort import Rir
from app.domain.exercise import (
    Catalogue,
    Equipment,
    Exercise,
    ExerciseKey,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Reach,
    Work,
)
from app.domain.program import (
    Drill,
    DrillDose,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
)
from app.domain.warmup import compose, ramps_of, seconds_text
from tests import builders

TODAY = date(2026, 10, 5)


def lift(key, pattern, muscle):
    return Exercise(
        key=ExerciseKey(key),
        name=key,
        pattern=pattern,
        work=(Work(muscle, 1.0),),
        equipment=(),
        load_kind=LoadKind.BARBELL,
        multi_joint=True,
    )


def drill(key, patterns, **fields):
    usual = {
        "pattern": Pattern.DRILL,
        "work": (),
        "equipment": (),
        "load_kind": LoadKind.NONE,
        "multi_joint": False,
        "rep_low": 8,
        "rep_high": 12,
    }
    return Exercise(key=ExerciseKey(key), name=key, warmup_for=patterns, **{**usual, **fields})


SQUAT = lift("squat", Pattern.SQUAT, Muscle.QUADRICEPS)
FRONT = lift("front squat", Pattern.SQUAT, Muscle.QUADRICEPS)
PRESS = lift("press", Pattern.HORIZONTAL_PUSH, Muscle.CHEST)
CURL = lift("curl", Pattern.ELBOW_FLEXION, Muscle.BICEPS)
WALK = drill("walk", (Pattern.SQUAT, Pattern.HINGE), timed=True, rep_low=180, rep_high=600)
OPENER = drill("opener", (Pattern.SQUAT,), work=(Work(Muscle.GLUTEALS, 0.25),))
ANKLES = drill("ankles", (Pattern.SQUAT,))
WALL = drill("wall", (Pattern.HORIZONTAL_PUSH,))
PULL = drill("pull", (Pattern.VERTICAL_PULL,))
BAND = drill("band", (Pattern.SQUAT, Pattern.HORIZONTAL_PUSH), equipment=(Equipment.BAND,))
CATALOGUE = Catalogue((SQUAT, FRONT, PRESS, CURL, WALK, OPENER, ANKLES, WALL, PULL, BAND))
CLIENT = Client(
    ClientId("a"),
    "A",
    tests=tuple(
        StrengthTest(e.key, date(2026, 10, 2), 100.0, 5) for e in (SQUAT, FRONT, PRESS, CURL)
    ),
)


def session(*exercises, role=Role.CORE):
    slots = tuple(
        Slot(SlotId(n), StrandId(n), e.key, 3, Reps(5, 5), effort=Rir(2), role=role)
        for n, e in enumerate(exercises, start=1)
    )
    return Session(SessionId(99), StrandId(99), "Monday", slots)


def test_a_general_drill_comes_first_and_the_rest_covers_the_patterns():
    found = compose(session(SQUAT, PRESS), CATALOGUE, CLIENT, on=TODAY)
    assert found.keys[0] == "walk"
    assert set(found.keys[1:3]) <= {"opener", "ankles", "wall"}
    assert "wall" in found.keys
    assert "pull" not in found.keys
    assert found.drills[0].reason == "For squat"


def test_emphasised_muscles_tip_the_scale():
    plain = compose(session(SQUAT), CATALOGUE, CLIENT, on=TODAY, most_drills=2)
    tipped = compose(session(SQUAT), CATALOGUE, CLIENT, (Muscle.GLUTEALS,), on=TODAY, most_drills=2)
    assert plain.keys[1] == "ankles"
    assert tipped.keys[1] == "opener"


def test_drills_keep_to_equipment_limitations_and_likes():
    with_band = replace(CLIENT, equipment=frozenset({Equipment.BODY, Equipment.BAND}))
    assert "band" in compose(session(SQUAT, PRESS), CATALOGUE, with_band, on=TODAY).keys
    assert "band" not in compose(session(SQUAT, PRESS), CATALOGUE, CLIENT, on=TODAY).keys
    disliked = replace(CLIENT, dislikes=frozenset({OPENER.key}))
    assert "opener" not in compose(session(SQUAT), CATALOGUE, disliked, on=TODAY).keys
    deep = replace(ANKLES, reaches=(Reach(Joint.KNEE, Motion.FLEXION, 120),))
    catalogue = Catalogue((SQUAT, deep, OPENER))
    limited = replace(
        CLIENT, limitations=(Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90),)
    )
    assert compose(session(SQUAT), catalogue, limited, on=TODAY).keys == ("opener",)


def test_ramps_lead_to_the_first_core_lift_of_each_kind():
    found = compose(session(SQUAT, FRONT, PRESS), CATALOGUE, CLIENT, on=TODAY)
    assert [ramp.exercise for ramp in found.ramps] == ["squat", "press"]
    loads = [one.load_kg for one in found.ramps[0].sets]
    assert loads[0] == 20
    assert loads == sorted(loads)


def test_assistance_and_untested_lifts_get_no_ramp():
    assert compose(session(CURL, role=Role.ASSISTANCE), CATALOGUE, CLIENT, on=TODAY).ramps == ()
    untested = replace(CLIENT, tests=())
    assert compose(session(SQUAT), CATALOGUE, untested, on=TODAY).ramps == ()


def test_a_lift_too_light_for_a_ramp_leaves_its_movers_cold_for_the_next():
    kg = {"squat": 20.0, "front squat": 80.0}  # an empty bar, then a loaded one
    whole = session(SQUAT, FRONT)
    ramps = ramps_of(
        whole,
        CATALOGUE.__getitem__,
        load_of=lambda slot: kg[slot.exercise],
        increments=CLIENT.increments,
    )
    assert [ramp.slot for ramp in ramps] == [whole.slots[1].id]


def led_up(text: str, kg: float | None = 100.0) -> list[tuple[float, int]]:
    """Load and repetitions of each ramp set of a session, its working load given."""
    found = ramps_of(
        builders.session(text),
        builders.CATALOGUE.__getitem__,
        load_of=lambda _slot: kg,
        increments=CLIENT.increments,
    )
    assert all(ramp.by_coach is ("ramp" in text) for ramp in found)
    return [(one.load_kg, one.reps) for ramp in found for one in ramp.sets]


def test_steps_of_the_coach_are_rounded_to_what_there_is_and_kilograms_are_not():
    assert led_up("back_squat 3x5 core ramp 0%x8/51%x5/61.1kgx3") == [(20, 8), (50, 5), (61.1, 3)]


def test_of_the_coachs_steps_none_is_as_heavy_as_the_working_load():
    assert led_up("back_squat 3x5 core ramp 50%x5/60kgx3", 60.0) == [(30, 5)]


def test_kilograms_need_no_load_and_per_cent_do():
    assert led_up("back_squat 3x5 core ramp 50%x5/40kgx3", None) == [(40, 3)]


def test_a_coach_can_take_ramp_sets_away_and_give_them_to_assistance():
    assert led_up("back_squat 3x5 core ramp off") == []
    assert led_up("back_squat 3x5 ramp 50%x5") == [(50, 5)]
    assert led_up("back_squat 3x5") == []


def test_bands_and_own_weight_are_led_up_to_by_no_kilograms():
    assert led_up("band_walk 3x10 ramp 40kgx5") == []
    assert led_up("push_up 3x10 ramp 50%x5") == [(50, 5)], "half of what is added to the body"
    assert led_up("push_up 3x10 ramp 50%x5", -20.0) == [], "nothing where the body is helped"


def test_a_suggestion_keeps_the_doses_that_the_coach_set():
    found = compose(session(SQUAT, PRESS), CATALOGUE, CLIENT, on=TODAY)
    dose = DrillDose(2, Reps(5, 5))
    now = (Drill(found.keys[1], dose), Drill(ExerciseKey("gone"), dose))
    drills = found.proposed(now)
    assert tuple(drill.exercise for drill in drills) == found.keys
    assert [drill.dose for drill in drills] == [
        dose if at == 1 else None for at in range(len(drills))
    ]


@pytest.mark.parametrize(
    ("low", "high", "said"), [(30, 30, "30 s"), (180, 180, "3 minutes"), (20, 30, "20–30 s")]
)
def test_a_round_of_a_timed_drill_is_told_in_seconds_or_minutes(low, high, said):
    assert seconds_text(Reps(low, high)) == said


def test_an_empty_session_needs_no_warm_up():
    found = compose(session(), CATALOGUE, CLIENT, on=TODAY)
    assert (found.drills, found.ramps) == ((), ())


@pytest.mark.parametrize("most", [0, 1, 3])
def test_no_more_drills_than_asked_for(most):
    found = compose(session(SQUAT, PRESS), CATALOGUE, CLIENT, on=TODAY, most_drills=most)
    assert len(found.drills) == most


def test_the_same_session_always_gets_the_same_warm_up():
    turned = Catalogue(tuple(reversed(CATALOGUE.exercises)))
    one = compose(session(SQUAT, PRESS), CATALOGUE, CLIENT, on=TODAY)
    assert compose(session(SQUAT, PRESS), turned, CLIENT, on=TODAY) == one


def test_drills_and_ramps_go_by_the_place_of_the_day():
    hut = Place("hut", frozenset({Equipment.BODY, Equipment.BAND}), Increments(plates_kg=(20.0,)))
    days = (FreeTime(60), FreeTime(60, place="hut"), *(FreeTime(),) * 5)
    who = replace(CLIENT, places=(hut,), free=days)
    monday = compose(session(SQUAT, PRESS), CATALOGUE, who, on=TODAY)
    tuesday = compose(session(SQUAT, PRESS), CATALOGUE, who, on=TODAY + timedelta(days=1))
    assert "band" not in monday.keys
    assert "band" in tuesday.keys
    assert all((step.load_kg - 20) % 40 == 0 for ramp in tuesday.ramps for step in ramp.sets)
    assert tuesday.ramps != monday.ramps
