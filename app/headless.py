"""What the terminal asks of the formats that plans leave and enter by, once the file is open.

The commands themselves are in `app.cli`; here a wish becomes files, or files become a program.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from pathlib import Path
from uuid import uuid4

from app import own_references
from app.calendars import Choice, calendar_of, own_zone, write_calendar
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.program import MAX_WEEKS, Program, ProgramId
from app.domain.wording import language, tr, trn
from app.domain.work import Work
from app.exchange.bibliography import csl_json
from app.exchange.bibliography.files import SUFFIXES, Form
from app.exchange.calendar_file import SUFFIX as ICS
from app.exchange.calendar_file import USUAL_START
from app.exchange.coach_plan.build import Wanted, build, weeks_in
from app.exchange.files import make_folder, read_whole, safe_name
from app.exchange.json_text import MOST_BYTES
from app.exchange.tables.csv_file import SUFFIX as CSV
from app.exchange.tables.csv_file import Style, style_of, usual_style
from app.filing import find_client
from app.table_files import XLSX, Content, Source, files_for, write_tables
from app.table_plans import TableReader, open_table, shown_sheets
from db.store import Store

TABLES = (CSV, ".tsv", ".txt", XLSX, ".xlsm")
"""Endings of files that are read as a coach's table."""
LISTS = (".bib", ".ris")
"""Endings of files that are read as references; one that ends as JSON is looked into."""
FORMS = tuple(form.value for form in Form)
MOST_NAMED = 5


class WouldReplace(CoachError):
    """Something stands where a file was to be written."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            tr("There is such a file already."),
            where=str(path),
            mend=tr("Write over it with --replace, or choose another place."),
        )


@dataclass(frozen=True, slots=True)
class Subject:
    """A program of the coach's file and whose it is."""

    client: Client
    program: Program


@dataclass(frozen=True, slots=True)
class TableWish:
    """What is written as tables. style: of CSV; empty for the usual one of the language."""

    kind: str
    contents: tuple[Content, ...] = (Content.PLAN,)
    style: str = ""

    def csv_style(self) -> Style | None:
        """The style of CSV files, None for a workbook. Raises CoachError."""
        if self.kind == "xlsx":
            return None
        return style_of(self.style) if self.style else usual_style(language().decimal)


@dataclass(frozen=True, slots=True)
class CalendarWish:
    """What is written as a calendar. zone: empty for this machine's."""

    zone: str = ""
    start: time = USUAL_START
    weeks: range | None = None
    named: bool = False
    loads: bool = False


def contents_of(text: str) -> tuple[Content, ...]:
    """The tables that are named with commas between them. Raises CoachError for others."""
    names = [part.strip() for part in text.split(",") if part.strip()]
    known = {content.value: content for content in Content}
    for name in names:
        if name not in known:
            raise CoachError(
                tr("There is no table {name!r}.", name=name),
                mend=tr("Use {known}.", known=", ".join(known)),
            )
    return tuple(content for name, content in known.items() if name in names)


def refuse_standing(paths: Sequence[Path], *, replacing: bool) -> None:
    """Raises WouldReplace for the first of the files that is there, unless it may be replaced."""
    if not replacing:
        for path in paths:
            if path.exists():
                raise WouldReplace(path)


def export_tables(
    store: Store,
    subjects: Sequence[Subject],
    wish: TableWish,
    *,
    catalogue: Catalogue,
    targets: Sequence[Path],
    replacing: bool,
) -> Iterator[Path]:
    """Writes the tables of each program to its target; each file once it stands."""
    style = wish.csv_style()
    for target in targets:
        refuse_standing(files_for(target, wish.contents, style), replacing=replacing)
    for subject, target in zip(subjects, targets, strict=True):
        diary = store.load_diary(subject.client.id)
        source = Source(subject.client, subject.program, diary, catalogue)
        yield from write_tables(target, source, wish.contents, style)


def export_calendars(
    store: Store,
    subjects: Sequence[Subject],
    wish: CalendarWish,
    *,
    catalogue: Catalogue,
    targets: Sequence[Path],
    replacing: bool,
) -> Iterator[Path]:
    """Writes the calendar of each program to its target; each file once it stands.

    A calendar that stands there is an earlier one as a rule, so it needs no leave to be replaced
    when it is this program's; anything else does.
    """
    refuse_standing(targets, replacing=replacing)
    choice = Choice(
        wish.zone or own_zone(), (wish.start,) * 7, wish.weeks, named=wish.named, loads=wish.loads
    )
    for subject, target in zip(subjects, targets, strict=True):
        now = datetime.now().astimezone()
        made = calendar_of(
            subject.program, subject.client, catalogue, choice, memory=store, now=now
        )
        write_calendar(target, made, subject.program, choice, memory=store)
        yield target


def subjects_of(works: Sequence[tuple[Client, Program | None]]) -> tuple[Subject, ...]:
    """Those of the clients that have a program. Raises CoachError where none has."""
    found = tuple(Subject(client, program) for client, program in works if program is not None)
    if not found:
        raise CoachError(tr("There is no program to export."), mend=tr("Plan one first."))
    return found


