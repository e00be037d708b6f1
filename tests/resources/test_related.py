"""The shipped relations between exercises."""

from __future__ import annotations

from app import resources
from app.domain.strength_tests import can_be_tested
from app.domain.working import UNSOURCED
from app.resources.related import related_strength


def test_every_relation_is_sourced_between_exercises_that_can_be_tested() -> None:
    catalogue = resources.catalogue()
    references = resources.references()
    found = related_strength()
    assert found
    for one in found:
        assert one.source in UNSOURCED or one.source in references
        assert can_be_tested(catalogue[one.exercise])
        assert can_be_tested(catalogue[one.from_exercise])
        assert one.exercise != one.from_exercise


def test_a_way_there_and_back_agree() -> None:
    found = {(r.exercise, r.from_exercise): r for r in related_strength()}
    both = [(a, found[there[::-1]]) for there, a in found.items() if there[::-1] in found]
    assert both
    for one, back in both:
        assert one.low <= 1 / back.low
        assert one.high >= 1 / back.high
