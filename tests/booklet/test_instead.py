"""What may be done in an exercise's place."""

from __future__ import annotations

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.instead import MOST, instead_of
from app.domain.client import Limitation
from app.domain.edits.fields import set_prepared
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion
from tests.booklet.sample import TAUGHT, content, issue, lifter
from tests.builders import program


def offered(text: str, **client):
    whole = program(f"Mon: {text}")
    book = open_book(issue(whole, lifter(**client)), content(), Options())
    slot = next(whole.weeks[0].slots())
    return instead_of(book, slot, TAUGHT[slot.exercise])


def test_a_few_exercises_for_the_same_muscles_are_offered():
    found = offered("back_squat 3x8")
    assert 0 < len(found) <= MOST
    prime = set(TAUGHT[ExerciseKey("back_squat")].primes)
    for one in found:
        assert prime & set(one.exercise.primes)
        assert one.exercise.key != "back_squat"
        assert one.reason.startswith(("about as hard", "easier"))


def test_nothing_is_offered_that_the_client_has_no_equipment_for():
    found = offered("back_squat 3x8", equipment=frozenset({Equipment.BODY, Equipment.DUMBBELLS}))
    assert found
    for one in found:
        assert set(one.exercise.equipment) <= {Equipment.BODY, Equipment.DUMBBELLS}


def test_nothing_is_offered_that_a_limitation_rules_out():
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=95)
    for one in offered("back_squat 3x8", limitations=(knee,)):
        reach = max((r.degrees for r in one.exercise.reaches if r.joint is Joint.KNEE), default=0)
        assert reach <= 95


def test_nothing_is_offered_that_the_client_dislikes():
    first = offered("back_squat 3x8")[0].exercise.key
    left = offered("back_squat 3x8", dislikes=frozenset({first}))
    assert first not in {one.exercise.key for one in left}


def prepared(text: str, *keys: str, at: int = 0, **client):
    whole = program(f"Mon: {text}")
    chosen = list(whole.weeks[0].slots())[at]
    names = tuple(map(ExerciseKey, keys))
    whole = set_prepared(whole, chosen.id, prepared=names)
    book = open_book(issue(whole, lifter(**client)), content(), Options())
    slot = next(whole.weeks[0].slots())
    return instead_of(book, slot, TAUGHT[slot.exercise])


def test_what_the_coach_prepared_is_offered_alone_and_in_its_order():
    keys = ("split_squat", "leg_press", "goblet_squat", "step_up", "leg_extension")
    found = prepared("back_squat 3x8", *keys)
    assert tuple(one.exercise.key for one in found) == keys
    assert all(one.prepared for one in found)
    ranked = {one.exercise.key: one.reason for one in offered("back_squat 3x8")}
    assert any(ranked.get(one.exercise.key) == one.reason for one in found)


def test_what_was_prepared_for_another_slot_of_the_exercise_is_offered_too():
    found = prepared("back_squat 3x8, back_squat 2x12", "goblet_squat", at=1)
    assert [one.exercise.key for one in found] == ["goblet_squat"]


def test_a_prepared_one_that_trains_something_else_says_so():
    (found,) = prepared("back_squat 3x8", "bench_press")
    assert found.reason.startswith("for other muscles; needs barbell")


def test_a_prepared_one_that_a_limitation_or_equipment_rules_out_is_left_out():
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=95)
    deep = TAUGHT[ExerciseKey("split_squat")].reaches
    assert any(reach.joint is Joint.KNEE and reach.degrees > 95 for reach in deep)
    found = prepared("back_squat 3x8", "split_squat", "step_up", limitations=(knee,))
    assert [one.exercise.key for one in found] == ["step_up"]
    bare = frozenset({Equipment.BODY, Equipment.DUMBBELLS})
    found = prepared("back_squat 3x8", "leg_press", "goblet_squat", equipment=bare)
    assert [one.exercise.key for one in found] == ["goblet_squat"]


def test_where_no_prepared_one_can_be_done_the_best_are_offered():
    bare = frozenset({Equipment.BODY, Equipment.DUMBBELLS})
    found = prepared("back_squat 3x8", "leg_press", equipment=bare)
    assert found
    assert not any(one.prepared for one in found)
