"""One row of a week page: an exercise with its prescription and a box for every set.

The layout comes first, as values that can be checked; drawing only follows it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from app.booklet.book import Book, Sheet, note_in_lines
from app.booklet.content import Part
from app.booklet.fonts import (
    BODY,
    CELL,
    FIGURE,
    FIGURE_12,
    LABEL,
    LABEL_BOLD,
    NAME,
    Style,
)
from app.booklet.pen import Box, Pen
from app.booklet.pictures import draw_picture
from app.booklet.words import (
    dose_text,
    effort_text,
    load_words,
    mass_number,
    rest_text,
    side_text,
)
from app.domain.exercise import Exercise, LoadKind
from app.domain.program import Slot
from app.domain.wording import tr

ROOMY_MM, TIGHT_MM = 21.4, 19.2
"""Height of a row with up to four sets, and the least it can be shrunk to."""
COMPACT_MM = 12.2
"""Height of a row with one box a set, where a week is drawn together on one page."""

CELL_WIDE_MM = 15.0
CELLS_A_ROW = 4
_MARGIN_TOP, _MARGIN_BOTTOM = 1.0, 1.2
_BASE_WIDTH = 182.0


@dataclass(frozen=True, slots=True)
class Columns:
    """Where the columns of a week page begin, mm from the left edge of the frame."""

    name: float
    dose: float
    effort: float
    load: float
    rest: float
    label: float
    cells: float


def columns(width: float) -> Columns:
    """The columns for a frame of that width; what it has more than A4 goes to the name."""
    more = width - _BASE_WIDTH
    return Columns(20.0, *(x + more for x in (54.0, 74.5, 88.5, 104.0, 115.0, 122.0)))


@dataclass(frozen=True, slots=True)
class Row:
    """One slot laid out.

    mark: 'A1' for the first exercise of pair A, or nothing; joins: the row above it is of the same
    pair; cells: one box for each set's load and one below it for its repetitions, from the row's
    upper left corner; on a compact row both are one. first and base: the baselines of the name's
    first line and of the figures.
    """

    slot: Slot
    exercise: Exercise
    name: tuple[str, ...]
    note: tuple[str, ...]
    mark: str
    joins: bool
    first: float
    body_mm: float
    height: float
    cells: tuple[tuple[Box, Box], ...]
    base: float = 9.7

    @property
    def compact(self) -> bool:
        """True if a set has one box for load and repetitions."""
        return self.cells[0][0] == self.cells[0][1]


def lay_out_rows(book: Book, slots: Sequence[Slot], *, row_mm: float) -> tuple[Row, ...]:
    """The rows of a session, each at least `row_mm` tall."""
    rows: list[Row] = []
    turn = 0
    for number, slot in enumerate(slots):
        joins = bool(slot.pair) and number > 0 and slots[number - 1].pair == slot.pair
        turn = turn + 1 if joins else 1
        alone = not joins and (number + 1 == len(slots) or slots[number + 1].pair != slot.pair)
        mark = f"{slot.pair}{turn}" if slot.pair and not alone else ""
        rows.append(_lay_out(book, slot, mark=mark, joins=joins, row_mm=row_mm))
    return tuple(rows)


def _lay_out(book: Book, slot: Slot, *, mark: str, joins: bool, row_mm: float) -> Row:
    exercise = book.exercise(slot.exercise)
    col = columns(book.frame.width)
    name = book.wrap(exercise.name, NAME, col.dose - col.name - 1.6)
    note = note_in_lines(book, slot.note, style=CELL, width=book.frame.width - col.name)
    if row_mm == COMPACT_MM:
        return _lay_out_compact(book, slot, name=name, note=note, mark=mark, joins=joins)
    cells = cell_boxes(slot.sets, col.cells, row_mm=row_mm)
    boxes_mm = cells[-1][1].bottom + _MARGIN_BOTTOM
    first = max(9.7 - (len(name) - 1) * NAME.lead_mm / 2, 5.0)
    body_mm = max(boxes_mm, first + len(name) * NAME.lead_mm + 1.4)
    height = body_mm + (len(note) * CELL.lead_mm + 0.8 if note else 0.0)
    return Row(slot, exercise, name, note, mark, joins, first, body_mm, height, cells)


def _lay_out_compact(
    book: Book,
    slot: Slot,
    *,
    name: tuple[str, ...],
    note: tuple[str, ...],
    mark: str,
    joins: bool,
) -> Row:
    col = columns(book.frame.width)
    cells = tuple((box, box) for box in single_boxes(slot.sets, col.cells))
    base = 6.2
    first = max(base - (len(name) - 1) * NAME.lead_mm / 2, 4.4)
    under_name = first + len(name) * NAME.lead_mm + 1.4
    under_load = base + 4.4 + (5.4 if slot.tempo else 1.2)
    body_mm = max(cells[-1][1].bottom + _MARGIN_BOTTOM, under_name, under_load, COMPACT_MM)
    height = body_mm + (len(note) * CELL.lead_mm + 0.8 if note else 0.0)
    exercise = book.exercise(slot.exercise)
    return Row(slot, exercise, name, note, mark, joins, first, body_mm, height, cells, base)


@lru_cache(maxsize=64)
def single_boxes(sets: int, left: float) -> tuple[Box, ...]:
    """One box a set, four side by side, from the row's upper left corner."""
    tall = COMPACT_MM - _MARGIN_TOP - _MARGIN_BOTTOM
    return tuple(
        Box(
            left + number % CELLS_A_ROW * CELL_WIDE_MM,
            _MARGIN_TOP + number // CELLS_A_ROW * (tall + _MARGIN_TOP),
            CELL_WIDE_MM,
            tall,
        )
        for number in range(sets)
    )


