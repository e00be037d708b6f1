"""One exercise of a session on small paper: its name above, what to do below it, then its boxes.

On a form each set is a line of fields instead. Laid out first, as values that can be checked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.booklet.book import Book, Sheet, note_in_lines
from app.booklet.fonts import BODY, CELL, LABEL_BOLD, NAME, NBSP, Style
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture, pose_of
from app.booklet.row import load_cell
from app.booklet.words import DOT, dose_text, effort_text, rest_text, side_text
from app.domain.exercise import Exercise, LoadKind
from app.domain.form_names import SetPlace, What
from app.domain.program import SessionId, Slot
from app.domain.wording import tr

_FIGURE_MM = 17.0
_LABEL_MM = 11.0
_GAP_MM = 4.5  # between two facts on one line
_VALUE_MM, _WORDS_MM = 6.4, 4.3  # down to a fact's baseline, and on to the words below it
_LEAST_TEXT_MM = 52.0  # with less room the boxes stand below the text
_HEAD_MM = 34.0  # kept for the head of the session above a row
_FEW = 8  # more sets stand below the text, where more of them fit side by side
_MOST_BESIDE = 4  # boxes beside the text; further ones go on in a second row
_NOTE_LETTERS = 200  # one line, which moves along as one types
LINE_MM = 9.4
"""From one set of a form to the next."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One part of a prescription: what stands large, and the words below it."""

    value: str
    words: str
    style: Style
    x: float
    line: int
    to: str = ""


@dataclass(frozen=True, slots=True)
class SlimRow:
    """One slot laid out in a column.

    sets: those that stand here, from 0; mark: 'A1' for the first exercise of pair A, or nothing;
    across: where the text ends; facts_y, how_y and note_y: upper edges;
    cells: the boxes of each set from the row's upper left corner, load above repetitions; on a
    form each set has four: load, repetitions, repetitions in reserve, remarks.
    """

    slot: Slot
    exercise: Exercise
    sets: range
    mark: str
    drawn: bool
    name: tuple[str, ...]
    across: float
    facts: tuple[Fact, ...]
    facts_y: float
    how: tuple[str, ...]
    how_y: float
    note: tuple[str, ...]
    note_y: float
    cells: tuple[tuple[Box, ...], ...]
    height: float


def cell_mm(book: Book) -> tuple[float, float]:
    """Width and height of a box as it is laid out: 18 by 12 mm in large print, else 15 by 9."""
    return (18.0 / book.zoom, 12.0 / book.zoom) if book.zoom > 1 else (15.0, 9.0)


def lay_out(book: Book, slots: Sequence[Slot]) -> tuple[SlimRow, ...]:
    """The rows of a session; a slot with more sets than a page holds goes on in further rows."""
    rows: list[SlimRow] = []
    beside = _beside_mm(book, slots)
    turn = 0
    for number, slot in enumerate(slots):
        joins = bool(slot.pair) and number > 0 and slots[number - 1].pair == slot.pair
        turn = turn + 1 if joins else 1
        goes_on = number + 1 < len(slots) and slots[number + 1].pair == slot.pair
        mark = f"{slot.pair}{turn}" if slot.pair and (joins or goes_on) else ""
        left = range(slot.sets)
        while left:
            row = _fitting(book, slot, mark, sets=left, beside=beside)
            rows.append(row)
            left = left[len(row.cells) :]
    return tuple(rows)


def _fitting(book: Book, slot: Slot, mark: str, *, sets: range, beside: float) -> SlimRow:
    """A row with as many of the sets as a page holds under a session's head."""
    most = book.frame.room - _HEAD_MM
    while True:
        row = _row(book, slot, mark, sets=sets, beside=beside if len(sets) <= _FEW else 0.0)
        if row.height <= most or len(sets) == 1:
            return row
        sets = sets[:-1]


