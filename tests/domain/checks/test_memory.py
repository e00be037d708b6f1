"""What is remembered, and for how long it holds."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain import checks
from app.domain.checks.memory import by_weight
from app.domain.client import Status
from app.domain.edits.fields import add_sets
from app.domain.exercise import Muscle
from app.domain.findings import Finding, Weight
from app.domain.program import Program
from app.domain.ranges import Override
from app.domain.wording import speaking
from app.resources import range_book
from app.resources.languages import PSEUDO, find_language
from tests.builders import CATALOGUE, client, program

WHO = client(status=Status.NOVICE)
PLAN = (
    "Mon: back_squat 4x5 RIR 0 core, leg_extension 4x12 rest 30 | Tue: leg_press 3x10",
    "Thu: back_squat 2x5 core, curl 3x20",
    "Sun: split_squat 3x8, bench_press 3x8 core",
)


def check(plan: Program, memo: checks.Memo | None = None) -> tuple[Finding, ...]:
    return checks.check(plan, WHO, CATALOGUE, range_book(), memo=memo)


def test_another_client_starts_afresh() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    check(plan, memo)
    other = client()
    found = checks.check(plan, other, CATALOGUE, range_book(), memo=memo)
    assert found == checks.check(plan, other, CATALOGUE, range_book())


def test_another_emphasis_starts_afresh() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    check(plan, memo)
    other = replace(plan, emphasis=(Muscle.CHEST,))
    assert check(other, memo) == check(other)


def test_another_language_starts_afresh_and_keeps_the_ids() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    before = check(plan, memo)
    with speaking(find_language(PSEUDO)):
        spoken = check(plan, memo)
        assert spoken == check(plan)
    assert spoken != before
    # what a coach has accepted stays accepted, whatever is spoken
    assert [one.id for one in spoken] == [one.id for one in before]
    assert check(plan, memo) == before


def test_untouched_weeks_keep_their_findings_as_the_same_objects() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    before = check(plan, memo)
    after = check(add_sets(plan, next(plan.weeks[0].slots()).id, by=1), memo)
    third = plan.weeks[2].id
    kept = [one for one in after if one.place.week == third]
    assert kept
    assert {id(one) for one in kept} <= {id(one) for one in before}


def test_a_coachs_own_range_starts_afresh() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    check(plan, memo)
    shipped = range_book().ranges["exercise_sets"][0]
    own = range_book().with_own(
        Override(replace(shipped, high=1.0), "Tavi Hellmark", date(2026, 11, 2), "small room")
    )
    found = checks.check(plan, WHO, CATALOGUE, own, memo=memo)
    assert sum(one.rule == "exercise_sets" for one in found) == 7


def test_a_later_start_moves_every_date() -> None:
    memo, plan = checks.Memo(), program(*PLAN)
    check(plan, memo)
    later = replace(plan, start=date(2027, 1, 4))
    assert check(later, memo) == check(later)


def test_the_memory_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.domain.checks.memory.MOST_REMEMBERED", 4)
    memo, plan = checks.Memo(), program(*PLAN)
    slot = next(plan.weeks[0].slots()).id
    for _ in range(5):
        plan = add_sets(plan, slot, by=1)
        assert check(plan, memo) == check(plan)
    assert len(memo._weeks) <= 4
    assert len(memo._pairs) <= 4


def test_findings_are_parted_by_weight_in_their_order() -> None:
    found = check(program(*PLAN))
    parts = by_weight(found)
    assert [one for part in parts for one in part] == list(found)
    assert all(one.weight is weight for weight in Weight for one in parts[weight])
