"""The team is complete, keeps every law, and gives the checks something to say."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import pytest

from app import resources
from app.demo import fill, members
from app.demo.member import Member
from app.domain import energy
from app.domain.exercise import Pattern
from app.domain.findings import Weight
from app.domain.loads import load_for
from app.domain.program import broken_laws
from app.off_desk import look_over
from db.store import Store

CATALOGUE = resources.catalogue()
TEAM = members(CATALOGUE)
PLANNED = [member for member in TEAM if member.program is not None]


def names(member: Member) -> str:
    return member.client.name


def test_six_members_one_of_them_without_a_program() -> None:
    assert len(TEAM) == len({member.client.id for member in TEAM}) == 6
    assert len(PLANNED) == 5
    assert TEAM[0].client.name == "Runa Estvik"


@pytest.mark.parametrize("member", PLANNED, ids=names)
def test_a_plan_keeps_the_laws_and_lies_on_free_days(member: Member) -> None:
    assert broken_laws(member.program) == ()
    for week in member.program.weeks:
        for day, session in week.sessions():
            assert member.client.free[day].minutes > 0
            assert session.slots
            assert all(slot.exercise in CATALOGUE for slot in session.slots)
            assert all(drill.exercise in CATALOGUE for drill in session.warmup)


def test_runa_has_twenty_one_weeks_from_fifteen_repetitions_to_three() -> None:
    program = TEAM[0].program
    assert program.start == date(2026, 10, 12)
    assert [(b.name, b.weeks) for b in program.blocks] == [
        ("Base", 6),
        ("Build", 6),
        ("Strength", 6),
        ("Sharpen", 3),
    ]
    squats = [next(s for s in w.slots() if s.exercise == "box_squat") for w in program.weeks]
    reps = [slot.reps.low for slot in squats]
    assert (reps[0], reps[-1]) == (15, 3)
    assert reps == sorted(reps, reverse=True)
    assert [n for n, w in enumerate(program.weeks, 1) if w.light] == [6, 12, 18, 21]


def test_jorunn_is_half_way_through_twenty_one_weeks_of_two_days_for_the_legs() -> None:
    program = TEAM[1].program
    assert TEAM[1].client.name == "Jorunn Aske"
    assert len(program.weeks) == 21
    assert [len(list(week.sessions())) for week in program.weeks] == [2] * 21
    lifts = [next(s for s in w.slots() if s.exercise == "hex_bar_deadlift") for w in program.weeks]
    reps = [slot.reps.low for slot in lifts]
    assert (reps[0], reps[-1]) == (15, 3)
    assert reps == sorted(reps, reverse=True)
    light = [n for n, w in enumerate(program.weeks, 1) if w.light]
    ends = [program.block_range(k).stop for k in range(len(program.blocks))]
    assert light == ends == [6, 11, 16, 21]
    loaded = {slot.exercise for week in program.weeks for slot in week.slots()}
    upper = {Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH, Pattern.VERTICAL_PULL}
    assert not {CATALOGUE[key].pattern for key in loaded} & upper
    # Runa's plan is in its seventh week then, as the demo is opened on
    assert (TEAM[0].program.start - program.start) // timedelta(weeks=1) + 7 == 11


def test_the_four_tested_lifts_have_loads() -> None:
    client, program = TEAM[0].client, TEAM[0].program
    slots = {slot.exercise: slot for slot in program.weeks[0].slots()}
    for key in (test.exercise for test in client.tests if test.on.month == 10):
        load = load_for(slots[key], CATALOGUE[key], client, program.curve)
        assert load is not None, key
        assert load.load_kg > 20
    assert len(client.tests) == 5


def test_runa_shows_findings_of_each_weight_and_an_accepted_one() -> None:
    checked = look_over(TEAM[0].client, TEAM[0].program, catalogue=CATALOGUE)
    seventh = checked.program.weeks[6].id
    accepted = checked.accepted
    here = [f for f in checked.findings if f.place.week == seventh and f.id not in accepted]
    weights = Counter(finding.weight for finding in here)
    assert weights[Weight.CONFLICT] == 1
    assert set(weights) == set(Weight)
    assert len(here) <= 12
    assert checked.counts()["accepted"] > 0
    (conflict,) = (f for f in here if f.weight is Weight.CONFLICT)
    assert conflict.about.startswith("rear_foot_split_squat")


def test_runa_was_screened_and_gets_targets_none_of_them_below_rest() -> None:
    client, program = TEAM[0].client, TEAM[0].program
    assert client.energy_goal is not None
    aim = energy.Aim(weeks=len(program.weeks), pal=client.activity_level)
    plan = energy.plan(client, client.energy_goal, on=program.start, aim=aim)
    assert isinstance(plan, energy.EnergyPlan)
    assert min(week.kcal for week in plan.weeks) >= plan.resting.kcal


def test_no_accepted_finding_is_a_leftover() -> None:
    for member in PLANNED:
        checked = look_over(member.client, member.program, catalogue=CATALOGUE)
        found = {finding.id for finding in checked.findings}
        assert set(checked.accepted) <= found


def test_a_filled_store_gives_everything_back() -> None:
    store = Store.in_memory()
    first = fill(store, CATALOGUE)
    assert first == TEAM[0].client.id
    assert store.coach().name == "Tavi Hellmark"
    for member in TEAM:
        assert store.load_client(member.client.id) == member.client
        assert store.load_diary(member.client.id) == member.diary
        programs = store.programs(member.client.id)
        assert len(programs) == (member.program is not None)
        if programs:
            assert store.load_program(programs[0].id) == member.program
    store.close()
