"""The findings report: every finding and acceptance of a program on paper, for a colleague.

It is for two coaches at one table, not for the client, and it says so: it reviews a plan against
ranges and the client's own limits; it clears nobody for training.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from io import BytesIO
from pathlib import Path

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from app.booklet.content import Paper, Reference
from app.booklet.fonts import (
    BODY,
    BODY_BOLD,
    CELL,
    CELL_BOLD,
    LABEL,
    NAME,
    SECTION,
    SECTION_REST,
    TITLE,
    Face,
    Faces,
    open_faces,
    refuse_missing,
)
from app.booklet.palette import COLOUR, GREY, Palette
from app.booklet.pen import PT, Box, Pen
from app.booklet.report_entries import (
    Entry,
    Part,
    Section,
    client_text,
    counts_text,
    sections,
    weeks_title,
)
from app.booklet.report_marks import PICTURE_MM, SCALE, draw_bullet, draw_weight
from app.booklet.words import DOT, full_day_text
from app.domain.bullet import bullet_of
from app.domain.client import Client
from app.domain.findings import Finding
from app.domain.program import Program
from app.domain.working import UNSOURCED

MARGIN_MM, TOP_MM, FOOT_MM = 16.0, 24.2, 13.0
_TEXT_X = 7.0
_MEASURE_MM = PICTURE_MM + 32.0
_CAUTIONS = (
    (
        "This report reviews a plan. It does not clear anybody for training and does not replace "
        "screening, a diagnosis or treatment."
    ),
    (
        "Ranges describe groups of people that were studied. One person may need less or more; the "
        "record of training decides."
    ),
    "What a doctor, a physiotherapist or local rules say comes before anything here.",
)


@dataclass(frozen=True, slots=True, eq=False)
class Report:
    """What a report is printed from.

    named: with the client's name, else with the initials alone; references: by key.
    """

    client: Client
    program: Program
    findings: tuple[Finding, ...]
    on: date
    coach: str = ""
    named: bool = True
    references: Mapping[str, Reference] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Block:
    """A piece that stays in one: its height, mm, and how it is drawn from an upper edge down."""

    height: float
    draw: Callable[[Pen, float], None]
    leads: bool = False  # stays with the block after it


def make_report(
    report: Report, *, fonts: Path, paper: Paper = Paper.A4, grey: bool = False
) -> bytes:
    """The report as a PDF; the same report gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    layout = _Layout(report, open_faces(fonts), paper, GREY if grey else COLOUR)
    return layout.printed()


