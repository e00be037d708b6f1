"""Findings and edits as values."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.edits.fields import add_sets
from app.domain.errors import EditError
from app.domain.findings import Finding, Place, Weight, edit
from app.domain.program import SessionId, SlotId, StrandId, WeekId
from tests.builders import program

FINDING = Finding("rest", Weight.OUTSIDE, Place(WeekId(7)), "curl", "Curl rest 30 s")


@pytest.mark.parametrize(
    ("place", "key"),
    [
        (Place(), "rest/program//curl"),
        (Place(WeekId(7)), "rest/w7//curl"),
        (Place(WeekId(7), 3), "rest/w7/d3/curl"),
        (Place(WeekId(7), 3, SessionId(5), SlotId(9), StrandId(2)), "rest/w7/s2/curl"),
    ],
)
def test_an_id_names_rule_place_and_subject(place: Place, key: str) -> None:
    assert replace(FINDING, place=place).id == key


def test_an_id_does_not_hang_on_what_was_measured_or_which_day() -> None:
    strand = Place(WeekId(7), 3, SessionId(5), SlotId(9), StrandId(2))
    moved = replace(strand, day=4, slot=SlotId(10))
    assert replace(FINDING, place=strand, measured=30.0).id == replace(FINDING, place=moved).id


def test_weights_have_words_heaviest_first() -> None:
    assert [weight.word for weight in sorted(Weight)] == ["Conflict", "Outside", "Remark"]


def test_an_edit_is_a_value_that_can_be_applied() -> None:
    plan = program("Mon: curl 3x10")
    slot = next(plan.weeks[0].slots()).id
    more = edit("Add 2 sets", add_sets, slot_id=slot, by=2)
    assert more == edit("Add 2 sets", add_sets, slot_id=slot, by=2)
    assert more != edit("Add 2 sets", add_sets, slot_id=slot, by=3)
    assert next(more(plan).weeks[0].slots()).sets == 5


def test_an_edit_that_cannot_be_applied_says_so_and_leaves_the_plan() -> None:
    plan = program("Mon: curl 3x10")
    gone = edit("Add 2 sets", add_sets, slot_id=SlotId(999), by=2)
    with pytest.raises(EditError, match="no longer in the program"):
        gone(plan)
    assert plan == program("Mon: curl 3x10")
    assert len({gone, edit("Add 2 sets", add_sets, slot_id=SlotId(999), by=2)}) == 1
