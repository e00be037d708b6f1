"""The headless commands. None of them needs a screen; none of them knows Qt.

What they have to say goes to standard output, what went wrong to standard error as one sentence;
exit code 2 for bad use, 1 for a failed run.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, Protocol

import app
from app.cli_files import (
    add_export,
    add_import,
    day,
    export,
    import_,
    own_file,
    there,
    weeks_run,
)
from app.domain.errors import CoachError
from app.domain.wording import tr

if TYPE_CHECKING:
    from app.domain.exercise import Catalogue
    from app.domain.program import Program
    from app.exchange.plan_file import Plan

Picture = Callable[[Path, Path], None]


class Show(Protocol):
    """Opens the window on a file and gives the exit code."""

    def __call__(self, path: Path, /, *, demo: bool = False) -> int:
        """Show the window until it is closed."""


class NoScreen(CoachError):
    """There is nothing to show a window on."""

    def __init__(self) -> None:
        super().__init__(
            tr("There is no screen here, so no window can open."),
            mend=tr("Write the demo with 'weekloom demo --to DIR', or see 'weekloom --help'."),
        )


class _Parser(argparse.ArgumentParser):
    """Bad use is one sentence, not a page."""

    def error(self, message: str) -> NoReturn:
        said = f"{message[:1].upper()}{message[1:]}".rstrip(".")
        self.exit(2, tr("{prog}: {said}. See '{prog} --help'.\n", prog=self.prog, said=said))


def run(arguments: Sequence[str], *, show: Show, picture: Picture) -> int:
    """Runs the command that the arguments name; the exit code.

    show and picture: how the window is opened, and how a picture of it is written.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            # a terminal without our letters shows their codes instead of stopping
            stream.reconfigure(errors="backslashreplace")
    try:
        asked = parser().parse_args(arguments)
    except SystemExit as end:
        return 2 if end.code else 0
    try:
        if asked.command is None:
            return show(own_file(asked))
        if asked.needs_window:
            return demo(asked, show=show, picture=picture)
        asked.command(asked)
    except CoachError as error:
        print(f"weekloom: {error.sentence}", file=sys.stderr)
        return 1
    except BrokenPipeError:
        # whoever read our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except KeyboardInterrupt:
        return 130
    return 0


# -- what can be asked ----------------------------------------------------------------------


def parser() -> argparse.ArgumentParser:
    """The commands and their arguments."""
    top = _Parser(
        prog="weekloom",
        description=tr("Plan strength training week by week. Without a command the window opens."),
    )
    _add_file(top)
    top.add_argument(
        "--version", action=_Version, nargs=0, help=tr("versions, Qt and SQLite included")
    )
    top.set_defaults(command=None)
    commands = top.add_subparsers(title=tr("commands"), metavar="COMMAND", parser_class=_Parser)

    def add(function: Callable[..., object], about: str) -> argparse.ArgumentParser:
        name = function.__name__.rstrip("_")
        made = commands.add_parser(name, help=about, description=function.__doc__)
        made.set_defaults(command=function, needs_window=function is demo)
        return made

    _add_plan_commands(add)
    _add_file_commands(add)
    return top


Add = Callable[[Callable[..., object], str], argparse.ArgumentParser]


def _add_plan_commands(add: Add) -> None:
    one = add(demo, tr("the window on a fresh copy of the demo, or the demo as files"))
    one.add_argument(
        "--to", type=Path, metavar="DIR", help=tr("write files there; no window opens")
    )
    one = add(check, tr("what the checks say of a plan file"))
    one.add_argument("plan", type=Path, metavar="PLAN.json")
    one.add_argument("--json", action="store_true", help=tr("as JSON for other programs"))
    one = add(booklet, tr("the booklet of a plan file as PDF"))
    one.add_argument("plan", type=Path, metavar="PLAN.json")
    one.add_argument("--out", type=Path, metavar="F.pdf", required=True)
    one.add_argument(
        "--paper", choices=("a4", "letter", "a5", "phone"), type=str.lower, default="a4"
    )
    one.add_argument(
        "--kind",
        choices=("booklet", "form", "wall"),
        default="booklet",
        help=tr("on paper, to fill in on a screen, or one sheet for the wall"),
    )
    one.add_argument("--large", action="store_true", help=tr("large print"))
    one.add_argument("--without-loads", action="store_true", help=tr("loads are left open"))
    one.add_argument("--grey", action="store_true", help=tr("tones for a grey printer"))
    one.add_argument("--weeks", type=weeks_run, metavar="1-6", help=tr("only these weeks"))
    one.add_argument("--coach", default="", metavar="NAME", help=tr("who hands it out"))
    one.add_argument("--date", type=day, metavar="2026-10-12", help=tr("the day on its cover"))


def _add_file_commands(add: Add) -> None:
    one = add(export, tr("clients and programs as plan files, tables or calendars"))
    add_export(one)
    _add_file(one)
    one = add(import_, tr("plan files, folders of them, or a coach's table"))
    add_import(one)
    _add_file(one)
    one = add(backup, tr("a checked copy of the coach's file"))
    one.add_argument("--to", type=Path, metavar="DIR", help=tr("the folder for it"))
    _add_file(one)
    one = add(restore, tr("a copy back in the place of the coach's file"))
    one.add_argument("copy", type=Path, metavar="COPY.db")
    _add_file(one)
    _add_file(add(verify, tr("whether the coach's file is whole")))