class _Layout:
    """Lays blocks out on pages and prints them."""

    def __init__(self, report: Report, faces: Faces, paper: Paper, palette: Palette) -> None:
        self.report, self.faces, self.paper, self.palette = report, faces, paper, palette
        self.width = paper.width_mm - 2 * MARGIN_MM
        self.sections = sections(report.program, report.findings)
        self.sources = self._numbered_sources()

    # -- blocks ----------------------------------------------------------------------------

    def _numbered_sources(self) -> dict[str, int]:
        keys = [
            entry.finding.source
            for section in self.sections
            for part in section.parts
            for entry in part.entries
        ]
        known = [key for key in dict.fromkeys(keys) if key in self.report.references]
        return {key: number for number, key in enumerate(known, start=1)}

    def _blocks(self) -> Iterator[_Block]:
        yield self._about()
        yield self._cautions()
        for section in self.sections:
            yield self._heading(section.title, f"{section.count}")
            for part in section.parts:
                yield from self._part(part, section)
        if not self.sections:
            text = "The checks have nothing to say about this program."
            yield self._paragraph(text)
        if self.sources:
            yield self._heading("Sources")
            yield from (self._source(key, number) for key, number in self.sources.items())
        yield self._review()

    def _about(self) -> _Block:
        report, program = self.report, self.report.program
        weeks = len(program.weeks)
        lines = [
            ("Client", client_text(report.client, named=report.named)),
            ("Program", program.name),
            (
                "Length",
                f"{weeks} week{'s' * (weeks != 1)} from {full_day_text(program.start)}",
            ),
            ("Findings", counts_text(self.sections)),
        ]
        if report.coach:
            lines.insert(0, ("Coach", report.coach))

        wrapped = [(word, self.faces.wrap(text, BODY, self.width - 28)) for word, text in lines]

        def draw(pen: Pen, y: float) -> None:
            for word, texts in wrapped:
                pen.text(0, y + 4.4, word, style=BODY, tone=self.palette.mid)
                pen.lines(28, y + 4.4, texts, style=BODY)
                y += len(texts) * BODY.lead_mm

        return _Block(sum(len(texts) for _, texts in wrapped) * BODY.lead_mm + 4, draw)

    def _cautions(self) -> _Block:
        wide = self.width - 14.0
        lines = [line for text in _CAUTIONS for line in self.faces.wrap(text, CELL, wide)]
        height = len(lines) * CELL.lead_mm + 5.0

        def draw(pen: Pen, y: float) -> None:
            box = Box(0, y, self.width, height)
            pen.box(box, fill=self.palette.tint, stroke=self.palette.line)
            pen.hatch(Box(0, y, 8.0, height), gap=1.15, weight=0.5, tone=self.palette.mid)
            pen.lines(11.0, y + 5.6, tuple(lines), style=CELL)

        return _Block(height + 4.0, draw)

    def _heading(self, text: str, rest: str = "") -> _Block:
        def draw(pen: Pen, y: float) -> None:
            width = pen.text(0, y + 9.0, text, style=SECTION)
            pen.text(width + 2.6, y + 9.0, rest, style=SECTION_REST)
            pen.rule(0, y + 10.8, self.width, weight=0.9)

        return _Block(12.4, draw, leads=True)

    def _part(self, part: Part, section: Section) -> Iterator[_Block]:
        title, aside = weeks_title(part.weeks, self.report.program.start)
        lines = self.faces.wrap(title, BODY_BOLD, self.width - 50)

        def draw(pen: Pen, y: float) -> None:
            pen.lines(0, y + 5.8, lines, style=BODY_BOLD)
            pen.text(self.width, y + 5.8, aside, style=CELL, tone=self.palette.mid, align=1)

        yield _Block(len(lines) * BODY.lead_mm + 1.6, draw, leads=True)
        for entry in part.entries:
            yield self._entry(entry)

    def _entry(self, entry: Entry) -> _Block:
        finding, p = entry.finding, self.palette
        picture = bullet_of(finding, SCALE)
        room = self.width - _TEXT_X - (_MEASURE_MM if picture is not None else 0.0)
        name = self.faces.wrap(finding.text, NAME, room)
        details = [
            line
            for text in self._details(entry)
            for line in self.faces.wrap(text, CELL, self.width - _TEXT_X)
        ]
        height = len(name) * NAME.lead_mm + len(details) * CELL.lead_mm + 2.4

        def draw(pen: Pen, y: float) -> None:
            draw_weight(pen, 2.2, y + 2.6, finding.weight, below=finding.below)
            at = pen.lines(_TEXT_X, y + 4.0, name, style=NAME)
            pen.lines(_TEXT_X, at, tuple(details), style=CELL, tone=p.ink)
            if picture is not None:
                draw_bullet(pen, self.width - PICTURE_MM, y + 1.0, picture)
                text = _measured(finding)
                right = self.width - PICTURE_MM - 2.0
                pen.text(right, y + 4.0, text, style=CELL, tone=p.mid, align=1)
            pen.rule(_TEXT_X, y + height - 1.0, self.width, weight=0.3, tone=p.hair)

        return _Block(height, draw)

    def _details(self, entry: Entry) -> Iterator[str]:
        finding = entry.finding
        said = [_sentence(entry.day), _sentence(finding.reason), self._source_text(finding)]
        if entry.accepted:
            word = finding.weight.word
            yield f"{word}, accepted: {_sentence(entry.accepted)}"
        yield " ".join(part for part in said if part)
        if finding.mend is not None and not entry.accepted:
            yield f"Would settle it: {_sentence(finding.mend.label)}"

    def _source_text(self, finding: Finding) -> str:
        key = finding.source
        if key in self.sources:
            return f"{self.report.references[key].short} [{self.sources[key]}]."
        return _sentence(key if key in UNSOURCED or key else "")

    def _paragraph(self, text: str) -> _Block:
        lines = self.faces.wrap(text, BODY, self.width)

        def draw(pen: Pen, y: float) -> None:
            pen.lines(0, y + 6.0, lines, style=BODY)

        return _Block(len(lines) * BODY.lead_mm + 6.0, draw)

    def _source(self, key: str, number: int) -> _Block:
        lines = self.faces.wrap(self.report.references[key].text, CELL, self.width - 10)

        def draw(pen: Pen, y: float) -> None:
            pen.text(6.0, y + 4.2, str(number), style=CELL_BOLD, align=1)
            pen.lines(10.0, y + 4.2, lines, style=CELL)

        return _Block(len(lines) * CELL.lead_mm + 1.2, draw)

    def _review(self) -> _Block:
        def draw(pen: Pen, y: float) -> None:
            pen.text(0, y + 9.0, "Reviewed by", style=SECTION)
            pen.rule(0, y + 10.8, self.width, weight=0.9)
            half = self.width / 2
            for x, word in ((0.0, "Name"), (half, "Date")):
                pen.text(x, y + 18.0, word, style=CELL, tone=self.palette.mid)
                pen.rule(x + 14, y + 18.6, x + half - 6, tone=self.palette.line)
            for line in (28.0, 37.0, 46.0):
                pen.rule(0, y + line, self.width, tone=self.palette.line)

        return _Block(50.0, draw)

    # -- pages -----------------------------------------------------------------------------

    def _pages(self) -> tuple[tuple[_Block, ...], ...]:
        """The blocks page by page; what leads into a block never stands last on a page."""
        room = self.paper.height_mm - FOOT_MM - 6.0 - TOP_MM
        pages: list[list[_Block]] = [[]]
        left, waiting = room, list[_Block]()
        for block in self._blocks():
            waiting.append(block)
            if block.leads:
                continue
            height = sum(each.height for each in waiting)
            if height > left and pages[-1]:
                pages.append([])
                left = room
            pages[-1] += waiting
            left -= height
            waiting = []
        return tuple(tuple(page) for page in pages)

    def printed(self) -> bytes:
        """The pages as a PDF."""
        report, paper, out = self.report, self.paper, BytesIO()
        rl_config.useA85 = 0
        canvas = Canvas(
            out,
            pagesize=(paper.width_mm * PT, paper.height_mm * PT),
            pageCompression=1,
            invariant=1,
            initialFontName=Face.SANS.value,  # type: ignore[arg-type]  # the stubs are wrong here
            initialFontSize=11,
            lang="en",
        )
        canvas.setTitle(f"Findings on {report.program.name}")
        canvas.setAuthor(report.coach)
        canvas.setCreator("Weekloom")
        canvas.setViewerPreference("DisplayDocTitle", "true")
        pen = Pen(canvas, self.faces, self.palette, paper.height_mm)
        pages = self._pages()
        for number, blocks in enumerate(pages, start=1):
            pen.begin(MARGIN_MM)
            self._head(pen)
            y = TOP_MM
            for block in blocks:
                block.draw(pen, y)
                y += block.height
            self._foot(pen, number, len(pages))
            pen.end()
            canvas.showPage()
        refuse_missing(pen.missing)
        canvas.save()
        return out.getvalue()

    def _head(self, pen: Pen) -> None:
        pen.text(0, 18.0, "Findings report", style=TITLE)
        day = full_day_text(self.report.on)
        pen.text(self.width, 18.0, day, style=CELL, tone=self.palette.mid, align=1)
        pen.rule(0, 21.2, self.width, weight=1.4)

    def _foot(self, pen: Pen, number: int, count: int) -> None:
        y, p = self.paper.height_mm - FOOT_MM, self.palette
        pen.rule(0, y - 4.2, self.width, tone=p.line)
        page = f"page {number} of {count}"
        free = self.width - 6 - pen.text(self.width, y, page, style=LABEL, tone=p.mid, align=1)
        who = client_text(self.report.client, named=self.report.named)
        text = DOT.join((who, self.report.program.name, "for a colleague's review"))
        pen.text(0, y, self.faces.wrap(text, LABEL, free)[0], style=LABEL, tone=p.mid)


def _sentence(text: str) -> str:
    """The text with a capital and a full stop; nothing for nothing."""
    text = text.strip()
    if not text:
        return ""
    return text[:1].upper() + text[1:] + ("" if text[-1] in ".!?…" else ".")


def _measured(finding: Finding) -> str:
    if finding.measured is None or finding.range is None:
        return ""
    return f"{finding.measured:.4g}, range {finding.range.text}"
