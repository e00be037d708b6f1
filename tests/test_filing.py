"""Plans between the coach's file and plan files."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from app import filing
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.program import ProgramId
from app.domain.work import Work
from app.exchange.plan_file import Plan
from db.store import Store
from tests.builders import CATALOGUE, client, exercise, program

RUNA = client()
PLAN = program("Mon: back_squat 3x5")
OWN = exercise("sled_march", CATALOGUE.exercises[0].pattern, "quadriceps", own=True)


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PLAN), label="Add")
    yield made
    made.close()


def put(store: Store, plan: Plan, *, replacing: bool = False) -> None:
    filing.take_in(store, filing.expect(store, plan), replacing=replacing)


def test_a_new_client_comes_with_program_and_own_exercises(store: Store) -> None:
    jorunn = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske")
    hers = replace(PLAN, id=ProgramId("uphill"))
    put(store, Plan(jorunn, hers, (replace(OWN, own=False),)))
    assert store.load_client(jorunn.id) == jorunn
    assert store.load_program(hers.id) == hers
    assert store.own_exercises() == (OWN,)


def test_another_program_of_a_known_client_is_added(store: Store) -> None:
    second = replace(PLAN, id=ProgramId("second"))
    put(store, Plan(RUNA, second))
    assert {line.id for line in store.programs(RUNA.id)} == {PLAN.id, second.id}


def test_what_differs_is_replaced_only_with_leave(store: Store) -> None:
    store.save_exercise(OWN)
    changed = Plan(
        replace(RUNA, mass_kg=70), replace(PLAN, name="Other"), (replace(OWN, name="March"),)
    )
    arrival = filing.expect(store, changed)
    assert len(arrival.clashes) == 3
    with pytest.raises(CoachError, match="client Runa Estvik, program Ridge season, exercise"):
        filing.take_in(store, arrival)
    assert store.load_client(RUNA.id) == RUNA
    assert store.own_exercises() == (OWN,)
    filing.take_in(store, arrival, replacing=True)
    assert store.load_client(RUNA.id).mass_kg == 70
    assert store.load_program(PLAN.id).name == "Other"
    assert store.own_exercises()[0].name == "March"


def test_the_same_again_is_no_edit(store: Store) -> None:
    before = store.log(PLAN.id)
    put(store, Plan(RUNA, PLAN))
    assert store.log(PLAN.id) == before


def test_a_plan_of_the_same_id_by_another_client_is_refused(store: Store) -> None:
    other = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske")
    with pytest.raises(CoachError, match="belongs to another client"):
        put(store, Plan(other, PLAN), replacing=True)


def test_a_client_alone_leaves_the_programs(store: Store) -> None:
    put(store, Plan(replace(RUNA, mass_kg=70)), replacing=True)
    assert store.load_client(RUNA.id).mass_kg == 70
    assert len(store.programs(RUNA.id)) == 1


def test_names_find_clients_and_programs(store: Store) -> None:
    assert filing.find_client(store, "runa estvik").id == RUNA.id
    assert filing.find_program(store, RUNA.id, "RIDGE SEASON").id == PLAN.id
    with pytest.raises(CoachError, match="Did you mean 'Ridge season'"):
        filing.find_program(store, RUNA.id, "Ridge saeson")


def test_a_name_that_two_share_asks_for_the_id(store: Store) -> None:
    store.save(None, Work(replace(RUNA, id=ClientId("other"))), label="Add")
    with pytest.raises(CoachError, match="2 of the file's clients .* other, runa|runa, other"):
        filing.find_client(store, "Runa Estvik")


def test_an_empty_file_says_that_nobody_is_there() -> None:
    empty = Store.in_memory()
    with pytest.raises(CoachError, match="There is no client yet"):
        filing.find_client(empty, "Runa")
    assert filing.gather_plans(empty, CATALOGUE) == ()
    empty.close()


def test_plans_that_share_a_name_get_a_number() -> None:
    names = filing.file_names(
        plan.names for plan in (Plan(RUNA, PLAN), Plan(RUNA), Plan(RUNA, PLAN))
    )
    assert names == (
        "runa-estvik-ridge-season.plan.json",
        "runa-estvik.plan.json",
        "runa-estvik-ridge-season-2.plan.json",
    )
