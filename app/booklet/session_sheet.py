"""The sessions of one week, each on a sheet of its own: to take along without the booklet.

The rows are those of the booklet's week page, with the same boxes to write in.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from app.booklet.bind import open_book, print_pages
from app.booklet.book import Book, Draw, Page, Sheet
from app.booklet.content import Content, Options, Paper, Part
from app.booklet.fonts import BODY, CELL, SECTION
from app.booklet.signs import small_caution
from app.booklet.week_layout import SessionPart, named_day, pack, session_part
from app.booklet.week_pages import draw_session
from app.booklet.words import full_day_text
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.domain.work import Issue


def make_session_sheets(
    issue: Issue,
    content: Content,
    *,
    week: int,
    paper: Paper = Paper.A4,
    grey: bool = False,
) -> bytes:
    """The sheets of a week (from 0) as a PDF; the same issue gives the same bytes.

    Raises BookletError for letters that the fonts do not have, and CoachError for a week that the
    program does not have.
    """
    if not 0 <= week < len(issue.program.weeks):
        raise CoachError(
            tr("Week {week} is not in the program.", week=week + 1),
            mend=tr("Choose a week from 1 to {count}.", count=len(issue.program.weeks)),
        )
    only = Options(paper=paper, grey=grey, parts=frozenset({Part.WEEKS}))
    book = open_book(issue, content, only)
    return print_pages(book, tuple(_pages(book, week)))


def _pages(book: Book, index: int) -> Iterator[Page]:
    start = book.issue.program.start + timedelta(weeks=index)
    found = False
    for number, day in enumerate(book.issue.program.weeks[index].days):
        for turn, session in enumerate(day.sessions, start=1):
            name = named_day(number, turn, of=len(day.sessions))
            part = session_part(book, session, name)
            on = start + timedelta(days=number)
            for at, parts in enumerate(pack(book, [part], across=False)):
                found = True
                yield Page(
                    f"session-{number}-{turn}-{at}",
                    _drawing(index, parts, on),
                    title=name if not at else "",
                )
    if not found:
        yield Page("session-none", _nothing(index))


def _drawing(index: int, parts: list[SessionPart], on: date) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(tr("Week {number}", number=index + 1), full_day_text(on))
        y = sheet.book.frame.first
        for at, part in enumerate(parts):
            y = draw_session(sheet, part, y, first=not at)
        _below(sheet, y)
        sheet.foot()

    return draw


def _below(sheet: Sheet, y: float) -> None:
    """How to write, when to stop, and lines for remarks as far as there is room."""
    last = sheet.book.frame.last
    if y + 12.0 > last:
        return
    text = tr("Each box is one set: load above, reps below.")
    sheet.pen.text(0, y + 5.0, text, style=CELL, tone=sheet.palette.mid)
    stop = tr("Stop at pain, chest pain, dizziness or unusual breathlessness, and ask.")
    small_caution(sheet, y + 10.6, stop)
    if y + 32.0 > last:
        return
    sheet.pen.text(0, y + 20.0, tr("Remarks"), style=SECTION)
    sheet.note_lines(y + 30.0, last - 3.0)


def _nothing(index: int) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(tr("Week {number}", number=index + 1))
        text = tr("No session is planned in this week.")
        sheet.pen.text(0, 34.0, text, style=BODY, tone=sheet.palette.mid)
        sheet.foot()

    return draw
