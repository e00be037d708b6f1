"""One page an exercise: pictures, what works, how it is done, faults, and what else would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.booklet.book import NOTE_LINE_MM, Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.fonts import (
    BODY,
    BODY_BOLD,
    CELL,
    LABEL,
    NAME,
    SECTION,
    SMALL_HEAD,
)
from app.booklet.instead import BESIDE, Instead, instead_of
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture, pose_of
from app.booklet.signs import small_caution
from app.booklet.words import DOT, equipment_text, rest_text, side_text
from app.domain.exercise import Exercise, Muscle
from app.domain.figure import Detail, Phase
from app.domain.program import Slot
from app.domain.wording import tr

_FIGURE_MM = (50.0, 86.0)  # least and most height of the pictures
_ASIDE_X = 145.0
_HALF = 95.0


@dataclass(frozen=True, slots=True)
class Entry:
    """An exercise with the first slot that uses it."""

    exercise: Exercise
    slot: Slot


def entries(book: Book) -> tuple[Entry, ...]:
    """The exercises of the printed weeks, each once, in the order of the plan."""
    seen: dict[str, Entry] = {}
    for index in book.week_range:
        for slot in book.issue.program.weeks[index].slots():
            seen.setdefault(slot.exercise, Entry(book.exercise(slot.exercise), slot))
    return tuple(seen.values())


def pages(book: Book) -> Iterator[Page]:
    """One page an exercise."""
    for entry in entries(book):
        yield Page(
            f"exercise-{entry.exercise.key}",
            _drawing(book, entry),
            title=entry.exercise.name,
            cites=cites_of(entry.exercise),
        )


def cites_of(exercise: Exercise) -> tuple[Cite, ...]:
    """What the coach's own exercise rests on; of a shipped one, the library tells it."""
    studies = dict.fromkeys(row.study for row in exercise.activation) if exercise.own else ()
    return tuple(Cite(key, Topic.SAFETY, tr("which muscles work")) for key in studies)


def cited(sheet: Sheet, exercise: Exercise) -> str:
    """' [3]' for the sources of an own exercise, nothing for others."""
    return sheet.cite(*(cite.key for cite in cites_of(exercise)))


def _drawing(book: Book, entry: Entry) -> Draw:
    exercise = entry.exercise
    others = instead_of(book, entry.slot, exercise)

    def draw(sheet: Sheet) -> None:
        aside = DOT.join(p for p in (equipment_text(exercise), side_text(exercise)) if p)
        sheet.title(exercise.name, aside)
        if pose_of(book, exercise):
            y = _pictures(sheet, entry, _picture_mm(book, exercise, others))
        else:
            y = _facts(sheet, entry)
        y = _how(sheet, exercise, y)
        y = _faults(sheet, exercise, y)
        y = _instead(sheet, others, y)
        _notes(sheet, y + 7.4)
        _stop(sheet)
        sheet.foot()

    return draw


def _picture_mm(book: Book, exercise: Exercise, others: tuple[Instead, ...]) -> float:
    """How tall the pictures may be, so that the text below them still fits."""
    half = book.frame.width - 182.0 + _HALF
    point = BODY.lead_mm
    left = sum(len(book.wrap(t, BODY, half - 13.5)) * point + 0.9 for t in exercise.set_up)
    at = half if exercise.set_up else 0.0
    right_mm = book.frame.width - at - 5.5
    right = sum(len(book.wrap(t, BODY, right_mm)) * point + 0.9 for t in exercise.cues)
    faults = sum(
        2.4
        + point
        * max(
            len(book.wrap(fault.notice, BODY, half - 8)),
            len(book.wrap(fault.remedy, BODY, book.frame.width - half)),
        )
        for fault in exercise.faults
    )
    text = (
        max(left, right)
        + faults
        + 12.0
        + 12.0 * bool(exercise.faults)
        + (2.0 + _instead_mm(book, others)) * bool(others)
    )
    text += 14.0 * (len(others) > BESIDE)
    least, most = _FIGURE_MM
    return min(max(book.frame.last - 41.0 - 16.0 - text, least), most)


def _pictures(sheet: Sheet, entry: Entry, tall: float) -> float:
    """Start and end side by side, what works beside them; gives back the baseline below."""
    pen, p = sheet.pen, sheet.palette
    top, half = 29.0, 70.0
    for number, (phase, text) in enumerate(((Phase.START, tr("Start")), (Phase.END, tr("End")))):
        x = number * (half + 1.0)
        box = Box(x, top, half, tall)
        draw_picture(sheet, entry.exercise, box, phase=phase, detail=Detail.FULL)
        pen.text(x + 2.0, top + tall + 4.6, text, style=SMALL_HEAD)
    x = sheet.width - 182.0 + _ASIDE_X
    pen.rule(x, top + 1, x, to_y=top + tall + 4, tone=p.line)
    x += 4.0
    y = top + 4.0
    wide = sheet.width - x
    pen.text(x, y, tr("Works") + cited(sheet, entry.exercise), style=SMALL_HEAD)
    y = _muscles(sheet, entry.exercise, x, y + 6.2)
    for head, text in small_facts(entry):
        y += 5.4
        pen.text(x, y, head, style=SMALL_HEAD)
        y = pen.paragraph(x, y + 4.8, text, width=wide, style=CELL) - CELL.lead_mm + 1.0
    return top + tall + 12.4