@lru_cache(maxsize=128)
def cell_boxes(sets: int, left: float, *, row_mm: float) -> tuple[tuple[Box, Box], ...]:
    """The boxes of a row: for each set one for the load and one below it; four sets side by side.

    Measured from the row's upper left corner. Further sets go on in rows of the same height.
    """
    tall = (row_mm - _MARGIN_TOP - _MARGIN_BOTTOM) / 2
    pairs = []
    for number in range(sets):
        line, place = divmod(number, CELLS_A_ROW)
        x = left + place * CELL_WIDE_MM
        y = _MARGIN_TOP + line * (2 * tall + _MARGIN_TOP)
        pairs.append((Box(x, y, CELL_WIDE_MM, tall), Box(x, y + tall, CELL_WIDE_MM, tall)))
    return tuple(pairs)


@dataclass(frozen=True, slots=True)
class LoadCell:
    """What stands in the load column: the number (empty: a line to write on) and the words below.

    leads_to: the bookmark of the page that says how to find the load, or nothing.
    """

    number: str
    words: str
    leads_to: str = ""


def load_cell(book: Book, slot: Slot, exercise: Exercise) -> LoadCell:
    """The load of a slot as it is printed."""
    load_kg = book.loads.get(slot.id)
    units = book.issue.client.units
    if slot.id in book.withheld:
        return LoadCell("", load_words(exercise, units))
    match exercise.load_kind:
        case LoadKind.NONE:
            return LoadCell("–", tr("body\N{NO-BREAK SPACE}only"))
        case LoadKind.BAND:
            return LoadCell("", tr("band"))
        case LoadKind.BODY if not load_kg:
            return LoadCell("–", tr("body\N{NO-BREAK SPACE}only"))
        case _ if load_kg is None and book.options.loads and Part.LOADS in book.options.parts:
            return LoadCell("", tr("find it"), "loads")
        case _ if load_kg is None:
            return LoadCell("", load_words(exercise, units))
        case LoadKind.BODY if load_kg < 0:
            return LoadCell(
                mass_number(-load_kg, units),
                tr("{units}\N{NO-BREAK SPACE}of\N{NO-BREAK SPACE}help", units=units),
            )
        case _:
            return LoadCell(mass_number(load_kg, units), load_words(exercise, units))


def draw_row(sheet: Sheet, row: Row, y: float) -> None:
    """Draw a row with its upper edge at `y`, and the hair line below it."""
    pen, p = sheet.pen, sheet.palette
    col = columns(sheet.width)
    draw_picture(sheet, row.exercise, picture_box(row, y))
    at = pen.lines(col.name, y + row.first, row.name, style=NAME)
    _sub_line(sheet, row, col.name, at)
    _prescription(sheet, row, col, y)
    _cells(sheet, row, col, y)
    if row.note:
        pen.lines(col.name, y + row.body_mm + 2.6, row.note, style=CELL)
    pen.rule(0, y + row.height, sheet.width, tone=p.hair)


def picture_box(row: Row, y: float) -> Box:
    """Where the figure of a row stands; a bracket takes its room on the right."""
    tall = 18.0 if row.height > 20 else 16.6
    if row.compact:
        return Box(0.2, y + 0.6, 17.4, COMPACT_MM - 1.4)
    return Box(0.2, y + 1.2, 17.4 if row.mark else 19.0, tall)


def _sub_line(sheet: Sheet, row: Row, x: float, y: float) -> None:
    """The pair's mark and the page of the instructions, under the name."""
    pen, p = sheet.pen, sheet.palette
    if row.mark:
        x += pen.text(x, y, row.mark, style=LABEL_BOLD) + 1.8
    key = f"exercise-{row.exercise.key}"
    sheet.linked(x, y, sheet.page_text(key), to=key, style=LABEL, tone=p.mid)


