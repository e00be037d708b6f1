"""What is open, and what was handed out."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, replace
from datetime import date

import pytest

from app.domain.program import SlotId
from app.domain.work import Coach, Issue, IssueId, PrintedLoad, Work
from tests import builders


def test_a_client_may_be_open_without_a_program() -> None:
    assert Work(builders.client()).program is None


def test_works_of_the_same_values_are_equal() -> None:
    program = builders.program("Mon: curl")
    assert Work(builders.client(), program) == Work(builders.client(), replace(program))
    assert Work(builders.client(), program) != Work(builders.client(name="Jorunn Aske"), program)


def test_an_issue_is_frozen_with_its_loads() -> None:
    program = builders.program("Mon: curl")
    loads = (PrintedLoad(SlotId(3), None),)
    issue = Issue(IssueId("i"), date(2026, 11, 25), Coach(), builders.client(), program, loads)
    with pytest.raises(FrozenInstanceError):
        issue.loads = ()  # type: ignore[misc]
    assert issue.coach == Coach("", "", "")
