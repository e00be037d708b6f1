"""The weeks: sessions as tables with room to write, and the week's log beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from app.booklet.book import Book, Cite, Draw, Page, Sheet, Topic, cut_short
from app.booklet.fonts import (
    BODY,
    BODY_BOLD,
    CELL,
    CELL_BOLD,
    LABEL,
    SESSION,
    SESSION_TITLE,
    TITLE,
)
from app.booklet.going_on import after_text
from app.booklet.pen import Box, Pen
from app.booklet.row import (
    CELL_WIDE_MM,
    CELLS_A_ROW,
    Columns,
    columns,
    draw_brackets,
    draw_row,
)
from app.booklet.signs import strip
from app.booklet.week_layout import (
    EAT_MM,
    SessionPart,
    WeekLayout,
    lay_out_week,
    note_paragraphs,
)
from app.booklet.week_log import draw_boxes, draw_lines, draw_log, draw_notes, targets_of
from app.booklet.words import DOT, sets_text, week_text
from app.domain.curve import find_curve
from app.domain.wording import tr

_STRIP_MM = 62.0
_FOLLOWS_MM = 7.0  # for the line that says which weeks follow


def pages(book: Book) -> Iterator[Page]:
    """The pages of every week that is printed.

    Weeks in a row without a session share a spread; one that has notes keeps its own.
    """
    empty: list[int] = []
    for index in book.week_range:
        week = book.issue.program.weeks[index]
        if any(day.sessions for day in week.days):
            yield from _empty_spread(empty)
            empty = []
            yield from _week_pages(book, index)
        elif week.note or any(day.note for day in week.days):
            yield from _empty_spread(empty)
            empty = []
            yield from _empty_spread([index])
        else:
            empty.append(index)
    yield from _empty_spread(empty)


REST_SOURCES = ("singer2024", "acsm2009")
"""Where the ranges of rest between sets come from."""


def cites_of(book: Book) -> tuple[Cite, ...]:
    """What the rows of a week lean on."""
    curve = find_curve(book.issue.program.curve)
    return (
        Cite(curve.source, Topic.TRAINING, tr("reps and load")),
        *(Cite(key, Topic.TRAINING, tr("rest")) for key in REST_SOURCES),
    )


def _week_pages(book: Book, index: int) -> Iterator[Page]:
    week = book.issue.program.weeks[index]
    notes = note_paragraphs(book, week)
    extra = sum(len(lines) * BODY.lead_mm + 1.5 for _, lines in notes)
    extra += 14.0 if notes else 0.0
    extra += EAT_MM if targets_of(book, index) else 0.0
    extra += _FOLLOWS_MM if _follows(book, index) else 0.0
    layout = lay_out_week(book, week, extra_mm=extra)
    for number, parts in enumerate(layout.pages):
        yield Page(
            f"week-{index + 1}" if not number else f"week-{index + 1}-{number + 1}",
            _week_drawing(index, layout, number),
            title=tr("Week {number}", number=index + 1) if not number else "",
            level=0,
            cites=cites_of(book) if parts else (),
            even=not number and book.options.spread,
        )


def _week_drawing(index: int, layout: WeekLayout, number: int) -> Draw:
    def draw(sheet: Sheet) -> None:
        _head(sheet, index)
        y = sheet.book.frame.first
        for at, part in enumerate(layout.pages[number]):
            y = draw_session(sheet, part, y, first=not at)
        if number == len(layout.pages) - 1:
            sheet = _said_what_follows(sheet, index)
        if number == layout.log_page:
            draw_log(sheet, index, y, first=not layout.pages[number])
        elif number > layout.log_page:
            draw_lines(sheet, y + 8.6)
        else:
            _hint(sheet, y, last=number == layout.log_page - 1)
        sheet.foot()

    return draw


def _said_what_follows(sheet: Sheet, index: int) -> Sheet:
    """Say under the last week of an excerpt that the program goes on, and with which weeks.

    Gives back the sheet with what room is left.
    """
    book, said = sheet.book, _follows(sheet.book, index)
    if not said:
        return sheet
    sheet.pen.text(0, book.frame.last, said, style=BODY_BOLD)
    frame = replace(book.frame, last_above_foot=book.frame.last_above_foot + _FOLLOWS_MM)
    return replace(sheet, book=replace(book, frame=frame))


def _follows(book: Book, index: int) -> str:
    """What is said under the last week of an excerpt, else nothing."""
    return after_text(book) if index == book.week_range[-1] else ""


def _hint(sheet: Sheet, y: float, *, last: bool) -> None:
    """A line under the last row that says how to write, and where the week goes on."""
    text = tr("Each box is one set: load above, reps below.")
    if not sheet.book.options.spread:
        text = tr("Each box is one set: load before the sign, reps behind it.")
    elif last and not sheet.number % 2:
        more = tr("More of the week and its notes are on the facing page.")
        both = f"{text} {more}"
        text = both if sheet.pen.width(both, CELL) <= sheet.width else more
    if y + 5.0 <= sheet.book.frame.last:
        sheet.pen.text(0, y + 5.0, text, style=CELL, tone=sheet.palette.mid)


def _head(sheet: Sheet, index: int) -> None:
    """The week's number, its dates and sums, and the strip of all weeks."""
    pen, p, book = sheet.pen, sheet.palette, sheet.book
    week = book.season.weeks[index]
    x = pen.text(0, 20.0, tr("Week {number}", number=index + 1), style=TITLE)
    x += 2.6
    of = tr("of {weeks}", weeks=len(book.season.weeks))
    x += pen.text(x, 20.0, of, style=SESSION_TITLE, tone=p.mid)
    x = max(48.0, x + 5.0)
    room = sheet.width - _STRIP_MM - 4.0 - x
    dates = week_text(week.start)
    pen.text(x, 15.6, tr("{dates}, light week", dates=dates) if week.light else dates, style=CELL)
    for text in sums(book, index):
        if pen.width(text, CELL) <= room:
            pen.text(x, 20.2, text, style=CELL, tone=p.mid)
            break
    strip(sheet, Box(sheet.width - _STRIP_MM, 13.4, _STRIP_MM, 7.7), index)
    sheet.double_rule()


