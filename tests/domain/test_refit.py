"""A program given to another client: what does not fit is replaced, and every change is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Client, ClientId, Limitation
from app.domain.errors import EditError
from app.domain.exercise import Equipment, Exercise, ExerciseKey, Joint, Motion
from app.domain.fit import fits
from app.domain.program import Acceptance, Program, ProgramId, Slot, broken_laws
from app.domain.refit import ChangeKind, Refit, refit, weeks_text
from app.domain.substitute import best
from tests import builders
from tests.domain.edits.reading import keys, slot_at

START = date(2026, 11, 23)
HERS = ProgramId("jorunns")
WITHOUT_RACK = frozenset(Equipment) - {Equipment.RACK}
PLAN = builders.program(
    "Mon: back_squat 4x8 RIR 2 core, leg_curl 3x12 | Thu: hip_thrust 3x10 80kg", times=3
)


def jorunn(**fields: Any) -> Client:
    return builders.client(id=ClientId("jorunn"), name="Jorunn Aske", **fields)


def given_to(program: Program = PLAN, *, start: date = START, **fields: Any) -> Refit:
    return refit(program, jorunn(**fields), builders.CATALOGUE, program_id=HERS, start=start)


def told(made: Refit, kind: ChangeKind) -> list[tuple[str, str, str]]:
    return [(c.what, c.where, c.why) for c in made.changes if c.kind is kind]


def with_slots(program: Program, **fields: Any) -> Program:
    """The program with the fields of every slot changed."""

    def changed(slot: Slot) -> Slot:
        return replace(slot, **fields)

    weeks = []
    for week in program.weeks:
        days = [
            replace(
                day,
                sessions=tuple(
                    replace(s, slots=tuple(changed(one) for one in s.slots)) for s in day.sessions
                ),
            )
            for day in week.days
        ]
        weeks.append(replace(week, days=tuple(days)))
    return replace(program, weeks=tuple(weeks))


def test_what_fits_comes_along_as_it_is() -> None:
    plan = builders.program("Mon: back_squat 4x8 core", times=2)
    made = given_to(plan, start=plan.start)
    assert made.program == replace(plan, id=HERS)
    assert made.changes == ()
    assert all(old is new for old, new in zip(plan.weeks, made.program.weeks, strict=True))


def test_what_does_not_fit_is_replaced_by_the_best_substitute_in_every_week() -> None:
    made = given_to(equipment=WITHOUT_RACK)
    expected = best(slot_at(PLAN, 0, 0), PLAN, jorunn(equipment=WITHOUT_RACK), builders.CATALOGUE)
    assert expected is not None
    new = expected.exercise
    assert [keys(made.program, week, 0)[0] for week in range(3)] == [new.key] * 3
    assert told(made, ChangeKind.SWAPPED) == [
        (f"{new.name} for Back squat", "Monday, weeks 1 to 3", "needs rack")
    ]
    was, becomes = slot_at(PLAN, 0, 0), slot_at(made.program, 0, 0)
    assert (becomes.id, becomes.strand, becomes.sets) == (was.id, was.strand, was.sets)


def test_a_change_is_one_sentence_with_its_place_and_reason() -> None:
    made = given_to(dislikes=frozenset({ExerciseKey("leg_curl")}))
    (change,) = [c for c in made.changes if c.kind in (ChangeKind.SWAPPED, ChangeKind.LEFT_OUT)]
    assert change.sentence == f"{change.what} (Monday, weeks 1 to 3): {change.why}."
    assert change.why.startswith("is not liked")


def test_an_exercise_that_is_ruled_out_for_a_time_comes_back_afterwards() -> None:
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=100, until=START + timedelta(days=8))
    made = given_to(limitations=(knee,))
    squats = [keys(made.program, week, 0)[0] for week in range(3)]
    assert squats[0] == squats[1] != "back_squat"
    assert squats[2] == "back_squat"
    assert told(made, ChangeKind.SWAPPED)[0][1] == "Monday, weeks 1 to 2"


def test_where_nothing_can_stand_in_the_place_is_left_out_and_a_pair_is_dissolved() -> None:
    plan = builders.program("Mon: calf_raise 3x12 pair A, curl 3x12 pair A")
    made = given_to(plan, equipment=frozenset({Equipment.BODY, Equipment.DUMBBELLS}))
    assert keys(made.program, 0, 0) == ["curl"]
    assert slot_at(made.program, 0, 0).pair == ""
    assert told(made, ChangeKind.LEFT_OUT) == [
        ("Calf raise left out", "Monday, week 1", "needs calf machine, and no substitute fits")
    ]


def test_a_session_of_which_nothing_is_left_goes_and_is_told() -> None:
    plan = builders.program("Mon: calf_raise 3x12 | Tue: push_up 3x10")
    made = given_to(plan, equipment=frozenset({Equipment.BODY}))
    assert made.program.weeks[0].days[0].sessions == ()
    assert told(made, ChangeKind.LEFT_OUT)[-1] == (
        "The session 'Mon 1' left out",
        "Monday, week 1",
        "nothing of it fits",
    )


def test_a_program_of_which_nothing_fits_is_refused() -> None:
    plan = builders.program("Mon: calf_raise 3x12")
    with pytest.raises(EditError, match=r"No exercise of .* fits Jorunn Aske\. Enter the equip"):
        given_to(plan, equipment=frozenset({Equipment.BODY}))


def test_a_program_of_empty_weeks_is_given_as_it_is() -> None:
    assert given_to(builders.program("")).program.weeks == builders.program("").weeks


def test_no_two_places_of_a_session_get_the_same_substitute() -> None:
    plan = builders.program("Mon: back_squat 3x8, front_squat 3x8, overhead_press 3x8")
    made = given_to(plan, equipment=WITHOUT_RACK)
    monday = keys(made.program, 0, 0)
    assert len(set(monday)) == len(monday)


def test_loads_set_by_hand_are_cleared_and_named() -> None:
    made = given_to(builders.program("Thu: hip_thrust 3x10 80kg pin load", times=2))
    slot = slot_at(made.program, 0, 3)
    assert slot.load_kg is None
    assert slot.pinned == frozenset()
    assert told(made, ChangeKind.LOAD) == [
        (
            "80 kg of Hip thrust taken out",
            "Thursday, weeks 1 to 2",
            "it was set by hand for somebody else",
        )
    ]


def test_substitutes_and_drills_that_do_not_fit_go_as_well() -> None:
    plan = builders.program("Mon (band_walk): goblet_squat 3x10")
    prepared = (ExerciseKey("leg_press"), ExerciseKey("split_squat"))
    plan = with_slots(plan, prepared=prepared)
    made = given_to(plan, equipment=frozenset({Equipment.BODY, Equipment.DUMBBELLS}))
    assert slot_at(made.program, 0, 0).prepared == ("split_squat",)
    assert made.program.weeks[0].days[0].sessions[0].warmup == ()
    assert told(made, ChangeKind.PREPARED)[0][0] == (
        "Leg press no longer prepared beside Goblet squat"
    )
    assert told(made, ChangeKind.DRILL) == [
        ("Band walk left out of the warm-up", "Monday, week 1", "needs band")
    ]


def test_ramp_sets_in_kilograms_were_somebody_elses_and_per_cent_are_anybodys() -> None:
    made = given_to(builders.program("Mon: hip_thrust 3x10 ramp 50%x5/60kgx3", times=2))
    assert slot_at(made.program, 1, 0).ramp is None
    assert told(made, ChangeKind.LOAD) == [
        (
            "Ramp sets of Hip thrust in kilograms taken out",
            "Monday, weeks 1 to 2",
            "they were set for somebody else",
        )
    ]
    plan = builders.program("Mon: hip_thrust 3x10 ramp 50%x5, curl 3x8 ramp off")
    made = given_to(plan)
    assert [slot.ramp for slot in made.program.weeks[0].slots()] == [
        slot.ramp for slot in plan.weeks[0].slots()
    ]
    assert told(made, ChangeKind.LOAD) == []


def test_accepted_findings_notes_and_another_start_are_told_of_the_whole() -> None:
    accepted = (Acceptance("a", "told"), Acceptance("b", "told"))
    plan = with_slots(replace(PLAN, accepted=accepted, archived=True), note="slowly")
    made = given_to(plan, start=date(2027, 1, 7))
    assert made.program.accepted == ()
    assert not made.program.archived
    assert made.program.start == date(2027, 1, 4), "the Monday of that week"
    whole = [c.what for c in made.changes if not c.where]
    assert whole == [
        "2 accepted findings speak up again",
        "1 note comes along",
        "Begins on 4 Jan 2027",
    ]


ROOMS = st.frozensets(st.sampled_from(sorted(Equipment)))
DISLIKES = st.frozensets(st.sampled_from([e.key for e in builders.CATALOGUE]), max_size=6)


@given(equipment=ROOMS, dislikes=DISLIKES, weeks=st.integers(0, 60))
def test_everything_in_a_refitted_program_fits_on_its_day(
    equipment: frozenset[Equipment], dislikes: frozenset[ExerciseKey], weeks: int
) -> None:
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=100, until=date(2027, 2, 1))
    client = jorunn(equipment=equipment, dislikes=dislikes, limitations=(knee,))
    start = START + timedelta(weeks=weeks)
    try:
        made = refit(PLAN, client, builders.CATALOGUE, program_id=HERS, start=start)
    except EditError:
        return
    assert broken_laws(made.program) == ()
    for index, week in enumerate(made.program.weeks):
        for day, session in week.sessions():
            on = made.program.week_start(index) + timedelta(days=day)
            exercises: list[Exercise] = [builders.CATALOGUE[s.exercise] for s in session.slots]
            assert all(fits(exercise, client, on) for exercise in exercises)
            assert len({e.key for e in exercises}) == len(exercises)
            assert all(slot.load_kg is None for slot in session.slots)
    again = refit(made.program, client, builders.CATALOGUE, program_id=HERS, start=start)
    assert again.program == made.program


@pytest.mark.parametrize(
    ("weeks", "text"),
    [([2], "week 3"), ([0, 1, 2], "weeks 1 to 3"), ([4, 0, 2, 1], "weeks 1 to 3, 5")],
)
def test_weeks_are_told_as_runs(weeks: list[int], text: str) -> None:
    assert weeks_text(weeks) == text
