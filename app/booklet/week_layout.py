"""Which session stands on which page of a week, as values.

A row never splits. A session is split where it is taller than a page, or from the left to the
right page where that keeps the week on one spread; its head and column heads then repeat. Rows
shrink before a session moves; type and cells never do.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.booklet.book import NOTE_LINE_MM, Book, note_in_lines
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD
from app.booklet.row import COMPACT_MM, ROOMY_MM, TIGHT_MM, Row, lay_out_rows
from app.booklet.warmup_text import warmup_text
from app.booklet.words import minutes_text
from app.domain.dose import session_minutes
from app.domain.program import Session, Week, day_name
from app.domain.wording import tr

_LEAD_FIRST, _LEAD = 6.4, 8.6  # from the rule above to the session's baseline
_RULE, _LINE, _HAIR, _HEADS, _UNDER_HEADS = 1.8, 4.6, 1.8, 3.8, 1.4
LOG_MM = 35.0
"""Room for the boxes for body mass and sleep with their title."""
LINES_MM = 12.0 + 2 * NOTE_LINE_MM
"""Room for the title of the lines with two of them."""
EAT_MM = 18.0
"""Room for the week's energy and protein."""


@dataclass(frozen=True, slots=True)
class SessionPart:
    """A session, or as many rows of it as stand on one page.

    warmup and note: text in lines, empty on a part that goes on from the page before.
    """

    day: str
    title: str
    minutes: str
    warmup: tuple[str, ...]
    note: tuple[str, ...]
    rows: tuple[Row, ...]
    goes_on: bool = False

    def head_mm(self, *, first: bool) -> float:
        """From the rule above it to the upper edge of its first row."""
        text = len(self.warmup) + len(self.note)
        lines = _LINE + (text - 1) * CELL.lead_mm + _HAIR if text else 0.0
        return (_LEAD_FIRST if first else _LEAD) + _RULE + lines + _HEADS + _UNDER_HEADS

    def height(self, *, first: bool) -> float:
        """With all its rows, mm."""
        rows = sum(row.height for row in self.rows) if self.rows else 8.0
        return self.head_mm(first=first) + rows


@dataclass(frozen=True, slots=True)
class WeekLayout:
    """The pages of one week; each holds parts of sessions, and the last of them the log.

    log_page: the page (from 0) on which the log stands.
    """

    pages: tuple[tuple[SessionPart, ...], ...]
    log_page: int


def lay_out_week(book: Book, week: Week, *, extra_mm: float = 0.0) -> WeekLayout:
    """The pages of a week: roomy where that costs no page, else tight, else split on a spread.

    extra_mm: room for the coach's notes and the energy targets beside the log.
    """
    parts = _parts(book, week)
    if not book.options.spread:
        return _drawn_together(book, parts, extra_mm=extra_mm)
    roomy = _lay_out(book, parts, extra_mm=extra_mm)
    short_page = book.frame.height_mm < _SHORT_PAGE_MM
    if not short_page and len(roomy.pages) == 2:
        return roomy
    closer = [
        replace(part, rows=lay_out_rows(book, tuple(r.slot for r in part.rows), row_mm=TIGHT_MM))
        for part in parts
    ]
    tight = _lay_out(book, closer, extra_mm=extra_mm)
    if len(tight.pages) > 2:
        split = _lay_out(book, closer, extra_mm=extra_mm, across=True)
        tight = split if len(split.pages) < len(tight.pages) else tight
    return tight if short_page or len(tight.pages) < len(roomy.pages) else roomy


def _drawn_together(book: Book, parts: list[SessionPart], *, extra_mm: float) -> WeekLayout:
    """The week on one page if that holds it, with one box a set; the log where there is room.

    What the coach wrote and the targets are never left out: they get a page of their own.
    """
    closer = [
        replace(part, rows=lay_out_rows(book, tuple(r.slot for r in part.rows), row_mm=COMPACT_MM))
        for part in parts
    ]
    pages = pack(book, closer, across=False)
    used = sum(part.height(first=not at) for at, part in enumerate(pages[-1]))
    log_page = len(pages) - 1
    if used + LOG_MM + extra_mm > book.frame.room:
        log_page += 1
        if extra_mm:
            pages.append([])
    return WeekLayout(tuple(tuple(page) for page in pages), log_page)


_SHORT_PAGE_MM = 290.0
"""Paper shorter than this takes the closer rows from the start."""


