"""What each column of the season shows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.edits.fields import accept
from app.domain.exercise import Muscle
from app.domain.findings import Finding, Place, Weight, edit
from app.domain.program import WeekId
from app.domain.ranges import Range
from app.ui.bench import Bench
from app.ui.season_columns import Bar, Column, columns, core_target, spoken, standing
from tests import builders

RANGE = Range("weekly_sets", 12, 20, "sets", "common practice")
NAMES = {Muscle.GLUTEALS: "Glutes", Muscle.QUADRICEPS: "Quadriceps"}


def shown(bench: Bench) -> dict[int, Column]:
    return columns(bench.desk, bench.desk.program, bench.desk.findings)


@pytest.mark.parametrize(
    ("sets", "band", "short", "over"),
    [
        (11.5, RANGE, True, False),
        (12, RANGE, False, False),
        (20.5, RANGE, False, True),
        (3, None, False, False),
    ],
)
def test_a_bar_is_short_or_over_only_beside_a_range(sets, band, short: bool, over: bool) -> None:
    bar = Bar(Muscle.QUADRICEPS, sets, band)
    assert (bar.short, bar.over) == (short, over)


@pytest.mark.parametrize(
    ("text", "target"),
    [
        ("Mon: curl 3x12", ""),
        ("Mon: back_squat 3x10 core", "10"),
        ("Mon: back_squat 3x8-12 core, deadlift 3x6 core | Thu: front_squat 3x6 core", "6"),
    ],
)
def test_the_target_is_the_commonest_of_the_core_work(text: str, target: str) -> None:
    assert core_target(builders.week(text)) == target


def test_every_week_has_a_column_with_a_bar_for_each_emphasised_muscle(bench: Bench) -> None:
    found = shown(bench)
    assert list(found) == [0, 1, 2, 3, 4, 5]
    assert [c.light for c in found.values()] == [False, False, False, True, False, False]
    for index, column in found.items():
        week = bench.desk.program.weeks[index]
        assert [bar.muscle for bar in column.bars] == list(bench.desk.program.emphasis[:3])
        facts = bench.desk.facts(week)
        assert [bar.sets for bar in column.bars] == [facts.sets[b.muscle] for b in column.bars]
        assert not column.empty


def test_only_the_weeks_asked_for_are_read(bench: Bench) -> None:
    desk = bench.desk
    assert list(columns(desk, desk.program, desk.findings, only=[2, 4])) == [2, 4]


def test_counts_agree_with_the_findings_of_the_week(bench: Bench) -> None:
    for index, column in shown(bench).items():
        here = [
            f for f in bench.desk.findings if f.place.week == bench.desk.program.weeks[index].id
        ]
        assert column.counts == tuple(sum(f.weight is w for f in here) for w in Weight)
        assert [w for w, _ in column.weights] == sorted({f.weight for f in here})


def test_accepted_findings_stand_no_more(bench: Bench) -> None:
    week = bench.desk.program.weeks[0].id
    finding = next(f for f in bench.desk.findings if f.place.week == week)
    before = sum(shown(bench)[0].counts)
    bench.keep(edit("Accept", accept, finding=finding.id, reason="asked for"))
    assert sum(shown(bench)[0].counts) == before - 1
    assert finding not in standing(bench.desk.findings, bench.desk.program)[week]


def test_findings_of_the_whole_program_stand_in_no_week() -> None:
    program = builders.program("Mon: curl")
    whole = Finding("variety", Weight.REMARK, Place(), "", "x")
    one = replace(whole, place=Place(WeekId(1)))
    assert standing((whole, one), program) == {1: [one]}


def column(**fields) -> Column:
    whole = Column(2, False, False, "10", (Bar(Muscle.GLUTEALS, 14, RANGE),), (), (0, 0, 0))
    return replace(whole, **fields)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({}, "Week 3; core work 10 reps; Glutes 14 sets of 12–20; no findings"),
        ({"empty": True}, "Week 3: empty"),
        ({"light": True}, "Week 3; light week; core work 10 reps; Glutes 14 sets; no findings"),
        (
            {"counts": (1, 0, 2), "reps": ""},
            "Week 3; Glutes 14 sets of 12–20; findings: 1 conflict, 2 remarks",
        ),
    ],
)
def test_a_column_in_words(fields: dict, said: str) -> None:
    assert spoken(column(**fields), NAMES) == said
