"""Clients as a whole: stage, tags, a copy, and two records of one person made one.

What is open on the desk is changed by way of the desk, so that it can be undone there; everything
else goes straight to the file, and the values before are handed back, so that it can be put back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from uuid import uuid4

from app.desk import Desk
from app.domain.client import Client, ClientId, Stage, tidy_tags
from app.domain.errors import CoachError
from app.domain.merge import merged, merged_diary
from app.domain.program import ProgramId, require_name
from app.domain.wording import tr
from app.domain.work import Work
from db.backup import copy_aside
from db.store import Store


@dataclass(frozen=True, slots=True)
class Change:
    """What was done to several clients at once: their values before and after."""

    label: str
    pairs: tuple[tuple[Client, Client], ...]

    @property
    def reversed(self) -> Change:
        """The change that takes this one back."""
        label = tr("Undo: {label}", label=self.label)
        return Change(label, tuple((after, before) for before, after in self.pairs))


def new_client_id() -> ClientId:
    """An id that no other client has."""
    return ClientId(uuid4().hex)


def change_clients(
    desk: Desk,
    store: Store,
    ids: Iterable[ClientId],
    *,
    label: str,
    edit: Callable[[Client], Client],
) -> Change:
    """Keeps `edit` of each client; those that it leaves as they are take no part.

    Those that are not open are changed in one transaction. Raises StoreError, with those as they
    were.
    """
    pairs = []
    for client_id in ids:
        mine = _open_client(desk, client_id)
        before = store.load_client(client_id) if mine is None else mine
        after = edit(before)
        if after != before:
            pairs.append((before, after))
    return put(desk, store, Change(label, tuple(pairs)))


def put(desk: Desk, store: Store, change: Change) -> Change:
    """Keeps the values after of a change, as `change_clients` does. Raises StoreError."""
    open_id = None if desk.work is None else desk.client.id
    with store.together():
        for before, after in change.pairs:
            if after.id != open_id:
                store.save(Work(before), Work(after), label=change.label)
    for _, after in change.pairs:
        if after.id == open_id:
            desk.keep_client(change.label, after)
    return change


def take_back(desk: Desk, store: Store, change: Change) -> None:
    """Puts the clients back as they were.

    Raises CoachError where one of them was changed since: nothing newer is overwritten.
    """
    for _, after in change.pairs:
        mine = _open_client(desk, after.id)
        if (store.load_client(after.id) if mine is None else mine) != after:
            raise CoachError(
                tr("{client} was changed since.", client=after.name),
                mend=tr("Change it by hand, so that nothing newer is lost."),
            )
    put(desk, store, change.reversed)


def _open_client(desk: Desk, client_id: ClientId) -> Client | None:
    return desk.client if desk.work is not None and desk.client.id == client_id else None


def with_stage(stage: Stage) -> Callable[[Client], Client]:
    """The edit that puts a client at a stage."""
    return lambda client: replace(client, stage=stage)


def with_tags(add: Iterable[str], remove: Iterable[str] = ()) -> Callable[[Client], Client]:
    """The edit that adds tags and takes others away."""
    added, gone = tidy_tags(add), frozenset(tidy_tags(remove))
    return lambda client: replace(
        client, tags=tidy_tags((*(tag for tag in client.tags if tag not in gone), *added))
    )


def copy_client(
    store: Store,
    client_id: ClientId,
    *,
    name: str,
    programs: bool = False,
    health: bool = False,
) -> Client:
    """Keeps a copy of the client under another name; what was done and noted is not copied.

    programs: copies of the programs too; health: birth date, size, screening, limitations, tests
    and consent, which belong to the person. Raises CoachError for an empty name.
    """
    old = store.load_client(client_id)
    made = replace(old, id=new_client_id(), name=require_name(name, "client"), archived=False)
    if not health:
        blank = Client(made.id, made.name)
        made = replace(
            made,
            born=None,
            sex=None,
            height_cm=None,
            mass_kg=None,
            fat_free_kg=None,
            contact="",
            note="",
            screenings=(),
            limitations=(),
            tests=(),
            consent=None,
            keep_until=None,
            refer=(),
            kcal_now=None,
            energy_goal=None,
            activity_level=blank.activity_level,
        )
    label = tr("Copy {client}", client=old.name)
    with store.together():
        store.save(None, Work(made), label=label)
        if programs:
            for line in store.programs(client_id):
                plan = replace(store.load_program(line.id), id=ProgramId(uuid4().hex))
                store.save(Work(made), Work(made, plan), label=label)
    return made


@dataclass(frozen=True, slots=True)
class Merged:
    """What became of a merge. copy: the file as it was before; None for a file in memory."""

    client: Client
    copy: Path | None


def merge_clients(
    desk: Desk, store: Store, mine: ClientId, other: ClientId, *, take_other: Iterable[str]
) -> Merged:
    """Makes one record of two, with the id of `mine`; a copy of the file is put aside first.

    take_other: fields whose value comes from `other`. Programs, issues and what was done and
    noted of both are kept. Raises CoachError, with the file as it was.
    """
    if mine == other:
        raise CoachError(
            tr("These are the same record."), mend=tr("Choose two records of one person.")
        )
    client, second = store.load_client(mine), store.load_client(other)
    diary, second_diary = store.load_diary(mine), store.load_diary(other)
    made = merged(client, second, take_other)
    both = merged_diary(diary, second_diary)
    copy = None
    if store.path is not None:
        copy = copy_aside(store.path, "before-merge", key=store.key)
    store.merge_clients(
        Work(client, diary=diary),
        Work(made, diary=both),
        other,
        label=tr("Merge with {client}", client=second.name),
    )
    _settle(desk, mine, other)
    return Merged(made, copy)


def _settle(desk: Desk, mine: ClientId, other: ClientId) -> None:
    """Show the merged record where one of the two is open; earlier steps would undo half of it."""
    desk.forget_steps(mine)
    desk.forget_steps(other)
    if desk.work is not None and desk.client.id in (mine, other):
        desk.open(mine, desk.program.id if desk.has_program else None)
