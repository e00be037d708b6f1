"""A folder of plan files in one go, in or out: one after the other, each whole or not at all.

What fails is told with its reason, and the others go on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.wording import tr
from app.exchange.files import FileTrouble, make_folder, told, write_file
from app.exchange.plan_file import SUFFIX, Plan, gather, write_plan
from app.filing import Arrival, expect, file_names, open_plan, take_in
from db.across import PlanLine
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


@dataclass(frozen=True, slots=True)
class Leaving:
    """A plan that goes out, and the file that it goes to."""

    line: PlanLine
    path: Path


def leaving(store: Store, folder: Path, clients: Collection[ClientId]) -> tuple[Leaving, ...]:
    """What goes out of the clients: each program, or the client alone who has none."""
    lines = [line for line in store.plans() if line.client in clients]
    names = file_names((line.client_name, line.program_name) for line in lines)
    return tuple(Leaving(line, folder / name) for line, name in zip(lines, names, strict=True))


def already_there(plans: Iterable[Leaving]) -> tuple[Path, ...]:
    """Those of the files that stand there now."""
    return tuple(plan.path for plan in plans if plan.path.exists())


def load_plan(store: Store, catalogue: Catalogue, line: PlanLine) -> Plan:
    """The plan of a line, with the own exercises it names. Raises CoachError."""
    program = None if line.program is None else store.load_program(line.program)
    return gather(store.load_client(line.client), program, catalogue)


def write_out(plan: Plan, path: Path) -> Outcome:
    """Writes one plan; its folder is made if need be. Raises FileTrouble."""
    make_folder(path.parent)
    write_file(path, write_plan(plan).encode())
    return Outcome(path, Fate.DONE, plan_text(plan))