def _prescription(sheet: Sheet, row: Row, col: Columns, y: float) -> None:
    pen, p, slot = sheet.pen, sheet.palette, row.slot
    base, below = y + row.base, y + row.base + (4.4 if row.compact else 4.5)
    pen.text(
        col.dose, base, dose := dose_text(slot, row.exercise), style=fit_dose(sheet, dose, col)
    )
    pen.text(col.dose, below, side_text(row.exercise), style=LABEL, tone=p.mid)
    effort, of_what = ("–", "") if row.exercise.timed else effort_text(slot.effort, slot.reps)
    pen.text(col.effort, base, effort, style=BODY)
    pen.text(col.effort, below, of_what, style=LABEL, tone=p.mid)
    if slot.tempo:
        # a long one would reach into the next column
        beside = not of_what and pen.width(slot.tempo, LABEL) <= col.load - col.effort - 0.8
        tempo_y = below + (0 if beside else 4.2)
        pen.text(col.effort, tempo_y, slot.tempo, style=LABEL, tone=p.mid)
    pen.text(col.rest, base, rest_text(slot.rest_s), style=BODY)
    load = load_cell(sheet.book, slot, row.exercise)
    if load.number:
        pen.text(col.load, base, load.number, style=FIGURE)
    else:
        pen.rule(col.load, base + 0.6, col.rest - 2.0, weight=0.5, tone=p.cell)
    words = load.words
    if load.leads_to and (page := sheet.page_text(load.leads_to)):
        words = f"{words}: {page}"
    room = col.cells - 1.4 - col.load - _SIDE_LABEL_MM
    words = pen.fitting(words, LABEL, room)
    sheet.linked(col.load, below, words, to=load.leads_to, style=LABEL, tone=p.mid)


_SIDE_LABEL_MM = 8.6
"""What the words beside the boxes take at most."""


def fit_dose(sheet: Sheet, dose: str, col: Columns) -> Style:
    """The largest size in which sets and repetitions fit their column."""
    room = col.effort - col.dose - 0.8
    for style in (FIGURE, FIGURE_12, NAME):
        if sheet.pen.width(dose, style) <= room:
            return style
    return LABEL_BOLD


def _cells(sheet: Sheet, row: Row, col: Columns, y: float) -> None:
    """The boxes with all that belongs to them; drawn once for rows that are alike."""
    tall = row.cells[0][0].height
    lower = "one" if row.compact else "time" if row.exercise.timed else "reps"
    name = f"cells-{len(row.cells)}-{tall:.1f}-{lower}"
    sheet.pen.stamp(name, 0, y, lambda pen: _draw_cells(pen, row, col), text=True)


def _draw_cells(pen: Pen, row: Row, col: Columns) -> None:
    """The boxes, their labels outside on the left, and the numbers of sets past the fourth."""
    p = pen.palette
    lower = tr("time") if row.exercise.timed else tr("reps")
    for number in range(0, len(row.cells), CELLS_A_ROW):
        line = row.cells[number : number + CELLS_A_ROW]
        for upper_box, lower_box in line:
            for box in (upper_box,) if row.compact else (upper_box, lower_box):
                pen.box(box, stroke=p.cell, weight=0.5)
            if row.compact:
                middle = upper_box.x + upper_box.width / 2 + 1.0
                at = upper_box.y + upper_box.height / 2 + 1.2
                pen.text(middle, at, "×", style=LABEL, tone=p.mid, align=0.5)
        first, last = line[0][0], line[-1][0]
        pen.rule(first.x, first.y, last.right, weight=0.9)
        labels = () if row.compact else ((first, tr("load")), (line[0][1], lower))
        for box, text in labels:
            middle = box.y + box.height / 2 + 1.1
            said = pen.fitting(text, LABEL, _SIDE_LABEL_MM)
            pen.text(col.cells - 1.4, middle, said, style=LABEL, tone=p.mid, align=1)
        if number:
            middle = first.y + first.height / 2 if row.compact else first.bottom
            middle += 1.1
            text = tr("sets {first}–{last}", first=number + 1, last=number + len(line))
            text = text if len(line) > 1 else tr("set {number}", number=number + 1)
            pen.text(col.label - 2.4, middle, text, style=LABEL, tone=p.mid, align=1)


def draw_brackets(sheet: Sheet, rows: Sequence[tuple[float, Row]]) -> None:
    """Join the rows of each pair by a bracket with its letter, between figure and name.

    rows: each with its upper edge.
    """
    pen, p = sheet.pen, sheet.palette
    x = columns(sheet.width).name - 1.8
    group: list[tuple[float, Row]] = []
    for y, row in [*rows, (0.0, None)]:
        if group and (row is None or not row.joins):
            top = group[0][0] + 5.0
            bottom = group[-1][0] + group[-1][1].body_mm - 4.0
            pen.rule(x, top, x, to_y=bottom, weight=1.0, tone=p.slate)
            pen.rule(x, top, x + 1.2, weight=1.0, tone=p.slate)
            pen.rule(x, bottom, x + 1.2, weight=1.0, tone=p.slate)
            group = []
        if row is not None and row.mark:
            group.append((y, row))
