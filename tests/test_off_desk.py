"""Checks and issues for plans that are not on the desk agree with those that are."""

from __future__ import annotations

from dataclasses import replace

from app import resources
from app.demo import members
from app.desk import Desk
from app.domain.work import Coach, Work
from app.off_desk import issue_of, look_over
from db.store import Store

CATALOGUE = resources.catalogue()
MEMBER = members(CATALOGUE)[0]


def on_the_desk() -> tuple[Desk, Store]:
    store = Store.in_memory()
    store.set_coach(Coach("Tavi Hellmark"))
    store.save(None, Work(MEMBER.client, MEMBER.program), label="Add")
    desk = Desk(store, CATALOGUE, resources.range_book())
    desk.open(MEMBER.client.id, MEMBER.program.id)
    return desk, store


def test_the_findings_are_those_of_the_desk() -> None:
    desk, store = on_the_desk()
    checked = look_over(MEMBER.client, MEMBER.program, catalogue=CATALOGUE)
    assert checked.findings == desk.findings
    assert checked.source(next(f for f in checked.findings if f.source == "iversen2021")) == (
        "Iversen 2021"
    )
    store.close()


def test_the_issue_is_that_of_the_desk() -> None:
    desk, store = on_the_desk()
    drafted = desk.draft_issue(MEMBER.program.start)
    issue = issue_of(
        MEMBER.client,
        MEMBER.program,
        catalogue=CATALOGUE,
        coach=Coach("Tavi Hellmark"),
        on=MEMBER.program.start,
    )
    assert replace(issue, id=drafted.id) == drafted
    store.close()
