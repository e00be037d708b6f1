"""The two panels of the program at a glance: a staircase of repetitions over bars of sets."""

from __future__ import annotations

from dataclasses import dataclass

from app.booklet.block_table import FRACTION_SOURCE
from app.booklet.book import Book, Cite, Sheet, Topic
from app.booklet.chart import Axis, light_columns, ticks, week_axis
from app.booklet.fonts import CELL, CELL_BOLD, LABEL, LABEL_BOLD, SMALL_HEAD, Style
from app.booklet.pen import Box
from app.booklet.season import WeekSum
from app.booklet.words import sets_text
from app.domain.ranges import Range
from app.domain.units import number_text
from app.domain.wording import tr
from app.domain.working import UNSOURCED

_LEFT = 23.0
PANEL_MM = 50.0
"""How tall a panel is on wide paper."""


@dataclass(frozen=True, slots=True)
class _Bed:
    """A published range of weekly sets with the weeks it holds for, as indices from 0."""

    first: int
    stop: int
    range: Range


def _beds(book: Book) -> tuple[_Bed, ...]:
    """The ranges of weekly sets for the emphasised muscle, in runs of weeks."""
    client, program = book.issue.client, book.issue.program
    if book.season.emphasis is None:
        return ()
    beds: list[_Bed] = []
    for index in range(len(program.weeks)):
        band = book.content.ranges.find(
            "weekly_sets",
            client.status,
            goal=client.goal,
            kind="emphasised",
            age=client.age_on(program.start),
            week=index + 1,
        )
        if band is None:
            continue
        if beds and beds[-1].range == band and beds[-1].stop == index:
            beds[-1] = _Bed(beds[-1].first, index + 1, band)
        else:
            beds.append(_Bed(index, index + 1, band))
    return tuple(beds)


def cites_of(book: Book) -> tuple[Cite, ...]:
    """The sources of the beds, and of the way sets are counted."""
    sources = dict.fromkeys(bed.range.source for bed in _beds(book))
    return (
        *(Cite(key, Topic.TRAINING, tr("weekly sets")) for key in sources if key not in UNSOURCED),
        Cite(FRACTION_SOURCE, Topic.TRAINING, tr("counting a set as ½")),
    )


def charts_mm(panel_mm: float) -> float:
    """The most room that both panels take with their axis and the blocks."""
    return 3.0 + panel_mm + 13.0 + panel_mm + 11.6 + 6.4


def draw_charts(sheet: Sheet, y: float, *, panel_mm: float = PANEL_MM) -> float:
    """Both panels over one week axis, with the blocks below; gives back the lower edge."""
    pen, p, book = sheet.pen, sheet.palette, sheet.book
    axis = Axis(_LEFT, sheet.width - _LEFT, len(book.season.weeks))
    top = y + 3.0
    middle = top + panel_mm
    bottom = middle + 13.0 + panel_mm
    light_columns(sheet, axis, Box(_LEFT, top, axis.width, bottom - top))
    pen.text(0, top + 3.0, tr("Reps"), style=SMALL_HEAD)
    core = pen.faces.wrap(tr("core exercises"), LABEL, 15.0)
    pen.lines(0, top + 7.4, core, style=LABEL, tone=p.mid)
    _staircase(sheet, axis, Box(_LEFT, top + 6, axis.width, panel_mm - 6))
    name = book.muscle(book.season.emphasis) if book.season.emphasis else tr("all exercises")
    pen.text(0, middle + 8.0, tr("Sets"), style=SMALL_HEAD)
    said = pen.faces.wrap(tr("{name}, a week", name=name), LABEL, 15.0)
    pen.lines(0, middle + 12.4, said, style=LABEL, tone=p.mid)
    _bars(sheet, axis, Box(_LEFT, middle + 13.0, axis.width, panel_mm))
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
    steps = steps_of(weeks)
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


def steps_of(weeks: tuple[WeekSum, ...]) -> list[tuple[int, int, float]]:
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
    """The weekly sets, over the beds of the published ranges."""
    pen, p, book = sheet.pen, sheet.palette, sheet.book
    beds = _beds(book)
    most = max(book.season.most_sets, *(bed.range.high or 0.0 for bed in beds), 1.0)
    scale = (box.height - 6.0) / most
    _draw_beds(sheet, axis, beds, box=box, scale=scale, most=most)
    wide = axis.pitch * 0.74
    for number, week in enumerate(book.season.weeks):
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


def _draw_beds(
    sheet: Sheet, axis: Axis, beds: tuple[_Bed, ...], *, box: Box, scale: float, most: float
) -> None:
    """Each range as a bed between two lines, its figures and source above; marks at the edges."""
    pen, p = sheet.pen, sheet.palette
    edges = {0.0}
    for bed in beds:
        band, x, to_x = bed.range, axis.start(bed.first), axis.start(bed.stop)
        high, low = most if band.high is None else band.high, band.low or 0.0
        top, bottom = box.bottom - high * scale, box.bottom - low * scale
        pen.box(Box(x, top, to_x - x, bottom - top), fill=p.tint)
        for edge in (band.low, band.high):
            if edge:
                edges.add(edge)
                y = box.bottom - edge * scale
                pen.rule(x, y, to_x, weight=0.6, tone=p.line)
        for text in _band_texts(band, sheet):
            if pen.width(text, LABEL) <= to_x - x:
                wide = pen.width(text, LABEL)
                pen.box(Box(to_x - wide - 1, box.y - 3.4, wide + 1, 4.2), fill=p.paper)
                pen.text(to_x, box.y, text, style=LABEL, tone=p.mid, align=1)
                break
    if not beds:
        edges.update(ticks(most))
    last = box.bottom + 9.0
    for mark in sorted(edges):
        y = box.bottom - mark * scale
        if last - y >= 4.0:
            pen.text(box.x - 1.6, y + 1.2, number_text(mark), style=LABEL, tone=p.mid, align=1)
            last = y
        if not beds:
            pen.rule(box.x, y, box.right, weight=0.35, tone=p.hair)


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


def _band_texts(band: Range, sheet: Sheet) -> tuple[str, ...]:
    """A range with who says so, in ever fewer words."""
    low = "" if band.low is None else number_text(band.low)
    high = "" if band.high is None else number_text(band.high)
    figures = (
        tr("{low} to {high}", low=low, high=high)
        if low and high
        else tr("at least {low}", low=low)
        if low
        else tr("up to {high}", high=high)
    )
    cite = sheet.cite(band.source)
    who = (
        tr("your coach’s range")
        if band.own
        else tr("a published range")
        if cite
        else tr("common practice")
    )
    return f"{figures}: {who}{cite}", f"{figures}{cite}", figures


def _brackets(sheet: Sheet, axis: Axis, y: float) -> float:
    """The blocks as brackets under the axis; gives back the lower edge."""
    pen, p, program = sheet.pen, sheet.palette, sheet.book.issue.program
    pen.text(0, y + 4.4, tr("Block"), style=CELL, tone=p.mid)
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
