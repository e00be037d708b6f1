"""Many booklets in one go: whose, under which names, and how each of them went.

One after the other, so that a hundred booklets take the memory of one. A booklet that fails is
told of and left out; the others are made all the same.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from uuid import uuid4

from app.booklet import Options, Paper
from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.loads import printed_loads
from app.domain.program import Program, ProgramId
from app.domain.wording import tr
from app.domain.work import Coach, Issue, IssueId
from app.exchange.files import safe_name, write_file
from db.store import Store

PLACES = ("client", "program", "date", "weeks")
"""What may stand in braces in a pattern of file names."""

PATTERN = "{client} {program} {date}"
_PLACE = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class Wish:
    """A booklet that can be made: whose it is and which program it prints."""

    client: ClientId
    client_name: str
    program: ProgramId
    program_name: str
    weeks: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a wish went: the file that was written, or why there is none."""

    wish: Wish
    path: Path | None = None
    problem: str = ""


def wishes(store: Store) -> tuple[Wish, ...]:
    """The newest program of every client that is not archived, by the client's name."""
    found = []
    for line in store.clients():
        if line.archived:
            continue
        programs = [p for p in store.programs(line.id) if not p.archived]
        newest = max(programs, key=lambda p: p.start, default=None)
        if newest is not None:
            found.append(Wish(line.id, line.name, newest.id, newest.name, newest.weeks))
    return tuple(found)


def require_pattern(pattern: str) -> str:
    """`pattern` itself, once every place in braces is one of `PLACES`. Raises CoachError.

    A pattern without a client or program would give all files one name; it is refused as well.
    """
    named = _PLACE.findall(pattern)
    allowed = ", ".join(f"{{{place}}}" for place in PLACES)
    for place in named:
        if place not in PLACES:
            raise CoachError(
                tr("A file name has no {place}.", place=f"{{{place}}}"),
                where=tr("Pattern of file names"),
                mend=tr("Use {allowed}.", allowed=allowed),
            )
    if not {"client", "program"} & set(named):
        raise CoachError(
            tr("All booklets would have one name."),
            where=tr("Pattern of file names"),
            mend=tr("Put {place} into it.", place="{client}"),
        )
    return pattern


def file_stem(pattern: str, issue: Issue, options: Options) -> str:
    """The name of an issue's file without its ending, safe on any system. Raises CoachError."""
    first, last = options.weeks or (1, len(issue.program.weeks))
    parts = {
        "client": issue.client.name,
        "program": issue.program.name,
        "date": issue.on.isoformat(),
        "weeks": f"{first}-{last}",
    }
    return stem_of(require_pattern(pattern), parts)


def stem_of(pattern: str, parts: Mapping[str, str]) -> str:
    """A pattern with its places filled, as a name that any system takes."""
    return safe_name(_PLACE.sub(lambda place: parts[place[1]], pattern))


def free_path(folder: Path, stem: str, suffix: str = ".pdf") -> Path:
    """A path in the folder that no file has yet, with a number where the name is taken."""
    path, number = folder / f"{stem}{suffix}", 2
    while path.exists():
        path = folder / f"{stem}-{number}{suffix}"
        number += 1
    return path


def draft(client: Client, program: Program, catalogue: Catalogue, coach: Coach, on: date) -> Issue:
    """The booklet as it would be handed out on that day; nothing is kept."""
    loads = printed_loads(program, client, catalogue)
    return Issue(IssueId(uuid4().hex), on, coach, client, program, loads)


def paper_of(client: Client, usual: Paper) -> Paper:
    """The paper that the client wants, or the usual one."""
    return Paper.__members__.get(client.paper.upper(), usual)


def weeks_in(options: Options, program: Program) -> Options:
    """The options with weeks that the program has: a shorter one is printed to its end.

    Raises CoachError if it ends before the first of them.
    """
    if options.weeks is None:
        return options
    first, last = options.weeks
    count = len(program.weeks)
    if first > count:
        raise CoachError(
            tr(
                "Week {first} is not there: the program has {count}.",
                first=first,
                count=count,
            ),
            mend=tr("Choose earlier weeks for this client."),
        )
    return replace(options, weeks=(first, min(last, count)))


@dataclass(frozen=True, slots=True)
class Order:
    """What is made of each wish.

    bind: the booklet of an issue as bytes; keep: also keep each as handed out.
    """

    folder: Path
    options: Options
    pattern: str
    on: date
    bind: Callable[[Issue, Options], bytes]
    keep: bool = True


def make(
    store: Store, catalogue: Catalogue, chosen: Sequence[Wish], order: Order
) -> Iterator[Outcome]:
    """Makes one booklet after the other; each outcome once it is there.

    Raises CoachError at once for a pattern that cannot be used.
    """
    require_pattern(order.pattern)
    coach = store.coach()
    for wish in chosen:
        try:
            issue, options = prepare(store, catalogue, wish, order, coach=coach)
            yield put(store, wish, issue, order.bind(issue, options), order=order)
        except CoachError as error:
            yield Outcome(wish, problem=error.sentence)


def prepare(
    store: Store, catalogue: Catalogue, wish: Wish, order: Order, *, coach: Coach
) -> tuple[Issue, Options]:
    """The issue of a wish and the options that fit its program. Raises CoachError."""
    client, program = store.load_client(wish.client), store.load_program(wish.program)
    options = weeks_in(order.options, program)
    options = replace(options, paper=paper_of(client, options.paper))
    return draft(client, program, catalogue, coach, order.on), options


def put(store: Store, wish: Wish, issue: Issue, content: bytes, *, order: Order) -> Outcome:
    """Writes a booklet under a free name and keeps its issue. Raises CoachError."""
    options = weeks_in(order.options, issue.program)
    path = free_path(order.folder, file_stem(order.pattern, issue, options))
    write_file(path, content)
    if order.keep:
        store.add_issue(issue)
    return Outcome(wish, path)
