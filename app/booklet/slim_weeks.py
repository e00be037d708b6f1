"""The weeks on small paper and in large print: one column, a session after the other.

In large print every session begins a page. A row never splits; a session that goes on says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from app.booklet.book import Book, Page, Sheet, cut_short, note_in_lines
from app.booklet.column import Piece, column_pages, draw_pieces, hair, note_lines, section, text
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD, SMALL_HEAD, TITLE_18, Face, Style
from app.booklet.going_on import after_text
from app.booklet.pen import Box
from app.booklet.signs import strip
from app.booklet.slim_row import SlimRow, draw_row, lay_out
from app.booklet.warmup_text import warmup_text
from app.booklet.week_layout import day_heads_mm, note_paragraphs
from app.booklet.week_log import targets_of
from app.booklet.week_pages import cites_of, sums
from app.booklet.words import minutes_text, thousands, week_text
from app.domain import program
from app.domain.dose import session_minutes
from app.domain.form_names import day_name
from app.domain.program import Session, Week
from app.domain.wording import tr

_DAY = Style(Face.SERIF_BOLD, 14, 17)
_DAY_TITLE = Style(Face.SERIF, 14, 17)


@dataclass(frozen=True, slots=True)
class _Group:
    """A session as pieces: its head, as it stands first and where it goes on, and its rows."""

    head: tuple[Piece, ...]
    again: tuple[Piece, ...]
    rows: tuple[Piece, ...]


def pages(book: Book) -> Iterator[Page]:
    """The pages of every week that is printed; weeks in a row without anything share one."""
    empty: list[int] = []
    for index in book.week_range:
        week = book.issue.program.weeks[index]
        if any(day.sessions for day in week.days) or note_paragraphs(book, week):
            yield from _empty_pages(book, empty)
            empty = []
            yield from _week_pages(book, index)
        else:
            empty.append(index)
    yield from _empty_pages(book, empty)


def _week_pages(book: Book, index: int) -> Iterator[Page]:
    week = book.issue.program.weeks[index]
    laid = _on_pages(book, index, week)
    for number, pieces in enumerate(laid):
        last = number == len(laid) - 1
        yield Page(
            f"week-{index + 1}" if not number else f"week-{index + 1}-{number + 1}",
            _drawing(index, pieces, first=not number, last=last),
            title=tr("Week {number}", number=index + 1) if not number else "",
            cites=cites_of(book),
        )


def _drawing(
    index: int, pieces: tuple[Piece, ...], *, first: bool, last: bool
) -> Callable[[Sheet], None]:
    def draw(sheet: Sheet) -> None:
        _head(sheet, index)
        y = draw_pieces(sheet, pieces, sheet.book.frame.first + 1.0)
        if last:
            note_lines(tr("How it went"))(sheet, y)
        sheet.foot()

    return draw


def _head(sheet: Sheet, index: int) -> None:
    """The week's number and the strip of all weeks."""
    pen, p = sheet.pen, sheet.palette
    x = pen.text(0, 20.0, tr("Week {number}", number=index + 1), style=TITLE_18)
    of = tr("of {count}", count=len(sheet.book.season.weeks))
    x += 2.4 + pen.text(x + 2.4, 20.0, of, style=CELL, tone=p.mid)
    wide = min(62.0, sheet.width - x - 5.0)
    if wide >= 20.0:
        strip(sheet, Box(sheet.width - wide, 14.4, wide, 6.4), index)
    sheet.double_rule()


def _on_pages(book: Book, index: int, week: Week) -> list[tuple[Piece, ...]]:
    """The week's pieces page by page."""
    room = book.frame.room - 1.0
    pages: list[list[Piece]] = [[_opening(book, index)]]
    left = room - pages[0][0].height
    for group in _groups(book, index, week):
        whole = _tall(group.head) + _tall(group.rows)
        begin = _tall(group.head) + _tall(group.rows[:1])
        alone = book.options.large and len(pages[-1]) > (len(pages) == 1)
        bare = len(pages) == 1 and len(pages[0]) == 1 and _tall(group.head) <= left
        if (
            (begin > left and not bare)
            or alone
            or (whole > left and whole <= room and left < room / 2)
        ):
            pages.append([])
            left = room
        pages[-1] += group.head
        left -= _tall(group.head)
        for piece in group.rows:
            if piece.height > left:
                pages.append(list(group.again))
                left = room - _tall(group.again)
            pages[-1].append(piece)
            left -= piece.height
    for pieces in _log(book, index, week):
        if _tall(pieces) > left:
            pages.append([])
            left = room
        pages[-1] += pieces
        left -= _tall(pieces)
    return [tuple(page) for page in pages]


def _tall(pieces: Sequence[Piece]) -> float:
    return sum(piece.gap + piece.height for piece in pieces)


