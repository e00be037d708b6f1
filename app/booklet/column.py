"""One column of pieces below each other: the pages of small paper and of large print.

A piece stays in one; what leads into the next one never stands last on a page. Wide paper is laid
out by hand; here everything follows from the width, so that any paper and any language fits.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from app.booklet.book import NOTE_LINE_MM, Book, Cite, Page, Sheet
from app.booklet.fonts import BODY, BODY_BOLD, CELL, SMALL_HEAD, Style
from app.booklet.pen import Box

Draw = Callable[[Sheet, float], None]
_POINT_MM = 4.2
_NUMBER_MM = 6.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a column: how tall it is, mm, and how it is drawn from an upper edge down.

    gap: room above it, which the top of a page does without; leads: the next piece follows on the
    same page.
    """

    height: float
    draw: Draw
    gap: float = 0.0
    leads: bool = False


def packed(pieces: Iterable[Piece], room: float) -> tuple[tuple[Piece, ...], ...]:
    """The pieces page by page; a piece taller than a page gets one of its own."""
    runs: list[list[Piece]] = [[]]
    for piece in pieces:
        runs[-1].append(piece)
        if not piece.leads:
            runs.append([])
    pages: list[list[Piece]] = [[]]
    left = room
    for run in filter(None, runs):
        tall = sum(piece.gap + piece.height for piece in run)
        if tall > left and pages[-1]:
            pages.append([])
            left = room
        if not pages[-1]:
            run[0] = replace(run[0], gap=0.0)
            tall = sum(piece.gap + piece.height for piece in run)
        pages[-1] += run
        left -= tall
    return tuple(tuple(page) for page in pages)


def column_pages(
    book: Book,
    key: str,
    title: str,
    pieces: Iterable[Piece],
    *,
    aside: str = "",
    outline: str = "",
    cites: tuple[Cite, ...] = (),
    fill: Draw | None = None,
) -> Iterator[Page]:
    """The pieces on pages under one title.

    outline: the first page's entry, the title if empty; fill: draws on what is left of the last
    page, from an upper edge down to the frame's last place.
    """
    pages = packed(pieces, book.frame.room)
    for number, page in enumerate(pages):
        yield Page(
            f"{key}-{number}" if number else key,
            _drawing(page, title, aside, fill=fill if number == len(pages) - 1 else None),
            title="" if number else outline or title,
            cites=() if number else cites,
        )


def _drawing(
    pieces: tuple[Piece, ...], title: str, aside: str, *, fill: Draw | None
) -> Callable[[Sheet], None]:
    def draw(sheet: Sheet) -> None:
        sheet.title(title, aside)
        y = draw_pieces(sheet, pieces, sheet.book.frame.first + 1.0)
        if fill is not None:
            fill(sheet, y)
        sheet.foot()

    return draw


def draw_pieces(sheet: Sheet, pieces: Iterable[Piece], y: float) -> float:
    """Draw pieces below each other from `y` down; gives back the lower edge."""
    for piece in pieces:
        y += piece.gap
        piece.draw(sheet, y)
        y += piece.height
    return y


# -- pieces that many pages have -------------------------------------------------------------


def section(book: Book, text: str, rest: str = "", *, gap: float = 6.0) -> Piece:
    """A section's title over its rule; what does not fit beside it stands below."""
    lines = book.wrap(f"{text}", SMALL_HEAD, book.frame.width)
    beside = book.wrap(rest, CELL, book.frame.width)
    width = book.faces.width_mm(lines[-1] if lines else "", SMALL_HEAD) + 2.4
    inline = len(beside) == 1 and width + book.faces.width_mm(rest, CELL) <= book.frame.width
    more = () if inline else beside
    lead = SMALL_HEAD.lead_mm

    def draw(sheet: Sheet, y: float) -> None:
        at = sheet.pen.lines(0, y + 4.4, lines, style=SMALL_HEAD) - lead
        mid = sheet.palette.mid
        if inline:
            sheet.pen.text(width, at, rest, style=CELL, tone=mid)
        sheet.pen.rule(0, at + 1.8, sheet.width, weight=0.9)
        sheet.pen.lines(0, at + 6.4, more, style=CELL, tone=mid)

    tall = 4.4 + (len(lines) - 1) * lead + 3.2 + len(more) * CELL.lead_mm
    return Piece(tall, draw, gap=gap, leads=True)


def room_for(cites: tuple[str, ...]) -> str:
    """As wide as the numbers of these sources: they are not known before all pages are."""
    return f" [{', '.join('00' for _ in cites)}]" if cites else ""


def text(
    book: Book,
    words: str,
    style: Style = BODY,
    *,
    cites: tuple[str, ...] = (),
    after: float = 1.4,
    leads: bool = False,
    mid: bool = False,
) -> Piece:
    """A paragraph, with the numbers of its sources behind it."""
    count = len(book.wrap(words + room_for(cites), style, book.frame.width))

    def draw(sheet: Sheet, y: float) -> None:
        said = f"{words}{sheet.cite(*cites)}" if cites else words
        tone = sheet.palette.mid if mid else ""
        base = y + style.size * 0.36
        sheet.pen.paragraph(0, base, said, width=sheet.width, style=style, tone=tone)

    return Piece(count * style.lead_mm + after, draw, leads=leads)


def point(book: Book, words: str, *, cites: tuple[str, ...] = ()) -> Piece:
    """A sentence behind a square point."""
    inner = book.frame.width - _POINT_MM
    count = len(book.wrap(words + room_for(cites), BODY, inner))

    def draw(sheet: Sheet, y: float) -> None:
        base = y + BODY.size * 0.36
        sheet.pen.box(Box(0, base - 1.9, 1.2, 1.2), fill=sheet.palette.ink)
        said = f"{words}{sheet.cite(*cites)}"
        sheet.pen.paragraph(_POINT_MM, base, said, width=inner, style=BODY)

    return Piece(count * BODY.lead_mm + 0.9, draw)


def numbered(book: Book, number: int, words: str) -> Piece:
    """A step behind its number."""
    lines = book.wrap(words, BODY, book.frame.width - _NUMBER_MM)

    def draw(sheet: Sheet, y: float) -> None:
        base = y + BODY.size * 0.36
        sheet.pen.text(0, base, str(number), style=BODY_BOLD)
        sheet.pen.lines(_NUMBER_MM, base, lines, style=BODY)

    return Piece(len(lines) * BODY.lead_mm + 0.9, draw)


def hair(gap: float = 0.6, after: float = 1.2, *, leads: bool = False) -> Piece:
    """A hair line across the column."""

    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.rule(0, y, sheet.width, tone=sheet.palette.hair)

    return Piece(after, draw, gap=gap, leads=leads)


def note_lines(head: str) -> Draw:
    """Fills what is left of a page with lines for handwriting, where two of them have room."""

    def draw(sheet: Sheet, y: float) -> None:
        last = sheet.book.frame.last
        if sheet.book.options.form or y + 8.0 + 2 * NOTE_LINE_MM > last:
            return
        sheet.pen.text(0, y + 7.0, head, style=SMALL_HEAD)
        sheet.note_lines(y + 7.0 + NOTE_LINE_MM, last)

    return draw
