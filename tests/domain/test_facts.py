"""Facts of weeks and sessions, remembered by identity."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain import dose
from app.domain.edits.fields import add_sets
from app.domain.exercise import Muscle
from app.domain.facts import FactsMemo
from tests.builders import CATALOGUE, program, slot, week

TEXT = (
    "Mon: back_squat 4x5 core, curl 3x12 pair A, crunch 3x15 pair A, band_walk 2x10 | "
    "Thu: deadlift 3x5 core, plank 3x30 | Thu: bench_press 3x8"
)


def test_a_weeks_facts_are_those_of_the_dose() -> None:
    built = week(TEXT)
    facts = FactsMemo(CATALOGUE).week(built)
    assert facts.sets == dose.weekly_sets(built, CATALOGUE)
    assert facts.frequency == dose.frequency(built, CATALOGUE)
    assert facts.zones == tuple(dose.rep_zones(built, CATALOGUE).values())
    minutes = [
        sum(dose.session_minutes(s, CATALOGUE).expected for s in day.sessions) for day in built.days
    ]
    assert facts.minutes_by_day == pytest.approx(minutes)
    assert facts.training_days == 2
    assert "band_walk" not in facts.exercises


def test_an_unchanged_session_is_not_read_again() -> None:
    memo, plan = FactsMemo(CATALOGUE), program(TEXT)
    before = memo.week(plan.weeks[0])
    after = memo.week(add_sets(plan, next(plan.weeks[0].slots()).id, by=1).weeks[0])
    assert before is memo.week(plan.weeks[0])
    assert before.sessions[0].facts is not after.sessions[0].facts
    assert [s.facts for s in before.sessions[1:]] == [s.facts for s in after.sessions[1:]]


def test_an_empty_week_is_empty() -> None:
    facts = FactsMemo(CATALOGUE).week(week())
    assert facts.is_empty
    assert facts.training_days == 0


@pytest.mark.parametrize(
    ("text", "rir"),
    [
        ("curl 3x8 RIR 1.5", 1.5),
        ("curl 3x8 100%RM", 0.0),
        ("curl 3x8 75%", 2.0),  # 75 % allows 10 (haff2016)
        ("curl 3x6-8 75%", 2.0),
        ("curl 3x8 20%", 42.0),  # past the end of the curve, 50 repetitions
    ],
)
def test_reserve_is_read_at_the_high_end(text: str, rir: float) -> None:
    assert FactsMemo(CATALOGUE).rir(slot(text)) == pytest.approx(rir)


def test_an_impossible_load_has_less_than_nothing_in_reserve() -> None:
    memo = FactsMemo(CATALOGUE)
    assert memo.rir(slot("curl 3x10 85%")) < 0
    assert memo.rir(slot("curl 3x10 105%")) < 0


def test_the_memory_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.domain.facts.MOST_REMEMBERED", 3)
    memo, built = FactsMemo(CATALOGUE), week(TEXT)
    copies = [replace(built, note=str(number)) for number in range(9)]
    sets = [memo.week(one).sets[Muscle.QUADRICEPS] for one in copies]
    assert sets == [4 + 1.5] * 9
    assert len(memo._weeks) <= 3
