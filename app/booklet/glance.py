"""The program at a glance: what happens over the weeks, as a chart and as a table of blocks."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.block_table import BlockRow, block_row, draw_key, draw_table, key_text
from app.booklet.book import Book, Draw, Page, Sheet
from app.booklet.fonts import BODY, CELL
from app.booklet.glance_chart import PANEL_MM, cites_of, draw_charts
from app.booklet.words import span_text
from app.domain.units import number_text
from app.domain.wording import listing, tr, trn

_LEAST_PANEL_MM = 40.0
"""How far a chart may shrink so that the last block does not need a page of its own."""


def pages(book: Book) -> Iterator[Page]:
    """The charts with the table of blocks, and further pages where the blocks need them."""
    rows = [block_row(book, number) for number in range(len(book.issue.program.blocks))]
    sheets: list[list[BlockRow]] = [[]]
    room = book.frame.last - _charts_mm(book)
    panel_mm = PANEL_MM - max(sum(row.height for row in rows) - room, 0.0) / 2
    if panel_mm < _LEAST_PANEL_MM:
        panel_mm = PANEL_MM
    room += 2 * (PANEL_MM - panel_mm) + 0.01
    for row in rows:
        if row.height > room:
            sheets.append([])
            room = book.frame.last - 42.0
        sheets[-1].append(row)
        room -= row.height
    for number, part in enumerate(sheets):
        yield Page(
            f"glance-{number}" if number else "glance",
            _drawing(tuple(part), panel_mm, first=not number),
            title="" if number else tr("The program at a glance"),
            cites=() if number else cites_of(book),
        )


def _charts_mm(book: Book) -> float:
    """What the first page takes besides the rows: all above them, and the key below."""
    said = book.wrap(intro(book), BODY, book.frame.width)
    key = book.wrap(key_text(book, cite=_CITE), CELL, book.frame.width)
    return 174.6 + len(said) * BODY.lead_mm + len(key) * CELL.lead_mm


_CITE = " [00]"
"""As wide as the number of a source, which is not known before the pages are laid out."""


def _drawing(rows: tuple[BlockRow, ...], panel_mm: float, *, first: bool) -> Draw:
    def draw(sheet: Sheet) -> None:
        program = sheet.book.issue.program
        dates = span_text(program.start, len(program.weeks))
        sheet.title(tr("The program at a glance"), dates)
        y = 32.0
        if first:
            y = sheet.pen.paragraph(0, y, intro(sheet.book), width=sheet.width, style=BODY)
            if any(not week.empty for week in sheet.book.season.weeks):
                y = draw_charts(sheet, y, panel_mm=panel_mm)
        y = draw_table(sheet, rows, y + 6.0)
        if first:
            draw_key(sheet, y + 5.0)
        sheet.foot()

    return draw


def intro(book: Book) -> str:
    """What happens over the weeks, in two or three sentences read off the plan itself."""
    season = book.season
    planned = [week for week in season.weeks if week.reps is not None and not week.light]
    count = len(season.weeks)
    if not planned:
        return trn("{n} week, nothing planned yet.", "{n} weeks, nothing planned yet.", count)
    first, last = planned[0].reps, planned[-1].reps
    assert first is not None
    assert last is not None
    was, becomes = number_text(first[1]), number_text(last[1])
    if last[1] < first[1]:
        text = trn(
            "In this week the repetitions come down, from about {was} to {becomes}, so that the "
            "loads can go up.",
            "For {n} weeks the repetitions come down, from about {was} to {becomes}, so that the "
            "loads can go up.",
            count,
            was=was,
            becomes=becomes,
        )
    elif last[1] > first[1]:
        text = trn(
            "In this week the repetitions go up, from about {was} to {becomes}.",
            "For {n} weeks the repetitions go up, from about {was} to {becomes}.",
            count,
            was=was,
            becomes=becomes,
        )
    else:
        text = trn(
            "In this week the core exercises stay near {reps} repetitions.",
            "For {n} weeks the core exercises stay near {reps} repetitions.",
            count,
            reps=was,
        )
    if season.light:
        light = trn(
            "Light, so that you recover: week {weeks}.",
            "Light, so that you recover: weeks {weeks}.",
            len(season.light),
            weeks=listing(tuple(map(str, season.light))),
        )
        return f"{text} {light}"
    return text