def _opening(book: Book, index: int) -> Piece:
    """Dates and sums of the week."""
    week = book.season.weeks[index]
    dates = week_text(week.start)
    if week.light:
        dates = tr("{dates}, light week", dates=dates)
    left = book.faces.width_mm(dates, CELL_BOLD) + 4.0
    room = book.frame.width - left
    said = next((s for s in sums(book, index) if book.faces.width_mm(s, CELL) <= room), "")

    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(0, y + 3.8, dates, style=CELL_BOLD)
        sheet.pen.text(left, y + 3.8, said, style=CELL, tone=sheet.palette.mid)

    return Piece(CELL.lead_mm + 1.0, draw)


def _groups(book: Book, index: int, week: Week) -> Iterator[_Group]:
    for number, day in enumerate(week.days):
        for turn, session in enumerate(day.sessions, start=1):
            name = program.day_name(number)
            if len(day.sessions) > 1:
                name = tr("{day}, session {number}", day=name, number=turn)
            yield _group(book, index, session, name)


def _group(book: Book, index: int, session: Session, day: str) -> _Group:
    rows = lay_out(book, session.slots)
    pieces: list[Piece] = [_session_head(book, session, day, goes_on=False)]
    if book.options.form and session.slots:
        pieces.append(_day_field(index, session, day))
    if session.slots:
        pieces += [_warmup(book, session)]
    if note := note_in_lines(book, session.note, style=CELL, width=book.frame.width):
        pieces.append(_note(note))
    again = (_session_head(book, session, day, goes_on=True),)
    if not rows:
        none = text(book, tr("No exercise is planned in this session."), mid=True)
        return _Group(tuple(pieces), again, (none,))
    placed = tuple(_row_piece(row, index, session) for row in rows)
    return _Group(tuple(pieces), again, placed)


def _row_piece(row: SlimRow, index: int, session: Session) -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        draw_row(sheet, row, y, week=index + 1, session=session.id)

    return Piece(row.height + 0.2, draw)


def _session_head(book: Book, session: Session, day: str, *, goes_on: bool) -> Piece:
    """Day and title over a rule, the minutes or 'goes on' at the right."""
    minutes = session_minutes(session, book.content.catalogue)
    aside = minutes_text(minutes.low, minutes.high) if session.slots else ""
    aside = tr("goes on") if goes_on else aside
    width = book.frame.width
    beside = book.faces.width_mm(day, _DAY) + book.faces.width_mm(aside, CELL) + 4.0
    title_x = book.faces.width_mm(day, _DAY) + 3.0
    inline = beside + book.faces.width_mm(session.title, _DAY_TITLE) + 4.0 <= width
    lines = () if inline else book.wrap(session.title, _DAY_TITLE, width)[:2]
    if goes_on and not inline:
        lines = (cut_short(book, session.title, width, _DAY_TITLE),)

    def draw(sheet: Sheet, y: float) -> None:
        base = y + 5.4
        sheet.pen.text(0, base, cut_short(book, day, width - 30.0, _DAY), style=_DAY)
        sheet.pen.text(width, base, aside, style=CELL, tone=sheet.palette.mid, align=1)
        if inline:
            sheet.pen.text(title_x, base, session.title, style=_DAY_TITLE)
        under = sheet.pen.lines(0, base + _DAY.lead_mm, lines, style=_DAY_TITLE)
        sheet.pen.rule(0, under - _DAY.lead_mm + 1.9, width, weight=1.2)

    return Piece(7.6 + len(lines) * _DAY.lead_mm, draw, gap=4.0, leads=True)


def _day_field(index: int, session: Session, day: str) -> Piece:
    """A field for the day on which the session was done, where that was another one."""
    tip = tr("Week {week}, {day}: done on (day, month, year)", week=index + 1, day=day)
    label = tr("Done on another day:")

    def draw(sheet: Sheet, y: float) -> None:
        x = sheet.pen.text(0, y + 5.6, label, style=CELL) + 2.0
        box = Box(x, y + 0.4, min(34.0, sheet.width - x), 8.2)
        sheet.pen.box(box, stroke=sheet.palette.cell)
        sheet.fields.text(sheet.pen, box, day_name(index + 1, session.id), tip=tip, most=12)

    return Piece(10.0, draw, gap=1.0, leads=True)


def _warmup(book: Book, session: Session) -> Piece:
    """The warm-up in lines, its name bold before the first."""
    head = tr("Warm-up")
    indent = book.faces.width_mm(head, CELL_BOLD) + 1.6
    words = warmup_text(book, session)
    width = book.frame.width
    first = book.wrap(words, CELL, width - indent)[:1]
    rest = book.wrap(words[len(first[0]) :] if first else "", CELL, width)

    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(0, y + 4.0, head, style=CELL_BOLD)
        sheet.pen.lines(indent, y + 4.0, first, style=CELL)
        sheet.pen.lines(0, y + 4.0 + CELL.lead_mm, rest, style=CELL)

    return Piece((1 + len(rest)) * CELL.lead_mm + 1.2, draw, leads=True)


