"""The demo as files in a folder: plan files, check reports, booklets, a picture of the window."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path

from app import press, resources
from app.demo.team import coach, members
from app.domain.exercise import Catalogue
from app.exchange.files import make_folder, write_file
from app.exchange.json_text import write_json
from app.exchange.plan_file import SUFFIX, Plan, write_plan
from app.exchange.report import report_record, report_text
from app.filing import file_name
from app.off_desk import issue_of, look_over

PICTURE = "window.png"
DAYS_AHEAD = 7
"""A booklet is handed out this long before the program begins."""


def write_to(folder: Path, *, picture: Callable[[Path, Path], None]) -> Iterator[Path]:
    """Writes everything into the folder, which is made if need be; each path once it is there.

    picture: draws the window on a new file into a picture. Raises FileTrouble.
    """
    make_folder(folder)
    catalogue = resources.catalogue()
    for member in members(catalogue):
        plan = Plan(member.client, member.program)
        yield from _write_plan(folder, plan, catalogue)
    yield _write_picture(folder / PICTURE, picture)


def _write_plan(folder: Path, plan: Plan, catalogue: Catalogue) -> Iterator[Path]:
    name = file_name(plan).removesuffix(SUFFIX)
    yield _written(folder / f"{name}{SUFFIX}", write_plan(plan).encode())
    if plan.program is None:
        return
    checked = look_over(plan.client, plan.program, catalogue=catalogue)
    yield _written(folder / f"{name}.check.txt", report_text(checked).encode())
    record = write_json(report_record(checked))
    yield _written(folder / f"{name}.check.json", record.encode())
    issue = issue_of(
        plan.client,
        plan.program,
        catalogue=catalogue,
        coach=coach(),
        on=plan.program.start - timedelta(days=DAYS_AHEAD),
    )
    pdf = press.bind(issue, catalogue, resources.range_book())
    yield _written(folder / f"{name}.booklet.pdf", pdf)


def _write_picture(out: Path, picture: Callable[[Path, Path], None]) -> Path:
    # on a file of its own, which the window fills with the demo
    with tempfile.TemporaryDirectory(prefix="weekloom-", ignore_cleanup_errors=True) as made:
        drawn = Path(made) / PICTURE
        picture(Path(made) / "demo.db", drawn)
        return _written(out, drawn.read_bytes())


def _written(path: Path, data: bytes) -> Path:
    write_file(path, data)
    return path
