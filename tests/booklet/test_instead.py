"""What may be done in an exercise's place."""

from __future__ import annotations

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.instead import MOST, instead_of
from app.domain.client import Limitation
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
