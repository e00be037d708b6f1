"""The commands by which plans leave the coach's file and enter it: `export` and `import`.

Which file is the coach's is decided here too, for every command that opens it.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from contextlib import closing
from datetime import date, time
from pathlib import Path
from typing import TYPE_CHECKING

from app.domain.errors import CoachError
from app.domain.wording import tr, trn

if TYPE_CHECKING:
    from app.domain.exercise import Catalogue
    from app.exchange.plan_file import Plan
    from db.store import Store

KINDS = ("plan", "xlsx", "csv", "calendar", "csl-json", "bibtex", "ris", "whole")
"""What the coach's file can be written as."""

# -- the coach's file --------------------------------------------------------------------------


def own_file(asked: argparse.Namespace) -> Path:
    """The coach's file: the one named, or the one in the data folder."""
    named: Path | None = getattr(asked, "file", None)
    if named is not None:
        return named
    folder: Path | None = getattr(asked, "data_dir", None)
    if folder is None:
        from platformdirs import user_data_path

        folder = user_data_path("weekloom", appauthor=False)
    return folder / "weekloom.db"


def open_store(asked: argparse.Namespace, *, new: bool = False) -> Store:
    """The coach's file; only with `new` is one made where there is none."""
    from app.terminal import passphrase_for
    from db.store import Store

    path = own_file(asked)
    if not new:
        there(path)
    return Store.open(path, key=passphrase_for(path))


def there(path: Path) -> Path:
    """The path itself, once something stands there. Raises CoachError."""
    if not path.exists():
        raise CoachError(
            tr("There is no such file."),
            where=str(path),
            mend=tr("Check the name, or name it by --file."),
        )
    return path


# -- what can be asked ---------------------------------------------------------------------------


def add_export(one: argparse.ArgumentParser) -> None:
    """The arguments of `export`."""
    one.add_argument("--client", default="", metavar="NAME", help=tr("name or id; all if left out"))
    one.add_argument(
        "--program", default="", metavar="NAME", help=tr("name or id; all if left out")
    )
    where = one.add_mutually_exclusive_group(required=True)
    where.add_argument("--out", type=Path, metavar="FILE", help=tr("one program into this file"))
    where.add_argument("--to", type=Path, metavar="DIR", help=tr("each into a file there"))
    one.add_argument(
        "--as", dest="kind", choices=KINDS, default="plan", help=tr("plan files if left out")
    )
    one.add_argument("--replace", action="store_true", help=tr("write over files that are there"))
    tables = one.add_argument_group(tr("tables (--as xlsx or csv)"))
    tables.add_argument(
        "--tables",
        default="plan",
        metavar="plan,tally,results",
        help=tr("which ones; the weeks alone if left out"),
    )
    tables.add_argument(
        "--style", choices=("comma", "semicolon", "tab"), help=tr("how CSV is written")
    )
    dates = one.add_argument_group(tr("calendars (--as calendar)"))
    dates.add_argument(
        "--zone", default="", metavar="Europe/Vienna", help=tr("this machine's if left out")
    )
    dates.add_argument("--start", type=time_of_day, metavar="18:00", help=tr("when sessions begin"))
    dates.add_argument("--weeks", type=weeks_run, metavar="1-6", help=tr("only these weeks"))
    dates.add_argument("--loads", action="store_true", help=tr("with loads"))
    dates.add_argument("--named", action="store_true", help=tr("with the client's name"))


def add_import(one: argparse.ArgumentParser) -> None:
    """The arguments of `import`."""
    one.add_argument(
        "plans",
        type=Path,
        nargs="+",
        metavar="FILE",
        help=tr(
            "a plan file, a folder of them, a table (.csv, .xlsx), references (.json, .bib, .ris) "
            "or a whole export (.zip)"
        ),
    )
    one.add_argument("--replace", action="store_true", help=tr("replace what has the same id"))
    table = one.add_argument_group(tr("a coach's table"))
    table.add_argument("--client", default="", metavar="NAME", help=tr("whose plan it is"))
    table.add_argument("--name", default="", metavar="NAME", help=tr("what the program is called"))
    table.add_argument(
        "--from", dest="start", type=day, metavar="2026-10-12", help=tr("the first week's day")
    )
    table.add_argument(
        "--weeks", type=weeks_count, default=0, metavar="N", help=tr("as the table if left out")
    )
    table.add_argument(
        "--leave-out", action="store_true", help=tr("leave out names that no exercise is known by")
    )


