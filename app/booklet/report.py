"""The findings report: every finding and acceptance of a program on paper, for a colleague.

It is for two coaches at one table, not for the client, and it says so: it reviews a plan against
ranges and the client's own limits; it clears nobody for training.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from app.booklet.content import Paper, Reference
from app.booklet.flow import Block, Ground, Heading, print_flow
from app.booklet.fonts import (
    BODY,
    BODY_BOLD,
    CELL,
    CELL_BOLD,
    NAME,
    SECTION,
    open_faces,
)
from app.booklet.pen import Pen
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
from app.domain.wording import mark, tr, trn
from app.domain.working import UNSOURCED

_TEXT_X = 7.0
_MEASURE_MM = PICTURE_MM + 32.0
_CAUTIONS = (
    mark(
        "This report reviews a plan. It does not clear anybody for training and "
        "does not replace screening, a diagnosis or treatment."
    ),
    mark(
        "Ranges describe groups of people that were studied. One person may need "
        "less or more; the record of training decides."
    ),
    mark("What a doctor, a physiotherapist or local rules say comes before anything here."),
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


def make_report(
    report: Report, *, fonts: Path, paper: Paper = Paper.A4, grey: bool = False
) -> bytes:
    """The report as a PDF; the same report gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    return _Layout(report, Ground(open_faces(fonts), paper, grey)).printed()


class _Layout:
    """Makes the blocks of a report and prints them."""

    def __init__(self, report: Report, ground: Ground) -> None:
        self.report, self.ground = report, ground
        self.faces, self.palette, self.width = ground.faces, ground.palette, ground.width
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

    def _blocks(self) -> Iterator[Block]:
        yield self._about()
        yield self.ground.cautions(tuple(map(tr, _CAUTIONS)))
        for section in self.sections:
            yield self.ground.heading(section.title, f"{section.count}")
            for part in section.parts:
                yield from self._part(part, section)
        if not self.sections:
            text = tr("The checks have nothing to say about this program.")
            yield self.ground.paragraph(text)
        if self.sources:
            yield self.ground.heading(tr("Sources"))
            yield from (self._source(key, number) for key, number in self.sources.items())
        yield self._review()

    def _about(self) -> Block:
        report, program = self.report, self.report.program
        weeks = len(program.weeks)
        lines = [
            (tr("Client"), client_text(report.client, named=report.named)),
            (tr("Program"), program.name),
            (
                tr("Length"),
                trn(
                    "{n} week from {start}",
                    "{n} weeks from {start}",
                    weeks,
                    start=full_day_text(program.start),
                ),
            ),
            (tr("Findings"), counts_text(self.sections)),
        ]
        if report.coach:
            lines.insert(0, (tr("Coach"), report.coach))
        return self.ground.facts(lines)

    def _part(self, part: Part, section: Section) -> Iterator[Block]:
        title, aside = weeks_title(part.weeks, self.report.program.start)
        lines = self.faces.wrap(title, BODY_BOLD, self.width - 50)

        def draw(pen: Pen, y: float) -> None:
            pen.lines(0, y + 5.8, lines, style=BODY_BOLD)
            pen.text(self.width, y + 5.8, aside, style=CELL, tone=self.palette.mid, align=1)

        yield Block(len(lines) * BODY.lead_mm + 1.6, draw, leads=True)
        for entry in part.entries:
            yield self._entry(entry)

    def _entry(self, entry: Entry) -> Block:
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

        return Block(height, draw)

    def _details(self, entry: Entry) -> Iterator[str]:
        finding = entry.finding
        said = [_sentence(entry.day), _sentence(finding.reason), self._source_text(finding)]
        if entry.accepted:
            word = finding.weight.word
            yield tr("{word}, accepted: {sentence}", word=word, sentence=_sentence(entry.accepted))
        yield " ".join(part for part in said if part)
        if finding.mend is not None and not entry.accepted:
            yield tr("Would settle it: {sentence}", sentence=_sentence(finding.mend.label))

    def _source_text(self, finding: Finding) -> str:
        key = finding.source
        if key in self.sources:
            return f"{self.report.references[key].short} [{self.sources[key]}]."
        return _sentence(key if key in UNSOURCED or key else "")

    def _source(self, key: str, number: int) -> Block:
        lines = self.faces.wrap(self.report.references[key].text, CELL, self.width - 10)

        def draw(pen: Pen, y: float) -> None:
            pen.text(6.0, y + 4.2, str(number), style=CELL_BOLD, align=1)
            pen.lines(10.0, y + 4.2, lines, style=CELL)

        return Block(len(lines) * CELL.lead_mm + 1.2, draw)

    def _review(self) -> Block:
        def draw(pen: Pen, y: float) -> None:
            pen.text(0, y + 9.0, tr("Reviewed by"), style=SECTION)
            pen.rule(0, y + 10.8, self.width, weight=0.9)
            half = self.width / 2
            for x, word in ((0.0, tr("Name")), (half, tr("Date"))):
                pen.text(x, y + 18.0, word, style=CELL, tone=self.palette.mid)
                pen.rule(x + 14, y + 18.6, x + half - 6, tone=self.palette.line)
            for line in (28.0, 37.0, 46.0):
                pen.rule(0, y + line, self.width, tone=self.palette.line)

        return Block(50.0, draw)

    def printed(self) -> bytes:
        """The pages as a PDF."""
        report = self.report
        who = client_text(report.client, named=report.named)
        heading = Heading(
            tr("Findings report"),
            full_day_text(report.on),
            DOT.join((who, report.program.name, tr("for a colleague's review"))),
            subject=tr("Findings on {program}", program=report.program.name),
            author=report.coach,
        )
        return print_flow(self.ground, heading, self._blocks())


def _sentence(text: str) -> str:
    """The text with a capital and a full stop; nothing for nothing."""
    text = text.strip()
    if not text:
        return ""
    return text[:1].upper() + text[1:] + ("" if text[-1] in ".!?…" else ".")


def _measured(finding: Finding) -> str:
    if finding.measured is None or finding.range is None:
        return ""
    return tr("{measured:.4g}, range {range}", measured=finding.measured, range=finding.range.text)