def targets_of(
    subjects: Sequence[Subject], *, kind: str, out: Path | None, to: Path | None
) -> tuple[Path, ...]:
    """Where each program goes: the one file, or a file of its own in the folder.

    Raises CoachError where several would go into one.
    """
    if out is not None:
        if len(subjects) != 1:
            raise CoachError(
                tr("{n} programs fit, and one file holds one.", n=len(subjects)),
                mend=tr("Name a client and a program, or write them to a folder with --to."),
            )
        return (out,)
    assert to is not None
    make_folder(to)
    suffix = {"xlsx": XLSX, "csv": CSV, "calendar": ICS}[kind]
    taken: dict[str, int] = {}
    targets = []
    for one in subjects:
        stem = safe_name(one.client.name, one.program.name)
        taken[stem] = taken.get(stem, 0) + 1
        number = f"-{taken[stem]}" if taken[stem] > 1 else ""
        targets.append(to / f"{stem}{number}{suffix}")
    return tuple(targets)


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What is made of a coach's table. weeks: 0 for as many as the table has."""

    client: str
    name: str = ""
    start: date | None = None
    weeks: int = 0
    leaving_out: bool = False


def import_table(
    store: Store, path: Path, wish: TablePlan, *, catalogue: Catalogue
) -> tuple[str, ...]:
    """Reads a coach's table as a new program of the client; what is to be said of it.

    Raises CoachError, with nothing changed, for what cannot be read and for names that no
    exercise is known by, unless they are to be left out.
    """
    if not wish.client:
        raise CoachError(
            tr("A table does not say whose plan it is."), mend=tr("Name the client by --client.")
        )
    client = store.load_client(find_client(store, wish.client).id)
    book = open_table(path)
    sheets = shown_sheets(book)
    reader = TableReader(catalogue, store)
    columns = reader.columns(sheets, unit=client.units)
    matched = reader.match(sheets, columns)
    unknown = [name for name in matched.asked if name not in reader.left_out(matched.asked)]
    if unknown and not wish.leaving_out:
        raise _unknown(path, unknown)
    lines = matched.reading.lines
    weeks = min(wish.weeks or weeks_in(lines), MAX_WEEKS)
    start = wish.start or _next_monday(datetime.now().astimezone().date())
    name = wish.name or path.name.partition(".")[0]
    wanted = Wanted(ProgramId(uuid4().hex), name, start, weeks, matched.meant)
    built = build(lines, wanted, client=client, catalogue=catalogue)
    store.save(Work(client), Work(client, built.program), label=tr("Import {name}", name=name))
    said = trn("{n} line", "{n} lines", built.taken)
    head = tr("{client}, {program}: {lines} read", client=client.name, program=name, lines=said)
    left = [tr("Left out: {name}", name=name) for name in unknown]
    remarks = [one.sentence for one in (*matched.reading.remarks, *built.remarks)]
    return (head, *left, *book.remarks, *remarks)


def _next_monday(today: date) -> date:
    return today + timedelta(days=-today.weekday() % 7)


def _unknown(path: Path, names: Sequence[str]) -> CoachError:
    shown = ", ".join(repr(name) for name in names[:MOST_NAMED])
    more = tr(" and {n} more", n=len(names) - MOST_NAMED) if len(names) > MOST_NAMED else ""
    return CoachError(
        tr("No exercise is known by {names}.", names=shown + more),
        where=str(path),
        mend=tr("Read the table in the window, or leave these out with --leave-out."),
    )


# -- references ----------------------------------------------------------------------------------


def references_target(kind: str, *, out: Path | None, to: Path | None) -> Path:
    """Where references go: the file that was named, or one in the folder, which is made."""
    if out is not None:
        return out
    assert to is not None
    make_folder(to)
    return to / f"references{SUFFIXES[Form(kind)]}"


def export_references(store: Store, kind: str, target: Path) -> int:
    """Writes all references, the coach's own among them; how many. Raises FileTrouble."""
    return own_references.write_to(target, own_references.every(store).values(), Form(kind))


def holds_references(path: Path) -> bool:
    """Whether a file holds references and no plan, by its ending or, of JSON, by what is in it."""
    ending = path.suffix.lower()
    if ending in LISTS or ending != SUFFIXES[Form.CSL_JSON] or not path.is_file():
        return ending in LISTS
    return csl_json.holds(read_whole(path, most=MOST_BYTES).decode("utf-8", "replace"))


def import_references(store: Store, path: Path) -> tuple[str, ...]:
    """Keeps what is new of a file of references; what is to be said. Raises CoachError."""
    taken = own_references.read_file(path, store)
    if taken.fresh:
        own_references.keep(store, taken.fresh)
    head = trn("{n} reference taken in", "{n} references taken in", len(taken.fresh))
    known = trn("{n} was there already", "{n} were there already", taken.known)
    return (tr("{taken}, {known}", taken=head, known=known), *taken.left_out)
