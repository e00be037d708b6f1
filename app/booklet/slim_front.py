"""How to read the booklet, and what to mind, in one column."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.book import Book, Page, Sheet
from app.booklet.caution_page import (
    SAFE,
    SEE_FIRST,
    cites_of,
    contents_of,
    limitation_lines,
    screening_words,
)
from app.booklet.column import Piece, column_pages, hair, point, section, text
from app.booklet.content import Part
from app.booklet.fonts import BODY, CELL
from app.booklet.reading import STOP, STOP_TITLE, Word, effort_cites, sample, words_of
from app.booklet.signs import caution_box, caution_height
from app.domain.wording import tr


def caution(book: Book, title: str, sentences: tuple[str, ...], *, gap: float = 2.0) -> Piece:
    """A cautions box."""

    def draw(sheet: Sheet, y: float) -> None:
        caution_box(sheet, y, title, sentences)

    return Piece(caution_height(book, sentences, title) + 2.0, draw, gap=gap)


def reading_pages(book: Book) -> Iterator[Page]:
    """The words of a week page, one below the other, and when to stop."""
    pieces: list[Piece] = []
    for word in words_of(book, sample(book), lettered=False):
        pieces += _word(book, word)
    pieces.append(caution(book, tr(STOP_TITLE), tuple(tr(one) for one in STOP), gap=3.0))
    title = tr("How to read this booklet")
    yield from column_pages(book, "reading", title, pieces, cites=effort_cites())


def _word(book: Book, word: Word) -> Iterator[Piece]:
    yield section(book, word.head, gap=3.0)
    picture = word.picture
    shown = picture is not None and word.picture_wide_mm <= book.frame.width
    yield text(book, word.text, cites=word.cites, leads=shown)
    if picture is not None and shown:

        def draw(sheet: Sheet, y: float) -> None:
            picture(sheet, 0.0, y)

        yield Piece(word.picture_mm, draw)


def caution_pages(book: Book) -> Iterator[Page]:
    """What the screening said, who asks first, what was agreed on, and the contents."""
    pieces: list[Piece] = []
    if Part.READING not in book.options.parts:
        pieces.append(caution(book, tr(STOP_TITLE), tuple(tr(one) for one in STOP)))
    title, sentences = screening_words(book)
    pieces.append(caution(book, title, (*sentences, tr(SEE_FIRST[2]))))
    cites = cites_of(book)
    pieces.append(section(book, tr("Who asks first")))
    pieces.append(point(book, tr(SEE_FIRST[0]), cites=tuple(cite.key for cite in cites)))
    pieces.append(point(book, tr(SEE_FIRST[1])))
    if agreed := limitation_lines(book):
        pieces.append(section(book, tr("Left out for you"), tr("by agreement")))
        pieces += [point(book, line) for line in agreed]
    pieces.append(section(book, tr("Each time")))
    pieces += [point(book, tr(line)) for line in SAFE]
    pieces += [section(book, tr("In this booklet")), _contents(book), hair()]
    yield from column_pages(book, "cautions", tr("Before you begin"), pieces, cites=cites)


def _contents(book: Book) -> Piece:
    """Room for every part; which of them are there is known when it is drawn."""

    def draw(sheet: Sheet, y: float) -> None:
        base = y + 4.2
        for key, name in contents_of(sheet):
            page = sheet.page_text(key)
            room = sheet.width - sheet.pen.width(page, CELL) - 2.0
            sheet.linked(0, base, sheet.pen.fitting(name, BODY, room), to=key, style=BODY)
            sheet.pen.text(sheet.width, base, page, style=CELL, tone=sheet.palette.mid, align=1)
            base += BODY.lead_mm

    rows = len(book.options.parts) + 1
    return Piece(rows * BODY.lead_mm + 1.0, draw)
