"""The season on one wide page for the wall: every muscle's sets week by week, and boxes to tick.

Read from a step away: weeks run across, muscles stand below each other, a bar's height is its
sets. A session that was done is ticked off in the last row.
"""

from __future__ import annotations

from datetime import date

from reportlab.pdfgen.canvas import Canvas

from app.booklet.bind import open_book
from app.booklet.book import Book
from app.booklet.cloth import Thread, threads
from app.booklet.content import Content, Options, Paper
from app.booklet.flow import FOOT_MM, MARGIN_MM, Ground, Heading, open_canvas
from app.booklet.fonts import (
    BODY,
    CELL,
    CELL_BOLD,
    LABEL,
    LABEL_BOLD,
    SMALL_HEAD,
    Style,
    refuse_missing,
)
from app.booklet.pen import Box, Pen
from app.booklet.words import DOT, full_day_text, sets_text, span_text
from app.domain.units import number_text
from app.domain.wording import tr
from app.domain.work import Issue

_NAMES_MM = 30.0
_TOP_MM = 30.0
_MOST_TICKS = 7


def make_poster(
    issue: Issue, content: Content, *, paper: Paper = Paper.A4, grey: bool = False
) -> bytes:
    """The poster as a PDF of one page; the same issue gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    book = open_book(issue, content, Options(paper=paper, grey=grey))
    ground = Ground(book.faces, paper, grey, wide=True)
    heading = Heading(issue.program.name, author=issue.coach.name)
    canvas, out = open_canvas(ground, heading)
    pen = Pen(canvas, ground.faces, ground.palette, ground.height_mm)
    pen.begin(MARGIN_MM)
    _Poster(book, ground, pen).draw()
    pen.end()
    _close(canvas, pen)
    return out.getvalue()


def _close(canvas: Canvas, pen: Pen) -> None:
    canvas.showPage()
    refuse_missing(pen.missing)
    canvas.save()


class _Poster:
    """Draws the one page."""

    def __init__(self, book: Book, ground: Ground, pen: Pen) -> None:
        self.book, self.ground, self.pen = book, ground, pen
        self.p = ground.palette
        self.weeks = book.season.weeks
        self.pitch = (ground.width - _NAMES_MM) / max(1, len(self.weeks))

    def _x(self, week: int) -> float:
        """Where a week begins."""
        return _NAMES_MM + week * self.pitch

    def _middle(self, week: int) -> float:
        return self._x(week) + self.pitch / 2

    def draw(self) -> None:
        """The whole page from its head down to its foot."""
        self._head()
        bottom = self.ground.height_mm - FOOT_MM - 8.0
        ticks_mm = self._ticks_mm()
        rows = threads(self.book)
        top = _TOP_MM + 14.0
        room = bottom - ticks_mm - top - 8.0
        tall = min(16.0, room / max(1, len(rows)))
        last = top + tall * len(rows)
        most = max((row.most for row in rows), default=1.0)
        self._columns(_TOP_MM, last)
        self._axis(_TOP_MM)
        for number, row in enumerate(rows):
            self._row(row, top + number * tall, tall, most=most)
        if not rows:
            text = tr("No sets are planned yet.")
            self.pen.text(_NAMES_MM, top + 8.0, text, style=BODY, tone=self.p.mid)
            last = top + 12.0
        self._ticks(last + 4.0)
        self._foot()

    def _head(self) -> None:
        pen, issue, width = self.pen, self.book.issue, self.ground.width
        who = DOT.join(part for part in (issue.client.name, issue.client.team) if part)
        dates = span_text(issue.program.start, len(self.weeks)) if self.weeks else ""
        who = pen.fitting(who, CELL, width * 0.45)
        free = width - 6.0 - max(pen.width(who, CELL), pen.width(dates, CELL))
        pen.title(19.0, issue.program.name, width=free)
        pen.text(width, 14.0, who, style=CELL, align=1)
        pen.text(width, 19.0, dates, style=CELL, tone=self.p.mid, align=1)
        pen.rule(0, 22.2, width, weight=1.4)

    def _columns(self, top: float, bottom: float) -> None:
        """Light weeks stand on a tint all the way down; blocks are parted by a line."""
        for number, week in enumerate(self.weeks):
            if week.light:
                box = Box(self._x(number), top, self.pitch, bottom - top)
                self.pen.box(box, fill=self.p.tint)
        program = self.book.issue.program
        for number in range(1, len(program.blocks)):
            x = self._x(program.block_range(number).start)
            self.pen.rule(x, top - 5.0, x, to_y=bottom, weight=0.5, tone=self.p.mid)

    def _axis(self, y: float) -> None:
        """Blocks, week numbers and repetitions over the columns."""
        pen, program = self.pen, self.book.issue.program
        for number, block in enumerate(program.blocks):
            weeks = program.block_range(number)
            left, right = self._x(weeks.start), self._x(weeks.stop)
            for style in (SMALL_HEAD, LABEL_BOLD):
                if pen.width(block.name, style) <= right - left - 1.0:
                    pen.text(left + 0.8, y - 1.4, block.name, style=style)
                    break
        pen.text(0, y + 4.4, tr("Week"), style=CELL, tone=self.p.mid)
        pen.text(0, y + 10.0, tr("Reps"), style=CELL, tone=self.p.mid)
        free_from = said_to = -1.0
        before = None
        for number, week in enumerate(self.weeks):
            x = self._middle(number)
            free_from = self._if_free(x, y + 4.4, str(week.number), CELL_BOLD, free_from)
            reps = "" if week.reps is None else number_text(week.reps[1])
            if reps and (reps != before or self.pitch >= 8.0):
                said_to = self._if_free(x, y + 10.0, reps, CELL, said_to)
            before = reps
        pen.rule(0, y + 12.0, self.ground.width, weight=0.6)

    def _if_free(self, x: float, y: float, text: str, style: Style, free_from: float) -> float:
        """Print a figure in the middle of its column unless the one before it stands there."""
        half = self.pen.width(text, style) / 2
        if x - half < free_from:
            return free_from
        self.pen.text(x, y, text, style=style, align=0.5)
        return x + half + 0.6

    def _row(self, row: Thread, y: float, tall: float, *, most: float) -> None:
        """One muscle group: its name, a bar for each week, its sets where there is room.

        most: the sets that reach the full height, the same for all rows.
        """
        pen = self.pen
        tone = self.p.accent if row.emphasised else self.p.slate
        style = LABEL_BOLD if row.emphasised else LABEL
        name = pen.fitting(row.name, style, _NAMES_MM - 3.0)
        pen.text(0, y + tall - 1.6, name, style=style)
        figures_mm = 4.4 if tall >= 9.0 else 0.0
        scale = (tall - 1.6 - figures_mm) / max(most, 1.0)
        free_from, before = -1.0, -1.0
        for number, sets in enumerate(row.sets):
            if not sets:
                before = sets
                continue
            bar_mm = max(0.4, sets * scale)
            wide = self.pitch * 0.78
            left = self._middle(number) - wide / 2
            box = Box(left, y + tall - 1.0 - bar_mm, wide, bar_mm)
            if self.weeks[number].light:
                pen.box(box, fill=self.p.paper)
                pen.hatch(box, gap=0.8, weight=0.5)
                pen.box(box, stroke=self.p.ink, weight=0.5)
            else:
                pen.box(box, fill=tone)
            if figures_mm and (sets != before or self.pitch >= 9.0):
                text = sets_text(sets)
                free_from = self._if_free(
                    self._middle(number), box.y - 0.9, text, LABEL_BOLD, free_from
                )
            before = sets
        pen.rule(0, y + tall - 1.0, self.ground.width, weight=0.35, tone=self.p.hair)

    # -- what is ticked off --------------------------------------------------------------------

    def _sessions(self) -> list[int]:
        """How many sessions each week has."""
        weeks = self.book.issue.program.weeks
        return [sum(bool(session.slots) for _, session in week.sessions()) for week in weeks]

    def _box_mm(self) -> float:
        return min(6.0, self.pitch - 1.0)

    def _ticks_mm(self) -> float:
        most = min(max(self._sessions(), default=0), _MOST_TICKS)
        return 6.0 + most * (self._box_mm() + 0.8)

    def _ticks(self, y: float) -> None:
        """A box for every session, to be ticked when it is done."""
        pen, size = self.pen, self._box_mm()
        pen.text(0, y + 4.4, tr("Done"), style=SMALL_HEAD)
        said = pen.faces.wrap(tr("a box a session"), LABEL, _NAMES_MM - 2.0)
        pen.lines(0, y + 9.0, said, style=LABEL, tone=self.p.mid)
        for number, count in enumerate(self._sessions()):
            x = self._middle(number) - size / 2
            for turn in range(min(count, _MOST_TICKS)):
                box = Box(x, y + 1.0 + turn * (size + 0.8), size, size)
                pen.box(box, stroke=self.p.cell, weight=0.6)

    def _foot(self) -> None:
        pen, issue = self.pen, self.book.issue
        y = self.ground.height_mm - FOOT_MM
        pen.rule(0, y - 4.2, self.ground.width, tone=self.p.line)
        text = tr(
            "Bars are weekly sets, a set that only helps a muscle counted in part; hatched bars "
            "are light weeks. Stop at pain, chest pain, dizziness or unusual breathlessness, and "
            "ask."
        )
        handed = _handed(issue.on)
        free = (
            self.ground.width
            - 6
            - pen.text(self.ground.width, y, handed, style=LABEL, tone=self.p.mid, align=1)
        )
        lines = pen.faces.wrap(text, LABEL, free)
        pen.lines(0, y, lines[:2], style=LABEL, tone=self.p.mid)


def _handed(on: date) -> str:
    return tr("handed out {day}", day=full_day_text(on))