def sums(book: Book, index: int) -> Iterator[str]:
    """What the week amounts to, in ever fewer words."""
    week = book.season.weeks[index]
    if week.empty:
        yield tr("nothing planned")
        return
    counted = sets_text(week.sets)
    muscle = book.season.emphasis
    sets = (
        tr("{muscle} {sets} sets", muscle=book.muscle(muscle), sets=counted)
        if muscle
        else tr("all {sets} sets", sets=counted)
    )
    if week.reps is None:
        yield sets
        return
    low, _, high = week.reps
    reps = (
        tr("{low} reps", low=low) if low == high else tr("{low} to {high} reps", low=low, high=high)
    )
    yield f"{tr('core exercises {reps}', reps=reps)}{DOT}{sets}"
    yield f"{tr('core {reps}', reps=reps)}{DOT}{sets}"
    yield f"{reps}{DOT}{sets}"
    yield sets


def draw_session(sheet: Sheet, part: SessionPart, y: float, *, first: bool) -> float:
    """Draw a session from `y` down; gives back its lower edge."""
    pen, p = sheet.pen, sheet.palette
    top = y
    y += 6.4 if first else 8.6
    aside = tr("goes on") if part.goes_on else part.minutes
    taken = pen.text(sheet.width, y, aside, style=CELL, tone=p.mid, align=1)
    x = pen.text(0, y, part.day, style=SESSION) + 3.2
    title = cut_short(sheet.book, part.title, sheet.width - x - taken - 4, SESSION_TITLE)
    pen.text(x, y, title, style=SESSION_TITLE)
    y += 1.8
    pen.rule(0, y, sheet.width, weight=1.2)
    y = _session_text(sheet, part, y)
    y = top + part.head_mm(first=first)
    _column_heads(sheet, y - 1.4)
    if not part.rows:
        pen.text(0, y + 3.0, tr("No exercise is planned in this session."), style=BODY, tone=p.mid)
        return y + 8.0
    placed = []
    for row in part.rows:
        draw_row(sheet, row, y)
        placed.append((y, row))
        y += row.height
    draw_brackets(sheet, placed)
    return y


