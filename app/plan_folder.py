"""A folder of plan files in one go, in or out: one after the other, each whole or not at all.

What fails is told with its reason, and the others go on.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.program import Program
from app.domain.wording import tr
from app.exchange.files import FileTrouble, make_folder, told, write_file
from app.exchange.plan_file import SUFFIX, Plan, gather, write_plan
from app.filing import Arrival, expect, file_names, open_plan, take_in
from db.store import Store

MOST_FILES = 2_000


class Fate(Enum):
    """What became of a file."""

    DONE = "done"
    SAME = "same"
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one file went: what it holds, or why it was left out."""

    path: Path
    fate: Fate
    text: str


# -- in ----------------------------------------------------------------------------------------


def plan_files_in(folder: Path) -> tuple[Path, ...]:
    """The plan files of the folder itself, by name; none of those below it.

    Raises FileTrouble for a folder that cannot be read, and where there are none or too many.
    """
    with told(folder, "read"):
        found = sorted(
            path
            for path in folder.iterdir()
            if path.name.endswith(SUFFIX) and not path.name.startswith(".") and path.is_file()
        )
    if not found:
        raise FileTrouble(
            tr("There is no plan file in it."),
            where=str(folder),
            mend=tr("Plan files end in {suffix}.", suffix=SUFFIX),
        )
    if len(found) > MOST_FILES:
        raise FileTrouble(
            tr("It holds {n} plan files.", n=len(found)),
            where=str(folder),
            mend=tr("Take at most {n} at once.", n=MOST_FILES),
        )
    return tuple(found)


def read_folder(
    store: Store, catalogue: Catalogue, paths: Sequence[Path], *, replacing: bool = False
) -> Iterator[Outcome]:
    """Puts each plan file into the coach's file; each outcome once it is there."""
    for path in paths:
        try:
            plan = open_plan(path, catalogue)
            yield put_in(store, path, plan, replacing=replacing)
            catalogue = catalogue.with_own(plan.exercises) if plan.exercises else catalogue
        except CoachError as error:
            yield failed(path, error)


def put_in(store: Store, path: Path, plan: Plan, *, replacing: bool = False) -> Outcome:
    """Puts one plan that was read into the coach's file. Raises CoachError."""
    arrival = expect(store, plan)
    fate = Fate.SAME if _is_there(arrival) else Fate.DONE
    take_in(store, arrival, replacing=replacing)
    return Outcome(path, fate, plan_text(plan))


def _is_there(arrival: Arrival) -> bool:
    plan = arrival.plan
    same = arrival.client == plan.client and not arrival.exercises
    return same and (plan.program is None or arrival.program == plan.program)


def failed(path: Path, error: CoachError) -> Outcome:
    """The outcome of a file that could not be taken; its path is not said twice."""
    text = error.sentence.removeprefix(f"{path}, ").removeprefix(f"{path}: ")
    return Outcome(path, Fate.FAILED, text)


def plan_text(plan: Plan) -> str:
    """'Runa Estvik, Ridge season'."""
    if plan.program is None:
        return plan.client.name
    return tr("{client}, {program}", client=plan.client.name, program=plan.program.name)


# -- out ---------------------------------------------------------------------------------------


def plans_of(store: Store, catalogue: Catalogue, clients: Sequence[ClientId]) -> tuple[Plan, ...]:
    """A plan for each program of the clients; one without a program for whoever has none."""
    plans = []
    for client_id in clients:
        client = store.load_client(client_id)
        programs: list[Program | None] = [
            store.load_program(line.id) for line in store.programs(client_id)
        ]
        plans += [gather(client, program, catalogue) for program in programs or [None]]
    return tuple(plans)


def targets_for(folder: Path, plans: Sequence[Plan], *, replacing: bool = True) -> tuple[Path, ...]:
    """The file for each plan. replacing: files that are there are written over; else the plan
    takes a name beside them.
    """
    names = file_names(plans)
    if replacing:
        return tuple(folder / name for name in names)
    taken: set[str] = set()
    targets = []
    for name in names:
        stem, number = name.removesuffix(SUFFIX), 2
        free = name
        while free in taken or (folder / free).exists():
            free, number = f"{stem}-{number}{SUFFIX}", number + 1
        taken.add(free)
        targets.append(folder / free)
    return tuple(targets)


def already_there(targets: Sequence[Path]) -> tuple[Path, ...]:
    """Those of the files that stand there now."""
    return tuple(path for path in targets if path.exists())


def write_folder(plans: Sequence[Plan], targets: Sequence[Path]) -> Iterator[Outcome]:
    """Writes each plan into its file; each outcome once it is there."""
    for plan, path in zip(plans, targets, strict=True):
        try:
            yield write_out(plan, path)
        except CoachError as error:
            yield failed(path, error)


def write_out(plan: Plan, path: Path) -> Outcome:
    """Writes one plan; its folder is made if need be. Raises FileTrouble."""
    make_folder(path.parent)
    write_file(path, write_plan(plan).encode())
    return Outcome(path, Fate.DONE, plan_text(plan))
