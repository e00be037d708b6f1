"""Clients and programs as a whole: give, copy, archive, bring back, remove.

What is open on the desk is changed by way of the desk, so that it can be undone; everything else
goes straight to the file. Each of these is one transaction.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from uuid import uuid4

from app.desk import Desk
from app.domain.client import ClientId
from app.domain.edits.whole import archive, rename
from app.domain.errors import CoachError
from app.domain.findings import edit
from app.domain.offer import Offer
from app.domain.program import Program, ProgramId, require_name
from app.domain.wording import tr
from app.domain.work import Work
from db.store import Store


def new_program_id() -> ProgramId:
    """An id that no other program has."""
    return ProgramId(uuid4().hex)


@dataclass(frozen=True, slots=True)
class Given:
    """What became of giving a program to one client. problem: why it failed, or empty."""

    client: str
    program: ProgramId
    problem: str = ""


def give(store: Store, offers: Iterable[Offer], *, name: str) -> tuple[Given, ...]:
    """Keeps each offer as a new program of its client; what failed does not stop the others.

    name: what the program is called with everybody. Raises CoachError for an empty one.
    """
    name = require_name(name, "program")
    told = []
    for offer in offers:
        program = replace(offer.refit.program, name=name)
        before = Work(offer.client)
        try:
            store.save(before, Work(offer.client, program), label=tr("Add {name}", name=name))
        except CoachError as error:
            told.append(Given(offer.client.name, program.id, error.sentence))
        else:
            told.append(Given(offer.client.name, program.id))
    return tuple(told)


def copy_program(store: Store, client_id: ClientId, program_id: ProgramId) -> Program:
    """Keeps a copy of the program beside it, under its name with 'copy' behind it."""
    client, program = store.load_client(client_id), store.load_program(program_id)
    names = {line.name for line in store.programs(client_id)}
    made = replace(
        program, id=new_program_id(), name=_copy_name(program.name, names), archived=False
    )
    store.save(Work(client), Work(client, made), label=tr("Copy {program}", program=program.name))
    return made


def _copy_name(name: str, taken: set[str]) -> str:
    """'Ridge season, copy', or with a number where there is one already."""
    made, number = tr("{name}, copy", name=name), 2
    while made in taken:
        made, number = tr("{name}, copy {number}", name=name, number=number), number + 1
    return made


def archive_program(
    desk: Desk, store: Store, *, client_id: ClientId, program_id: ProgramId, archived: bool = True
) -> None:
    """Puts the program into the archive, or brings it back; an open one as an undoable step."""
    if desk.has_program and desk.program.id == program_id:
        label = f"{_verb(archived)} {desk.program.name}"
        desk.keep(edit(label, archive, archived=archived))
        return
    client, program = store.load_client(client_id), store.load_program(program_id)
    _keep_elsewhere(store, Work(client, program), archive(program, archived=archived))


def _verb(archived: bool) -> str:
    return tr("Archive") if archived else tr("Bring back")


def _keep_elsewhere(store: Store, before: Work, after: Program) -> None:
    """Keeps a program that is not open as changed."""
    if after != before.program:
        label = f"{_verb(after.archived)} {after.name}"
        store.save(before, replace(before, program=after), label=label)


def rename_program(
    desk: Desk, store: Store, *, client_id: ClientId, program_id: ProgramId, name: str
) -> None:
    """Gives the program another name; an open one as an undoable step. Raises CoachError."""
    if desk.has_program and desk.program.id == program_id:
        desk.keep(edit(tr("Rename {program}", program=desk.program.name), rename, name=name))
        return
    client, program = store.load_client(client_id), store.load_program(program_id)
    after = rename(program, name=name)
    if after != program:
        label = tr("Rename {program}", program=program.name)
        store.save(Work(client, program), Work(client, after), label=label)


def remove_program(desk: Desk, store: Store, *, client_id: ClientId, program_id: ProgramId) -> None:
    """Removes the program for good; earlier steps of its client can no longer be undone.

    What was handed out of it stays in the file. An open one is closed.
    """
    open_now = desk.has_program and desk.program.id == program_id
    store.remove_program(program_id)
    desk.forget_steps(client_id)
    if open_now:
        desk.open(client_id)
