"""Clients as a whole: stages, tags, copies, and two records of one person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from app import people, resources
from app.desk import Desk
from app.domain.client import Client, ClientId, Stage, StrengthTest
from app.domain.errors import CoachError, StoreError
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId
from app.domain.results import CheckIn, Diary, SetDone, SlotResult
from app.domain.work import Coach, Issue, IssueId, Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests import builders

SQUAT = ExerciseKey("back_squat")
DAY = date(2026, 11, 20)
RUNA = builders.client(tags=("north",), tests=(StrengthTest(SQUAT, DAY, 90, 5),))
PLAN = builders.program("Mon: back_squat 3x8")
TWIN = builders.client(
    id=ClientId("runa2"), name="R. Estvik", team="Ridge", tests=(StrengthTest(SQUAT, DAY, 80, 5),)
)
TWIN_PLAN = replace(PLAN, id=ProgramId("twin"), name="Hill season")
SLOT = next(TWIN_PLAN.weeks[0].slots()).id
DONE = SlotResult(TWIN_PLAN.id, SLOT, SQUAT, DAY, (SetDone(60, 8),))
JORUNN = builders.client(id=ClientId("jorunn"), name="Jorunn Aske")


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store.open(tmp_path / "coach.weekloom")
    made.save(None, Work(RUNA, PLAN, Diary((CheckIn(DAY, mass_kg=66),))), label="Add")
    made.save(None, Work(TWIN, TWIN_PLAN, Diary((CheckIn(DAY, mood=4),), (DONE,))), label="Add")
    made.save(None, Work(JORUNN), label="Add")
    yield made
    made.close()


@pytest.fixture
def desk(store: Store) -> Desk:
    made = Desk(store, builders.CATALOGUE, resources.range_book())
    made.open(RUNA.id, PLAN.id)
    return made


def everything(store: Store) -> list[object]:
    """All that the file holds of its clients."""
    found: list[object] = []
    for line in store.clients():
        found += [store.load_client(line.id), store.load_diary(line.id)]
        found += [store.load_program(p.id) for p in store.programs(line.id)]
    return found


# ---------------------------------------------------------------------------- stages and tags


def test_a_stage_is_set_for_several_and_taken_back(desk: Desk, store: Store) -> None:
    before = everything(store)
    change = people.change_clients(
        desk,
        store,
        [RUNA.id, JORUNN.id],
        label="Pause",
        edit=people.with_stage(Stage.PAUSED),
    )
    assert desk.client.stage is Stage.PAUSED
    assert desk.history.undoable.label == "Pause", "the open client's is a step of the desk"
    assert store.load_client(JORUNN.id).stage is Stage.PAUSED
    people.take_back(desk, store, change)
    assert everything(store) == before


def test_tags_are_added_and_taken_away(desk: Desk, store: Store) -> None:
    edit = people.with_tags(["rope ", "rope", "south"], ["north"])
    people.change_clients(desk, store, [RUNA.id, JORUNN.id], label="Tags", edit=edit)
    assert desk.client.tags == ("rope", "south")
    assert store.load_client(JORUNN.id).tags == ("rope", "south")


def test_who_stays_the_same_takes_no_part(desk: Desk, store: Store) -> None:
    change = people.change_clients(
        desk, store, [JORUNN.id], label="x", edit=people.with_stage(Stage.ACTIVE)
    )
    assert change.pairs == ()


def test_what_was_changed_since_is_not_overwritten(desk: Desk, store: Store) -> None:
    change = people.change_clients(
        desk, store, [JORUNN.id], label="x", edit=people.with_stage(Stage.PAUSED)
    )
    now = store.load_client(JORUNN.id)
    store.save(Work(now), Work(replace(now, mass_kg=70.0)), label="y")
    with pytest.raises(CoachError, match="Jorunn Aske was changed since"):
        people.take_back(desk, store, change)
    assert store.load_client(JORUNN.id).mass_kg == 70.0


# ---------------------------------------------------------------------------- copies


def test_a_copy_leaves_the_persons_own_matters_behind(store: Store) -> None:
    store.save(Work(RUNA), Work(replace(RUNA, fat_free_kg=50.0)), label="x")
    made = people.copy_client(store, RUNA.id, name="Ny  Klient")
    kept = store.load_client(made.id)
    assert kept == made
    assert (kept.name, kept.free, kept.equipment) == ("Ny Klient", RUNA.free, RUNA.equipment)
    assert (kept.tests, kept.screenings, kept.born, kept.mass_kg) == ((), (), None, None)
    assert kept.fat_free_kg is None
    assert store.programs(made.id) == ()
    assert store.load_diary(made.id) == Diary()


def test_a_copy_with_everything_is_the_same_but_for_its_ids(store: Store) -> None:
    made = people.copy_client(store, RUNA.id, name=RUNA.name, programs=True, health=True)
    assert replace(made, id=RUNA.id) == RUNA
    (line,) = store.programs(made.id)
    assert line.id != PLAN.id
    assert replace(store.load_program(line.id), id=PLAN.id) == PLAN
    with pytest.raises(CoachError):
        people.copy_client(store, RUNA.id, name=" ")


# ---------------------------------------------------------------------------- merging


def test_two_records_become_one_and_nothing_is_lost(desk: Desk, store: Store) -> None:
    issue = Issue(IssueId("i1"), DAY, Coach("M"), TWIN, TWIN_PLAN, ())
    store.add_issue(issue)
    done = people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=["team"])
    assert [line.id for line in store.clients()] == [JORUNN.id, RUNA.id]
    kept = store.load_client(RUNA.id)
    assert kept == done.client == desk.client
    assert (kept.name, kept.team) == (RUNA.name, "Ridge")
    assert kept.tests == (*RUNA.tests, *TWIN.tests)
    assert {line.id for line in store.programs(RUNA.id)} == {PLAN.id, TWIN_PLAN.id}
    assert store.load_program(TWIN_PLAN.id) == TWIN_PLAN
    assert store.load_issue(IssueId("i1")) == issue, "what was handed out stays as it was"
    assert [line.id for line in store.issues(TWIN_PLAN.id)] == ["i1"]
    diary = store.load_diary(RUNA.id)
    assert diary.check_ins == (CheckIn(DAY, mass_kg=66, mood=4),)
    assert diary.results == (DONE,)
    assert store.check_integrity() == ()


def test_the_copy_put_aside_holds_the_file_as_it_was(desk: Desk, store: Store) -> None:
    before = everything(store)
    done = people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=[])
    assert done.copy is not None
    assert "before-merge" in done.copy.name
    earlier = Store.open(done.copy)
    assert everything(earlier) == before
    earlier.close()


def test_the_merged_record_can_be_worked_on_at_once(desk: Desk, store: Store) -> None:
    people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=[])
    assert desk.program.id == PLAN.id
    assert desk.history.undoable is None, "half a merge cannot be undone"
    desk.keep_client("Change", replace(desk.client, mass_kg=70.0))
    assert store.load_client(RUNA.id).mass_kg == 70.0


def test_where_the_other_record_was_open_the_merged_one_is_shown(desk: Desk, store: Store) -> None:
    desk.open(TWIN.id, TWIN_PLAN.id)
    people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=[])
    assert (desk.client.id, desk.program.id) == (RUNA.id, TWIN_PLAN.id)


def test_a_merge_that_fails_changes_nothing(
    desk: Desk, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = everything(store)

    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where="coach.weekloom")

    monkeypatch.setattr("db.moving.hand_over", full)
    with pytest.raises(StoreError):
        people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=["team"])
    assert everything(store) == before
    assert desk.client == RUNA


def test_a_record_is_not_merged_with_itself(desk: Desk, store: Store) -> None:
    with pytest.raises(CoachError, match="same record"):
        people.merge_clients(desk, store, RUNA.id, RUNA.id, take_other=[])


def test_a_file_in_memory_is_merged_without_a_copy() -> None:
    store = Store.in_memory()
    for client in (RUNA, TWIN):
        store.save(None, Work(client), label="Add")
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    done = people.merge_clients(desk, store, RUNA.id, TWIN.id, take_other=[])
    assert isinstance(done.client, Client)
    assert done.copy is None
    store.close()