def weeks_run(text: str) -> tuple[int, int]:
    """First and last week of '1-6', or of '3'."""
    first, _, last = text.partition("-")
    try:
        return int(first), int(last or first)
    except ValueError:
        raise argparse.ArgumentTypeError(tr("{text!r} is not like 1-6", text=text)) from None


def day(text: str) -> date:
    """The day of '2026-10-12'."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(tr("{text!r} is not like 2026-10-12", text=text)) from None


def time_of_day(text: str) -> time:
    """The time of '18:00'."""
    from app.calendars import starting

    try:
        return starting(text)
    except CoachError as error:
        raise argparse.ArgumentTypeError(error.what) from None


def weeks_count(text: str) -> int:
    """So many weeks, as many as a program may have."""
    from app.domain.program import MAX_WEEKS

    if not text.isdecimal() or not 1 <= int(text) <= MAX_WEEKS:
        raise argparse.ArgumentTypeError(
            tr("{text!r} is not from 1 to {most}", text=text, most=MAX_WEEKS)
        )
    return int(text)


# -- export --------------------------------------------------------------------------------------


def export(asked: argparse.Namespace) -> None:
    """Write clients and programs as plan files, tables or calendars, or the references."""
    from app.exchange.files import make_folder, write_file
    from app.exchange.plan_file import write_plan
    from app.filing import file_names, gather_plans
    from app.headless import FORMS, refuse_standing
    from app.resources import catalogue

    if asked.kind in FORMS:
        _export_references(asked)
        return
    if asked.kind == "whole":
        _export_whole(asked)
        return
    with closing(open_store(asked)) as store:
        known = catalogue().with_own(store.own_exercises(retired=True))
        plans = gather_plans(store, known, client=asked.client, program=asked.program)
        if asked.kind != "plan":
            _export_as(asked, store, plans, known)
            return
    if asked.out is not None and len(plans) != 1:
        raise CoachError(
            tr("{plans} plans fit, and one file holds one.", plans=len(plans)),
            mend=tr("Name a client and a program, or write them to a folder with --to."),
        )
    targets = [asked.out]
    if asked.to is not None:
        make_folder(asked.to)
        targets = [asked.to / name for name in file_names(plan.names for plan in plans)]
    refuse_standing(targets, replacing=asked.replace)
    for plan, target in zip(plans, targets, strict=True):
        write_file(target, write_plan(plan).encode())
        print(target)


def _export_whole(asked: argparse.Namespace) -> None:
    from app.exchange.files import make_folder
    from app.headless import refuse_standing
    from app.whole import export_whole, file_name

    if asked.client or asked.program:
        raise CoachError(
            tr("A whole export holds everybody."),
            mend=tr("Leave out --client and --program, or choose another form with --as."),
        )
    with closing(open_store(asked)) as store:
        target = asked.out
        if asked.to is not None:
            make_folder(asked.to)
            target = asked.to / file_name()
        refuse_standing([target], replacing=asked.replace)
        export_whole(store, target)
    print(target)


def _export_references(asked: argparse.Namespace) -> None:
    from app import headless

    target = headless.references_target(asked.kind, out=asked.out, to=asked.to)
    headless.refuse_standing([target], replacing=asked.replace)
    with closing(open_store(asked, new=True)) as store:
        headless.export_references(store, asked.kind, target)
    print(target)


def _export_as(
    asked: argparse.Namespace, store: Store, plans: Sequence[Plan], known: Catalogue
) -> None:
    from app import headless
    from app.exchange.calendar_file import USUAL_START

    subjects = headless.subjects_of([(plan.client, plan.program) for plan in plans])
    kind = asked.kind
    targets = headless.targets_of(subjects, kind=kind, out=asked.out, to=asked.to)
    if kind == "calendar":
        weeks = None if asked.weeks is None else range(asked.weeks[0] - 1, asked.weeks[1])
        wish = headless.CalendarWish(
            asked.zone, asked.start or USUAL_START, weeks, named=asked.named, loads=asked.loads
        )
        written = headless.export_calendars(
            store, subjects, wish, catalogue=known, targets=targets, replacing=asked.replace
        )
    else:
        tables = headless.TableWish(kind, headless.contents_of(asked.tables), asked.style or "")
        written = headless.export_tables(
            store, subjects, tables, catalogue=known, targets=targets, replacing=asked.replace
        )
    for path in written:
        print(path)


# -- import --------------------------------------------------------------------------------------


def import_(asked: argparse.Namespace) -> None:
    """Read plan files, a folder of them, a table, references or a whole export into the file.

    Of plan files that are named one by one, nothing is changed if one of them cannot be read; of
    a folder, each is taken by itself, and those that fail are told.
    """
    from app import headless

    folders = [path for path in asked.plans if path.is_dir()]
    tables = [path for path in asked.plans if path.suffix.lower() in headless.TABLES]
    whole = [path for path in asked.plans if path.suffix.lower() == ".zip"]
    if whole:
        _import_whole(asked)
        return
    lists = [path for path in asked.plans if headless.holds_references(path)]
    files = [path for path in asked.plans if path not in (*folders, *tables, *lists)]
    if files:
        _import_plans(asked, files)
    for path in tables:
        _import_table(asked, path)
    for path in lists:
        with closing(open_store(asked, new=True)) as store:
            for line in headless.import_references(store, path):
                print(f"{path}: {line}")
    for folder in folders:
        _import_folder(asked, folder)


def _import_whole(asked: argparse.Namespace) -> None:
    from app.terminal import passphrase_for
    from app.whole import import_whole

    if len(asked.plans) > 1:
        raise CoachError(
            tr("A whole export takes the place of a file, so it comes alone."),
            mend=tr("Take the others in afterwards."),
        )
    (source,), target = asked.plans, own_file(asked)
    key = passphrase_for(target)
    done = import_whole(source, target, key=key, replacing=asked.replace)
    print(trn("{path}: {n} client", "{path}: {n} clients", done.clients, path=target))
    if done.aside is not None:
        print(tr("The file as it was: {aside}", aside=done.aside))
    if done.pictures_left:
        print(
            trn("{n} picture was not written", "{n} pictures were not written", done.pictures_left)
        )


def _import_plans(asked: argparse.Namespace, paths: Sequence[Path]) -> None:
    from app.filing import expect, open_plan, refuse_clash, refuse_contradiction, take_in
    from app.resources import catalogue

    if not own_file(asked).exists():
        for path in paths:  # no file is made for a plan that cannot be read
            open_plan(path, catalogue())
    with closing(open_store(asked, new=True)) as store:
        known = catalogue().with_own(store.own_exercises(retired=True))
        plans = {path: open_plan(path, known) for path in paths}
        refuse_contradiction(tuple(plans.values()))
        for path, plan in plans.items():
            refuse_clash(expect(store, plan), where=str(path), replacing=asked.replace)
        for path, plan in plans.items():
            take_in(store, expect(store, plan), replacing=asked.replace)
            program = "" if plan.program is None else f", {plan.program.name}"
            print(f"{path}: {plan.client.name}{program}")


def _import_table(asked: argparse.Namespace, path: Path) -> None:
    from app import headless
    from app.resources import catalogue

    wish = headless.TablePlan(
        asked.client, asked.name, asked.start, asked.weeks, leaving_out=asked.leave_out
    )
    with closing(open_store(asked)) as store:
        known = catalogue().with_own(store.own_exercises())
        for line in headless.import_table(store, path, wish, catalogue=known):
            print(f"{path}: {line}")


def _import_folder(asked: argparse.Namespace, folder: Path) -> None:
    from app.plan_folder import Fate, plan_files_in, read_folder
    from app.resources import catalogue

    paths, failed = plan_files_in(folder), 0
    with closing(open_store(asked, new=True)) as store:
        known = catalogue().with_own(store.own_exercises(retired=True))
        for outcome in read_folder(store, known, paths, replacing=asked.replace):
            failed += outcome.fate is Fate.FAILED
            print(f"{outcome.path}: {outcome.text}", flush=True)
    if failed:
        raise CoachError(
            tr("{n} of {all} plan files were not taken in.", n=failed, all=len(paths)),
            where=str(folder),
            mend=tr("The lines above say why; the others are in."),
        )
