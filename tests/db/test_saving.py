"""A save counts the versions of what it wrote, and notes one line in the log."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from app.domain.work import Work
from db import reading, saving
from db.engine import Link, link_memory
from db.errors import Cause, StoreFailure
from db.schema import create
from tests.db.samples import PLAN, RUNA

NOW = datetime(2026, 3, 1, 12, tzinfo=UTC)


@pytest.fixture
def link() -> Iterator[Link]:
    link = link_memory()
    create(link.sql)
    yield link
    link.close()


def saved(link: Link, before: Work | None, after: Work, seen=()) -> saving.Versions:
    """The versions that a save of the difference counted."""
    return saving.save(link.sql, before, after=after, label="Edit", at=NOW, seen=dict(seen))


def test_only_what_was_written_is_counted(link):
    first = saved(link, None, Work(RUNA, PLAN))
    assert first == {("clients", RUNA.id): 1, ("programs", PLAN.id): 1}
    renamed = replace(PLAN, name="Other")
    assert saved(link, Work(RUNA, PLAN), Work(RUNA, renamed), first) == {("programs", PLAN.id): 2}
    noted = replace(RUNA, note="new")
    assert saved(link, Work(RUNA), Work(noted), first) == {("clients", RUNA.id): 2}


def test_each_save_is_one_line_of_the_log(link):
    saved(link, None, Work(RUNA, PLAN))
    (line,) = reading.list_edits(link.raw, PLAN.id, limit=9)
    assert (line.at, line.label) == (NOW, "Edit")


def test_a_version_that_another_has_counted_meanwhile_is_refused(link):
    seen = saved(link, None, Work(RUNA))
    saved(link, Work(RUNA), Work(replace(RUNA, note="theirs")), seen)
    with pytest.raises(StoreFailure) as refused:
        saved(link, Work(RUNA), Work(replace(RUNA, note="ours")), seen)
    assert refused.value.cause is Cause.CHANGED_OUTSIDE


def test_something_new_never_takes_a_place_that_is_taken(link):
    saved(link, None, Work(RUNA))
    with pytest.raises(StoreFailure, match="already holds 'Runa Estvik'") as refused:
        saved(link, None, Work(RUNA))
    assert refused.value.cause is Cause.TAKEN


def test_removing_a_client_takes_the_programs_along(link):
    saved(link, None, Work(RUNA, PLAN))
    saving.remove_client(link.sql, RUNA.id)
    assert link.raw.execute("SELECT count(*) FROM slots").fetchone() == (0,)
