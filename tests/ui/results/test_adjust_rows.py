"""What the coach makes of a suggestion, line by line."""

from __future__ import annotations

from typing import Any

import pytest

from app.domain.adjust import Advice, Change
from app.domain.exercise import LoadKind
from app.domain.program import Reps
from app.ui.results.adjust_rows import Line, reps_text
from tests.domain.test_adjust import PLAN, advice, done, slot

PASSED = [done(PLAN, 0, *[(60.0, 9, 2.0)] * 3)]


def line(found: Advice | None = None, unit: str = "kg") -> Line:
    found = found or advice(PLAN, 1, PASSED)
    return Line(found, "Lower body", unit, taken=found.changes)


def test_a_suggestion_stands_as_it_would_be_typed() -> None:
    made = line()
    assert made.text == f"{made.advice.load_kg:g} kg"
    assert made.last_text.startswith("60 kg × 9, 9, 9, on ")
    assert made.planned_text == "8 reps"
    assert made.change() == Change(slot(PLAN, 1).id, made.advice.load_kg, None)


def test_a_load_typed_in_its_place_is_taken() -> None:
    made = line()
    made.taken = False
    made.type("70,5")
    assert made.taken
    assert made.change() == Change(slot(PLAN, 1).id, load_kg=70.5)
    made.type("155 lb")
    assert made.change().load_kg == pytest.approx(70.3, abs=0.01)


def test_what_cannot_be_read_is_not_taken_and_says_why() -> None:
    made = line()
    made.type("heavy")
    assert not made.taken
    assert "'heavy' is not a number" in made.why
    made.type("")
    assert made.wrong is None
    assert made.text == made.suggested


def test_repetitions_are_suggested_and_typed_where_no_load_rises() -> None:
    body: dict[str, Any] = {"load_kind": LoadKind.BODY, "body_share": 0.9}
    made = line(advice(PLAN, 1, [done(PLAN, 0, *[(0.0, 9, 2.0)] * 3)], **body))
    assert made.text == "9–10 reps"
    made.type("10-12")
    assert made.change() == Change(slot(PLAN, 1).id, reps=Reps(10, 12))
    made.type("ten")
    assert "no number of repetitions" in made.why


def test_nothing_to_do_is_no_change_until_something_is_typed() -> None:
    made = line(advice(PLAN, 1, []))
    assert made.change() is None
    assert made.last_text == ""
    made.type("50")
    assert made.change() == Change(slot(PLAN, 1).id, load_kg=50.0)
    assert made.taken


def test_bands_have_no_load_to_type_and_seconds_are_named() -> None:
    assert not line(advice(PLAN, 1, [], load_kind=LoadKind.BAND)).can_change
    assert reps_text(Reps(30, 30), timed=True) == "30 s"
