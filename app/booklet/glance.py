"""The program at a glance: repetitions as a staircase, sets as bars, blocks, and what they hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from app.booklet.book import Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.chart import Axis, light_columns, ticks, week_axis
from app.booklet.fonts import (
    BODY,
    CELL,
    CELL_BOLD,
    LABEL,
    LABEL_BOLD,
    NBSP,
    SMALL_HEAD,
    Style,
)
from app.booklet.pen import Box
from app.booklet.season import WeekSum
from app.booklet.words import and_text, day_text, number_text, sets_text, span_text
from app.domain.program import Role
from app.domain.ranges import Range
from app.domain.working import UNSOURCED

_LEFT = 23.0
_REPS_MM, _SETS_MM = 50.0, 50.0
_FRACTION = "pelland2024"


@dataclass(frozen=True, slots=True)
class _BlockRow:
    """One block in the table: its weeks, dates, reps, sets (those of light weeks in brackets)."""

    name: tuple[str, ...]
    weeks: str
    dates: str
    reps: str
    sets: str
    light: str
    changes: tuple[str, ...]

    @property
    def height(self) -> float:
        """Its room, mm."""
        return max(len(self.name), len(self.changes), 1) * CELL.lead_mm + 2.6


def pages(book: Book) -> Iterator[Page]:
    """The charts with the table of blocks, and further pages where the blocks need them."""
    rows = [_block_row(book, number) for number in range(len(book.issue.program.blocks))]
    sheets: list[list[_BlockRow]] = [[]]
    room = book.frame.last - 190.0
    for row in rows:
        if row.height > room:
            sheets.append([])
            room = book.frame.last - 42.0
        sheets[-1].append(row)
        room -= row.height
    for number, part in enumerate(sheets):
        yield Page(
            f"glance-{number}" if number else "glance",
            _drawing(tuple(part), first=not number),
            title="" if number else "The program at a glance",
            cites=() if number else _cites(book),
        )


def _band(book: Book) -> Range | None:
    """The published range of weekly sets for the emphasised muscle, if there is one."""
    client = book.issue.client
    if book.season.emphasis is None:
        return None
    return book.content.ranges.find(
        "weekly_sets",
        client.status,
        goal=client.goal,
        kind="emphasised",
        age=client.age_on(book.issue.program.start),
    )


def _cites(book: Book) -> tuple[Cite, ...]:
    band = _band(book)
    cites = [Cite(_FRACTION, Topic.TRAINING, "counting a set as ½")]
    if band is not None and band.source not in UNSOURCED:
        cites.insert(0, Cite(band.source, Topic.TRAINING, "weekly sets"))
    return tuple(cites)


def _drawing(rows: tuple[_BlockRow, ...], *, first: bool) -> Draw:
    def draw(sheet: Sheet) -> None:
        program = sheet.book.issue.program
        dates = span_text(program.start, len(program.weeks))
        sheet.title("The program at a glance", dates)
        y = 32.0
        if first:
            y = _charts(sheet, y)
        y = _table(sheet, rows, y + 6.0)
        if first:
            _key(sheet, y + 5.0)
        sheet.foot()

    return draw


def intro(book: Book) -> str:
    """What happens over the weeks, in two or three sentences read off the plan itself."""
    season = book.season
    planned = [week for week in season.weeks if week.reps is not None and not week.light]
    count = len(season.weeks)
    if not planned:
        return f"{count} week{'s' if count > 1 else ''}, nothing planned yet."
    first, last = planned[0].reps, planned[-1].reps
    assert first is not None
    assert last is not None
    text = f"For {count} weeks " if count > 1 else "In this week "
    if last[1] < first[1]:
        text += (
            f"the repetitions come down, from about {number_text(first[1])} to "
            f"{number_text(last[1])}, and the loads go up as they do."
        )
    elif last[1] > first[1]:
        text += (
            f"the repetitions go up, from about {number_text(first[1])} to "
            f"{number_text(last[1])}."
        )
    else:
        text += f"the core exercises stay near {number_text(first[1])} repetitions."
    light = season.light
    if light:
        weeks = and_text(tuple(map(str, light)))
        text += f" Light, so that you recover: week{'s' if len(light) > 1 else ''} {weeks}."
    return text


def _charts(sheet: Sheet, y: float) -> float:
    """Both panels over one week axis, with the blocks below; gives back the lower edge."""
    pen, p, book = sheet.pen, sheet.palette, sheet.book
    y = pen.paragraph(0, y, intro(book), width=sheet.width, style=BODY)
    axis = Axis(_LEFT, sheet.width - _LEFT, len(book.season.weeks))
    top = y + 3.0
    middle = top + _REPS_MM
    bottom = middle + 13.0 + _SETS_MM
    light_columns(sheet, axis, Box(_LEFT, top, axis.width, bottom - top))
    pen.text(0, top + 3.0, "Reps", style=SMALL_HEAD)
    pen.text(0, top + 7.4, "core", style=LABEL, tone=p.mid)
    pen.text(0, top + 11.4, "exercises", style=LABEL, tone=p.mid)
    _staircase(sheet, axis, Box(_LEFT, top + 6, axis.width, _REPS_MM - 6))
    name = book.muscle(book.season.emphasis) if book.season.emphasis else "all exercises"
    pen.text(0, middle + 8.0, "Sets", style=SMALL_HEAD)
    said = pen.faces.wrap(f"{name}, a week", LABEL, 15.0)
    pen.lines(0, middle + 12.4, said, style=LABEL, tone=p.mid)
    _bars(sheet, axis, Box(_LEFT, middle + 13.0, axis.width, _SETS_MM))
    y = week_axis(sheet, axis, bottom)
    return _brackets(sheet, axis, y)


def _staircase(sheet: Sheet, axis: Axis, box: Box) -> None:
    """The repetitions of the core lifts, with a figure at each new step."""
    pen, p, weeks = sheet.pen, sheet.palette, sheet.book.season.weeks
    most = max((week.reps[2] for week in weeks if week.reps), default=10)
    marks = ticks(most)
    scale = box.height / max(most, marks[-1])
    for mark in marks:
        y = box.bottom - mark * scale
        pen.rule(box.x, y, box.right, weight=0.35 if mark else 0.8, tone=p.hair if mark else "")
        pen.text(box.x - 1.6, y + 1.2, str(mark), style=LABEL, tone=p.mid, align=1)
    for number, week in enumerate(weeks):
        if week.reps and week.reps[0] != week.reps[2]:
            low, _, high = week.reps
            x = axis.start(number)
            tall = (high - low) * scale
            pen.box(Box(x, box.bottom - high * scale, axis.pitch, tall), fill=p.tint2)
    steps = _steps(weeks)
    for start, end, reps in steps:
        y = box.bottom - reps * scale
        pen.rule(axis.start(start), y, axis.start(end), weight=2.0)
        following = next((r for s, _, r in steps if s == end), None)
        if following is not None:
            pen.rule(
                axis.start(end), y, axis.start(end), to_y=box.bottom - following * scale, weight=2.0
            )
    free_from = -1.0
    for start, _, reps in steps:
        x = axis.start(start) + min(1.2, axis.pitch * 0.3)
        text = number_text(reps)
        if x >= free_from:
            pen.text(x, box.bottom - reps * scale - 1.4, text, style=CELL_BOLD)
            free_from = x + pen.width(text, CELL_BOLD) + 0.8


def _steps(weeks: tuple[WeekSum, ...]) -> list[tuple[int, int, float]]:
    """Runs of weeks with the same repetitions: first week, week after the last, repetitions."""
    steps: list[tuple[int, int, float]] = []
    for number, week in enumerate(weeks):
        if week.reps is None:
            continue
        reps = week.reps[1]
        if steps and steps[-1][1] == number and steps[-1][2] == reps:
            steps[-1] = (steps[-1][0], number + 1, reps)
        else:
            steps.append((number, number + 1, reps))
    return steps


def _bars(sheet: Sheet, axis: Axis, box: Box) -> None:
    """The weekly sets, over the bed of the published range."""
    pen, p, book = sheet.pen, sheet.palette, sheet.book
    weeks, band = book.season.weeks, _band(book)
    high = band.high if band is not None and band.high is not None else 0.0
    most = max(book.season.most_sets, high, 1.0)
    scale = (box.height - 6.0) / most
    marks = [0]
    if band is not None:
        marks += [round(edge) for edge in (band.low, band.high) if edge]
        top = box.bottom - (band.high or most) * scale
        low = box.bottom - (band.low or 0.0) * scale
        pen.box(Box(box.x, top, box.width, low - top), fill=p.tint)
        for edge in (top, low):
            pen.rule(box.x, edge, box.right, weight=0.6, tone=p.line)
    else:
        marks += ticks(most)[1:]
    for mark in marks:
        y = box.bottom - mark * scale
        pen.text(box.x - 1.6, y + 1.2, str(mark), style=LABEL, tone=p.mid, align=1)
        if band is None:
            pen.rule(box.x, y, box.right, weight=0.35, tone=p.hair)
    wide = axis.pitch * 0.74
    for number, week in enumerate(weeks):
        if not week.sets:
            continue
        tall = week.sets * scale
        bar = Box(axis.middle(number) - wide / 2, box.bottom - tall, wide, tall)
        if week.light:
            pen.box(bar, fill=p.paper)
            pen.hatch(bar, gap=0.75, weight=0.5)
            pen.box(bar, stroke=p.ink, weight=0.5)
        else:
            pen.box(bar, fill=p.accent)
    _bar_figures(sheet, axis, box.bottom, scale)
    pen.rule(box.x, box.bottom, box.right, weight=0.8)
    if band is not None:
        text = _band_text(band, sheet)
        wide = pen.width(text, LABEL)
        pen.box(Box(box.right - wide - 1, box.y - 5.2, wide + 1, 4.4), fill=p.paper)
        pen.text(box.right, box.y - 2.0, text, style=LABEL, tone=p.mid, align=1)


def _bar_figures(sheet: Sheet, axis: Axis, bottom: float, scale: float) -> None:
    """The sets over their bars: over every one where they fit, else where they change."""
    pen = sheet.pen
    free_from, before = -1.0, -1.0
    for number, week in enumerate(sheet.book.season.weeks):
        text = sets_text(week.sets)
        wide = pen.width(text, LABEL_BOLD)
        x = axis.middle(number)
        fits = x - wide / 2 >= free_from
        crowded = axis.pitch < 5.0 and week.sets == before
        if week.sets and fits and not crowded:
            pen.text(x, bottom - week.sets * scale - 1.2, text, style=LABEL_BOLD, align=0.5)
            free_from = x + wide / 2 + 0.2
        before = week.sets


def _band_text(band: Range, sheet: Sheet) -> str:
    low = "" if band.low is None else number_text(band.low)
    high = "" if band.high is None else number_text(band.high)
    figures = f"{low} to {high}" if low and high else f"at least {low}" if low else f"up to {high}"
    cite = sheet.cite(band.source)
    if cite:
        return f"{figures}: a published range{cite}"
    who = "your coach’s range" if band.own else "common practice"
    return f"{figures}: {who}"


def _brackets(sheet: Sheet, axis: Axis, y: float) -> float:
    """The blocks as brackets under the axis; gives back the lower edge."""
    pen, p, program = sheet.pen, sheet.palette, sheet.book.issue.program
    pen.text(0, y + 4.4, "Block", style=CELL, tone=p.mid)
    for number, block in enumerate(program.blocks):
        weeks = program.block_range(number)
        left, right = axis.start(weeks.start) + 0.5, axis.start(weeks.stop) - 0.5
        pen.rule(left, y, right, weight=0.9)
        for x in (left, right):
            pen.rule(x, y, x, to_y=y + 1.6, weight=0.9)
        for style in (SMALL_HEAD, Style(SMALL_HEAD.face, 10, 13), Style(SMALL_HEAD.face, 9, 12)):
            if pen.width(block.name, style) <= right - left + 1.0:
                pen.text((left + right) / 2, y + 4.8, block.name, style=style, align=0.5)
                break
    return y + 6.4


def _block_row(book: Book, number: int) -> _BlockRow:
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
    return _BlockRow(
        name=book.wrap(block.name, SMALL_HEAD, 30.0 - 13.0),
        weeks=ends,
        dates=dates,
        reps=_ends([number_text(r) for r in reps]),
        sets=_spread([week.sets for week in work]),
        light=_spread([week.sets for week in light]),
        changes=book.wrap(_changes(book, number), CELL, book.frame.width - 108.0),
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
    parts = []
    if new := [book.exercise(key).name for key in dict.fromkeys(k for k, _, _ in here.values()) if key not in old]:
        parts.append(f"New: {_some(new)}.")
    if gone := [book.exercise(key).name for key in dict.fromkeys(k for k, _, _ in before.values()) if key not in now]:
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
    names = list(dict.fromkeys(name[:1].lower() + name[1:] for name in names))
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


def _table(sheet: Sheet, rows: tuple[_BlockRow, ...], y: float) -> float:
    """The blocks as a table; gives back its lower edge."""
    pen, p = sheet.pen, sheet.palette
    name = sheet.book.season.emphasis
    what = f"{sheet.book.muscle(name)} sets" if name else "sets"
    what = what if pen.width(what, LABEL) < 24 else "sets"
    for x, head in (
        (0.0, "block and weeks"),
        (32.0, "dates"),
        (64.0, "reps"),
        (82.0, what),
        (108.0, "what changes"),
    ):
        pen.text(x, y, head, style=LABEL, tone=p.mid)
    y += 1.8
    pen.rule(0, y, sheet.width, weight=0.9)
    for row in rows:
        base = y + 4.9
        pen.lines(0, base, row.name, style=SMALL_HEAD)
        first = row.name[0] if row.name else ""
        pen.text(pen.width(first, SMALL_HEAD) + 1.8, base, row.weeks, style=CELL)
        pen.text(32.0, base, row.dates, style=CELL)
        pen.text(64.0, base, row.reps, style=CELL)
        wide = pen.text(82.0, base, row.sets, style=CELL_BOLD)
        if row.light:
            x = 82.0 + wide + (1.6 if wide else 0)
            pen.text(x, base, f"({row.light})", style=CELL, tone=p.mid)
        pen.lines(108.0, base, row.changes, style=CELL)
        y += row.height
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y


def _key(sheet: Sheet, y: float) -> None:
    """How the sets are counted, and what the brackets mean."""
    text = (
        "A set counts 1 for a muscle that does most of the work and a part, usually ½, for one "
        f"that helps{sheet.cite(_FRACTION)}. In brackets: light weeks. The small strip at the top "
        "of each week page is the lower chart."
    )
    if sheet.book.season.emphasis is None:
        text = "All sets of the week are counted. In brackets: light weeks."
    sheet.pen.paragraph(0, y, text, width=sheet.width, style=CELL, tone=sheet.palette.mid)