def small_facts(entry: Entry) -> tuple[tuple[str, str], ...]:
    """Tempo, rest and usual reps."""
    exercise, slot = entry.exercise, entry.slot
    facts = [(tr("Tempo"), slot.tempo or exercise.tempo)]
    if slot.rest_s:
        facts.append((tr("Rest"), rest_text(slot.rest_s)))
    return tuple(fact for fact in facts if fact[1])


def muscle_rows(exercise: Exercise) -> tuple[tuple[tuple[Muscle, ...], str, bool], ...]:
    """Muscles that do most of the work and muscles that help, with the words for it."""
    rows = (
        (exercise.primes, tr("most of the work"), True),
        (exercise.helpers, tr("help"), False),
    )
    return tuple(row for row in rows if row[0])


def _muscles(sheet: Sheet, exercise: Exercise, x: float, y: float) -> float:
    """The muscles that do most of the work, and those that help, each with its patch."""
    pen, p = sheet.pen, sheet.palette
    for muscles, said, most in muscle_rows(exercise):
        patch(sheet, x, y - 1.2, most=most)
        for muscle in muscles:
            y = _hanging(sheet, x + 7.4, y, sheet.book.muscle(muscle))
        room = sheet.width - x - 7.4
        y = pen.paragraph(x + 7.4, y - 0.6, said, width=room, style=LABEL, tone=p.mid)
        y += 7.0 - LABEL.lead_mm
    return y - 4.0


def _hanging(sheet: Sheet, x: float, y: float, name: str) -> float:
    """One name of a list, its further lines set in, so that they are not taken for names."""
    wide = sheet.width - x
    if sheet.pen.width(name, BODY) > wide:
        first, *more = sheet.book.wrap(name, BODY, wide - 2.4)
        y = sheet.pen.lines(x, y, (first,), style=BODY)
        return sheet.pen.lines(x + 2.4, y, tuple(more), style=BODY)
    return sheet.pen.lines(x, y, (name,), style=BODY)


def patch(sheet: Sheet, x: float, y: float, *, most: bool) -> None:
    """The sign of a muscle patch: two tones for most of the work, one for help."""
    canvas, p = sheet.pen.canvas, sheet.palette
    x0, y0 = sheet.pen.at(x, y + 1.8)
    x1, y1 = sheet.pen.at(x + 6.0, y - 1.8)
    sheet.pen.fill(p.helper)
    canvas.ellipse(x0, y0, x1, y1, stroke=0, fill=1)
    if most:
        sheet.pen.fill(p.accent)
        dx, dy = (x1 - x0) * 0.18, (y1 - y0) * 0.18
        canvas.ellipse(x0 + dx, y0 + dy, x1 - dx, y1 - dy, stroke=0, fill=1)


def _facts(sheet: Sheet, entry: Entry) -> float:
    """Without pictures: what works, tempo and rest in a row."""
    pen, p, exercise = sheet.pen, sheet.palette, entry.exercise
    columns = [
        (tr("Does most of the work"), _names(sheet.book, exercise.primes) + cited(sheet, exercise)),
        (tr("Helps"), _names(sheet.book, exercise.helpers)),
        *small_facts(entry),
    ]
    columns = [column for column in columns if column[1]]
    bottom = y = 32.0
    pitch = sheet.width / max(len(columns), 1)
    heads = [sheet.book.wrap(head, SMALL_HEAD, pitch - 2.0) for head, _ in columns]
    below = y + 5.4 + (max(map(len, heads), default=1) - 1) * SMALL_HEAD.lead_mm
    for number, (head, (_, text)) in enumerate(zip(heads, columns, strict=True)):
        x = number * pitch
        pen.lines(x, y, head, style=SMALL_HEAD)
        end = pen.paragraph(x, below, text, width=pitch - 5, style=BODY)
        bottom = max(bottom, end)
    pen.rule(0, bottom - 2.4, sheet.width, tone=p.line)
    return bottom + 6.0


def _names(book: Book, muscles: tuple[Muscle, ...]) -> str:
    return ", ".join(book.muscle(muscle) for muscle in muscles)


