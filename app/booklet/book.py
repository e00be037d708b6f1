"""A booklet in the making: what every page may read, and the sheet that a page is drawn on.

A page is laid out before anything is printed: it knows its bookmark, its title and the sources it
leans on. Only then are page numbers and source numbers known, and only then is it drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import IntEnum

from app.booklet.content import Content, Kind, Options, Paper
from app.booklet.fields import Fields
from app.booklet.figures import FigureForms
from app.booklet.fonts import (
    CELL,
    FIGURE,
    FIGURE_LARGE,
    LABEL,
    LABEL_LARGE,
    SECTION,
    SECTION_REST,
    TITLE,
    TITLE_18,
    Faces,
    Style,
    one_line,
)
from app.booklet.palette import COLOUR, GREY, Palette
from app.booklet.pen import Box, Pen
from app.booklet.season import Season
from app.booklet.words import DOT, MUSCLES, full_day_text, pages_text
from app.domain.energy import EnergyPlan, Referral
from app.domain.exercise import Exercise, Muscle
from app.domain.program import SlotId
from app.domain.wording import language, tr
from app.domain.work import Issue

SPINE_MM, OUTER_MM, TOP_MM, FOOT_MM = 16.0, 12.0, 13.0, 13.0

_LONGEST_COACH = 30  # letters of a name that still fits the foot
_LEAST_SHARE_MM = 25.0  # of a name in the foot; with less, the date of handing out gives way
NOTE_LINE_MM = 9.0
"""From one line for handwriting to the next."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The part of a page that is printed on, mm from its left edge and the page's upper edge.

    first and last: where what stands under the page's title may begin and must end.
    """

    width: float
    height_mm: float
    first: float = 24.2
    last_above_foot: float = 19.0

    @property
    def last(self) -> float:
        """The lowest place for content."""
        return self.height_mm - self.last_above_foot

    @property
    def foot(self) -> float:
        """The baseline of the foot."""
        return self.height_mm - FOOT_MM

    @property
    def room(self) -> float:
        """How much can stand below each other, mm."""
        return self.last - self.first


LARGE = 16 / 11
"""Large print is a small page drawn that much larger: body text of 11 points becomes 16."""

_MARGINS = {Paper.A5: (14.0, 10.0), Paper.PHONE: (6.0, 6.0)}


def zoom_of(options: Options) -> float:
    """How much larger than it is laid out a page is drawn."""
    return LARGE if options.large and options.paper is not Paper.PHONE else 1.0


def margins_mm(paper: Paper) -> tuple[float, float]:
    """The margins at the spine and at the outer edge, as they are printed."""
    return _MARGINS.get(paper, (SPINE_MM, OUTER_MM))


def frame_of(paper: Paper, zoom: float = 1.0) -> Frame:
    """The frame of a paper size as it is laid out; the same on left and right pages."""
    return Frame((paper.width_mm - sum(margins_mm(paper))) / zoom, paper.height_mm / zoom)


def left_edge_mm(page: int, paper: Paper = Paper.A4) -> float:
    """Where the frame begins on a page: after the spine on odd pages, the outer edge on even."""
    spine, outer = margins_mm(paper)
    return spine if page % 2 else outer


def frame_for(options: Options) -> Frame:
    """The frame of the pages that were chosen, as it is laid out."""
    if options.kind is Kind.WALL:
        width, height = options.size_mm
        return Frame(width - 2 * OUTER_MM, height)
    return frame_of(options.paper, zoom_of(options))


def left_mm(options: Options, page: int) -> float:
    """Where the frame begins on a page, as it is laid out."""
    if options.kind is Kind.WALL:
        return OUTER_MM
    return left_edge_mm(page, options.paper) / zoom_of(options)


class Topic(IntEnum):
    """The headings that sources are sorted under."""

    TRAINING = 0
    ENERGY = 1
    SAFETY = 2


@dataclass(frozen=True, slots=True)
class Cite:
    """A page leans on a source: its key, the heading it belongs to, and what it is used for."""

    key: str
    topic: Topic
    used_for: str


@dataclass(frozen=True, slots=True, eq=False)
class Book:
    """What every page may read.

    withheld: slots whose load is known and not printed.
    """

    issue: Issue
    content: Content
    options: Options
    faces: Faces
    season: Season
    loads: Mapping[SlotId, float | None]
    energy: EnergyPlan | Referral | None
    frame: Frame
    withheld: frozenset[SlotId] = frozenset()

    @property
    def zoom(self) -> float:
        """How much larger than it is laid out a page is drawn."""
        return zoom_of(self.options)

    @property
    def label(self) -> Style:
        """The smallest type; 14 points in large print."""
        return LABEL_LARGE if self.zoom > 1 else LABEL

    @property
    def figure(self) -> Style:
        """The type of sets and loads; 18 points in large print."""
        return FIGURE_LARGE if self.zoom > 1 else FIGURE

    @property
    def palette(self) -> Palette:
        """The tones to print in."""
        return GREY if self.options.grey else COLOUR

    def muscle(self, muscle: Muscle) -> str:
        """A muscle's plain name."""
        return tr(self.content.muscles.get(muscle) or MUSCLES[muscle])

    def exercise(self, key: str) -> Exercise:
        """An exercise of the catalogue by its key."""
        return self.content.catalogue[key]  # type: ignore[index]

    def foreign(self, exercise: Exercise) -> str:
        """That an exercise's words are in English, where the booklet speaks another language."""
        spoken = language().code
        if exercise.speaks(spoken.partition("-")[0]) or not exercise.set_up + exercise.cues:
            return ""
        return tr("instructions in English")

    def wrap(self, text: str, style: Style, width: float) -> tuple[str, ...]:
        """`text` in lines no wider than `width` mm."""
        return self.faces.wrap(text, style, width)

    @property
    def week_range(self) -> range:
        """The weeks to print, as indices from 0."""
        count = len(self.issue.program.weeks)
        first, last = self.options.weeks or (1, count)
        return range(max(first, 1) - 1, min(last, count))


