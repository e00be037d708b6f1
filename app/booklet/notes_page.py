"""A page of lines for handwriting: it fills a booklet up to a multiple of four."""

from __future__ import annotations

from app.booklet.book import Page, Sheet
from app.domain.wording import tr


def page(key: str) -> Page:
    """A page for notes."""
    return Page(key, _draw)


def _draw(sheet: Sheet) -> None:
    sheet.title(tr("Notes"))
    sheet.note_lines(38.0, sheet.book.frame.last)
    sheet.foot()
