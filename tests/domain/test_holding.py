"""What is held on a client is one value, so it can be compared whole."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

from app.domain.holding import Holding, Noted
from tests.db.samples import COACH, DIARY, ISSUE, PLAN, RUNA, STEP_OVER

HOLDING = Holding(
    date(2026, 11, 29),
    COACH,
    RUNA,
    (PLAN,),
    DIARY,
    (ISSUE,),
    (STEP_OVER,),
    (Noted(datetime(2026, 1, 2, 20, tzinfo=UTC), "Add client"),),
)


def test_two_that_hold_the_same_are_equal():
    assert replace(HOLDING) == HOLDING
    assert replace(HOLDING, edits=()) != HOLDING
