"""Weeks of an issue come out as they were printed, and one by one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.handed_out import printed_weeks
from app.domain.program import Week, WeekId
from app.domain.work import IssueId
from db import printed
from db.canonical import value_of
from db.errors import StoreFailure
from db.store import Store
from tests.db.samples import ISSUE, fill


@pytest.fixture
def store():
    made = Store.in_memory()
    fill(made)
    yield made
    made.close()


def test_every_week_is_as_it_is_in_the_issue(store: Store) -> None:
    assert dict(store.printed_weeks(ISSUE.id)) == printed_weeks(ISSUE)


def test_a_slot_without_a_load_and_one_that_was_not_printed_differ(store: Store) -> None:
    first, *others = ISSUE.loads
    issue = replace(ISSUE, id=IssueId("other"), loads=(replace(first, load_kg=None),))
    store.add_issue(issue)
    assert others
    assert dict(store.printed_weeks(issue.id)) == printed_weeks(issue)


def test_a_week_is_made_once_and_no_other_with_it(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    weeks = store.printed_weeks(ISSUE.id)
    made: list[object] = []

    def counted(kind: type, plain: object) -> object:
        made.append(kind)
        return value_of(kind, plain)

    monkeypatch.setattr(printed, "value_of", counted)
    key = ISSUE.program.weeks[0].id
    assert weeks[key] is weeks[key]
    assert made == [Week]
    with pytest.raises(KeyError):
        weeks[WeekId(max(weeks) + 1)]


def test_an_issue_that_is_not_there_is_said(store: Store) -> None:
    with pytest.raises(StoreFailure):
        store.printed_weeks(IssueId("nothing"))
