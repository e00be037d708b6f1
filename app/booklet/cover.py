"""The cover: name, client, the cloth, who hands it out."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet import cloth
from app.booklet.book import SPINE_MM, Book, Page, Sheet, cut_short
from app.booklet.fonts import (
    BODY,
    COVER,
    COVER_26,
    COVER_32,
    COVER_NAME,
    COVER_TEXT,
    LABEL,
    SECTION,
    SECTION_REST,
    Style,
)
from app.booklet.going_on import after_text, before_text
from app.booklet.mark import MOST_MM, SMALL_MM, draw_mark
from app.booklet.pen import Box
from app.booklet.words import span_text, week_text
from app.domain.wording import listing, tr, trn

_BAND_MM = 9.0
_INDENT_MM = 8.0
_LEAST_CLOTH_MM = 50.0


def pages(book: Book) -> Iterator[Page]:
    """The cover, one page."""
    yield Page("cover", _draw, title=tr("Cover"))


def _draw(sheet: Sheet) -> None:
    book, pen, p = sheet.book, sheet.pen, sheet.palette
    program, client = book.issue.program, book.issue.client
    _spine(sheet)
    width = sheet.width - _INDENT_MM
    stacked = book.options.slim
    begin = 24.0 if stacked else 31.0
    kind = _kind(book)
    sizes = (Style(BODY.face, 12, 16), BODY, LABEL)
    kind_style = next((size for size in sizes if pen.width(kind, size) <= width), LABEL)
    pen.text(_INDENT_MM, begin, pen.fitting(kind, kind_style, width), style=kind_style, tone=p.mid)
    if book.content.mark:
        draw_mark(
            pen,
            book.content.mark,
            right=sheet.width,
            top=8.0 if stacked else 10.0,
            grey=book.options.grey,
            most=SMALL_MM if stacked else MOST_MM,
        )
    lines, style = title_lines(book, program.name, width)
    y = begin + 1.0
    if more := " ".join(part for part in (before_text(book), after_text(book)) if part):
        y = pen.paragraph(_INDENT_MM, begin + 5.4, more, width=width, style=BODY, tone=p.mid) - 3.2
    y += style.size * 0.36 - 1
    y = pen.lines(_INDENT_MM, y, lines, style=style)
    y -= style.lead_mm - 12.0
    style = COVER_NAME
    name = book.wrap(tr("for {client}", client=client.name), style, width)
    if len(name) > 2:
        style = SECTION_REST
        name = book.wrap(tr("for {client}", client=client.name), style, width)
    y = pen.lines(_INDENT_MM, y, name, style=style)
    foot = book.frame.height_mm - (40.5 if stacked else 31.0)
    key = book.wrap(_key(book), COVER_TEXT, width)
    below = max(22.0, 11.0 + len(key) * COVER_TEXT.lead_mm)
    least = 84.0 if book.frame.height_mm > 290 else 76.0
    top = y + 3.0 if stacked and book.frame.height_mm < 230 else max(y + 3.0, least)
    box = Box(_INDENT_MM, top, width, foot - below - top)
    if box.height > _LEAST_CLOTH_MM:
        y = cloth.draw(sheet, box, names_mm=26.0)
        pen.lines(_INDENT_MM, y + 8.5, key, style=COVER_TEXT, tone=p.mid)
    if stacked:
        _people_stacked(sheet, foot, width)
    else:
        _people(sheet, foot, width)


def title_lines(book: Book, name: str, width: float) -> tuple[tuple[str, ...], Style]:
    """A program's name in two lines if it can be: in the largest of three sizes that allows it."""
    for style in (COVER, COVER_32, COVER_26):
        lines = book.wrap(name, style, width)
        if len(lines) == 1 and len(name.split()) > 2:
            return _balanced(book, name.split(), style), style
        if len(lines) <= 2:
            return lines, style
    small = SECTION if len(book.wrap(name, COVER_26, width)) > 4 else COVER_26
    return book.wrap(name, small, width), small