def _lay_out(
    book: Book, parts: list[SessionPart], *, extra_mm: float, across: bool = False
) -> WeekLayout:
    pages = pack(book, parts, across=across)
    while len(pages) < 2:
        pages.append([])
    log_page = len(pages) - 1
    used = sum(part.height(first=not at) for at, part in enumerate(pages[-1]))
    if used + LOG_MM + extra_mm > book.frame.room:
        log_page += 1
        pages.append([])
    if len(pages) % 2:
        pages.append([])
    return WeekLayout(tuple(tuple(page) for page in pages), log_page)


def _parts(book: Book, week: Week) -> list[SessionPart]:
    """Every session of the week, whole, its rows roomy."""
    parts = []
    for number, day in enumerate(week.days):
        for turn, session in enumerate(day.sessions, start=1):
            name = named_day(number, turn, of=len(day.sessions))
            parts.append(session_part(book, session, name))
    return parts


def named_day(day: int, turn: int, *, of: int) -> str:
    """'Tuesday', or 'Tuesday, session 2' where the day has several."""
    if of == 1:
        return day_name(day)
    return tr("{day}, session {turn}", day=day_name(day), turn=turn)


def session_part(book: Book, session: Session, day: str) -> SessionPart:
    """A session, whole, its rows roomy; day: how its day is named."""
    width = book.frame.width
    minutes = session_minutes(session, book.content.catalogue)
    warmup = warmup_text(book, session)
    note = note_in_lines(book, session.note, style=CELL, width=width)
    return SessionPart(
        day=day,
        title=session.title,
        minutes=minutes_text(minutes.low, minutes.high) if session.slots else "",
        warmup=book.wrap(warmup, CELL, width - warmup_indent_mm(book)) if session.slots else (),
        note=note,
        rows=lay_out_rows(book, session.slots, row_mm=ROOMY_MM),
    )


def pack(book: Book, parts: list[SessionPart], *, across: bool) -> list[list[SessionPart]]:
    """The parts on pages, in order; a part that fits no page is split between rows.

    across: a part may also go on from a left page to the right one beside it.
    """
    pages: list[list[SessionPart]] = [[]]
    room = left = book.frame.room
    queue = list(parts)
    while queue:
        part, first = queue.pop(0), not pages[-1]
        height = part.height(first=first)
        if height <= left:
            pages[-1].append(part)
            left -= height
            continue
        facing = across and len(pages) % 2 == 1
        if first or facing or part.height(first=True) > room:
            count = _fitting_rows(part, left, first=first)
            if count >= (1 if first else 2):
                head, tail = _split(part, count)
                pages[-1].append(head)
                part = tail
        pages.append([])
        left = room
        queue.insert(0, part)
    return pages


def _fitting_rows(part: SessionPart, room_mm: float, *, first: bool) -> int:
    """How many rows fit under the head; a pair stays together if it can."""
    room_mm -= part.head_mm(first=first)
    count = 0
    for row in part.rows:
        room_mm -= row.height
        if room_mm < 0:
            break
        count += 1
    together = count
    while 0 < together < len(part.rows) and part.rows[together].joins:
        together -= 1
    return together or count


def _split(part: SessionPart, count: int) -> tuple[SessionPart, SessionPart]:
    """The first `count` rows, and those that go on."""
    head = replace(part, rows=part.rows[:count])
    tail = replace(part, rows=part.rows[count:], warmup=(), note=(), goes_on=True, minutes="")
    return head, tail


def warmup_indent_mm(book: Book) -> float:
    """What the bold word before the warm-up takes of its lines."""
    return max(book.faces.width_mm(tr("Warm-up"), CELL_BOLD) + 1.6, 19.0)


def day_heads_mm(book: Book) -> float:
    """What the names of days take beside the notes on them."""
    widest = max(book.faces.width_mm(day_name(day), BODY_BOLD) for day in range(7))
    return max(widest + 2.0, 24.0)


def note_paragraphs(book: Book, week: Week) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What the coach wrote about the week and its days: a head and its lines."""
    texts = [("", week.note), *((day_name(at), day.note) for at, day in enumerate(week.days))]
    paragraphs = []
    for head, text in texts:
        indent = day_heads_mm(book) if head else 0.0
        lines = note_in_lines(book, text, style=BODY, width=book.frame.width - indent)
        if lines:
            paragraphs.append((head, lines))
    return tuple(paragraphs)
