"""Signs that several pages share: the cautions box, its small triangle, the week strip."""

from __future__ import annotations

from functools import partial

from app.booklet.book import Book, Sheet
from app.booklet.fonts import BODY, CELL, LABEL_BOLD, SECTION, Face, Style
from app.booklet.pen import Box, Pen

_BAND_MM = 13.0
_MARK = Style(Face.BOLD, 14, 14)


def caution_lines(book: Book, sentences: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The sentences of a cautions box, each in its lines."""
    width = book.frame.width - _BAND_MM - 13.0
    return tuple(book.wrap(sentence, BODY, width) for sentence in sentences)


def _title_lines(book: Book, title: str) -> tuple[str, ...]:
    return book.wrap(title, SECTION, book.frame.width - _BAND_MM - 8.0)


def caution_height(book: Book, sentences: tuple[str, ...], title: str = "") -> float:
    """How tall the cautions box is, mm; title: what stands in it, if that may need two lines."""
    count = sum(len(lines) for lines in caution_lines(book, sentences))
    more = max(len(_title_lines(book, title)) - 1, 0) * SECTION.lead_mm
    return 10.6 + more + count * BODY.lead_mm + 0.8 * len(sentences)


def caution_box(sheet: Sheet, y: float, title: str, sentences: tuple[str, ...]) -> float:
    """Draw the cautions box from `y` down; gives back its lower edge."""
    pen, p = sheet.pen, sheet.palette
    height = caution_height(sheet.book, sentences, title)
    pen.box(Box(0, y, sheet.width, height), fill=p.tint)
    band = Box(0, y, _BAND_MM, height)
    pen.box(band, fill=p.paper)
    pen.hatch(band, gap=1.15, weight=0.8)
    pen.rule(_BAND_MM, y, _BAND_MM, to_y=y + height, weight=0.9)
    pen.box(Box(0, y, sheet.width, height), stroke=p.ink, weight=0.9)
    x = _BAND_MM / 2
    pen.polygon(
        ((x, y + 3.2), (x + 5.4, y + 12.6), (x - 5.4, y + 12.6)),
        fill=p.paper,
        stroke=p.ink,
        weight=1.0,
    )
    pen.text(x, y + 11.4, "!", style=_MARK, align=0.5)
    under = pen.lines(_BAND_MM + 5, y + 6.4, _title_lines(sheet.book, title), style=SECTION)
    at = under - SECTION.lead_mm + 5.8
    for lines in caution_lines(sheet.book, sentences):
        pen.box(Box(_BAND_MM + 5, at - 1.7, 1.1, 1.1), fill=p.ink)
        at = pen.lines(_BAND_MM + 8.4, at, lines, style=BODY) + 0.8
    return y + height


def small_caution(sheet: Sheet, y: float, text: str) -> None:
    """The small triangle with one line beside it; a second one above where it needs two."""
    pen, p = sheet.pen, sheet.palette
    lines = sheet.book.wrap(text, CELL, sheet.width - 7.0)
    pen.polygon(((2.5, y - 3.6), (5.0, y + 0.8), (0.0, y + 0.8)), stroke=p.ink, weight=0.8)
    pen.text(2.5, y + 0.3, "!", style=LABEL_BOLD, align=0.5)
    pen.lines(7.0, y - (len(lines) - 1) * CELL.lead_mm, lines, style=CELL)


def strip(sheet: Sheet, box: Box, open_week: int) -> None:
    """The sets of every week as small bars, the open week in the accent under a pointer.

    open_week: its index from 0. Weeks before it are grey, weeks to come pale, light ones hatched.
    """
    pen, p = sheet.pen, sheet.palette
    pitch = box.width / len(sheet.book.season.weeks)
    x = box.x + open_week * pitch
    for name, tone, left, right in (
        ("strip-past", p.line, box.x - 1, x),
        ("strip-to-come", p.tint2, x + pitch, box.right + 1),
    ):
        with pen.clipped(Box(left, box.y - 1, right - left, box.height + 2)):
            pen.stamp(name, box.x, box.y, partial(_draw_bars, sheet=sheet, box=box, tone=tone))
    bar = _bar(sheet.book, open_week, box)
    if bar.height:
        bar = Box(box.x + bar.x, box.y + bar.y, bar.width, bar.height)
        pen.box(bar, fill=p.accent, stroke=p.ink, weight=0.3)
    x += pitch / 2
    pen.polygon(((x - 1.2, box.y - 1.9), (x + 1.2, box.y - 1.9), (x, box.y - 0.4)), fill=p.ink)
    pen.rule(box.x, box.bottom, box.right, weight=0.6)


def _bar(book: Book, number: int, box: Box) -> Box:
    """The bar of a week, from the strip's upper left corner."""
    pitch = box.width / len(book.season.weeks)
    wide = max(pitch - 0.5, pitch * 0.75)
    height = book.season.weeks[number].sets / (book.season.most_sets or 1.0) * (box.height - 0.2)
    return Box(number * pitch + (pitch - wide) / 2, box.height - height, wide, height)


def _draw_bars(pen: Pen, *, sheet: Sheet, box: Box, tone: str) -> None:
    """All bars in one tone, light weeks hatched."""
    p = pen.palette
    for number, week in enumerate(sheet.book.season.weeks):
        bar = _bar(sheet.book, number, box)
        if not bar.height:
            continue
        pen.box(bar, fill=p.paper if week.light else tone)
        if week.light:
            pen.hatch(bar, gap=0.75, weight=0.35, tone=p.mid)
        pen.box(bar, stroke=p.cell, weight=0.3)
