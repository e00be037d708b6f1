"""Clients and programs as a whole: given, copied, archived, brought back, removed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest

from app import folder, resources
from app.desk import Desk
from app.domain.client import Client, ClientId
from app.domain.edits.whole import rename
from app.domain.errors import CoachError, StoreError
from app.domain.exercise import Equipment
from app.domain.findings import edit
from app.domain.offer import Offer, offer
from app.domain.program import ProgramId
from app.domain.work import Coach, Issue, IssueId, Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests import builders

RUNA = builders.client()
PLAN = builders.program("Mon: back_squat 4x10 core | Thu: curl 3x12", times=2)
HILL = replace(builders.program("Tue: curl 3x12"), id=ProgramId("hill"), name="Hill season")
JORUNN = builders.client(
    id=ClientId("jorunn"), name="Jorunn Aske", equipment=frozenset({Equipment.DUMBBELLS})
)
TORE = builders.client(id=ClientId("tore"), name="Tore Vang")
ON = date(2026, 11, 23)


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PLAN), label="Add")
    made.save(Work(RUNA), Work(RUNA, HILL), label="Add")
    made.save(None, Work(JORUNN), label="Add")
    made.save(None, Work(TORE), label="Add")
    yield made
    made.close()


@pytest.fixture
def desk(store: Store) -> Desk:
    made = Desk(store, builders.CATALOGUE, resources.range_book())
    made.open(RUNA.id, PLAN.id)
    return made


def names(store: Store, client: Client, *, archived: bool = False) -> list[str]:
    return [p.name for p in store.programs(client.id) if p.archived is archived]


def offer_to(client: Client) -> Offer:
    return offer(
        PLAN,
        client,
        builders.CATALOGUE,
        resources.range_book(),
        program_id=folder.new_program_id(),
        start=ON,
    )


# ---------------------------------------------------------------------------- giving


def test_everybody_gets_the_program_as_it_was_offered(store: Store) -> None:
    offers = [offer_to(JORUNN), offer_to(TORE)]
    told = folder.give(store, offers, name=" Ridge season ")
    assert [(one.client, one.problem) for one in told] == [("Jorunn Aske", ""), ("Tore Vang", "")]
    for one, made in zip(told, offers, strict=True):
        kept = store.load_program(one.program)
        assert kept == replace(made.refit.program, name="Ridge season")
        assert [line.id for line in store.programs(made.client.id)] == [one.program]
    assert "back_squat" not in {s.exercise for w in kept_weeks(store, JORUNN) for s in w.slots()}
    assert store.load_program(PLAN.id) == PLAN


def kept_weeks(store: Store, client: Client):
    return store.load_program(store.programs(client.id)[0].id).weeks


def test_what_fails_for_one_does_not_stop_the_others_and_says_why(store: Store) -> None:
    gone = replace(TORE, id=ClientId("gone"), name="Sunniva Lund")
    told = folder.give(store, [offer_to(gone), offer_to(TORE)], name="Ridge season")
    assert told[0].client == "Sunniva Lund"
    assert told[0].problem
    assert told[1].problem == ""
    assert names(store, TORE) == ["Ridge season"]


def test_a_program_without_a_name_is_given_to_nobody(store: Store) -> None:
    with pytest.raises(CoachError, match="has no name"):
        folder.give(store, [offer_to(TORE)], name="  ")
    assert store.programs(TORE.id) == ()


# ---------------------------------------------------------------------------- copies


def test_a_copy_has_a_name_and_an_id_of_its_own(store: Store) -> None:
    first = folder.copy_program(store, RUNA.id, PLAN.id)
    second = folder.copy_program(store, RUNA.id, PLAN.id)
    assert first.name == f"{PLAN.name}, copy"
    assert second.name == f"{PLAN.name}, copy 2"
    assert len({PLAN.id, first.id, second.id}) == 3
    assert store.load_program(first.id) == first
    assert first.weeks == PLAN.weeks


def test_a_copy_of_an_archived_program_is_not_archived(desk: Desk, store: Store) -> None:
    folder.archive_program(desk, store, client_id=RUNA.id, program_id=HILL.id)
    assert not folder.copy_program(store, RUNA.id, HILL.id).archived


# ---------------------------------------------------------------------------- archive


def test_the_open_program_is_archived_as_a_step_that_can_be_undone(
    desk: Desk, store: Store
) -> None:
    folder.archive_program(desk, store, client_id=RUNA.id, program_id=PLAN.id)
    assert desk.program.archived
    assert desk.history.undoable.label == f"Archive {PLAN.name}"
    assert names(store, RUNA, archived=True) == [PLAN.name]
    desk.undo()
    assert names(store, RUNA, archived=True) == []


def test_another_program_is_archived_and_brought_back_in_the_file(desk: Desk, store: Store) -> None:
    for archived in (True, True, False):
        folder.archive_program(
            desk, store, client_id=RUNA.id, program_id=HILL.id, archived=archived
        )
        assert (names(store, RUNA, archived=True) == ["Hill season"]) is archived
    assert desk.history.undoable is None
    assert [line.label for line in store.log(HILL.id)] == [
        "Bring back Hill season",
        "Archive Hill season",
        "Add",
    ]


# ---------------------------------------------------------------------------- names


def test_any_program_can_be_renamed_an_open_one_undoably(desk: Desk, store: Store) -> None:
    for program, name in ((PLAN, "Spring"), (HILL, "Autumn"), (HILL, "Autumn")):
        folder.rename_program(desk, store, client_id=RUNA.id, program_id=program.id, name=name)
    assert sorted(names(store, RUNA)) == ["Autumn", "Spring"]
    assert desk.undo().label == f"Rename {PLAN.name}"
    with pytest.raises(CoachError, match="has no name"):
        folder.rename_program(desk, store, client_id=RUNA.id, program_id=HILL.id, name=" ")


# ---------------------------------------------------------------------------- removal


def test_a_removed_program_is_gone_and_what_was_handed_out_stays(desk: Desk, store: Store) -> None:
    issue = Issue(IssueId("i"), ON, Coach("Tavi Hellmark"), RUNA, HILL, ())
    store.add_issue(issue)
    folder.remove_program(desk, store, client_id=RUNA.id, program_id=HILL.id)
    assert names(store, RUNA) == [PLAN.name]
    assert desk.program == PLAN
    assert store.load_issue(IssueId("i")) == issue


def test_removing_the_open_program_closes_it_and_its_steps_are_gone(
    desk: Desk, store: Store
) -> None:
    desk.keep(edit("Rename", rename, name="Spring"))
    folder.remove_program(desk, store, client_id=RUNA.id, program_id=PLAN.id)
    assert desk.work == Work(RUNA)
    assert desk.undo() is None
    with pytest.raises(StoreError):
        store.load_program(PLAN.id)


class Full(Store):
    """A store with no room left for removals."""

    def remove_program(self, program_id: ProgramId) -> None:
        raise StoreFailure(Cause.FULL, where=self.where)


def test_what_cannot_be_removed_stays_open_with_its_steps() -> None:
    store = Full.in_memory()
    store.save(None, Work(RUNA, PLAN), label="Add")
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    desk.open(RUNA.id, PLAN.id)
    desk.keep(edit("Rename", rename, name="Spring"))
    with pytest.raises(StoreError):
        folder.remove_program(desk, store, client_id=RUNA.id, program_id=PLAN.id)
    assert desk.program.name == "Spring"
    assert desk.history.undoable is not None
    store.close()
