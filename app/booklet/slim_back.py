"""Exercises, energy and protein, and the sources, in one column."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet import exercise_page
from app.booklet.book import Book, Page, Sheet
from app.booklet.column import (
    Piece,
    column_pages,
    hair,
    note_lines,
    numbered,
    point,
    room_for,
    section,
    text,
)
from app.booklet.energy_page import (
    CAUTION,
    CAUTIONS,
    CHART_MM,
    cites_of,
    draw_chart,
    intro,
    working_text,
)
from app.booklet.exercise_page import Entry, entries, muscle_rows, patch, small_facts
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD, SMALL_HEAD
from app.booklet.instead import Instead, instead_of
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture, pose_of
from app.booklet.slim_front import caution
from app.booklet.source_page import HEADINGS, INTRO, Cites, numbers, used_text
from app.booklet.words import DOT, day_text, equipment_text, side_text, thousands
from app.domain.energy import EnergyPlan, EnergyWeek, Referral
from app.domain.exercise import Exercise
from app.domain.figure import Detail, Phase
from app.domain.units import number_text
from app.domain.wording import tr

_PICTURE_MM = 50.0
_OTHER_MM = 18.0
_TOGETHER = 5  # faults that stay on one page


def exercise_pages(book: Book) -> Iterator[Page]:
    """One exercise after the other, each on a page of its own and on further ones if need be."""
    for entry in entries(book):
        exercise = entry.exercise
        pieces = [*_about(book, entry), *_how(book, exercise), *_faults(book, exercise)]
        pieces += _others(book, instead_of(book, entry.slot, exercise))
        pieces.append(_stop(book))
        yield from column_pages(
            book,
            f"exercise-{exercise.key}",
            exercise.name,
            pieces,
            cites=exercise_page.cites_of(exercise),
            fill=note_lines(tr("Your notes")),
        )


def _about(book: Book, entry: Entry) -> Iterator[Piece]:
    """What it needs, start and end side by side, what works, tempo and rest."""
    exercise = entry.exercise
    needs = DOT.join(part for part in (equipment_text(exercise), side_text(exercise)) if part)
    if needs:
        yield text(book, needs, CELL, mid=True)
    if pose_of(book, exercise):
        yield _pictures(book, exercise)
    cites = tuple(cite.key for cite in exercise_page.cites_of(exercise))
    for muscles, said, most in muscle_rows(exercise):
        names = ", ".join(book.muscle(muscle) for muscle in muscles)
        told = tr("{muscles}: {what}", muscles=names, what=said)
        yield _muscles(book, told, most=most, cites=cites if most else ())
    facts = [tr("{name}: {value}", name=name, value=value) for name, value in small_facts(entry)]
    if facts:
        yield text(book, DOT.join(facts), CELL)


def _pictures(book: Book, exercise: Exercise) -> Piece:
    half = book.frame.width / 2
    tall = min(_PICTURE_MM, half * 0.9, book.frame.room * 0.36)

    def draw(sheet: Sheet, y: float) -> None:
        for number, (phase, said) in enumerate(
            ((Phase.START, tr("Start")), (Phase.END, tr("End")))
        ):
            box = Box(number * half, y, half - 1.0, tall)
            draw_picture(sheet, exercise, box, phase=phase, detail=Detail.FULL)
            sheet.pen.text(box.x + 2.0, y + tall + 4.4, said, style=SMALL_HEAD)

    return Piece(tall + 7.0, draw)


def _muscles(book: Book, said: str, *, most: bool, cites: tuple[str, ...]) -> Piece:
    width = book.frame.width - 8.0
    lines = book.wrap(said + room_for(cites), BODY, width)

    def draw(sheet: Sheet, y: float) -> None:
        patch(sheet, 0, y + 2.8, most=most)
        sheet.pen.paragraph(8.0, y + 4.0, said + sheet.cite(*cites), width=width, style=BODY)

    return Piece(len(lines) * BODY.lead_mm + 0.6, draw)


def _how(book: Book, exercise: Exercise) -> Iterator[Piece]:
    if exercise.set_up:
        yield section(book, tr("Set up"))
        yield from (point(book, line) for line in exercise.set_up)
    if exercise.cues:
        yield section(book, tr("Do it"), book.foreign(exercise))
        yield from (numbered(book, at, line) for at, line in enumerate(exercise.cues, start=1))


def _faults(book: Book, exercise: Exercise) -> Iterator[Piece]:
    if exercise.faults:
        yield section(book, tr("If you notice this"), tr("try this"))
    for at, fault in enumerate(exercise.faults, start=1):
        yield text(book, fault.notice, BODY_BOLD, after=0.2, leads=True)
        yield text(book, fault.remedy, after=0.4, leads=True)
        # a few of them: a page that begins with the last one reads badly
        yield hair(leads=at < min(len(exercise.faults), _TOGETHER))


def _others(book: Book, others: tuple[Instead, ...]) -> Iterator[Piece]:
    if not others:
        return
    rest = tr("same sets, reps and effort; a load of its own")
    if others[0].prepared:
        rest = tr("chosen for you; {rest}", rest=rest)
    yield section(book, tr("Instead of it"), rest)
    # the last stays with the line that says when to stop, which would be lost on a page alone
    yield from (_other(book, one, leads=one is others[-1]) for one in others)


def _other(book: Book, other: Instead, *, leads: bool) -> Piece:
    drawn = pose_of(book, other.exercise) is not None
    left = _OTHER_MM + 2.0 if drawn else 0.0
    name = book.wrap(other.exercise.name, BODY_BOLD, book.frame.width - left)
    reason = book.wrap(other.reason, CELL, book.frame.width - left)
    tall = len(name) * BODY.lead_mm + len(reason) * CELL.lead_mm + 1.4

    def draw(sheet: Sheet, y: float) -> None:
        if drawn:
            draw_picture(sheet, other.exercise, Box(0, y, _OTHER_MM, _OTHER_MM - 1.0))
        at = sheet.pen.lines(left, y + 4.4, name, style=BODY_BOLD)
        sheet.pen.lines(left, at, reason, style=CELL, tone=sheet.palette.mid)

    return Piece(max(tall, _OTHER_MM if drawn else 0.0), draw, gap=0.8, leads=leads)


def _stop(book: Book) -> Piece:
    """When to stop, with the page that says what to do then."""
    said = tr(
        "Stop if a joint hurts or you feel dizzy. What to do then is on {page}.", page="page 00"
    )
    lines = book.wrap(said, CELL, book.frame.width - 7.0)

    def draw(sheet: Sheet, y: float) -> None:
        key = "reading" if "reading" in sheet.pages else "cautions"
        page = sheet.page_text(key)
        pen, base = sheet.pen, y + 4.4
        triangle = ((2.5, base - 3.6), (5.0, base + 0.8), (0.0, base + 0.8))
        pen.polygon(triangle, stroke=sheet.palette.ink, weight=0.8)
        pen.text(2.5, base + 0.3, "!", style=sheet.book.label, align=0.5)
        told = tr(
            "Stop if a joint hurts or you feel dizzy. What to do then is on {page}.", page=page
        )
        pen.paragraph(7.0, base, told, width=sheet.width - 7.0, style=CELL)

    return Piece(len(lines) * CELL.lead_mm + 2.0, draw, gap=2.0)


# -- energy ----------------------------------------------------------------------------------


def energy_pages(book: Book) -> Iterator[Page]:
    """What happens to the targets, the chart, the weeks in rows, and how it all came about."""
    energy = book.energy
    title = tr("Energy and protein")
    if energy is None:
        return
    if isinstance(energy, Referral):
        pieces = [caution(book, tr("Ask your doctor or a dietitian"), (energy.text,))]
        fill = note_lines(tr("What they advise"))
        yield from column_pages(book, "energy", title, pieces, fill=fill)
        return
    pieces = [text(book, intro(energy)), _energy_chart(energy), _energy_heads()]
    before: EnergyWeek | None = None
    for week in energy.weeks:
        pieces.append(_energy_row(book, week, before))
        before = week
    pieces.append(text(book, tr("In bold: a change from the week before."), CELL, mid=True))
    pieces.append(section(book, tr("How the numbers came about")))
    pieces.append(text(book, working_text(energy), CELL, cites=energy.sources, mid=True))
    pieces.append(caution(book, tr(CAUTION), tuple(tr(one) for one in CAUTIONS)))
    fill = note_lines(tr("What you notice"))
    yield from column_pages(book, "energy", title, pieces, cites=cites_of(energy), fill=fill)


def _energy_chart(energy: EnergyPlan) -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        draw_chart(sheet, energy, y)

    return Piece(CHART_MM + 8.0, draw)


_ENERGY_X = (9.0, 13.0, 0.48, 0.7)
"""Right edge of the week, left edge of its date, then shares of the width for kcal and protein."""


def _energy_heads() -> Piece:
    def draw(sheet: Sheet, y: float) -> None:
        pen, mid, label = sheet.pen, sheet.palette.mid, sheet.book.label
        week, start, kcal, protein = _ENERGY_X
        units = sheet.book.issue.client.units
        base = y + 3.6
        # a long word begins at the edge rather than before it
        wide = pen.width(tr("week"), label)
        pen.text(max(week, wide), base, tr("week"), style=label, tone=mid, align=1)
        pen.text(max(start, wide + 1.6), base, tr("from"), style=label, tone=mid)
        pen.text(kcal * sheet.width, base, "kcal", style=label, tone=mid, align=1)
        pen.text(protein * sheet.width, base, tr("protein g"), style=label, tone=mid, align=1)
        mass = tr("mass, {units}", units=units)
        pen.text(sheet.width, base, mass, style=label, tone=mid, align=1)
        pen.rule(0, y + 5.4, sheet.width, weight=0.9)

    return Piece(5.6, draw, gap=2.0, leads=True)


def _energy_row(book: Book, week: EnergyWeek, before: EnergyWeek | None) -> Piece:
    tall = 9.2
    start = day_text(book.issue.program.week_start(week.number - 1))
    kcal, protein = thousands(week.kcal), number_text(week.macros.protein_g, 0)
    changed = before is None or before.kcal != week.kcal
    more = before is None or number_text(before.macros.protein_g, 0) != protein

    def draw(sheet: Sheet, y: float) -> None:
        pen, p, base = sheet.pen, sheet.palette, y + 6.0
        number_x, start_x, kcal_x, protein_x = _ENERGY_X
        pen.text(number_x, base, str(week.number), style=BODY_BOLD, align=1)
        pen.text(start_x, base, start, style=CELL, tone=p.mid)
        style = BODY_BOLD if changed else BODY
        pen.text(kcal_x * sheet.width, base, kcal, style=style, align=1)
        style = BODY_BOLD if more else BODY
        pen.text(protein_x * sheet.width, base, protein, style=style, align=1)
        left = protein_x * sheet.width + 4.0
        if not sheet.book.options.form:
            pen.box(Box(left, y + 0.3, sheet.width - left, tall - 0.6), stroke=p.cell)
        pen.rule(0, y + tall, left - 1.0, tone=p.hair)

    return Piece(tall, draw)


# -- sources ---------------------------------------------------------------------------------


def source_pages(book: Book, cites: Cites) -> Iterator[Page]:
    """Every source with its number, what it is used for and on which pages."""
    known = numbers(book, cites)
    if not known:
        return
    pieces = [text(book, tr(INTRO))]
    topic_before = None
    for key, number in known.items():
        topic = min(cite.topic for cite in cites if cite.key == key)
        if topic is not topic_before:
            pieces.append(section(book, tr(HEADINGS[topic])))
            topic_before = topic
        pieces.append(_source(book, key, number, used_text(cites, key)))
    yield from column_pages(book, "sources", tr("Where the numbers come from"), pieces)


def _source(book: Book, key: str, number: int, used: str) -> Piece:
    left = 9.0
    width = book.frame.width - left
    lines = book.wrap(book.content.references[key].text, CELL, width)
    usage = book.wrap(tr("Used for: {what}", what=used), CELL, width)

    def draw(sheet: Sheet, y: float) -> None:
        sheet.pen.text(left - 2.6, y + 3.8, str(number), style=CELL_BOLD, align=1)
        at = sheet.pen.lines(left, y + 3.8, lines, style=CELL)
        sheet.pen.lines(left, at, usage, style=CELL, tone=sheet.palette.mid)

    return Piece((len(lines) + len(usage)) * CELL.lead_mm + 1.2, draw)
