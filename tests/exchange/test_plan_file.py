"""Plan files: what is written reads back equal, and what is wrong is refused by its place."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app import resources
from app.domain.client import Increments
from app.domain.edits.fields import set_prepared
from app.domain.errors import PlanFileError
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.program import Program
from app.exchange.plan_file import VERSION, Plan, gather, read_plan, write_plan
from tests import strategies
from tests.builders import CATALOGUE, client, exercise, program
from tests.domain.edits.random_edits import runs

SCHEMA = json.loads(resources.text("schema/plan.schema.json"))
KNOWN = Catalogue(
    tuple(
        exercise(key, CATALOGUE.exercises[0].pattern, "quadriceps")
        for key in strategies.EXERCISE_KEYS
    )
)
SAMPLE = Plan(client(), program("Mon: back_squat 3x5 RIR 2, leg_curl 3x8-10 rest 90"))


def read(text: str, catalogue: Catalogue = CATALOGUE) -> Plan:
    return read_plan(text.encode(), source="runa.plan.json", schema=SCHEMA, catalogue=catalogue)


def spoiled(change: Callable[[Any], object]) -> str:
    record = json.loads(write_plan(SAMPLE))
    change(record)
    return json.dumps(record)


def refusal(text: str) -> str:
    with pytest.raises(PlanFileError) as refused:
        read(text)
    return refused.value.sentence


@settings(max_examples=60, deadline=None)
@given(
    st.builds(
        Plan,
        strategies.clients,
        st.none() | strategies.programs(3),
        st.lists(strategies.exercises, max_size=2, unique_by=lambda e: e.key).map(tuple),
    )
)
def test_what_is_written_reads_back_equal_and_is_written_the_same_again(plan: Plan) -> None:
    text = write_plan(plan)
    again = read(text, KNOWN)
    assert again == plan
    assert write_plan(again) == text


@given(runs())
def test_whatever_edits_make_of_a_program_reads_back_equal(values: list[Program]) -> None:
    plan = Plan(client(), values[-1])
    assert read(write_plan(plan)) == plan


def lifted(key: str, load_kg: float) -> dict[str, object]:
    return {"exercise": key, "on": "2026-10-02", "load_kg": load_kg, "reps": 8}


def first_session(record: Any) -> Any:
    return record["program"]["weeks"][0]["days"]["monday"]["sessions"][0]


def first_slot(record: Any) -> Any:
    return first_session(record)["slots"][0]


def dosed(rounds: int = 2, reps: Sequence[int] = (8, 10)) -> dict[str, object]:
    return {"exercise": "band_walk", "dose": {"rounds": rounds, "reps": list(reps)}}


@pytest.mark.parametrize(
    ("change", "parts"),
    [
        (
            lambda r: first_slot(r).update(sets=-3),
            ["days.monday.sessions[0].slots[0].sets: -3 is out of range", "from 1 to 20"],
        ),
        (
            lambda r: first_slot(r).update(exercise="back_sqat"),
            ["slots[0].exercise: There is no exercise 'back_sqat'", "Did you mean 'back_squat'?"],
        ),
        (
            lambda r: r["program"].update(weeks=r["program"]["weeks"] * 10_000),
            ["program.weeks: There are 10000 entries", "1 to 52"],
        ),
        (lambda r: r["client"].update(name="  "), ["client.name:", "at least one letter"]),
        (lambda r: r["program"].update(name=""), ["program.name:", "at least one letter"]),
        (
            lambda r: r["client"].update(equipement=[]),
            ["client: The field 'equipement' is unknown.", "Did you mean 'equipment'?"],
        ),
        (
            lambda r: r["client"].update(sex="x"),
            ['client.sex: "x" is not known here', "Use f, m, average."],
        ),
        (
            lambda r: first_slot(r).update(effort={"rir": 1, "percent_one_rm": 80}),
            ["slots[0].effort: There are 2 entries.", "exactly 1"],
        ),
        (lambda r: first_slot(r).update(sets="3"), ['"3" is not a whole number']),
        (lambda r: first_slot(r).update(reps=[10, 8]), ["slots[0].reps: repetitions 8"]),
        (lambda r: first_slot(r).pop("sets"), ["slots[0]: The field 'sets' is missing."]),
        (lambda r: r["program"].update(start="2026-11-24"), ["program: ", "not a Monday"]),
        (lambda r: r["program"].update(start="2026-02-30"), ["program.start: ", "no day"]),
        (
            lambda r: r["program"].update(curve="epley_invers"),
            ["program.curve: ", "Did you mean 'epley_inverse'?"],
        ),
        (
            lambda r: first_slot(r).update(prepared=["leg_pres"]),
            ["slots[0].prepared[0]: There is no exercise 'leg_pres'", "mean 'leg_press'?"],
        ),
        (
            lambda r: first_slot(r).update(prepared=["back_squat"]),
            ["slots[0]: An exercise is prepared as a substitute for itself."],
        ),
        (lambda r: first_slot(r).update(prepared=["a"] * 2), ["slots[0].prepared: ", "twice"]),
        (
            lambda r: first_slot(r).update(prepared=list("abcdef")),
            ["slots[0].prepared: There are 6 entries.", "0 to 5"],
        ),
        (
            lambda r: first_session(r).update(warmup=["band_wlk"]),
            ["sessions[0].warmup[0]: There is no exercise 'band_wlk'", "mean 'band_walk'?"],
        ),
        (
            lambda r: first_session(r).update(warmup=["Band walk"]),
            ['warmup[0]: "Band walk" cannot'],
        ),
        (
            lambda r: first_session(r).update(warmup=[3]),
            ["warmup[0]: 3 is not a record in braces."],
        ),
        (
            lambda r: first_session(r).update(warmup=[dosed(rounds=11)]),
            ["warmup[0].dose.rounds: 11 is out of range.", "from 1 to 10"],
        ),
        (
            lambda r: first_session(r).update(warmup=[dosed(reps=[12, 8])]),
            ["warmup[0].dose.reps: repetitions 8"],
        ),
        (
            lambda r: first_session(r).update(warmup=[dosed(reps=[300, 300])]),
            ["warmup[0].dose.reps: 300 repetitions of Band walk, which is not timed"],
        ),
        (
            lambda r: first_slot(r).update(ramp=[]),
            ["slots[0].ramp: [] is not a record in braces."],
        ),
        (
            lambda r: first_slot(r).update(ramp={"steps": [{"reps": 5, "percent": 120}]}),
            ["ramp.steps[0].percent: 120 is out of range.", "from 0 to 95"],
        ),
        (
            lambda r: first_slot(r).update(ramp={"steps": [{"reps": 5}]}),
            ["ramp.steps[0]: There are 1 entries.", "exactly 2"],
        ),
        (
            lambda r: first_slot(r).update(
                ramp={"steps": [{"reps": 5, "percent": 70}, {"reps": 3, "percent": 50}]}
            ),
            ["slots[0].ramp: The ramp sets fall from 70 to 50.", "light to heavy"],
        ),
        (
            lambda r: r["client"].update(tests=[lifted("back_squat", 0)]),
            ["client.tests[0].load_kg: A test of Back squat cannot have 0 kg.", "0.5 kg at least"],
        ),
        (
            lambda r: r["client"].update(tests=[lifted("chin_up", -100.5)]),
            ["client.tests[0].load_kg: -100.5 is out of range", "from -100 to 600"],
        ),
        (
            lambda r: r["client"].update(born="1826-03-14"),
            ["client.born: The birth date 1826-03-14 does not lie in the 110 years before the pr"],
        ),
        (
            lambda r: r["client"].update(born="2099-01-01"),
            ["client.born: The birth date 2099-01-01", "Write a day from", "or leave it out"],
        ),
        (
            lambda r: first_slot(r).update(reps=[200, 200]),
            ["slots[0].reps: 200 repetitions of Back squat, which is not timed", "1 to 100"],
        ),
        (
            lambda r: first_slot(r).update(exercise="sqat"),
            ["Did you mean 'back_squat'", "squat'?"],
        ),
        (lambda r: first_slot(r).update(tempo="abcd"), ["slots[0].tempo: ", "3-0-1-0"]),
        (lambda r: first_slot(r).update(pair="AB"), ["slots[0].pair: ", "from A to Z"]),
        (lambda r: first_slot(r).update(reps=[8.5, 9]), ["8.5 is not a whole number"]),
        (
            lambda r: r["client"].update(increments={"dumbbells_kg": [10, 2, 5]}),
            ["client.increments: heaviest dumbbell, kg 5"],
        ),
        (lambda r: r.update(version=VERSION + 1), [f"version {VERSION + 1}", "Update Weekloom"]),
        (lambda r: r.update(format="other"), ['"weekloom plan"']),
        (lambda r: r["program"].update(next_id=1), ["program: An id lies past"]),
    ],
)
def test_what_is_wrong_is_said_with_its_place_and_remedy(
    change: Callable[[Any], object], parts: list[str]
) -> None:
    sentence = refusal(spoiled(change))
    assert sentence.startswith("runa.plan.json")
    for part in parts:
        assert part in sentence


def test_without_a_program_a_birth_date_is_held_against_today() -> None:
    text = write_plan(Plan(client(born=date(2020, 1, 1))))
    for today, refused in ((date(2026, 11, 25), False), (date(2019, 12, 31), True)):
        try:
            read_plan(
                text.encode(), source="a.json", schema=SCHEMA, catalogue=CATALOGUE, today=today
            )
            told = ""
        except PlanFileError as error:
            told = error.sentence
        assert ("110 years before today" in told) is refused


def test_seconds_may_pass_the_most_repetitions() -> None:
    plan = Plan(client(), program("Mon: plank 3x200"))
    assert read(write_plan(plan)) == plan


def test_a_client_with_pounds_and_no_steps_gets_the_usual_steps_in_pounds() -> None:
    def in_pounds(record: Any) -> None:
        record["client"].pop("increments", None)
        record["client"].update(units="lb")

    plan = read(spoiled(in_pounds))
    assert plan.client.increments == Increments.pounds()
    assert read(write_plan(plan)) == plan


def test_tests_at_own_weight_and_with_help_travel() -> None:
    tests = [lifted("chin_up", 0), lifted("chin_up", -20)]
    plan = read(spoiled(lambda r: r["client"].update(tests=tests)))
    assert [test.load_kg for test in plan.client.tests] == [0, -20]


def test_prepared_substitutes_travel_with_the_own_exercises_they_name() -> None:
    own = exercise("sled_march", CATALOGUE.exercises[0].pattern, "quadriceps", own=True)
    plan = program("Mon: back_squat 3x5")
    keys = (own.key, ExerciseKey("leg_press"))
    prepared = set_prepared(plan, next(plan.weeks[0].slots()).id, prepared=keys)
    travelling = gather(client(), prepared, CATALOGUE.with_own((own,)))
    assert travelling.exercises == (own,)
    assert read(write_plan(travelling)) == travelling


def test_a_plan_takes_along_the_own_exercises_it_names_and_their_relatives() -> None:
    own = exercise("sled_march", CATALOGUE.exercises[0].pattern, "quadriceps", own=True)
    unused = exercise("wall_press", CATALOGUE.exercises[0].pattern, "chest", own=True)
    catalogue = CATALOGUE.with_own((own, unused))
    plan = gather(client(), program("Mon: sled_march 3x10, back_squat 3x5"), catalogue)
    assert plan.exercises == (own,)
    assert read(write_plan(plan)) == plan


def test_a_client_without_a_program_is_a_plan_file_too() -> None:
    assert read(write_plan(Plan(client()))) == Plan(client())
