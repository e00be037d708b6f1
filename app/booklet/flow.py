"""Papers of a few pages: blocks that stand below each other, on as many pages as they need.

The booklet lays its pages out by hand; everything else that is printed comes through here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from io import BytesIO

from app.booklet.content import Paper
from app.booklet.document import open_document
from app.booklet.fields import FormCanvas
from app.booklet.fonts import (
    BODY,
    CELL,
    LABEL,
    SECTION,
    SECTION_REST,
    Faces,
    Style,
    refuse_missing,
)
from app.booklet.palette import COLOUR, GREY, Palette
from app.booklet.pen import Box, Pen
from app.domain.wording import tr

MARGIN_MM, TOP_MM, FOOT_MM = 16.0, 24.2, 13.0


@dataclass(frozen=True, slots=True)
class Block:
    """A piece that stays in one: its height, mm, and how it is drawn from an upper edge down.

    leads: it stays with the block after it.
    """

    height: float
    draw: Callable[[Pen, float], None]
    leads: bool = False


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands on every page.

    title and aside: at the head, left and right; foot: at the foot, before the page's number;
    subject: of the file, if it differs from the title; author: of the file.
    """

    title: str
    aside: str = ""
    foot: str = ""
    subject: str = ""
    author: str = ""


@dataclass(frozen=True, slots=True)
class Ground:
    """The paper, tones and fonts that blocks are made for; wide: printed on its long edge."""

    faces: Faces
    paper: Paper = Paper.A4
    grey: bool = False
    wide: bool = False

    @property
    def palette(self) -> Palette:
        """The tones to print in."""
        return GREY if self.grey else COLOUR

    @property
    def width_mm(self) -> float:
        """The page from left to right."""
        return self.paper.height_mm if self.wide else self.paper.width_mm

    @property
    def height_mm(self) -> float:
        """The page from top to bottom."""
        return self.paper.width_mm if self.wide else self.paper.height_mm

    @property
    def width(self) -> float:
        """What can be printed on, from left to right, mm."""
        return self.width_mm - 2 * MARGIN_MM

    @property
    def room(self) -> float:
        """What can be printed on below the head, mm."""
        return self.height_mm - FOOT_MM - 6.0 - TOP_MM

    # -- blocks that every paper has -----------------------------------------------------------

    def heading(self, text: str, rest: str = "") -> Block:
        """A section's title with its rule."""

        def draw(pen: Pen, y: float) -> None:
            width = pen.text(0, y + 9.0, text, style=SECTION)
            pen.text(width + 2.6, y + 9.0, rest, style=SECTION_REST)
            pen.rule(0, y + 10.8, self.width, weight=0.9)

        return Block(12.4, draw, leads=True)

    def paragraph(self, text: str, style: Style = BODY, *, after_mm: float = 2.0) -> Block:
        """A text in lines."""
        lines = self.faces.wrap(text, style, self.width)

        def draw(pen: Pen, y: float) -> None:
            pen.lines(0, y + style.size * 0.39, lines, style=style)

        return Block(len(lines) * style.lead_mm + after_mm, draw)

    def facts(self, pairs: Iterable[tuple[str, str]], *, indent_mm: float = 28.0) -> Block:
        """Words left and what they stand for beside them, further in where a word is long."""
        told = tuple(pairs)
        widest = max((self.faces.width_mm(word, BODY) for word, _ in told), default=0.0)
        left = max(indent_mm, widest + 2.4)
        wrapped = [(word, self.faces.wrap(text, BODY, self.width - left)) for word, text in told]

        def draw(pen: Pen, y: float) -> None:
            for word, texts in wrapped:
                pen.text(0, y + 4.4, word, style=BODY, tone=self.palette.mid)
                pen.lines(left, y + 4.4, texts, style=BODY)
                y += max(1, len(texts)) * BODY.lead_mm

        rows = sum(max(1, len(texts)) for _, texts in wrapped)
        return Block(rows * BODY.lead_mm + 4, draw)

    def cautions(self, texts: Iterable[str]) -> Block:
        """The hatched box with what has to be minded."""
        wide = self.width - 14.0
        lines = tuple(line for text in texts for line in self.faces.wrap(text, CELL, wide))
        height = len(lines) * CELL.lead_mm + 5.0

        def draw(pen: Pen, y: float) -> None:
            pen.box(Box(0, y, self.width, height), fill=self.palette.tint, stroke=self.palette.line)
            pen.hatch(Box(0, y, 8.0, height), gap=1.15, weight=0.5, tone=self.palette.mid)
            pen.lines(11.0, y + 5.6, lines, style=CELL)

        return Block(height + 4.0, draw)


def on_pages(blocks: Iterable[Block], room_mm: float) -> tuple[tuple[Block, ...], ...]:
    """The blocks page by page; what leads into a block never stands last on a page."""
    runs: list[list[Block]] = [[]]
    for block in blocks:
        runs[-1].append(block)
        if not block.leads:
            runs.append([])
    pages: list[list[Block]] = [[]]
    left = room_mm
    for run in runs:
        height = sum(each.height for each in run)
        if height > left and pages[-1]:
            pages.append([])
            left = room_mm
        pages[-1] += run
        left -= height
    return tuple(tuple(page) for page in pages)


def print_flow(ground: Ground, heading: Heading, blocks: Iterable[Block]) -> bytes:
    """The blocks as a PDF; the same blocks give the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    canvas, out = open_canvas(ground, heading)
    pen = Pen(canvas, ground.faces, ground.palette, ground.height_mm)
    pages = on_pages(blocks, ground.room)
    for number, page in enumerate(pages, start=1):
        pen.begin(MARGIN_MM)
        _draw_head(pen, ground, heading)
        y = TOP_MM
        for block in page:
            block.draw(pen, y)
            y += block.height
        _draw_foot(pen, ground, heading.foot, number=number, count=len(pages))
        pen.end()
        canvas.showPage()
    refuse_missing(pen.missing)
    canvas.save()
    return out.getvalue()


def open_canvas(ground: Ground, heading: Heading) -> tuple[FormCanvas, BytesIO]:
    """A canvas of the ground's size with the file's own words, and what it is saved into."""
    return open_document(
        ground.width_mm,
        ground.height_mm,
        title=heading.subject or heading.title,
        author=heading.author,
    )


def _draw_head(pen: Pen, ground: Ground, heading: Heading) -> None:
    free = ground.width
    aside = heading.aside
    if aside:
        tone = ground.palette.mid
        free -= 4 + pen.text(ground.width, 18.0, aside, style=CELL, tone=tone, align=1)
    pen.title(18.0, heading.title, width=free)
    pen.rule(0, 21.2, ground.width, weight=1.4)


def _draw_foot(pen: Pen, ground: Ground, text: str, *, number: int, count: int) -> None:
    y, p = ground.height_mm - FOOT_MM, ground.palette
    pen.rule(0, y - 4.2, ground.width, tone=p.line)
    page = tr("page {number} of {count}", number=number, count=count)
    free = ground.width - 6 - pen.text(ground.width, y, page, style=LABEL, tone=p.mid, align=1)
    pen.text(0, y, pen.fitting(text, LABEL, free), style=LABEL, tone=p.mid)