def _balanced(book: Book, words: list[str], style: Style) -> tuple[str, str]:
    """A short name in two lines of like length: it stands better."""
    breaks = ((" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words)))
    return min(breaks, key=lambda pair: max(book.faces.width_mm(part, style) for part in pair))


def _kind(book: Book) -> str:
    count = len(book.issue.program.weeks)
    weeks = book.week_range
    if len(weeks) == count:
        return trn("Training booklet, {n} week", "Training booklet, {n} weeks", count)
    return trn(
        "Training booklet, week {last} of {count}",
        "Training booklet, weeks {first} to {last} of {count}",
        len(weeks),
        first=weeks.start + 1,
        last=weeks.stop,
        count=count,
    )


def _key(book: Book) -> str:
    """How to read the cloth, in one or two sentences."""
    if not cloth.threads(book):
        return tr("Your program as cloth: no set is planned yet, so there is no thread across.")
    text = tr(
        "Your program as cloth. Threads down are weeks, threads across are "
        "muscles: the thicker the thread, the more sets that week."
    )
    light = tuple(str(number) for number in book.season.light)
    if not light:
        return text
    told = trn(
        "Week {weeks} is a light one.",
        "Light weeks are {weeks}.",
        len(light),
        weeks=listing(light),
    )
    return f"{text} {told}"


def _spine(sheet: Sheet) -> None:
    """The band with one row of stitches along the spine."""
    pen, p, height = sheet.pen, sheet.palette, sheet.book.frame.height_mm
    pen.box(Box(-SPINE_MM, 0, _BAND_MM, height), fill=p.slate)
    x = -SPINE_MM + _BAND_MM / 2
    y = 10.0
    while y < height - 12:
        pen.rule(x, y, x, to_y=min(y + 4.6, height - 12), weight=1.0, tone=p.paper)
        y += 7.9


_LEAST_TEAM_MM = 12.0
"""With less beside the dates a team's name would fall apart into letters."""


def _people(sheet: Sheet, y: float, width: float) -> None:
    """Team, coach and dates at the foot of the cover."""
    pen, p, issue = sheet.pen, sheet.palette, sheet.book.issue
    right = _INDENT_MM + width
    pen.rule(_INDENT_MM, y, right, tone=p.line)
    dates = span_text(issue.program.start, len(issue.program.weeks))
    style = BODY if pen.width(dates, BODY) < width - 24.0 else LABEL
    taken = pen.text(right, y + 6.2, pen.fitting(dates, style, width), style=style, align=1)
    made = pen.text(right, y + 12.4, tr("made with Weekloom"), style=BODY, tone=p.mid, align=1)
    team = issue.client.team or issue.coach.team
    room = width - taken - 6
    lines = in_lines(sheet.book, team, room, most=2) if room > _LEAST_TEAM_MM else ()
    y = pen.lines(_INDENT_MM, y + 6.2, lines, style=BODY) if lines else y + 12.4
    coach = ", ".join(part for part in (issue.coach.name, issue.coach.contact) if part)
    if coach:
        most = 2 if len(lines) < 2 else 1
        text = in_lines(sheet.book, tr("Coach: {coach}", coach=coach), width - made - 6, most=most)
        pen.lines(_INDENT_MM, y + (0.9 if len(lines) == 1 else 0.0), text, style=BODY, tone=p.mid)


def _people_stacked(sheet: Sheet, y: float, width: float) -> None:
    """Team, coach and dates below each other, where they have no room side by side."""
    pen, p, book, issue = sheet.pen, sheet.palette, sheet.book, sheet.book.issue
    pen.rule(_INDENT_MM, y, _INDENT_MM + width, tone=p.line)
    start, weeks = issue.program.start, len(issue.program.weeks)
    dates = span_text(start, weeks)
    if pen.width(dates, BODY) > width:
        dates = week_text(start, weeks)
    y = pen.lines(_INDENT_MM, y + 6.2, in_lines(book, dates, width, most=1), style=BODY)
    team = in_lines(book, issue.client.team or issue.coach.team, width, most=1)
    y = pen.lines(_INDENT_MM, y, team, style=BODY)
    coach = ", ".join(part for part in (issue.coach.name, issue.coach.contact) if part)
    if coach:
        text = in_lines(book, tr("Coach: {coach}", coach=coach), width, most=2)
        y = pen.lines(_INDENT_MM, y, text, style=BODY, tone=p.mid)
    pen.text(_INDENT_MM, y, tr("made with Weekloom"), style=BODY, tone=p.mid)


def in_lines(book: Book, text: str, width: float, *, most: int) -> tuple[str, ...]:
    """A text in at most so many lines; what is longer ends in an ellipsis."""
    lines = book.wrap(text, BODY, width)
    if len(lines) <= most:
        return lines
    rest = " ".join(lines[most - 1 :])
    return (*lines[: most - 1], cut_short(book, rest, width, BODY))