def _note(lines: tuple[str, ...]) -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.lines(0, y + 3.8, lines, style=CELL)

    return Piece(len(lines) * CELL.lead_mm + 1.0, draw, leads=True)


# -- the end of a week -----------------------------------------------------------------------


def _log(book: Book, index: int, week: Week) -> Iterator[list[Piece]]:
    """What the coach wrote, what to eat, boxes for body mass and sleep; each stays in one."""
    paragraphs = note_paragraphs(book, week)
    for at, (head, lines) in enumerate(paragraphs):
        first = [section(book, tr("From your coach"), tr("about this week"))] if not at else []
        yield [*first, _paragraph(head, lines)]
    if targets := targets_of(book, index):
        kcal, protein = thousands(targets.kcal), f"{targets.macros.protein_g:.0f}"
        words = tr("{kcal} kcal, {protein} g protein", kcal=kcal, protein=protein)
        yield [section(book, tr("Eat"), tr("this week, each day")), _eat(book, words)]
    if not book.options.form:
        title = section(book, tr("Write down"), tr("before breakfast, on any three days"))
        yield [title, _log_boxes(book)]
    if index == book.week_range[-1] and (said := after_text(book)):
        yield [hair(), text(book, said, BODY_BOLD)]


def _paragraph(head: str, lines: tuple[str, ...]) -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(0, y + 4.0, head, style=BODY_BOLD)
        sheet.pen.lines(day_heads_mm(sheet.book) if head else 0.0, y + 4.0, lines, style=BODY)

    return Piece(len(lines) * BODY.lead_mm + 1.5, draw)


def _eat(book: Book, words: str) -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(0, y + 5.4, words, style=book.figure)
        page = sheet.page_text("energy")
        wide = sheet.pen.width(page, CELL)
        tone = sheet.palette.mid
        sheet.linked(sheet.width - wide, y + 5.4, page, to="energy", style=CELL, tone=tone)

    return Piece(7.4, draw)


def _log_boxes(book: Book) -> Piece:
    """Body mass and sleep, a box for each of three days; a line for the day above each."""
    tall = 12.0 / book.zoom if book.zoom > 1 else 9.0
    units = book.issue.client.units
    labels = (tr("Body mass, {units}", units=units), tr("Sleep, hours"))
    left = max(book.faces.width_mm(label, CELL) for label in labels) + 3.0
    wide = min((book.frame.width - left) / 3, 26.0)

    def draw(sheet: Sheet, y: float) -> None:
        pen, p = sheet.pen, sheet.palette
        pen.text(0, y + 5.0, tr("day"), style=CELL)
        for column in range(3):
            x = left + column * wide
            pen.rule(x + 2.0, y + 6.0, x + wide - 2.0, tone=p.cell)
            for line in range(2):
                pen.box(Box(x, y + 8.0 + line * tall, wide, tall), stroke=p.cell)
        for line, label in enumerate(labels):
            pen.text(0, y + 8.0 + (line + 0.5) * tall + 1.2, label, style=CELL)

    return Piece(8.0 + 2 * tall + 2.0, draw)


# -- weeks without anything ------------------------------------------------------------------


def _empty_pages(book: Book, weeks: Sequence[int]) -> Iterator[Page]:
    """A page for a run of weeks in which nothing is planned."""
    if not weeks:
        return
    first, last = weeks[0] + 1, weeks[-1] + 1
    title = tr("Week {number}", number=first)
    if first != last:
        title = tr("Weeks {first} to {last}", first=first, last=last)
    said = tr(
        "Nothing is planned here yet, or the weeks are meant for rest. Write down what you do."
    )
    pieces = [text(book, said)]
    pieces += [_empty_week(book, index) for index in weeks]
    if weeks[-1] == book.week_range[-1] and (after := after_text(book)):
        pieces.append(text(book, after, BODY_BOLD))
    yield from column_pages(
        book, f"week-{first}", title, pieces, fill=note_lines(tr("How it went"))
    )


def _empty_week(book: Book, index: int) -> Piece:
    dates = week_text(book.issue.program.week_start(index))

    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(0, y + 6.2, str(index + 1), style=SMALL_HEAD)
        sheet.pen.text(10.0, y + 6.2, dates, style=CELL)
        sheet.pen.rule(0, y + 8.6, sheet.width, tone=sheet.palette.line)

    return Piece(9.0, draw)