def _add_file(to: argparse.ArgumentParser) -> None:
    # suppressed, so that the command's own silence does not overrule what stood before it
    to.add_argument(
        "--file",
        type=Path,
        metavar="FILE",
        default=argparse.SUPPRESS,
        help=tr("the coach's file, in place of the one in your data folder"),
    )
    to.add_argument(
        "--data-dir",
        type=Path,
        metavar="DIR",
        default=argparse.SUPPRESS,
        help=tr("the folder of the coach's file, in place of your data folder"),
    )


class _Version(argparse.Action):
    """Says the versions and ends; asked for late, since it loads the database layer."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        print(version_text())
        parser.exit(0)


def version_text() -> str:
    """The versions of the program, its schema, Python, Qt and SQLite, one a line."""
    import platform
    from importlib import metadata

    from db.schema import HEAD, SQLITE

    return "\n".join(
        (
            f"Weekloom {app.__version__}",
            tr("Schema {head}", head=HEAD),
            tr("Python {python_version}", python_version=platform.python_version()),
            f"Qt {metadata.version('PySide6-Essentials')}",
            tr("SQLite {sqlite}", sqlite=SQLITE),
        )
    )


# -- plan files -------------------------------------------------------------------------------


def demo(asked: argparse.Namespace, *, show: Show, picture: Picture) -> int:
    """Open the window on a fresh copy of the demo; what you change in it is gone afterwards."""
    from app.demo import write_to

    if asked.to is not None:
        for written in write_to(asked.to, picture=picture):
            print(written, flush=True)
        return 0
    import tempfile

    with tempfile.TemporaryDirectory(prefix="weekloom-demo-", ignore_cleanup_errors=True) as made:
        return show(Path(made) / "demo.db", demo=True)


def check(asked: argparse.Namespace) -> None:
    """Say what the checks find in a plan file; findings do not make it a failed run."""
    from app.exchange.json_text import write_json
    from app.exchange.report import report_record, report_text
    from app.off_desk import look_over

    plan, catalogue = _plan(asked.plan)
    found = look_over(plan.client, _program(plan, asked.plan), catalogue=catalogue)
    print(write_json(report_record(found)) if asked.json else report_text(found), end="")


def booklet(asked: argparse.Namespace) -> None:
    """Write the booklet of a plan file as PDF."""
    from app.booklet import Kind, Options, Paper
    from app.domain.work import Coach
    from app.exchange.files import write_file
    from app.off_desk import issue_of
    from app.press import bind
    from app.resources import range_book

    plan, catalogue = _plan(asked.plan)
    issue = issue_of(
        plan.client,
        _program(plan, asked.plan),
        catalogue=catalogue,
        coach=Coach(asked.coach, team=plan.client.team),
        on=asked.date or datetime.now().astimezone().date(),
    )
    options = Options(
        paper=Paper[asked.paper.upper()],
        grey=asked.grey,
        weeks=asked.weeks,
        loads=not asked.without_loads,
        large=asked.large,
        kind=Kind(asked.kind),
    )
    write_file(asked.out, bind(issue, catalogue, range_book(), options=options))
    print(asked.out)


def _plan(path: Path) -> tuple[Plan, Catalogue]:
    """The plan in a file, and the library with the plan's own exercises in it."""
    from app.filing import open_plan
    from app.resources import catalogue

    plan = open_plan(path, catalogue())
    return plan, catalogue().with_own(plan.exercises)


def _program(plan: Plan, path: Path) -> Program:
    if plan.program is None:
        raise CoachError(
            tr("The plan file holds a client, but no program."),
            where=str(path),
            mend=tr("Export the client's program."),
        )
    return plan.program


# -- the coach's file --------------------------------------------------------------------------


def backup(asked: argparse.Namespace) -> None:
    """Make a checked copy of the coach's file, in the folder of copies beside it or another."""
    from app.terminal import passphrase_for
    from db.backup import back_up

    path = there(own_file(asked))
    print(back_up(path, asked.to, key=passphrase_for(path)))


def restore(asked: argparse.Namespace) -> None:
    """Put a copy in the place of the coach's file, which is kept aside."""
    from app.picture_folder import PictureFolder
    from app.terminal import passphrase_for
    from db.backup import restore as put_back

    path = own_file(asked)
    key = passphrase_for(there(asked.copy))
    aside = put_back(asked.copy, path, key=key)
    print(path)
    if aside is not None:
        print(tr("The file as it was: {aside}", aside=aside))
    if PictureFolder(path, key).sealed():
        print(
            tr(
                "There are pictures that are locked with another passphrase than this copy. Lock "
                "the file with that one to see them."
            )
        )


def verify(asked: argparse.Namespace) -> None:
    """Say whether the coach's file is whole."""
    from app.terminal import passphrase_for
    from db.backup import verify as verify_file
    from db.store import Store

    path = there(own_file(asked))
    key = passphrase_for(path)
    verify_file(path, key=key)
    with closing(Store.open(path, key=key)) as store:
        for sentence in store.check_integrity():
            raise CoachError(sentence, where=str(path), mend=tr("Restore the newest good copy."))
        clients = store.clients()
    programs = sum(client.programs for client in clients)
    print(
        tr(
            "{path} is whole: clients {clients}, programs {programs}.",
            path=path,
            clients=len(clients),
            programs=programs,
        )
    )