def _row(book: Book, slot: Slot, mark: str, *, sets: range, beside: float) -> SlimRow:
    """beside: how much room there is left of the boxes; 0 where they stand below the text."""
    exercise = book.exercise(slot.exercise)
    first = sets.start == 0
    drawn = first and pose_of(book, exercise) is not None
    left = _FIGURE_MM + 2.0 if drawn else 0.0
    width = book.frame.width
    across = beside or width
    marked = book.faces.width_mm(mark, LABEL_BOLD) + 2.0 if mark else 0.0
    said = exercise.name if first else tr("{exercise}, goes on", exercise=exercise.name)
    name = book.wrap(said, NAME, across - left - marked - (2.0 if drawn else 16.0))
    facts_y = 1.4 + len(name) * NAME.lead_mm
    facts: tuple[Fact, ...] = ()
    how: tuple[str, ...] = ()
    how_y = facts_y
    note: tuple[str, ...] = ()
    if first:
        facts = tuple(_placed(book, _facts(book, slot, exercise), left=left, right=across))
        how_y += (facts[-1].line + 1) * (_VALUE_MM + _WORDS_MM) + 1.0
        how = book.wrap(how_text(slot, exercise), CELL, across - left - 2.0)
        note = note_in_lines(book, slot.note, style=CELL, width=width)
    y = max(how_y + len(how) * CELL.lead_mm + 1.0, _FIGURE_MM + 6.0 if drawn else 0.0)
    if beside:
        cells = _boxes(book, sets, 1.6, left=beside + _LABEL_MM)
        y = max(y, cells[-1][-1].bottom + 1.6)
    note_y = y
    y += len(note) * CELL.lead_mm + (1.0 if note else 0.0)
    if not beside:
        cells = _set_lines(book, sets, y) if book.options.form else _boxes(book, sets, y)
        y = cells[-1][-1].bottom + 2.4
    return SlimRow(
        slot=slot,
        exercise=exercise,
        sets=sets,
        mark=mark,
        drawn=drawn,
        name=name,
        across=across,
        facts=facts,
        facts_y=facts_y,
        how=how,
        how_y=how_y,
        note=note,
        note_y=note_y,
        cells=cells,
        height=y,
    )


def _beside_mm(book: Book, slots: Sequence[Slot]) -> float:
    """How much room is left of a session's boxes, where they stand beside the text; else 0."""
    wide, _ = cell_mm(book)
    most = max((min(slot.sets, _MOST_BESIDE) for slot in slots), default=0)
    left = book.frame.width - _LABEL_MM - most * wide
    return 0.0 if book.options.form or left < _LEAST_TEXT_MM else left


def _facts(book: Book, slot: Slot, exercise: Exercise) -> list[tuple[str, str, Style, str]]:
    """What is to be done: value, words below it, type, and the page that it leads to."""
    load = load_cell(book, slot, exercise)
    return [
        (dose_text(slot, exercise), side_text(exercise) or tr("sets × reps"), book.figure, ""),
        (load.number, load.words, book.figure, load.leads_to),
    ]


def how_text(slot: Slot, exercise: Exercise) -> str:
    """Effort, rest and tempo on one line: 'RIR 2 · rest 2:30 · tempo 3-0-1-0'."""
    parts = []
    if not exercise.timed:
        parts.append(NBSP.join(part for part in effort_text(slot.effort, slot.reps) if part))
    if slot.rest_s:
        parts.append(tr("rest {time}", time=rest_text(slot.rest_s)).replace(" ", NBSP))
    if slot.tempo:
        parts.append(tr("tempo {tempo}", tempo=slot.tempo).replace(" ", NBSP))
    return DOT.join(parts)


def _placed(
    book: Book, facts: list[tuple[str, str, Style, str]], *, left: float, right: float
) -> list[Fact]:
    """The facts beside each other, on as many lines as they need."""
    placed: list[Fact] = []
    x, line = left, 0
    for value, words, style, to in facts:
        leads = f"{words} 000" if to else words  # a page follows whose number is not known yet
        wide = max(
            book.faces.width_mm(value, style) if value else 13.0,
            book.faces.width_mm(leads, book.label) + (9.0 if to else 0.0),
        )
        if x > left and x + wide > right:
            x, line = left, line + 1
        placed.append(Fact(value, words, style, x, line, to))
        x += wide + _GAP_MM
    return placed


def _boxes(
    book: Book, sets: range, y: float, *, left: float = _LABEL_MM
) -> tuple[tuple[Box, ...], ...]:
    """For each set one box for the load and one below it, as many beside each other as fit."""
    wide, tall = cell_mm(book)
    beside = max(int((book.frame.width - left) / wide + 1e-6), 1)
    cells = []
    for number in range(len(sets)):
        line, place = divmod(number, beside)
        x, top = left + place * wide, y + line * (2 * tall + 2.4)
        cells.append((Box(x, top, wide, tall), Box(x, top + tall, wide, tall)))
    return tuple(cells)


def set_columns(width: float) -> tuple[tuple[float, float], ...]:
    """Left edge and width of the four fields of a set: load, repetitions, reserve, remarks."""
    number = 8.0
    load, reps, rir = (24.0, 20.0, 16.0) if width > 120 else (19.0, 15.0, 12.0)
    gap = 1.6
    x = number
    found = []
    for wide in (load, reps, rir, width - number - load - reps - rir - 3 * gap):
        found.append((x, wide))
        x += wide + gap
    return tuple(found)


def _set_lines(book: Book, sets: range, y: float) -> tuple[tuple[Box, ...], ...]:
    """For each set a line with four fields, under the words that say what they are."""
    top = y + 4.6
    return tuple(
        tuple(
            Box(x, top + number * LINE_MM, wide, LINE_MM - 1.2)
            for x, wide in set_columns(book.frame.width)
        )
        for number in range(len(sets))
    )