Draw = Callable[["Sheet"], None]
"""What puts a page on its sheet."""


@dataclass(frozen=True, slots=True, eq=False)
class Page:
    """One page, laid out and not yet drawn.

    key: its bookmark; title: its entry in the outline, or nothing; level: how deep it stands there;
    even: it has to lie on the left.
    """

    key: str
    draw: Draw
    title: str = ""
    level: int = 0
    cites: tuple[Cite, ...] = ()
    even: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A page on the canvas, with the numbers of all pages and sources.

    figures: puts exercise figures on the page; fields: puts fields to fill in on it; pages: page
    numbers by bookmark; sources: source numbers by key.
    """

    pen: Pen
    figures: FigureForms
    fields: Fields
    book: Book
    number: int
    count: int
    pages: Mapping[str, int]
    sources: Mapping[str, int]

    @property
    def width(self) -> float:
        """The width of the frame, mm."""
        return self.book.frame.width

    @property
    def palette(self) -> Palette:
        """The tones to print in."""
        return self.book.palette

    def page_text(self, key: str) -> str:
        """'page 52' for a bookmark; nothing if the booklet has no such page."""
        return pages_text((self.pages[key],)) if key in self.pages else ""

    def cite(self, *keys: str) -> str:
        """' [1, 3]' for the sources that are listed, nothing without any."""
        numbers = sorted({self.sources[key] for key in keys if key in self.sources})
        return f" [{', '.join(map(str, numbers))}]" if numbers else ""

    def linked(
        self, x: float, y: float, text: str, *, to: str, style: Style, tone: str = ""
    ) -> float:
        """Print a text that leads to a page; gives back its width."""
        width = self.pen.text(x, y, text, style=style, tone=tone)
        if width and to in self.pages:
            self.pen.link(Box(x, y - style.lead_mm * 0.8, width, style.lead_mm), to)
        return width

    def title(self, text: str, aside: str = "") -> None:
        """Print the page's title between its margin and the double rule."""
        pen, p = self.pen, self.palette
        free = self.width
        if aside:
            free -= 4 + pen.text(self.width, 20.0, aside, style=CELL, tone=p.mid, align=1)
        style = TITLE_18 if self.book.options.slim else TITLE
        if pen.width(text, style) > free:
            style = TITLE_18
        lines = self.book.wrap(text, style, free)
        if len(lines) > 1:
            # a long name moves up and closes its lines, so that the rules stay in their place
            style = Style(style.face, 12, 12.5)
            lines = self.book.wrap(text, style, free)[:3]
        y = 20.0 - (len(lines) - 1) * style.lead_mm
        pen.lines(0, y, lines, style=style)
        self.double_rule()

    def double_rule(self) -> None:
        """The thick and the thin rule under a page's head."""

        def rules(pen: Pen) -> None:
            pen.rule(0, 0, self.width, weight=1.4)
            pen.rule(0, 0.9, self.width, weight=0.4)

        self.pen.stamp("rules", 0, 23.2, rules)

    def section(
        self,
        y: float,
        text: str,
        rest: str = "",
        *,
        aside: str = "",
        x: float = 0.0,
        to_x: float | None = None,
    ) -> float:
        """Print a section's title with its rule; `y` is the baseline, the rule is given back."""
        pen = self.pen
        to_x = self.width if to_x is None else to_x
        width = pen.text(x, y, text, style=SECTION)
        if rest:
            room = to_x - x - width - 2.4
            pen.text(x + width + 2.4, y, pen.fitting(rest, SECTION_REST, room), style=SECTION_REST)
        if aside:
            pen.text(to_x, y, aside, style=CELL, tone=self.palette.mid, align=1)
        pen.rule(x, y + 1.8, to_x, weight=0.9)
        return y + 1.8

    def foot(self) -> None:
        """Print whose booklet it is, and the page."""
        pen, p, y = self.pen, self.palette, self.book.frame.foot
        issue = self.book.issue
        pen.rule(0, y - 4.2, self.width, tone=p.line)
        page = tr("page {number} of {count}", number=self.number, count=self.count)
        label = self.book.label
        free = self.width - 6 - pen.text(self.width, y, page, style=label, tone=p.mid, align=1)
        parts = (issue.client.name, issue.program.name)
        handed = tr("handed out {on}", on=full_day_text(issue.on))
        if issue.coach.name and len(issue.coach.name) <= _LONGEST_COACH:
            handed += tr(" by {one_line}", one_line=one_line(issue.coach.name))
        text = DOT.join((*(one_line(part) for part in parts), handed))
        if pen.width(text, label) > free:
            share = (free - pen.width(f"{DOT}{DOT}{handed}", label)) / 2
            text = DOT.join((*(cut_short(self.book, part, share) for part in parts), handed))
            if share < _LEAST_SHARE_MM:
                text = cut_short(self.book, DOT.join(map(one_line, parts)), free, label)
        pen.text(0, y, text, style=label, tone=p.mid)

    def note_lines(self, y: float, to_y: float) -> None:
        """Draw lines for handwriting from `y` (the first line) down to `to_y`."""
        count = int((to_y - y) / NOTE_LINE_MM + 1 + 1e-6)
        if count < 1:
            return

        def lines(pen: Pen) -> None:
            for number in range(count):
                pen.rule(0, number * NOTE_LINE_MM, self.width, tone=self.palette.line)

        self.pen.stamp(f"lines-{count}", 0, y, lines)


def cut_short(book: Book, text: str, width: float, style: Style = LABEL) -> str:
    """A name that fits a foot line: whole, or cut with an ellipsis."""
    return book.faces.shortened(one_line(text), style, width)


MOST_NOTE_LINES = 12
"""A longer note ends with an ellipsis: it would push the plan off its page."""


def note_in_lines(book: Book, text: str, *, style: Style, width: float) -> tuple[str, ...]:
    """A note in lines, its own line breaks kept; past `MOST_NOTE_LINES` it ends in an ellipsis."""
    lines = tuple(line for part in text.splitlines() for line in book.wrap(part, style, width))
    if len(lines) <= MOST_NOTE_LINES:
        return lines
    last = cut_short(book, lines[MOST_NOTE_LINES - 1] + " …", width, style)
    return (*lines[: MOST_NOTE_LINES - 1], last)
