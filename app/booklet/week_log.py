"""The log of a week: the coach's notes, the targets, boxes for body mass and sleep, lines."""

from __future__ import annotations

from collections.abc import Sequence

from app.booklet.book import NOTE_LINE_MM, Book, Sheet
from app.booklet.content import Part
from app.booklet.fonts import (
    BODY,
    BODY_BOLD,
    CELL,
    FIGURE,
    LABEL,
    SESSION,
    SESSION_TITLE,
)
from app.booklet.pen import Box, Pen
from app.booklet.week_layout import EAT_MM, LINES_MM, day_heads_mm, note_paragraphs
from app.booklet.words import thousands
from app.domain.energy import EnergyPlan, EnergyWeek
from app.domain.units import number_text
from app.domain.wording import mark, tr

_DAYS = (
    mark("Mon"),
    mark("Tue"),
    mark("Wed"),
    mark("Thu"),
    mark("Fri"),
    mark("Sat"),
    mark("Sun"),
)
LOG_CELL_MM = (22.0, 9.0)
"""Width and height of a box for body mass or sleep."""


def draw_log(sheet: Sheet, index: int, y: float, *, first: bool) -> None:
    """The coach's notes, the boxes for body mass and sleep, and lines to write on."""
    week = sheet.book.issue.program.weeks[index]
    y += 7.0 if first else 9.4
    y = draw_notes(sheet, note_paragraphs(sheet.book, week), y)
    y = _draw_targets(sheet, index, y)
    y = draw_boxes(sheet, y)
    draw_lines(sheet, y + 9.6)


def targets_of(book: Book, index: int) -> EnergyWeek | None:
    """The energy and protein of a week, if the booklet has any."""
    energy = book.energy
    if not isinstance(energy, EnergyPlan) or Part.ENERGY not in book.options.parts:
        return None
    return next((week for week in energy.weeks if week.number == index + 1), None)


def _draw_targets(sheet: Sheet, index: int, y: float) -> float:
    """The week's energy and protein; gives back the baseline that may follow."""
    week = targets_of(sheet.book, index)
    if week is None:
        return y
    pen, p = sheet.pen, sheet.palette
    page = sheet.page_text("energy")
    wide = pen.width(page, CELL)
    sheet.linked(sheet.width - wide, y, page, to="energy", style=CELL, tone=p.mid)
    y = _section(sheet, y, tr("Eat"), tr("this week, each day")) + 6.6
    parts = (
        (thousands(week.kcal), "kcal"),
        (number_text(week.macros.protein_g, 0), tr("g protein")),
    )
    for number, (figure, unit) in enumerate(parts):
        x = number * 40.0
        x += pen.text(x, y, figure, style=FIGURE) + 1.8
        pen.text(x, y, unit, style=BODY)
    return y + EAT_MM - 8.4  # the title and the figures took that much


def draw_notes(sheet: Sheet, paragraphs: Sequence[tuple[str, tuple[str, ...]]], y: float) -> float:
    """What the coach wrote about the week; gives back the baseline that may follow."""
    if not paragraphs:
        return y
    pen = sheet.pen
    y = _section(sheet, y, tr("From your coach"), tr("about this week")) + 5.6
    for head, lines in paragraphs:
        if head:
            pen.text(0, y, head, style=BODY_BOLD)
        y = pen.lines(day_heads_mm(sheet.book) if head else 0.0, y, lines, style=BODY) + 1.5
    return y + 4.0


def draw_boxes(sheet: Sheet, y: float) -> float:
    """Seven boxes for body mass and seven for sleep; gives back their lower edge."""
    pen = sheet.pen
    y = _section(sheet, y, tr("Write down"), tr("before breakfast, on any three days"))
    pen.stamp("log", 0, y, lambda new: _draw_log_boxes(new, sheet), text=True)
    return y + 5.4 + 2 * LOG_CELL_MM[1]


def _draw_log_boxes(pen: Pen, sheet: Sheet) -> None:
    """The boxes and what stands beside and above them, under a rule at 0."""
    p = pen.palette
    boxes = log_boxes(sheet.width, 5.4)
    for day, box in zip(_DAYS, boxes[0], strict=True):
        pen.text(box.x + box.width / 2, 4.2, tr(day), style=LABEL, tone=p.mid, align=0.5)
    units = sheet.book.issue.client.units
    for line, label in zip(
        boxes, (tr("Body mass, {units}", units=units), tr("Sleep, hours")), strict=True
    ):
        words = sheet.book.wrap(label, CELL, line[0].x - 1.4)
        middle = line[0].y + LOG_CELL_MM[1] / 2 + 1.2
        pen.lines(0, middle - (len(words) - 1) * CELL.lead_mm / 2, words, style=CELL)
        for box in line:
            pen.box(box, stroke=p.cell)
        pen.rule(line[0].x, line[0].y, line[-1].right, weight=0.9)


def log_boxes(width: float, y: float) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """The boxes of the log, for body mass and for sleep, their upper edge at `y`."""
    wide, tall = LOG_CELL_MM
    left = width - 7 * wide
    upper, lower = (
        tuple(Box(left + number * wide, y + line * tall, wide, tall) for number in range(7))
        for line in range(2)
    )
    return upper, lower


def draw_lines(sheet: Sheet, y: float) -> None:
    """Lines to write on, down to the foot; left out where there is room for less than two."""
    if y + LINES_MM - 12.0 > sheet.book.frame.last:
        return
    y = _section(sheet, y, tr("How it went"), tr("what was heavy, what ached, what you changed"))
    sheet.note_lines(y + NOTE_LINE_MM, sheet.book.frame.last)


def _section(sheet: Sheet, y: float, text: str, rest: str) -> float:
    """A title as large as a session's; gives back its rule."""
    width = sheet.pen.text(0, y, text, style=SESSION)
    rest = sheet.pen.fitting(rest, SESSION_TITLE, sheet.width - width - 3.2)
    sheet.pen.text(width + 3.2, y, rest, style=SESSION_TITLE)
    sheet.pen.rule(0, y + 1.8, sheet.width, weight=1.2)
    return y + 1.8
