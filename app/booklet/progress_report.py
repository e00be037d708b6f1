"""A progress report of two pages for the client: planned and done, strength, mass, what is next.

Worded for the client: what was done and where it is heading, never praise, never a promise.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from app.booklet.content import Paper, Reference
from app.booklet.flow import Block, Ground, Heading, on_pages, print_flow
from app.booklet.fonts import BODY, CELL, CELL_BOLD, LABEL, open_faces
from app.booklet.pen import Pen
from app.booklet.progress_charts import mass_block, strength_key, strength_row, weeks_block
from app.booklet.report_entries import client_text
from app.booklet.words import DOT, full_day_text
from app.domain.client import Client
from app.domain.one_rm import EQUATIONS
from app.domain.progress.series import CORRIDOR_SOURCES, MassSeries, StrengthSeries
from app.domain.progress.told import (
    adherence_text,
    mass_text,
    strength_text,
    tonnage_text,
    volume_text,
)
from app.domain.progress.weeks import WeekDone
from app.domain.wording import mark, tr
from app.domain.working import UNSOURCED

MOST_NEXT = 900
"""Letters of the coach's own words that there is room for."""

MOST_EXERCISES = 4
PAGES = 2

CAUTIONS = (
    mark(
        "Strength is estimated from tests and from sets, so it is a range. It is no weight to try "
        "once, unprepared and alone."
    ),
    mark(
        "Body mass goes up and down from day to day with water and food. Only the trend of weeks "
        "says where it is heading."
    ),
    mark(
        "Pain, dizziness, or anything that worries you: stop, and see your doctor or "
        "physiotherapist. What they say comes before this paper."
    ),
)


@dataclass(frozen=True, slots=True, eq=False)
class ProgressReport:
    """What a report is printed from.

    strength: series with at least one estimate, the most important first; next_words: the coach's
    own; named: with the client's name, else the initials; references: by key.
    """

    client: Client
    program: str
    on: date
    weeks: tuple[WeekDone, ...] = ()
    strength: tuple[StrengthSeries, ...] = ()
    mass: MassSeries = field(default_factory=lambda: MassSeries((), None))
    next_words: str = ""
    coach: str = ""
    named: bool = True
    references: Mapping[str, Reference] = field(default_factory=dict)


def make_progress_report(
    report: ProgressReport, *, fonts: Path, paper: Paper = Paper.A4, grey: bool = False
) -> bytes:
    """The report as a PDF of at most two pages; the same report gives the same bytes.

    Exercises are left out from the end where there is no room for them. Raises BookletError for
    letters that the fonts do not have.
    """
    ground = Ground(open_faces(fonts), paper, grey)
    most = min(len(report.strength), MOST_EXERCISES)
    # sources in full where they fit, else in short; then one exercise less at a time
    tries = [(most, True), *((shown, False) for shown in range(most, -1, -1))]
    for shown, full in tries:
        blocks = tuple(_blocks(report, ground, shown, full=full))
        if len(on_pages(blocks, ground.room)) <= PAGES:
            break
    return print_flow(ground, _heading(report), blocks)


def _heading(report: ProgressReport) -> Heading:
    who = client_text(report.client, named=report.named)
    foot = DOT.join(part for part in (who, report.program, report.coach) if part)
    return Heading(
        tr("Progress of {name}", name=who),
        aside=full_day_text(report.on),
        foot=foot,
        subject=tr("Progress report"),
        author=report.coach,
    )


def _blocks(report: ProgressReport, ground: Ground, shown: int, *, full: bool) -> Iterator[Block]:
    yield from _done(report, ground)
    strength = report.strength[:shown]
    if strength:
        yield from _strength(report, ground, strength)
    if report.mass.points:
        yield ground.heading(tr("Body mass"), _goal_text(report))
        yield mass_block(ground, report.mass, report.client.units)
        yield ground.paragraph(mass_text(report.mass, report.client.units), CELL)
    yield ground.heading(tr("What comes next"))
    yield from _next(report, ground)
    yield ground.cautions(tr(text) for text in CAUTIONS)
    sources = tuple(_sources(report, strength))
    if sources:
        yield from _references(report, ground, sources, full=full)