def _session_text(sheet: Sheet, part: SessionPart, y: float) -> float:
    """The warm-up line and the session's note, with the hair line below them."""
    pen = sheet.pen
    if not part.warmup and not part.note:
        return y
    y += 4.6
    if part.warmup:
        indent = pen.text(0, y, tr("Warm-up"), style=CELL_BOLD) + 1.6
        y = pen.lines(indent, y, part.warmup, style=CELL)
    y = pen.lines(0, y, part.note, style=CELL)
    y += 1.8 - CELL.lead_mm
    pen.rule(0, y, sheet.width, tone=sheet.palette.line)
    return y


def _column_heads(sheet: Sheet, y: float) -> None:
    """The heads of the columns with their baseline at `y`."""
    sheet.pen.stamp(
        "column-heads", 0, y, lambda pen: _draw_heads(pen, columns(sheet.width)), text=True
    )


def _draw_heads(pen: Pen, col: Columns) -> None:
    heads = (
        (col.name, tr("exercise")),
        (col.dose, tr("sets × reps")),
        (col.effort, tr("effort")),
        (col.load, tr("load")),
        (col.rest, tr("rest")),
    )
    ends = (*(x for x, _ in heads[1:]), col.cells)
    for (x, text), end in zip(heads, ends, strict=True):
        pen.text(x, 0, pen.fitting(text, LABEL, end - x - 0.8), style=LABEL, tone=pen.palette.mid)
    for number in range(CELLS_A_ROW):
        x = col.cells + (number + 0.5) * CELL_WIDE_MM
        pen.text(
            x,
            0,
            tr("set {number}", number=number + 1),
            style=LABEL,
            tone=pen.palette.mid,
            align=0.5,
        )


# -- weeks without a session -----------------------------------------------------------------


def _empty_spread(weeks: Sequence[int]) -> Iterator[Page]:
    """One spread for a run of weeks in which nothing is planned."""
    if not weeks:
        return
    first, last = weeks[0] + 1, weeks[-1] + 1
    title = (
        tr("Week {first}", first=first)
        if first == last
        else tr("Weeks {first} to {last}", first=first, last=last)
    )
    yield Page(f"week-{first}", _empty_drawing(tuple(weeks), title), title=title, even=True)
    yield Page(f"week-{first}-2", _empty_notes(tuple(weeks), title))


def _empty_drawing(weeks: tuple[int, ...], title: str) -> Draw:
    def draw(sheet: Sheet) -> None:
        pen, program = sheet.pen, sheet.book.issue.program
        sheet.title(title, tr("no session is planned"))
        y = 32.0
        y = pen.paragraph(
            0,
            y,
            tr(
                "Nothing is planned here yet, or the weeks are meant for rest. Write "
                "down what you do."
            ),
            width=sheet.width,
            style=BODY,
        )
        tall = min(11.0, (sheet.book.frame.last - y - 2) / len(weeks))
        for index in weeks:
            y += tall
            pen.text(0, y - 1.6, f"{index + 1}", style=BODY_BOLD)
            pen.text(10, y - 1.6, week_text(program.week_start(index)), style=CELL)
            pen.rule(0, y, sheet.width, tone=sheet.palette.line)
        sheet.foot()

    return draw


def _empty_notes(weeks: tuple[int, ...], title: str) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(title, tr("notes"))
        y = sheet.book.frame.first + 7.0
        program = sheet.book.issue.program
        paragraphs = [
            paragraph
            for index in weeks
            for paragraph in note_paragraphs(sheet.book, program.weeks[index])
        ]
        y = draw_notes(sheet, paragraphs, y)
        y = draw_boxes(sheet, y)
        draw_lines(sheet, y + 9.6)
        sheet.foot()

    return draw
