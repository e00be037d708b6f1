"""Weeks, tally and results of a program as files: one workbook, or a CSV file for each table."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.program import Program
from app.domain.results import Diary
from app.domain.wording import mark, tr
from app.exchange.files import safe_name, write_file
from app.exchange.tables import workbook
from app.exchange.tables.csv_file import SUFFIX as CSV
from app.exchange.tables.csv_file import Style, write_csv
from app.exchange.tables.plan_table import plan_table
from app.exchange.tables.results_table import results_table
from app.exchange.tables.table import Table
from app.exchange.tables.tally_table import tally_table

XLSX = workbook.SUFFIX


class Content(StrEnum):
    """What of a program goes into tables."""

    PLAN = "plan"
    TALLY = "tally"
    RESULTS = "results"


LABELS = {
    Content.PLAN: mark("Weeks: every exercise of every session"),
    Content.TALLY: mark("Sets per muscle and week"),
    Content.RESULTS: mark("Results: every set that was done"),
}


@dataclass(frozen=True, slots=True)
class Source:
    """Whose tables are made, and of what."""

    client: Client
    program: Program
    diary: Diary
    catalogue: Catalogue


def tables_of(source: Source, wanted: Collection[Content]) -> tuple[Table, ...]:
    """The tables that are wanted, in the order of `Content`."""
    program, client, catalogue = source.program, source.client, source.catalogue
    make: dict[Content, Callable[[], Table]] = {
        Content.PLAN: lambda: plan_table(program, client, catalogue),
        Content.TALLY: lambda: tally_table(program, catalogue),
        Content.RESULTS: lambda: results_table(
            source.diary.results_of(program.id), program, client, catalogue
        ),
    }
    return tuple(make[content]() for content in Content if content in wanted)


def file_name(source: Source, suffix: str) -> str:
    """The name of the file: 'runa-estvik-ridge-season.xlsx'."""
    return safe_name(source.client.name, source.program.name) + suffix


def files_for(path: Path, wanted: Collection[Content], style: Style | None) -> tuple[Path, ...]:
    """The files that would be written: the path itself, or one beside it for each CSV table."""
    if style is None or len(wanted) == 1:
        return (path,)
    stem = path.name.removesuffix(CSV)
    return tuple(path.with_name(f"{stem}-{one.value}{CSV}") for one in Content if one in wanted)


def rendered(
    path: Path, source: Source, wanted: Collection[Content], style: Style | None
) -> tuple[tuple[Path, bytes], ...]:
    """The files with their bytes, nothing written yet. style: of CSV, None for one workbook.

    Raises CoachError where nothing is wanted.
    """
    if not wanted:
        raise CoachError(tr("No table is chosen."), mend=tr("Choose at least one."))
    tables, paths = tables_of(source, wanted), files_for(path, wanted, style)
    if style is None:
        return ((paths[0], workbook.write_workbook(tables)),)
    contents = (write_csv(table, style) for table in tables)
    return tuple(zip(paths, contents, strict=True))


def write_tables(
    path: Path, source: Source, wanted: Collection[Content], style: Style | None
) -> tuple[Path, ...]:
    """Write the tables; the files. Raises as `rendered` does, and FileTrouble."""
    return written(rendered(path, source, wanted, style))


def written(files: Iterable[tuple[Path, bytes]]) -> tuple[Path, ...]:
    """Write files that are made already. Raises FileTrouble."""
    paths = []
    for path, content in files:
        write_file(path, content)
        paths.append(path)
    return tuple(paths)
