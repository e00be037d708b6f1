"""The blocks of a program as a table: weeks, dates, reps, sets, and what changes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from app.booklet.book import Book, Sheet
from app.booklet.fonts import CELL, CELL_BOLD, LABEL, NBSP, SMALL_HEAD
from app.booklet.words import and_text, day_text, sets_text
from app.domain.program import Role
from app.domain.units import number_text

_NAME_MM = 30.0
_SETS_X, _CHANGES_X = 81.0, 112.0
FRACTION_SOURCE = "pelland2024"
"""Who says that a set counts a part for a muscle that helps."""


@dataclass(frozen=True, slots=True)
class BlockRow:
    """One block in the table: its weeks, dates, reps, sets (those of light weeks in brackets).

    apart: the weeks stand on a line of their own under the name.
    """

    name: tuple[str, ...]
    weeks: str
    apart: bool
    dates: str
    reps: str
    sets: str
    light: str
    changes: tuple[str, ...]

    @property
    def height(self) -> float:
        """Its room, mm."""
        return max(len(self.name) + self.apart, len(self.changes), 1) * SMALL_HEAD.lead_mm + 2.0


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
    dates = f"{day_text(sums[0].start)} to {day_text(last)}"
    return BlockRow(
        name=book.wrap(block.name, SMALL_HEAD, _NAME_MM),
        weeks=ends,
        apart=book.faces.width_mm(f"{block.name}  {ends}", SMALL_HEAD) > _NAME_MM,
        dates=dates,
        reps=_ends([number_text(r) for r in reps]),
        sets=_spread([week.sets for week in work]),
        light=_spread([week.sets for week in light]),
        changes=book.wrap(_changes(book, number), CELL, book.frame.width - _CHANGES_X),
    )


def _ends(texts: list[str]) -> str:
    """First and last of a run, '15 to 13'."""
    if not texts:
        return "–"
    return texts[0] if texts[0] == texts[-1] else f"{texts[0]} to {texts[-1]}"


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
        return "Nothing planned."
    if number == 0:
        core = [book.exercise(key).name for _, (key, _, role) in here.items() if role is Role.CORE]
        names = tuple(dict.fromkeys(core))[:3]
        return f"Core: {and_text(names)}." if names else f"{len(here)} exercises a week."
    before = _strands(book, number - 1)
    old = {key for key, _, _ in before.values()}
    now = {key for key, _, _ in here.values()}
    parts: list[str] = []
    if new := [book.exercise(key).name for key, _, _ in here.values() if key not in old]:
        parts.append(f"New: {_some(new)}.")
    if gone := [book.exercise(key).name for key, _, _ in before.values() if key not in now]:
        parts.append(f"No longer: {_some(gone)}.")
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
        parts.append(f"More sets of {_some(more)}.")
    if fewer:
        parts.append(f"Fewer sets of {_some(fewer)}.")
    note = program.weeks[program.block_range(number).start].note
    return " ".join(parts) or ("" if note else "The same exercises and sets.")


def _some(names: list[str]) -> str:
    """Up to three names, and how many more."""
    names = list(dict.fromkeys(names))
    if len(names) <= 3:
        return and_text(tuple(names))
    return f"{', '.join(names[:2])} and {len(names) - 2}{NBSP}more"


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
    what = f"{sheet.book.muscle(name)} sets" if name else "sets"
    what = what if pen.width(what, LABEL) < 24 else "sets"
    for x, head in (
        (0.0, "block and weeks"),
        (32.0, "dates"),
        (64.0, "reps"),
        (_SETS_X, what),
        (_CHANGES_X, "what changes"),
    ):
        pen.text(x, y, head, style=LABEL, tone=p.mid)
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
        pen.text(32.0, base, row.dates, style=CELL)
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
    text = (
        "A set counts 1 for a muscle that does most of the work and a part, usually ½, for one "
        f"that helps{sheet.cite(FRACTION_SOURCE)}. In brackets: light weeks. The "
        "small strip at the top of each week page is the lower chart."
    )
    if sheet.book.season.emphasis is None:
        text = "All sets of the week are counted. In brackets: light weeks."
    sheet.pen.paragraph(0, y, text, width=sheet.width, style=CELL, tone=sheet.palette.mid)