def draw_row(sheet: Sheet, row: SlimRow, y: float, *, week: int, session: SessionId) -> None:
    """Draw a row with its upper edge at `y`, and the hair line below it."""
    pen, p, label = sheet.pen, sheet.palette, sheet.book.label
    left = _FIGURE_MM + 2.0 if row.drawn else 0.0
    if row.drawn:
        draw_picture(sheet, row.exercise, Box(0, y + 1.4, _FIGURE_MM, _FIGURE_MM - 0.4))
    base = y + 5.4
    x = left
    if row.mark:
        x += pen.text(x, base, row.mark, style=LABEL_BOLD) + 2.0
    pen.lines(x, base, row.name, style=NAME)
    key = f"exercise-{row.exercise.key}"
    page = sheet.page_text(key)
    wide = pen.width(page, label)
    page_x = 1.0 if row.drawn else row.across - 2.0 - wide
    page_y = y + _FIGURE_MM + 4.4 if row.drawn else base
    sheet.linked(page_x, page_y, page, to=key, style=label, tone=p.mid)
    pen.lines(left, y + row.how_y + 3.6, row.how, style=CELL)
    for fact in row.facts:
        _draw_fact(sheet, fact, y + row.facts_y)
    pen.lines(0, y + row.note_y + 3.8, row.note, style=CELL)
    if sheet.book.options.form:
        _draw_fields(sheet, row, y, week=week, session=session)
    else:
        _draw_boxes(sheet, row, y)
    pen.rule(0, y + row.height, sheet.width, tone=p.hair)


def _draw_fact(sheet: Sheet, fact: Fact, y: float) -> None:
    pen, p = sheet.pen, sheet.palette
    base = y + fact.line * (_VALUE_MM + _WORDS_MM) + _VALUE_MM
    if fact.value:
        pen.text(fact.x, base, fact.value, style=fact.style)
    else:
        pen.rule(fact.x, base + 0.6, fact.x + 13.0, weight=0.5, tone=p.cell)
    words = fact.words
    if fact.to and (page := sheet.page_text(fact.to)):
        words = tr("{what}: {page}", what=words, page=page)
    sheet.linked(fact.x, base + _WORDS_MM, words, to=fact.to, style=sheet.book.label, tone=p.mid)


def _draw_boxes(sheet: Sheet, row: SlimRow, y: float) -> None:
    """The boxes with their labels on the left, and the number of each set inside its corner."""
    pen, p, label = sheet.pen, sheet.palette, sheet.book.label
    lower = tr("time") if row.exercise.timed else tr("reps")
    for upper_box, lower_box in row.cells:
        for box in (upper_box, lower_box):
            pen.box(Box(box.x, y + box.y, box.width, box.height), stroke=p.cell, weight=0.5)
        pen.rule(upper_box.x, y + upper_box.y, upper_box.right, weight=0.9)
        if upper_box.x > row.cells[0][0].x:
            continue
        for box, text in ((upper_box, tr("load")), (lower_box, lower)):
            middle = y + box.y + box.height / 2 + 1.1
            said = pen.fitting(text, label, upper_box.x - 1.4)
            pen.text(upper_box.x - 1.4, middle, said, style=label, tone=p.mid, align=1)


def _draw_fields(sheet: Sheet, row: SlimRow, y: float, *, week: int, session: SessionId) -> None:
    """The set lines of a form: numbers of the sets, frames, and a field in each."""
    pen, p, label = sheet.pen, sheet.palette, sheet.book.label
    exercise, units = row.exercise, sheet.book.issue.client.units
    loaded = exercise.load_kind not in (LoadKind.NONE, LoadKind.BAND)
    lower = tr("time, s") if exercise.timed else tr("reps")
    heads = (tr("load, {units}", units=units) if loaded else "", lower, tr("RIR"), tr("remarks"))
    said = (
        tr("load in {units}", units=units),
        tr("seconds") if exercise.timed else tr("repetitions"),
        tr("repetitions left in reserve"),
        tr("remarks"),
    )
    for box, head in zip(row.cells[0], heads, strict=True):
        pen.text(box.x, y + box.y - 1.2, head, style=label, tone=p.mid)
    for number, boxes in enumerate(row.cells, start=row.sets.start + 1):
        place = SetPlace(week, session, row.slot.id, number)
        base = y + boxes[0].y + 5.6
        pen.text(0, base, str(number), style=BODY, tone=p.mid)
        for what, box, ask in zip(What, boxes, said, strict=True):
            if what is What.LOAD and not loaded:
                continue
            frame = Box(box.x, y + box.y, box.width, box.height)
            pen.box(frame, stroke=p.cell, weight=0.5)
            tip = tr(
                "Week {week}, {exercise}, set {number}: {what}",
                week=week,
                exercise=exercise.name,
                number=number,
                what=ask,
            )
            most = _NOTE_LETTERS if what is What.NOTE else 8
            sheet.fields.text(pen, frame, place.field(what), tip=tip, most=most)
