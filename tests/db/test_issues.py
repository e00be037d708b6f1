"""An issue is kept whole and outlives its program."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from app.domain.work import IssueId, Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.samples import ISSUE, PLAN, RUNA, fill


@pytest.fixture
def store() -> Iterator[Store]:
    store = Store.in_memory()
    fill(store)
    yield store
    store.close()


def test_an_issue_comes_back_equal(store):
    assert store.load_issue(ISSUE.id) == ISSUE


def test_an_issue_stays_as_it_was_when_the_plan_moves_on(store):
    renamed = replace(PLAN, name="Another season")
    store.save(Work(RUNA, PLAN), Work(RUNA, renamed), label="Rename")
    assert store.load_issue(ISSUE.id).program.name == PLAN.name
    store.remove_program(PLAN.id)
    assert store.load_issue(ISSUE.id) == ISSUE


def test_the_last_issue_is_listed_first_whatever_its_date(store):
    store.add_issue(replace(ISSUE, id=IssueId("issue-2"), on=ISSUE.on.replace(year=2020)))
    assert [line.id for line in store.issues(PLAN.id)] == ["issue-2", "issue-1"]
    assert store.issues(PLAN.id)[1].weeks == len(PLAN.weeks)


def test_an_issue_that_is_not_there_is_named(store):
    with pytest.raises(StoreFailure, match="no issue 'none'") as refused:
        store.load_issue(IssueId("none"))
    assert refused.value.cause is Cause.MISSING


def test_the_issues_go_with_their_client(store):
    store.remove_client(RUNA.id)
    assert store.issues(PLAN.id) == ()
