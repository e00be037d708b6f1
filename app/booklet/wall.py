"""A sheet for the wall: the whole plan on one page, to be read from a step and a half away.

Capital letters are at least 5 mm high. At 1.5 m that is 11 minutes of arc, twice what normal sight
needs for a letter (5 minutes, ISO 8596), so whoever sees half as well can still read it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.booklet.book import Book, Page, Sheet, cut_short
from app.booklet.fonts import NBSP, Face, Style
from app.booklet.glance_chart import steps_of
from app.booklet.pen import Box
from app.booklet.season import WeekSum
from app.booklet.words import day_text, number_of_reps
from app.domain.program import Session, Slot, Week, day_name
from app.domain.units import number_text
from app.domain.wording import tr, trn

SMALLEST_READ_PT = 20.0
"""The least size of what is read from afar; capitals of the text font are 0.714 of it."""

_SIZES = (32.0, 28.0, 26.0, 24.0, 22.0, SMALLEST_READ_PT)
_CHART_MM = 52.0
_GAP_MM = 7.0
_SMALL = Style(Face.SANS, 12, 16)
_TITLE_SIZES = (34.0, 30.0, 26.0, 22.0, SMALLEST_READ_PT)


@dataclass(frozen=True, slots=True)
class _Line:
    """One exercise on the wall: its name in lines and what to do."""

    name: tuple[str, ...]
    dose: str


@dataclass(frozen=True, slots=True)
class _Column:
    """One session: its day, and as many exercises as there is room for; more: how many are left."""

    head: str
    lines: tuple[_Line, ...]
    more: int


def pages(book: Book) -> Iterator[Page]:
    """The one page."""
    yield Page("wall", _draw, title=tr("Sheet for the wall"))


def _draw(sheet: Sheet) -> None:
    book, pen, p = sheet.book, sheet.pen, sheet.palette
    y = _title(sheet)
    y = _chart(sheet, y + 4.0)
    foot = book.frame.height_mm - 12.0
    index = base_week(book)
    if index is not None:
        week = book.issue.program.weeks[index]
        kind, columns = fitted(book, week, room=foot - 8.0 - y)
        _columns(sheet, columns, y + 4.0, kind)
    pen.rule(0, foot - 4.8, sheet.width, tone=p.line)
    client = cut_short(book, book.issue.client.name, 90.0, _SMALL)
    pen.text(0, foot, client, style=_SMALL, tone=p.mid)
    said = tr("Stop if a joint hurts or you feel dizzy. The booklet says more.")
    pen.text(sheet.width, foot, said, style=_SMALL, tone=p.mid, align=1)


def _title(sheet: Sheet) -> float:
    """The program's name with its dates; gives back the lower edge."""
    book, pen = sheet.book, sheet.pen
    weeks = book.week_range
    start = book.issue.program.week_start(weeks.start)
    end = book.season.weeks[weeks.stop - 1].start
    aside = Style(Face.SANS, SMALLEST_READ_PT, 26)
    said = tr("from {start} to the week of {end}", start=day_text(start), end=day_text(end))
    if len(weeks) == 1:
        said = tr("week of {start}", start=day_text(start))
    room = (
        sheet.width
        - 8.0
        - pen.text(sheet.width, 22.0, said, style=aside, tone=sheet.palette.mid, align=1)
    )
    name = book.issue.program.name
    fitting = (size for size in _TITLE_SIZES if pen.width(name, _bold_serif(size)) <= room)
    style = _bold_serif(next(fitting, _TITLE_SIZES[-1]))
    pen.text(0, 22.0, cut_short(book, name, room, style), style=style)
    pen.rule(0, 26.0, sheet.width, weight=2.0)
    return 26.0


def _bold_serif(size: float) -> Style:
    return Style(Face.SERIF_BOLD, size, size * 1.2)


def _chart(sheet: Sheet, y: float) -> float:
    """The repetitions of the printed weeks as a staircase; gives back the lower edge."""
    book, pen, p = sheet.book, sheet.pen, sheet.palette
    weeks = tuple(book.season.weeks[index] for index in book.week_range)
    if not any(week.reps for week in weeks):
        return y
    label = Style(Face.SANS, SMALLEST_READ_PT, 24)
    left = 4.0 + max(pen.width(word, label) for word in (tr("Reps"), tr("Week")))
    pitch = (sheet.width - left) / len(weeks)
    bottom = y + _CHART_MM - 12.0
    most = max(week.reps[1] for week in weeks if week.reps)
    scale = (_CHART_MM - 24.0) / most
    pen.text(0, bottom - 2.0, tr("Reps"), style=label, tone=p.mid)
    pen.text(0, bottom + 9.6, tr("Week"), style=label, tone=p.mid)
    for number, week in enumerate(weeks):
        if week.reps is None:
            continue
        tall = week.reps[1] * scale
        box = Box(left + number * pitch, bottom - tall, pitch, tall)
        pen.box(box, fill=p.paper if week.light else p.tint2)
        if week.light:
            pen.hatch(box, gap=1.6, weight=0.6, tone=p.mid)
    for start, end, reps in steps_of(weeks):
        at = bottom - reps * scale
        pen.rule(left + start * pitch, at, left + end * pitch, weight=3.0)
    _figures(sheet, weeks, Box(left, bottom, pitch, scale))
    pen.rule(left, bottom, sheet.width, weight=1.4)
    return bottom + 14.0


