"""A booklet of some of the weeks: what it continues, and what continues it."""

from __future__ import annotations

from app.booklet.book import Book
from app.domain.wording import tr


def _span(first: int, last: int) -> str:
    """'week 7' or 'weeks 7 to 21'."""
    if first == last:
        return tr("week {number}", number=first)
    return tr("weeks {first} to {last}", first=first, last=last)


def before_text(book: Book) -> str:
    """Which weeks came before those that are printed; nothing if there are none."""
    weeks = book.week_range
    if weeks.start == 0:
        return ""
    return tr("It continues {weeks}.", weeks=_span(1, weeks.start))


def after_text(book: Book) -> str:
    """Which weeks follow those that are printed; nothing if there are none."""
    weeks, count = book.week_range, len(book.issue.program.weeks)
    if weeks.stop == count:
        return ""
    said = _span(weeks.stop + 1, count)
    return tr("Your program continues: {weeks} come in the next booklet.", weeks=said)
