"""The blocks of a program as a table: weeks, dates, reps, sets, and what changes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from app.booklet.book import Book, Sheet
from app.booklet.fonts import CELL, CELL_BOLD, LABEL, SMALL_HEAD
from app.booklet.words import day_text, sets_text
from app.domain.program import Role
from app.domain.units import number_text
from app.domain.wording import listing, tr, trn

_NAME_MM = 30.0
_SETS_X, _CHANGES_X = 81.0, 112.0
FRACTION_SOURCE = "pelland2024"
"""Who says that a set counts a part for a muscle that helps."""


@dataclass(frozen=True, slots=True)
class BlockRow:
    """One block in the table: its weeks, dates, reps, sets (those of light weeks in brackets).

    apart: the weeks stand on a line of their own under the name; title and said: name and changes
    as they are before they are broken into lines.
    """

    name: tuple[str, ...]
    weeks: str
    apart: bool
    dates: str
    reps: str
    sets: str
    light: str
    changes: tuple[str, ...]
    title: str = ""
    said: str = ""

    @property
    def height(self) -> float:
        """Its room, mm."""
        name = max(len(self.name) + self.apart, 1) * SMALL_HEAD.lead_mm
        return max(name, len(self.changes) * CELL.lead_mm) + 2.0


def block_row(book: Book, number: int) -> BlockRow:
    """The row of block `number`, counted from 0."""
    program = book.issue.program
    weeks = program.block_range(number)
    sums = book.season.weeks[weeks.start : weeks.stop]
    work = [week for week in sums if not week.light and not week.empty]
    light = [week for week in sums if week.light and not week.empty]
    reps = [week.reps[1] for week in work if week.reps]
    block = program.blocks[number]
    ends = f"{weeks.start + 1}–{weeks.stop}" if len(weeks) > 1 else f"{weeks.stop}"
    last = program.week_start(weeks.stop) - timedelta(days=1)
    changes = _changes(book, number)
    dates = tr("{start} to {last}", start=day_text(sums[0].start), last=day_text(last))
    return BlockRow(
        name=book.wrap(block.name, SMALL_HEAD, _NAME_MM),
        weeks=ends,
        apart=book.faces.width_mm(f"{block.name}  {ends}", SMALL_HEAD) > _NAME_MM,
        dates=dates,
        reps=_ends([number_text(r) for r in reps]),
        sets=_spread([week.sets for week in work]),
        light=_spread([week.sets for week in light]),
        changes=book.wrap(changes, CELL, book.frame.width - _CHANGES_X),
        title=block.name,
        said=changes,
    )


def _ends(texts: list[str]) -> str:
    """First and last of a run, '15 to 13'."""
    if not texts:
        return "–"
    return (
        texts[0]
        if texts[0] == texts[-1]
        else tr("{first} to {last}", first=texts[0], last=texts[-1])
    )


def _spread(sets: list[float]) -> str:
    """Least and most of some sets, '14' or '14–16.5'."""
    if not sets:
        return ""
    low, high = min(sets), max(sets)
    return sets_text(low) if low == high else f"{sets_text(low)}–{sets_text(high)}"


def _changes(book: Book, number: int) -> str:
    """What is new in a block against the one before it: exercises that come, go or get sets."""
    program = book.issue.program
    here = _strands(book, number)
    if not here:
        return tr("Nothing planned.")
    if number == 0:
        core = [book.exercise(key).name for _, (key, _, role) in here.items() if role is Role.CORE]
        names = tuple(dict.fromkeys(core))[:3]
        return (
            tr("Core: {names}.", names=listing(names))
            if names
            else trn("{n} exercise a week.", "{n} exercises a week.", len(here))
        )
    before = _strands(book, number - 1)
    old = {key for key, _, _ in before.values()}
    now = {key for key, _, _ in here.values()}
    parts: list[str] = []
    if new := [book.exercise(key).name for key, _, _ in here.values() if key not in old]:
        parts.append(tr("New: {some}.", some=_some(new)))
    if gone := [book.exercise(key).name for key, _, _ in before.values() if key not in now]:
        parts.append(tr("No longer: {some}.", some=_some(gone)))
    more = [
        book.exercise(key).name
        for strand, (key, sets, _) in here.items()
        if strand in before and sets > before[strand][1]
    ]
    fewer = [
        book.exercise(key).name
        for strand, (key, sets, _) in here.items()
        if strand in before and sets < before[strand][1]
    ]
    if more:
        parts.append(tr("More sets of {some}.", some=_some(more)))
    if fewer:
        parts.append(tr("Fewer sets of {some}.", some=_some(fewer)))
    note = program.weeks[program.block_range(number).start].note
    return " ".join(parts) or ("" if note else tr("The same exercises and sets."))


def _some(names: list[str]) -> str:
    """Up to three names, and how many more."""
    names = list(dict.fromkeys(names))
    if len(names) <= 3:
        return listing(tuple(names))
    return tr(
        "{names} and {more}\N{NO-BREAK SPACE}more", names=", ".join(names[:2]), more=len(names) - 2
    )


def _strands(book: Book, number: int) -> dict[int, tuple[str, int, Role]]:
    """The slots of a block's first week that is not light: exercise, sets and role by strand."""
    program = book.issue.program
    for index in program.block_range(number):
        week = program.weeks[index]
        if not week.light and any(True for _ in week.slots()):
            return {slot.strand: (slot.exercise, slot.sets, slot.role) for slot in week.slots()}
    return {}


