"""Plans between the coach's file and plan files: what is asked for is found, and put in whole."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from app import resources
from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise
from app.domain.program import Program
from app.domain.wording import tr
from app.domain.work import Work
from app.exchange.faults import near
from app.exchange.files import read_whole, safe_name
from app.exchange.json_text import MOST_BYTES
from app.exchange.plan_file import SUFFIX, Plan, gather, read_plan
from db.errors import Cause, StoreFailure
from db.lines import ClientLine, ProgramLine
from db.store import Store


@cache
def schema() -> dict[str, Any]:
    """The published schema of plan files."""
    found: dict[str, Any] = json.loads(resources.text("schema/plan.schema.json"))
    return found


def open_plan(path: Path, catalogue: Catalogue) -> Plan:
    """The plan in a file. Raises PlanFileError or FileTrouble; the file is only read."""
    data = read_whole(path, most=MOST_BYTES)
    return read_plan(
        data,
        source=str(path),
        schema=schema(),
        catalogue=catalogue,
        today=datetime.now().astimezone().date(),
    )


def file_name(plan: Plan) -> str:
    """The name of a plan's file: 'runa-estvik-ridge-season.plan.json'."""
    return safe_name(*plan.names) + SUFFIX


def file_names(named: Iterable[tuple[str, str]]) -> tuple[str, ...]:
    """A name for each plan's file, with a number where two would share one.

    named: the `names` of each plan.
    """
    taken: dict[str, None] = {}
    for client, program in named:
        name = stem = safe_name(client, program)
        number = 2
        while name in taken:
            name = f"{stem}-{number}"
            number += 1
        taken[name] = None
    return tuple(f"{name}{SUFFIX}" for name in taken)


def find_client(store: Store, wanted: str) -> ClientLine:
    """The client of that id, or of that name. Raises CoachError if none or several fit."""
    lines = store.clients()
    fitting = [c for c in lines if wanted == c.id] or [
        c for c in lines if wanted.casefold() == c.name.casefold()
    ]
    return _only(fitting, wanted, what=tr("client"), names=[c.name for c in lines])


def find_program(store: Store, client_id: ClientId, wanted: str) -> ProgramLine:
    """The client's program of that id, or of that name. Raises CoachError if none or several."""
    lines = store.programs(client_id)
    fitting = [p for p in lines if wanted == p.id] or [
        p for p in lines if wanted.casefold() == p.name.casefold()
    ]
    return _only(fitting, wanted, what=tr("program"), names=[p.name for p in lines])


Line = TypeVar("Line", ClientLine, ProgramLine)


def _only(fitting: list[Line], wanted: str, *, what: str, names: list[str]) -> Line:
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        ids = ", ".join(str(one.id) for one in fitting)
        raise CoachError(
            tr(
                "{fitting} of the file's {what}s are called {wanted!r}.",
                fitting=len(fitting),
                what=what,
                wanted=wanted,
            ),
            mend=tr("Name one by its id: {ids}.", ids=ids),
        )
    mend = near(wanted, names) if names else tr("There is no {what} yet.", what=what)
    raise CoachError(
        tr("There is no {what} {wanted!r} in the file.", what=what, wanted=wanted), mend=mend
    )


def gather_plans(
    store: Store, catalogue: Catalogue, *, client: str = "", program: str = ""
) -> tuple[Plan, ...]:
    """The plans asked for: all of the file, all of a client, or one program.

    client and program: ids or names; empty for all. A client without a program is a plan too.
    """
    if program and not client:
        raise CoachError(
            tr("A program was named, but not whose it is."), mend=tr("Name the client as well.")
        )
    lines = (find_client(store, client),) if client else store.clients()
    plans = []
    for line in lines:
        person = store.load_client(line.id)
        ids = (
            [find_program(store, line.id, program).id]
            if program
            else [p.id for p in store.programs(line.id)]
        )
        plans += [gather(person, store.load_program(i), catalogue) for i in ids]
        if not ids:
            plans.append(gather(person, None, catalogue))
    return tuple(plans)


@dataclass(frozen=True, slots=True)
class Arrival:
    """What putting a plan into a file would do, or did.

    client and program: what is there already of the same id, if anything; exercises: own ones
    that are new or differ from those there; clashes: what would be replaced by something else.
    """

    plan: Plan
    client: Client | None
    program: Program | None
    exercises: tuple[Exercise, ...]
    clashes: tuple[str, ...]


def expect(store: Store, plan: Plan) -> Arrival:
    """What is in the file already of what the plan brings; nothing is changed.

    Raises CoachError if its program belongs to another client there.
    """
    plan = replace(plan, exercises=tuple(replace(e, own=True) for e in plan.exercises))
    there = any(line.id == plan.client.id for line in store.clients())
    client = store.load_client(plan.client.id) if there else None
    program = None if plan.program is None else _program_there(store, plan.client, plan.program)
    mine = {e.key: e for e in store.own_exercises(retired=True)}
    fresh = tuple(e for e in plan.exercises if mine.get(e.key) != e)
    clashes = []
    if client is not None and client != plan.client:
        clashes.append(tr("client {client}", client=client.name))
    if program is not None and program != plan.program:
        clashes.append(tr("program {program}", program=program.name))
    clashes += [tr("exercise {mine}", mine=mine[e.key].name) for e in fresh if e.key in mine]
    return Arrival(plan, client, program, fresh, tuple(clashes))


def _program_there(store: Store, client: Client, program: Program) -> Program | None:
    """The program of that id in the file; None if there is none."""
    try:
        found = store.load_program(program.id)
    except StoreFailure as failure:
        if failure.cause is Cause.MISSING:
            return None
        raise
    if all(line.id != program.id for line in store.programs(client.id)):
        raise CoachError(
            tr(
                "The program {program!r} has the id of one that belongs to another client.",
                program=program.name,
            ),
            where=client.name,
            mend=tr("Give the program in the plan file another id."),
        )
    return found


def refuse_contradiction(plans: Sequence[Plan]) -> None:
    """Raises CoachError if two plans bring different things of the same id."""
    seen: dict[tuple[str, str], object] = {}
    for plan in plans:
        brought: list[Client | Program | None] = [plan.client, plan.program]
        for one in (one for one in brought if one is not None):
            if seen.setdefault((type(one).__name__, one.id), one) != one:
                raise CoachError(
                    tr(
                        "Two of the plan files bring a different {one!r} of the same id.",
                        one=one.name,
                    ),
                    mend=tr("Import one of them."),
                )


def refuse_clash(arrival: Arrival, *, where: str, replacing: bool) -> None:
    """Raises CoachError if the plan would replace something else that may not be replaced."""
    if arrival.clashes and not replacing:
        raise CoachError(
            tr(
                "The coach's file already holds another {clashes}.",
                clashes=", ".join(arrival.clashes),
            ),
            where=where,
            mend=tr("Import it with --replace to put this in its place, or leave it."),
        )


def take_in(store: Store, arrival: Arrival, *, replacing: bool = False) -> None:
    """Puts the plan into the file.

    Raises CoachError if it would replace something else of the same id and `replacing` is False.
    """
    plan = arrival.plan
    refuse_clash(arrival, where=plan.client.name, replacing=replacing)
    before = None if arrival.client is None else Work(arrival.client, arrival.program)
    name = plan.client.name if plan.program is None else plan.program.name
    with store.together():
        for exercise in arrival.exercises:
            store.save_exercise(exercise)
        if before != Work(plan.client, plan.program):
            label = tr("Import {name}", name=name)
            store.save(before, Work(plan.client, plan.program), label=label)
