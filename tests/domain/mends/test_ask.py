"""Where a finding's slot and session are."""

from __future__ import annotations

import pytest

from app.domain.edits.place import remove
from app.domain.errors import EditError
from app.domain.mends.ask import Ask
from tests.builders import client, program
from tests.domain.mends.settle import context, first

PLAN = program("Mon: curl 3x10 rest 30", "Wed: back_squat 3x8 core")


def test_a_finding_leads_to_its_slot_and_session() -> None:
    ask = Ask(first("rest", PLAN, client()), PLAN, context(PLAN, client()))
    assert (ask.at.week, ask.slot.exercise) == (0, "curl")
    found = ask.session
    assert found is not None
    assert (found[0], found[1], found[2].title) == (0, 0, "Mon 1")


def test_a_finding_on_a_week_has_neither() -> None:
    finding = first("weekly_sets", PLAN, client())
    ask = Ask(finding, PLAN, context(PLAN, client()))
    assert ask.session is None
    with pytest.raises(ValueError, match="not about a slot"):
        _ = ask.slot


def test_a_slot_that_is_gone_is_said_so() -> None:
    finding = first("rest", PLAN, client())
    after = remove(PLAN, next(PLAN.weeks[0].slots()).id)
    with pytest.raises(EditError, match="no longer in the program"):
        _ = Ask(finding, after, context(after, client())).slot
