"""Lines of lists are plain values that can be compared, sorted out and shared."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest

from db.lines import IssueLine
from db.store import Store
from tests.db.samples import ISSUE, PLAN, RUNA, fill


def test_lists_hold_equal_lines_each_time_they_are_asked_for():
    store = Store.in_memory()
    fill(store)
    assert store.clients() == store.clients()
    assert store.programs(RUNA.id) == store.programs(RUNA.id)
    assert store.issues(PLAN.id) == (IssueLine(ISSUE.id, ISSUE.on, PLAN.name, len(PLAN.weeks)),)
    assert store.log(PLAN.id) == store.log(PLAN.id)
    store.close()


def test_a_line_cannot_be_changed():
    line = IssueLine(ISSUE.id, ISSUE.on, PLAN.name, 2)
    with pytest.raises(FrozenInstanceError):
        line.weeks = 3  # type: ignore[misc]