def _figures(sheet: Sheet, weeks: tuple[WeekSum, ...], place: Box) -> None:
    """The repetitions over each new step, and the numbers of as many weeks as there is room for.

    place: left edge and baseline of the chart, then the room of a week and of one repetition.
    """
    pen = sheet.pen
    bold = Style(Face.BOLD, 24, 28)
    free = -1.0
    for start, _, reps in steps_of(weeks):
        x = place.x + start * place.width + 0.8
        if x >= free:
            y = place.y - reps * place.height - 2.2
            free = x + pen.text(x, y, number_text(reps), style=bold) + 1.5
    label = Style(Face.SANS, SMALLEST_READ_PT, 24)
    free = -1.0
    for number, week in enumerate(weeks):
        text = str(week.number)
        wide = pen.width(text, label)
        x = place.x + (number + 0.5) * place.width
        if x - wide / 2 >= free:
            pen.text(x, place.y + 9.6, text, style=label, align=0.5)
            free = x + wide / 2 + 2.0


# -- sessions ----------------------------------------------------------------------------------


def base_week(book: Book) -> int | None:
    """The week whose sessions stand on the wall: the first printed one with work, not light."""
    weeks = book.issue.program.weeks
    full = [index for index in book.week_range if any(True for _ in weeks[index].slots())]
    return next((index for index in full if not weeks[index].light), full[0] if full else None)


def dose_on_wall(book: Book, slot: Slot) -> str:
    """Sets and repetitions from the first to the last printed week: '3–4 × 15 → 6'."""
    mine = [
        other
        for index in book.week_range
        for other in book.issue.program.weeks[index].slots()
        if other.strand == slot.strand
        and other.exercise == slot.exercise
        and not book.issue.program.weeks[index].light
    ] or [slot]
    low, high = min(one.sets for one in mine), max(one.sets for one in mine)
    sets = f"{low}" if low == high else f"{low}–{high}"
    first, last = number_of_reps(mine[0].reps), number_of_reps(mine[-1].reps)
    reps = first if first == last else f"{first}{NBSP}→{NBSP}{last}"
    unit = f"{NBSP}{tr('s')}" if book.exercise(slot.exercise).timed else ""
    return f"{sets}{NBSP}×{NBSP}{reps}{unit}"


@dataclass(frozen=True, slots=True)
class _Type:
    """The size of the type, points, and whether sets stand beside the name or below it."""

    size: float
    beside: bool

    @property
    def name(self) -> Style:
        return Style(Face.BOLD, self.size, self.size * 1.15)

    @property
    def dose(self) -> Style:
        return Style(Face.SANS, self.size, self.size * 1.15)

    @property
    def head(self) -> Style:
        return _bold_serif(self.size + 2)

    @property
    def lead(self) -> float:
        return self.name.lead_mm


def fitted(book: Book, week: Week, *, room: float) -> tuple[_Type, tuple[_Column, ...]]:
    """The largest type in which every exercise has room, else the smallest with as many as fit."""
    sessions = [(day, one) for day, one in week.sessions() if one.slots]
    wide = (book.frame.width + _GAP_MM) / len(sessions) - _GAP_MM
    made: tuple[_Column, ...] = ()
    for kind in (_Type(size, beside) for size in _SIZES for beside in (True, False)):
        made = tuple(_column(book, day, one, kind, wide=wide, room=room) for day, one in sessions)
        if not any(column.more for column in made):
            return kind, made
    return _Type(_SIZES[-1], beside=False), made


def _column(
    book: Book, day: int, session: Session, kind: _Type, *, wide: float, room: float
) -> _Column:
    head = cut_short(book, day_name(day), wide, kind.head)
    left = room - kind.lead * 1.6
    lines: list[_Line] = []
    for at, slot in enumerate(session.slots):
        dose = dose_on_wall(book, slot)
        taken = book.faces.width_mm(dose, kind.dose) + 4.0 if kind.beside else 0.0
        said = book.wrap(book.exercise(slot.exercise).name, kind.name, max(wide - taken, 1.0))
        broken = any(" " not in part and part not in _words(book, slot) for part in said)
        tall = (len(said) + (not kind.beside)) * kind.lead + kind.lead * 0.25
        others = at + 1 < len(session.slots)
        if (kind.beside and broken) or tall + (kind.lead if others else 0.0) > left:
            return _Column(head, tuple(lines), len(session.slots) - at)
        lines.append(_Line(said, dose))
        left -= tall
    return _Column(head, tuple(lines), 0)


def _words(book: Book, slot: Slot) -> tuple[str, ...]:
    return tuple(book.exercise(slot.exercise).name.split())


def _columns(sheet: Sheet, columns: tuple[_Column, ...], y: float, kind: _Type) -> None:
    pen, p, lead = sheet.pen, sheet.palette, kind.lead
    pitch = (sheet.width + _GAP_MM) / len(columns)
    for number, column in enumerate(columns):
        x, right = number * pitch, (number + 1) * pitch - _GAP_MM
        at = y + lead * 0.9
        pen.text(x, at, column.head, style=kind.head)
        pen.rule(x, at + lead * 0.3, right, weight=1.4)
        at += lead * 1.35
        for line in column.lines:
            if kind.beside:
                pen.text(right, at, line.dose, style=kind.dose, tone=p.accent, align=1)
            at = pen.lines(x, at, line.name, style=kind.name)
            if not kind.beside:
                pen.text(x, at, line.dose, style=kind.dose, tone=p.accent)
                at += lead
            at += lead * 0.25
        if column.more:
            said = trn("and {n} more", "and {n} more", column.more)
            pen.text(x, at, said, style=kind.dose, tone=p.mid)
