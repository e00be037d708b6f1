"""The whole check: order, ids, memory, differences; and the data behind it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain import checks
from app.domain.client import Status
from app.domain.edits.fields import add_sets
from app.domain.edits.parts import Spot
from app.domain.edits.place import move, remove
from app.domain.exercise import UnknownExercise
from app.domain.findings import Finding
from app.domain.program import Program, Span
from app.resources import range_book
from tests.builders import CATALOGUE, client, program

ROOT = Path(__file__).parents[3]
WHO = client(status=Status.NOVICE)
PLAN = (
    "Mon: back_squat 4x5 RIR 0 core, leg_extension 4x12 rest 30 | Tue: leg_press 3x10",
    "light | Thu: back_squat 2x5 core, curl 3x20",
    "Sun: split_squat 3x8, bench_press 3x8 core",
    "Mon: split_squat 3x8, crunch 3x20 RIR 4",
)


def check(plan: Program, memo: checks.Memo | None = None) -> tuple[Finding, ...]:
    return checks.check(plan, WHO, CATALOGUE, range_book(), memo=memo)


def test_findings_stand_by_weight_then_week() -> None:
    plan = program(*PLAN, times=3)
    found = check(plan)
    order = {week.id: number for number, week in enumerate(plan.weeks)}
    keys = [(f.weight, -1 if f.place.week is None else order[f.place.week]) for f in found]
    assert keys == sorted(keys)
    assert len(found) > 10


def test_ids_are_unique_and_steady() -> None:
    found = check(program(*PLAN, times=3))
    assert len({one.id for one in found}) == len(found)
    assert [one.id for one in check(program(*PLAN, times=3))] == [one.id for one in found]


def test_an_edit_elsewhere_leaves_ids_alone() -> None:
    plan = program(*PLAN)
    after = remove(plan, next(plan.weeks[2].slots()).id)
    first = plan.weeks[0].id
    assert [f.id for f in check(plan) if f.place.week == first] == [
        f.id for f in check(after) if f.place.week == first
    ]


def test_an_unknown_exercise_stops_the_check() -> None:
    with pytest.raises(UnknownExercise, match="sled_drag"):
        check(program("Mon: sled_drag 3x8"))


def test_a_week_alone_says_what_it_says_in_the_program() -> None:
    plan = program(*PLAN)
    for index, week in enumerate(plan.weeks):
        alone = checks.check_week(plan, index, client=WHO, catalogue=CATALOGUE, ranges=range_book())
        whole = {rule.name for rule in checks.RULES if rule.reach is checks.Reach.PROGRAM}
        assert alone == tuple(
            f for f in check(plan) if f.place.week == week.id and f.rule not in whole
        )


EDITS = st.lists(
    st.tuples(st.sampled_from(["add", "remove", "move"]), st.integers(0, 99), st.integers(0, 6)),
    max_size=8,
)


def edited(plan: Program, act: tuple[str, int, int]) -> Program:
    kind, number, day = act
    slots = [(w, slot) for w, week in enumerate(plan.weeks) for slot in week.slots()]
    if not slots:
        return plan
    week, slot = slots[number % len(slots)]
    if kind == "add":
        return add_sets(plan, slot.id, by=1, span=Span.FROM_HERE) if slot.sets < 19 else plan
    if kind == "remove":
        return remove(plan, slot.id)
    return move(plan, slot.id, to=Spot(week, day))


@given(EDITS)
def test_what_is_remembered_is_what_a_cold_check_finds(acts: list[tuple[str, int, int]]) -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    for act in acts:
        plan = edited(plan, act)
        assert check(plan, memo) == check(plan)


def test_a_difference_tells_what_appears_and_what_goes() -> None:
    plan = program("Mon: leg_extension 9x12")
    slot = next(plan.weeks[0].slots())
    wide = replace(WHO, status=Status.INTERMEDIATE)
    book = range_book()

    def found(one: Program) -> tuple[Finding, ...]:
        return checks.check(one, wide, CATALOGUE, book)

    gained, lost = checks.difference(found(plan), found(add_sets(plan, slot.id, by=2)))
    assert [one.rule for one in gained] == ["session_sets"]
    assert lost == ()
    gained, lost = checks.difference(found(plan), found(add_sets(plan, slot.id, by=-2)))
    assert [one.rule for one in gained] == ["weekly_sets"]


@given(EDITS)
def test_a_difference_is_the_same_however_it_is_remembered(
    acts: list[tuple[str, int, int]],
) -> None:
    memo, first = checks.Memo(), program(*PLAN)
    before, plan = check(first, memo), first
    for act in acts:
        plan = edited(plan, act)
    gained, lost = checks.difference(before, check(plan, memo))
    quick = checks.what_if(
        first, plan, client=WHO, catalogue=CATALOGUE, ranges=range_book(), memo=memo
    )
    assert {f.id for f in quick.gained} == {f.id for f in gained}
    assert {f.id for f in quick.lost} == {f.id for f in lost}
    was, becomes = {f.id for f in before}, {f.id for f in check(plan)}
    assert {f.id for f in gained} == becomes - was
    assert {f.id for f in lost} == was - becomes


@given(st.permutations(["back_squat 3x8", "curl 2x20 rest 30", "leg_press 3x10", "crunch 3x9"]))
def test_sums_do_not_hang_on_the_order_within_a_session(slots: list[str]) -> None:
    plan = program("Mon: " + ", ".join(slots))
    rules = {"weekly_sets", "weekly_frequency", "session_sets", "rest", "rep_zone", "effort"}
    texts = sorted(f.text for f in check(plan) if f.rule in rules)
    usual = program("Mon: back_squat 3x8, curl 2x20 rest 30, leg_press 3x10, crunch 3x9")
    assert texts == sorted(f.text for f in check(usual) if f.rule in rules)


@given(st.permutations(["curl 3x12, crunch 3x9", "leg_press 4x10", "bench_press 3x8 core"]))
def test_sums_do_not_hang_on_the_order_of_a_days_sessions(sessions: list[str]) -> None:
    rules = {"weekly_sets", "weekly_frequency", "session_sets", "session_minutes", "left_out"}

    def said(order: list[str]) -> list[str]:
        plan = program(" | ".join(f"Mon: {one}" for one in order))
        return sorted(one.text for one in check(plan) if one.rule in rules)

    assert said(sessions) == said(sorted(sessions))


@given(EDITS, st.integers(0, 99), st.integers(1, 4))
def test_more_sets_never_make_a_muscle_short(
    acts: list[tuple[str, int, int]], number: int, more: int
) -> None:
    plan = program(*PLAN)
    for act in acts:
        plan = edited(plan, act)
    slots = [slot for week in plan.weeks for slot in week.slots() if slot.sets <= 20 - more]
    if not slots:
        return

    def short(one: Program) -> set[str]:
        return {f.id for f in check(one) if f.rule == "weekly_sets" and f.below}

    slot = slots[number % len(slots)]
    grown = short(add_sets(plan, slot.id, by=more))
    trained = {muscle.value for muscle in CATALOGUE[slot.exercise].primes}
    # a muscle that had no set at all is told of elsewhere until it has its first
    new = {one.rsplit("/", 1)[1] for one in grown - short(plan)}
    assert not new & trained
