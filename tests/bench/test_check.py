"""The whole check and a what-if, beside one plain pass over the same slots in the same run.

The budgets of the design are 10 ms for 21 weeks of 4 sessions of 8 slots, 40 ms for 52 x 6 x 10,
and 1 ms for a what-if of any length; as ratios to the plain pass they hold on any machine. Time is
the thread's own, so that other work on the machine does not count.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from statistics import median, quantiles

import pytest

from app.domain import checks
from app.domain.client import Client
from app.domain.edits.parts import Spot
from app.domain.edits.place import move
from app.domain.exercise import Muscle
from app.domain.findings import Finding
from app.domain.program import Program, Week
from app.resources import range_book
from tests.bench.budgets import hold
from tests.builders import CATALOGUE, client, program

pytestmark = pytest.mark.bench

CHECK_BUDGET = 75.0
"""Whole check, cold, in plain passes over the program: about 10 ms where one takes 0.16 ms."""
WHAT_IF_BUDGET = 100.0
"""One what-if at the 95th percentile, in plain passes over one week: 1 ms where one takes 11 us."""
GROWTH_BUDGET = 1.5
"""What-if in 52 weeks over what-if in 13, and cost per slot of a long over a short program."""

SLOTS = (
    "back_squat 4x8 core rest 150",
    "romanian_deadlift 3x10 core rest 120",
    "leg_press 3x10 rest 120",
    "split_squat 3x10 rest 90",
    "leg_curl 3x12 rest 75 pair A",
    "calf_raise 3x12 rest 75 pair A",
    "bench_press 3x8 rest 120",
    "barbell_row 3x8 rest 120",
    "curl 3x12 rest 60",
    "crunch 3x15 rest 60",
)
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat")
WHO: Client = client()


def season(weeks: int, *, sessions: int = 4, slots: int = 8) -> Program:
    day = ", ".join(SLOTS[:slots])
    return program(" | ".join(f"{name}: {day}" for name in DAYS[:sessions]), times=weeks)


def plain_pass(weeks: tuple[Week, ...]) -> dict[Muscle, float]:
    """The least that any check must do: look at every slot and count its sets."""
    total = dict.fromkeys(Muscle, 0.0)
    for week in weeks:
        for day in week.days:
            for session in day.sessions:
                for slot in session.slots:
                    for work in CATALOGUE[slot.exercise].work:
                        total[work.muscle] += slot.sets * work.fraction
    return total


def cold(plan: Program) -> tuple[Finding, ...]:
    return checks.check(plan, WHO, CATALOGUE, range_book())


def seconds(run: Callable[[], object], rounds: int) -> list[float]:
    taken = []
    for _ in range(rounds):
        start = time.thread_time()
        run()
        taken.append(time.thread_time() - start)
    return taken


def p95(taken: list[float]) -> float:
    return quantiles(taken, n=20)[-1]


def what_ifs(plan: Program, rounds: int = 150) -> list[float]:
    """Seconds of edits with their checks, as a drag asks for them."""
    memo = checks.Memo()
    checks.check(plan, WHO, CATALOGUE, range_book(), memo=memo)
    index = len(plan.weeks) // 2
    slots = list(plan.weeks[index].slots())
    taken = []
    for number in range(rounds):
        start = time.thread_time()
        after = move(plan, slots[number % len(slots)].id, to=Spot(index, number % 7))
        change = checks.what_if(
            plan, after, client=WHO, catalogue=CATALOGUE, ranges=range_book(), memo=memo
        )
        assert memo.context is not None
        memo.context.facts.week(after.weeks[index])
        taken.append(time.thread_time() - start)
        assert change is not None
    return taken


def test_the_whole_check_costs_a_few_dozen_plain_passes() -> None:
    for weeks, sessions, slots in ((21, 4, 8), (52, 6, 10)):
        plan = season(weeks, sessions=sessions, slots=slots)
        floor = median(seconds(lambda plan=plan: plain_pass(plan.weeks), 30))  # type: ignore[misc]
        check = median(seconds(lambda plan=plan: cold(plan), 12))  # type: ignore[misc]
        print(
            f"{weeks} x {sessions} x {slots}: check {1e3 * check:.2f} ms, "
            f"plain pass {1e3 * floor:.3f} ms, ratio {check / floor:.1f}"
        )
        hold(f"whole check, cold, {weeks} x {sessions} x {slots}", check / floor, CHECK_BUDGET)


def test_a_what_if_is_one_week_wherever_it_stands() -> None:
    plan = season(21)
    floor = median(seconds(lambda: plain_pass(plan.weeks[:1]), 200))
    taken = what_ifs(plan)
    print(
        f"what-if p50 {1e3 * median(taken):.3f} ms, p95 {1e3 * p95(taken):.3f} ms, "
        f"plain pass of a week {1e3 * floor:.4f} ms, ratio {p95(taken) / floor:.1f}"
    )
    hold("what-if of one week, p95", p95(taken) / floor, WHAT_IF_BUDGET)


def test_a_what_if_does_not_grow_with_the_program() -> None:
    short, long = (median(what_ifs(season(weeks))) for weeks in (13, 52))
    print(f"what-if in 13 weeks {1e3 * short:.3f} ms, in 52 weeks {1e3 * long:.3f} ms")
    hold("what-if, from 13 to 52 weeks", long / short, GROWTH_BUDGET, unit="times as long")


def test_the_check_grows_with_the_slots_and_no_faster() -> None:
    small, large = season(13, sessions=3, slots=6), season(52, sessions=6, slots=10)
    each = [
        median(seconds(lambda plan=plan: cold(plan), 12))  # type: ignore[misc]
        / sum(len(tuple(week.slots())) for week in plan.weeks)
        for plan in (small, large)
    ]
    print(f"a slot costs {1e6 * each[0]:.1f} us in a small program, {1e6 * each[1]:.1f} in a large")
    growth = each[1] / each[0]
    hold("whole check, a slot of a large program", growth, GROWTH_BUDGET, unit="times as long")


def test_rules_cost_their_share() -> None:
    """No rule takes more than a quarter of the whole check."""
    plan = season(21)
    context = checks.Context(plan, WHO, CATALOGUE, range_book())
    weeks = [context.facts.week(week) for week in plan.weeks]
    cost = {}
    for rule in checks.RULES:
        if rule.reach is checks.Reach.WEEK:

            def run(function: Callable[..., object] = rule.function) -> None:
                for index, week in enumerate(weeks):
                    tuple(function(week, context, index=index))  # type: ignore[arg-type]

            cost[rule.name] = median(seconds(run, 10))
    dearest = max(cost, key=cost.__getitem__)
    total = sum(cost.values())
    print(f"{len(checks.RULES)} rules; dearest {dearest}, {100 * cost[dearest] / total:.0f} %")
    hold(f"dearest rule, {dearest}", cost[dearest] / total, 0.25, unit="of all rules")
