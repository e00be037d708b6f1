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
from app.domain.program import Reps, Role, Session, SessionId, Slot, SlotId, StrandId
from app.domain.warmup import compose, ramps_of

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