def _how(sheet: Sheet, exercise: Exercise, y: float) -> float:
    """Set-up on the left, the movement step by step on the right."""
    if not exercise.set_up and not exercise.cues:
        return y
    pen, p = sheet.pen, sheet.palette
    half = sheet.width - 182.0 + _HALF
    wide = half - 8.0
    ends = [y]
    if exercise.set_up:
        at = sheet.section(y, tr("Set up"), to_x=half - 8.0) + 5.2
        for line in exercise.set_up:
            pen.box(Box(0, at - 1.8, 1.2, 1.2), fill=p.ink)
            at = pen.paragraph(5.5, at, line, width=wide - 5.5, style=BODY) + 0.9
        ends.append(at)
    if exercise.cues:
        x = half if exercise.set_up else 0.0
        at = sheet.section(y, tr("Do it"), x=x, aside=sheet.book.foreign(exercise)) + 5.2
        for number, line in enumerate(exercise.cues, start=1):
            pen.text(x, at, str(number), style=BODY_BOLD)
            at = pen.paragraph(x + 5.5, at, line, width=sheet.width - x - 5.5, style=BODY) + 0.9
        ends.append(at)
    return max(ends) + 3.6


def _faults(sheet: Sheet, exercise: Exercise, y: float) -> float:
    """What one may notice, and what to try."""
    if not exercise.faults:
        return y
    pen, p = sheet.pen, sheet.palette
    half = sheet.width - 182.0 + _HALF
    pen.text(half, y, tr("try this"), style=SECTION)
    y = sheet.section(y, tr("If you notice this"))
    for fault in exercise.faults:
        base = y + 5.2
        left = pen.paragraph(0, base, fault.notice, width=half - 8, style=BODY)
        right = pen.paragraph(half, base, fault.remedy, width=sheet.width - half, style=BODY)
        y = max(left, right) - BODY.lead_mm + 2.4
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y + 8.8


def _instead_mm(book: Book, others: tuple[Instead, ...]) -> float:
    """What those side by side take, with the heading: more where names or reasons are long."""
    wide = book.frame.width / BESIDE - 26.0
    most = max(
        (
            len(book.wrap(other.exercise.name, NAME, wide)) * NAME.lead_mm
            + len(book.wrap(other.reason, CELL, wide)) * CELL.lead_mm
            for other in others[:BESIDE]
        ),
        default=0.0,
    )
    return max(34.0, most + 9.0)


def _instead(sheet: Sheet, others: tuple[Instead, ...], y: float) -> float:
    """What may be done in its place: three side by side, the rest of the prepared in words."""
    if not others or y + _instead_mm(sheet.book, others) > sheet.book.frame.last - 9:
        return y
    pen = sheet.pen
    aside = tr("same sets, reps and effort; a load of its own")
    if others[0].prepared:
        aside = tr("chosen for you; {aside}", aside=aside)
    y = sheet.section(y, tr("Instead of it"), aside=aside)
    pitch = sheet.width / BESIDE
    bottom = y
    for number, other in enumerate(others[:BESIDE]):
        x = number * pitch
        drawn = draw_picture(sheet, other.exercise, Box(x, y + 3.5, 20.0, 19.0))
        left = x + 22.0 if drawn else x
        wide = pitch - 4.0 - (left - x)
        end = pen.lines(left, y + 6.6, sheet.book.wrap(other.exercise.name, NAME, wide), style=NAME)
        end = pen.lines(
            left,
            end,
            sheet.book.wrap(other.reason, CELL, wide),
            style=CELL,
            tone=sheet.palette.mid,
        )
        bottom = max(bottom, end, y + 26.0 if drawn else 0.0)
    if rest := others[BESIDE:]:
        named = "; ".join(f"{one.exercise.name} ({one.reason})" for one in rest)
        text = tr("Or: {exercises}.", exercises=named)
        bottom = pen.paragraph(0, bottom + 1.2, text, width=sheet.width, style=CELL)
    pen.rule(0, bottom - 1.4, sheet.width, tone=sheet.palette.hair)
    return bottom


def _notes(sheet: Sheet, y: float) -> None:
    """Lines for the client's own words, down to the caution."""
    pen, p = sheet.pen, sheet.palette
    last = sheet.book.frame.last - 9.0
    if y > last:
        return
    width = pen.text(0, y - 1.0, tr("Your notes"), style=SMALL_HEAD)
    pen.rule(width + 5, y, sheet.width, tone=p.line)
    sheet.note_lines(y + NOTE_LINE_MM, last)


def _stop(sheet: Sheet) -> None:
    key = "reading" if "reading" in sheet.pages else "cautions"
    text = tr(
        "Stop if a joint hurts or you feel dizzy. What to do then is on {page_text}.",
        page_text=sheet.page_text(key),
    )
    small_caution(sheet, sheet.book.frame.last - 2.0, text)
