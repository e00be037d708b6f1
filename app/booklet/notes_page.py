"""A page of lines for handwriting: it fills a booklet up to a multiple of four."""

from __future__ import annotations

from app.booklet.book import Page, Sheet


def page(key: str) -> Page:
    """A page for notes."""
    return Page(key, _draw)


def _draw(sheet: Sheet) -> None:
    sheet.title("Notes")
    sheet.note_lines(38.0, sheet.book.frame.last)
    sheet.foot()