def draw_table(sheet: Sheet, rows: tuple[BlockRow, ...], y: float) -> float:
    """The blocks as a table; gives back its lower edge."""
    pen, p = sheet.pen, sheet.palette
    name = sheet.book.season.emphasis
    what = tr("{muscle} sets", muscle=sheet.book.muscle(name)) if name else tr("sets")
    what = what if pen.width(what, LABEL) < 24 else tr("sets")
    heads = (
        (0.0, tr("block and weeks")),
        (32.0, tr("dates")),
        (64.0, tr("reps")),
        (_SETS_X, what),
        (_CHANGES_X, tr("what changes")),
    )
    ends = (*(x for x, _ in heads[1:]), sheet.width)
    for (x, head), end in zip(heads, ends, strict=True):
        pen.text(x, y, pen.fitting(head, LABEL, end - x - 0.8), style=LABEL, tone=p.mid)
    y += 1.8
    pen.rule(0, y, sheet.width, weight=0.9)
    for row in rows:
        base = y + 4.9
        pen.lines(0, base, row.name, style=SMALL_HEAD)
        if row.apart:
            pen.text(0, base + len(row.name) * SMALL_HEAD.lead_mm, row.weeks, style=CELL)
        else:
            x = pen.width(row.name[0], SMALL_HEAD) + 1.8 if row.name else 0.0
            pen.text(x, base, row.weeks, style=CELL)
        dates_style = CELL if pen.width(row.dates, CELL) < 31.0 else LABEL
        pen.text(32.0, base, pen.fitting(row.dates, dates_style, 31.0), style=dates_style)
        pen.text(64.0, base, row.reps, style=CELL)
        wide = pen.text(_SETS_X, base, row.sets, style=CELL_BOLD)
        if row.light:
            x = _SETS_X + wide + (1.6 if wide else 0)
            pen.text(x, base, f"({row.light})", style=CELL, tone=p.mid)
        pen.lines(_CHANGES_X, base, row.changes, style=CELL)
        y += row.height
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y


def draw_key(sheet: Sheet, y: float) -> None:
    """How the sets are counted, and what the brackets mean."""
    text = key_text(sheet.book, cite=sheet.cite(FRACTION_SOURCE))
    sheet.pen.paragraph(0, y, text, width=sheet.width, style=CELL, tone=sheet.palette.mid)


def key_text(book: Book, *, cite: str) -> str:
    """What stands below the table; cite: the number of the source, as the text has it."""
    if book.season.emphasis is None:
        return tr("All sets of the week are counted. In brackets: light weeks.")
    return tr(
        "A set counts 1 for a muscle that does most of the work and a part, "
        "usually ½, for one that helps{cite}. In brackets: light weeks. The "
        "small strip at the top of each week page is the lower chart.",
        cite=cite,
    )
