"""Programs of everybody: which ones, in what order, and in one query."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import ClientId, Stage
from app.domain.program import Program, ProgramId
from app.domain.work import Work
from db.across import NewestLine, PlanLine
from db.store import Store
from tests import builders

PLAN = builders.program("Mon: back_squat 3x8", times=3)


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    yield made
    made.close()


def add(store: Store, name: str, *plans: Program, **fields: object) -> None:
    client = replace(builders.client(), id=ClientId(name), name=name, **fields)  # type: ignore[arg-type]
    store.save(None, Work(client), label="Add")
    for plan in plans:
        store.save(Work(client), Work(client, plan), label="Add")


def plan(key: str, start: date = PLAN.start, **fields: object) -> Program:
    return replace(PLAN, id=ProgramId(key), start=start, **fields)  # type: ignore[arg-type]


def test_a_line_says_who_and_which_program(store: Store) -> None:
    add(store, "Runa", plan("p"), team="Valley", stage=Stage.PAUSED, tags=("north", "rope"))
    assert store.newest_programs() == (
        NewestLine(
            ClientId("Runa"),
            "Runa",
            "Valley",
            Stage.PAUSED,
            ("north", "rope"),
            ProgramId("p"),
            PLAN.name,
            3,
        ),
    )


def test_the_program_that_starts_last_is_the_newest(store: Store) -> None:
    add(store, "Runa", plan("old", date(2020, 1, 6)), plan("new", date(2026, 1, 5)))
    assert [line.program for line in store.newest_programs()] == ["new"]


def test_of_two_that_start_together_the_first_by_name_is_taken(store: Store) -> None:
    add(store, "Runa", plan("b", name="Snow"), plan("a", name="Snow"), plan("c", name="Ridge"))
    first = store.programs(ClientId("Runa"))[0]
    assert [line.program for line in store.newest_programs()] == [first.id] == ["c"]


def test_what_is_archived_and_who_has_no_program_is_left_out(store: Store) -> None:
    add(store, "Runa", plan("old", date(2020, 1, 6)), plan("kept", archived=True))
    add(store, "Gone", plan("gone"), archived=True)
    add(store, "Bare")
    assert [line.program for line in store.newest_programs()] == ["old"]


def test_clients_come_by_name(store: Store) -> None:
    for name in ("Tavi", "Ivo", "Runa"):
        add(store, name, plan(f"p-{name}"))
    assert [line.client_name for line in store.newest_programs()] == ["Ivo", "Runa", "Tavi"]


def test_every_program_has_a_line_and_so_has_who_has_none(store: Store) -> None:
    add(store, "Runa", plan("old", date(2020, 1, 6)), plan("new", archived=True), archived=True)
    add(store, "Bare")
    assert store.plans() == (
        PlanLine(ClientId("Bare"), "Bare", None, ""),
        PlanLine(ClientId("Runa"), "Runa", ProgramId("new"), PLAN.name),
        PlanLine(ClientId("Runa"), "Runa", ProgramId("old"), PLAN.name),
    )
    for line in store.clients():
        ids = [one.program for one in store.plans() if one.client == line.id and one.program]
        assert ids == [one.id for one in store.programs(line.id)]


@pytest.mark.parametrize("read", [Store.newest_programs, Store.plans])
def test_thirty_clients_are_one_query(
    store: Store, read: Callable[[Store], tuple[object, ...]]
) -> None:
    for number in range(30):
        add(store, f"Client {number}", plan(f"p{number}"))
    asked: list[str] = []
    store._raw.set_trace_callback(asked.append)
    assert len(read(store)) == 30
    store._raw.set_trace_callback(None)
    assert len([one for one in asked if one.lstrip().startswith("SELECT")]) == 1
