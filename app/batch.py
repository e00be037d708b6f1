"""Booklets for many clients: what each holds, and the file that it goes to.

Each is prepared, bound and put away before the next, so that a hundred take the memory of one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from uuid import uuid4

from app.booklet import Options, Paper
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.loads import printed_loads
from app.domain.program import Program
from app.domain.wording import tr
from app.domain.work import Coach, Issue, IssueId
from app.exchange.files import safe_name, write_file
from db.across import NewestLine
from db.store import Store

PLACES = ("client", "program", "date", "weeks")
"""What may stand in braces in a pattern of file names."""

PATTERN = "{client} {program} {date}"
_PLACE = re.compile(r"\{([^{}]*)\}")


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
    """What is made for each client.

    bind: the booklet of an issue as bytes; keep: also keep each as handed out.
    """

    folder: Path
    options: Options
    pattern: str
    on: date
    bind: Callable[[Issue, Options], bytes]
    keep: bool = True


def prepare(
    store: Store, catalogue: Catalogue, line: NewestLine, order: Order, *, coach: Coach
) -> tuple[Issue, Options]:
    """The issue for a client and the options that fit the program. Raises CoachError."""
    client, program = store.load_client(line.client), store.load_program(line.program)
    options = weeks_in(order.options, program)
    options = replace(options, paper=paper_of(client, options.paper))
    return draft(client, program, catalogue, coach, order.on), options


def put(store: Store, issue: Issue, content: bytes, *, order: Order) -> Path:
    """Writes a booklet under a free name and keeps its issue; the file. Raises CoachError."""
    options = weeks_in(order.options, issue.program)
    path = free_path(order.folder, file_stem(order.pattern, issue, options))
    write_file(path, content)
    if order.keep:
        store.add_issue(issue)
    return path