def _done(report: ProgressReport, ground: Ground) -> Iterator[Block]:
    yield ground.heading(tr("Planned and done"), report.program)
    if not report.weeks:
        yield ground.paragraph(tr("No program was open for this report."))
        return
    yield weeks_block(ground, report.weeks)
    text = f"{volume_text(report.weeks)} {adherence_text(report.weeks)}"
    if not any(week.entered for week in report.weeks):
        text = volume_text(report.weeks)
    yield ground.paragraph(text, CELL)
    if any(week.entered for week in report.weeks):
        yield ground.paragraph(tonnage_text(report.weeks, report.client.units), CELL)


def _strength(
    report: ProgressReport, ground: Ground, strength: Sequence[StrengthSeries]
) -> Iterator[Block]:
    units = report.client.units
    yield ground.heading(tr("Strength"), tr("estimated for one repetition, with its range"))
    key = strength_key(ground)
    yield Block(key.height, key.draw, leads=True)
    for at in range(0, len(strength), 2):
        yield strength_row(ground, strength[at : at + 2], units)
    for series in strength:
        yield ground.paragraph(strength_text(series, units), CELL, after_mm=1.0)


def _goal_text(report: ProgressReport) -> str:
    goal = report.client.energy_goal
    if goal is None or not report.mass.corridor:
        return ""
    return tr("meant to {goal}", goal=tr(goal.value))


def _next(report: ProgressReport, ground: Ground) -> Iterator[Block]:
    words = report.next_words.strip()
    if not words:
        yield _lines(ground, 4)
        return
    for paragraph in words[:MOST_NEXT].splitlines():
        if paragraph.strip():
            yield ground.paragraph(paragraph.strip(), BODY)


def _lines(ground: Ground, count: int) -> Block:
    """Lines to write on by hand, where the coach has written nothing."""

    def draw(pen: Pen, y: float) -> None:
        for number in range(1, count + 1):
            pen.rule(0, y + number * 9.0, ground.width, tone=ground.palette.line)

    return Block(count * 9.0 + 3.0, draw)


def _sources(report: ProgressReport, strength: Sequence[StrengthSeries]) -> Iterator[str]:
    """The keys of what the shown numbers rest on."""
    keys: list[str] = []
    if strength:
        keys += [equation.source for equation in EQUATIONS.values()]
        keys.append("hackett2017")
    goal = report.client.energy_goal
    if goal is not None and report.mass.corridor:
        keys.append(CORRIDOR_SOURCES[goal])
    for key in dict.fromkeys(keys):
        if key not in UNSOURCED and key in report.references:
            yield key


def _references(
    report: ProgressReport, ground: Ground, keys: Sequence[str], *, full: bool
) -> Iterator[Block]:
    """How the numbers came about, and the sources they rest on, in full or in short."""
    how = tr(
        "Trend: a robust straight line through all values (Theil and Sen) with its 95 % interval. "
        "Strength: the median of published equations, and how far they part."
    )
    goal = report.client.energy_goal
    if goal is not None and report.mass.corridor and CORRIDOR_SOURCES[goal] in UNSOURCED:
        how = f"{how} {tr('The corridor of body mass is common practice.')}"
    if not full:
        shorts = "; ".join(report.references[key].short for key in keys)
        how = f"{how} {tr('Sources: {names}.', names=shorts)}"
    yield _small(ground, tr("How this was worked out"), how)
    if full:
        for key in keys:
            yield ground.paragraph(report.references[key].text, LABEL, after_mm=0.4)


def _small(ground: Ground, title: str, text: str) -> Block:
    lines = ground.faces.wrap(text, CELL, ground.width)

    def draw(pen: Pen, y: float) -> None:
        pen.text(0, y + 4.0, title, style=CELL_BOLD)
        pen.lines(0, y + 4.0 + CELL.lead_mm, lines, style=CELL, tone=ground.palette.mid)

    return Block((len(lines) + 1) * CELL.lead_mm + 2.0, draw)
