"""What was written on a card: set where it differs, as far as the span reaches; let go again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits.parts import find_slot
from app.domain.edits.written import differing, unpin_all, write
from app.domain.errors import CoachError
from app.domain.prescription_text import format_slot, parse
from app.domain.program import Field, Reps, Role, Slot, SlotId, Span
from tests import builders
from tests.domain.edits.random_edits import slots_of

PLAN = builders.program("Mon: back_squat 4x10, curl 3x12", times=3)
SLOT = slots_of(PLAN)[0]


def test_only_what_differs_is_set_and_pinned() -> None:
    line = parse("4 x 8-10, rest 155 s")
    assert differing(SLOT, line) == (Field.REPS, Field.REST)
    after = find_slot(write(PLAN, slot_id=SLOT.id, written=line), SLOT.id)
    assert (after.sets, after.reps, after.rest_s) == (4, Reps(8, 10), 155)
    assert after.pinned == {Field.REPS, Field.REST}


def test_it_reaches_as_far_as_the_span() -> None:
    for span, sets in ((Span.THIS_WEEK, [5, 4, 4]), (Span.WHOLE_PROGRAM, [5, 5, 5])):
        after = write(PLAN, slot_id=SLOT.id, written=parse("5 x 10"), span=span)
        assert [slots_of(after)[k * 2].sets for k in range(3)] == sets


def test_note_and_role_are_set_only_where_they_are_given() -> None:
    nothing = parse(format_slot(SLOT))
    assert write(PLAN, slot_id=SLOT.id, written=nothing) is PLAN
    after = write(PLAN, slot_id=SLOT.id, written=nothing, note="belt on", role=Role.CORE)
    changed = find_slot(after, SLOT.id)
    assert (changed.note, changed.role) == ("belt on", Role.CORE)


@given(st.sampled_from(slots_of(PLAN)))
def test_a_card_written_as_it_stands_changes_nothing(slot: Slot) -> None:
    assert differing(slot, parse(format_slot(slot))) == ()


def test_what_was_set_by_hand_is_let_go_of_all_of_them() -> None:
    ids = tuple(slot.id for slot in slots_of(PLAN)[:2])
    pinned = PLAN
    for slot_id in ids:
        pinned = write(pinned, slot_id=slot_id, written=parse("5 x 3, rest 120 s, 70 kg"))
    free = unpin_all(pinned, slot_ids=ids)
    for slot_id in ids:
        assert find_slot(pinned, slot_id).pinned
        assert find_slot(free, slot_id).pinned == frozenset()
        assert find_slot(free, slot_id).load_kg is None


def test_a_slot_that_is_gone_is_refused() -> None:
    with pytest.raises(CoachError):
        write(PLAN, slot_id=SlotId(999), written=parse("5 x 10"))
