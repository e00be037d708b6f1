"""The line on what a swap does to its week, against the domain's own sums."""

from __future__ import annotations

from app.domain.checks import Difference
from app.domain.dose import weekly_sets
from app.domain.edits.place import replace_exercise
from app.domain.exercise import Exercise, ExerciseKey, Muscle
from app.domain.findings import Weight
from app.domain.program import Program
from app.domain.session_time import session_minutes
from app.ui.bench import Bench
from app.ui.swap_effect import effect_text, effect_words
from app.ui.words import ARROW, number
from tests.ui.desks import slot


def exercise(bench: Bench, key: str) -> Exercise:
    return bench.desk.catalogue[ExerciseKey(key)]


def swapped(bench: Bench, key: str) -> Program:
    """The program with another exercise on the first card."""
    return replace_exercise(bench.desk.program, slot(bench).id, exercise=exercise(bench, key))


def minutes(bench: Bench, program: Program) -> str:
    """What the first session takes."""
    _, session = next(program.weeks[0].sessions())
    return number(session_minutes(session, bench.desk.catalogue).expected, places=0)


def test_sets_and_minutes_are_told_before_and_after(bench: Bench) -> None:
    before, after = bench.desk.program, swapped(bench, "leg_extension")
    text = effect_text(bench, before, after, slot_id=slot(bench).id)
    gluteals = [
        weekly_sets(program.weeks[0], bench.desk.catalogue)[Muscle.GLUTEALS]
        for program in (before, after)
    ]
    assert gluteals[0] > gluteals[1]
    name = bench.shelf.muscles[Muscle.GLUTEALS].trade
    assert f"{name} {number(gluteals[0])} {ARROW} {number(gluteals[1])}" in text
    was, becomes = minutes(bench, before), minutes(bench, after)
    assert was != becomes
    assert text.endswith(f"{was} {ARROW} {becomes} min")


def test_what_does_not_change_is_said_once(bench: Bench) -> None:
    program = bench.desk.program
    text = effect_text(bench, program, program, slot_id=slot(bench).id)
    assert text.startswith("Same sets for every muscle")
    assert text.endswith(f"{minutes(bench, program)} min")
    assert ARROW not in text


def test_many_muscles_are_summed_up(bench: Bench) -> None:
    after = swapped(bench, "bench_press")
    text = effect_text(bench, bench.desk.program, after, slot_id=slot(bench).id)
    assert text.count(ARROW) <= 5
    assert " more " in text


def test_findings_that_come_and_go_are_counted_by_their_weight(bench: Bench) -> None:
    found = bench.desk.findings
    by_weight = {weight: [one for one in found if one.weight is weight] for weight in Weight}
    outside, remarks = by_weight[Weight.OUTSIDE], by_weight[Weight.REMARK]
    assert effect_words(Difference((), ())) == "no finding comes or goes"
    assert effect_words(Difference((outside[0],), ())) == "1 more finding outside its range"
    assert effect_words(Difference((), tuple(remarks[:2]))) == "2 fewer remarks"
    assert effect_words(Difference((outside[0],), (outside[1],))) == (
        "as many findings, others than before"
    )
