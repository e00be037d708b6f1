"""Results from a table that others made: a row a set, whatever its columns are called.

Which column holds what is guessed from the headings and can be chosen; a row that cannot be read
is named by its line and left out, never guessed at. Nothing is kept here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum
from hashlib import sha256

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.folding import fold
from app.domain.log_sheet import read_load, read_number, read_whole
from app.domain.program import MAX_SETS, Program, SlotId
from app.domain.results import SetDone, SlotResult
from app.domain.wording import mark, tr
from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.guess import part_of
from app.exchange.coach_plan.words import Words
from app.exchange.sheets.sheet import Cell, Sheet

WANTED = (Part.DATE, Part.EXERCISE, Part.LOAD, Part.REPS, Part.RIR, Part.SETS, Part.NOTE)
"""What a table of results can hold; the first two and the repetitions it must."""
NEEDED = (Part.DATE, Part.EXERCISE, Part.REPS)
SEARCHED_ROWS = 30
SAMPLE = 500

_FIGURES = re.compile(r"(\d{1,4})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{1,4})\.?(?:[ T].*)?")
_LETTERS = ("%d %b %Y", "%d %B %Y", "%b %d, %Y", "%B %d, %Y", "%d. %b %Y", "%d-%b-%Y")


class DayOrder(StrEnum):
    """In which order a day is written in figures."""

    YMD = "ymd"
    DMY = "dmy"
    MDY = "mdy"


DAY_ORDERS = {
    DayOrder.YMD: mark("year, month, day"),
    DayOrder.DMY: mark("day, month, year"),
    DayOrder.MDY: mark("month, day, year"),
}


@dataclass(frozen=True, slots=True)
class Reading:
    """How a table is read. head: the row of the headings from 0, -1 without; columns: where each
    part stands, from 0; unit: of loads that do not say theirs.
    """

    head: int
    columns: Mapping[Part, int]
    order: DayOrder = DayOrder.YMD
    unit: str = "kg"

    @property
    def lacks(self) -> tuple[Part, ...]:
        """What it must hold and does not."""
        return tuple(part for part in NEEDED if part not in self.columns)


@dataclass(frozen=True, slots=True)
class Entry:
    """One row: its line in the file, the day, the exercise as it is named, what was done."""

    line: int
    day: date
    name: str
    sets: tuple[SetDone, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class RowFault:
    """A row that cannot be read: its line in the file, and why."""

    line: int
    error: CoachError


# ---------------------------------------------------------------------------- how it is read


def guess_reading(sheet: Sheet, words: Words, *, unit: str = "kg") -> Reading:
    """How the sheet is most likely to be read. unit: of loads where no heading says it."""
    head, found = -1, dict[Part, int]()
    for number, row in enumerate(sheet.rows[:SEARCHED_ROWS]):
        columns: dict[Part, int] = {}
        for place, cell in enumerate(row):
            part = _part(cell, words)
            if part in WANTED and part not in columns:
                columns[part] = place
        if len(columns) > max(1, len(found)):
            head, found = number, columns
    if Part.DATE not in found and head >= 0:
        found |= _days_as_date(sheet, head, words)
    if Part.LOAD in found:
        named = set(fold(str(sheet.rows[head][found[Part.LOAD]])).split())
        unit = "lb" if named & {"lb", "lbs"} else "kg" if named & {"kg", "kgs"} else unit
    body = sheet.rows[head + 1 :][:SAMPLE]
    at = found.get(Part.DATE)
    days = [row[at] for row in body if at is not None and at < len(row)]
    return Reading(head, found, day_order(days)[0], unit)


def _days_as_date(sheet: Sheet, head: int, words: Words) -> dict[Part, int]:
    """The column of dates under a heading that in a plan would say the day of the week."""
    body = sheet.rows[head + 1 :][:SAMPLE]
    for place, cell in enumerate(sheet.rows[head]):
        if isinstance(cell, str) and part_of(cell, words) is Part.DAY:
            days = [row[place] for row in body if place < len(row) and row[place] is not None]
            if days and sum(_is_any_day(day) for day in days) * 2 > len(days):
                return {Part.DATE: place}
    return {}


def _is_any_day(cell: Cell) -> bool:
    return isinstance(cell, date) or any(_is_day(str(cell), order) for order in DayOrder)


def _part(cell: Cell, words: Words) -> Part:
    if not isinstance(cell, str):
        return Part.IGNORED
    part = part_of(cell, words)
    if part is Part.IGNORED and fold(cell).endswith(" done"):
        return part_of(cell.rsplit(" ", 1)[0], words)
    return part


def header_mark(sheet: Sheet, head: int) -> str:
    """A short mark of the headings, under which a reading is remembered for the next file."""
    row = sheet.rows[head] if 0 <= head < len(sheet.rows) else ()
    text = "|".join(fold(str(cell or "")) for cell in row)
    return sha256(text.encode()).hexdigest()[:16]


def day_order(cells: Iterable[Cell]) -> tuple[DayOrder, bool]:
    """The order that fits the most days, and whether none fits as well.

    Figures such as 3/4/2026 can be two days; where nothing decides, the day is taken to come first.
    """
    texts = [cell for cell in cells if isinstance(cell, str)]
    fits = {order: sum(_is_day(text, order) for text in texts) for order in DayOrder}
    ranked = sorted(DayOrder, key=lambda order: (-fits[order], list(_PREFERRED).index(order)))
    return ranked[0], not texts or fits[ranked[0]] > fits[ranked[1]]


_PREFERRED = (DayOrder.YMD, DayOrder.DMY, DayOrder.MDY)


def _is_day(text: str, order: DayOrder) -> bool:
    try:
        read_day(text, order)
    except CoachError:
        return False
    return True


def read_day(cell: Cell, order: DayOrder) -> date:
    """The day in a cell. Raises CoachError that quotes it."""
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, date):
        return cell
    text = "" if cell is None else str(cell).strip()
    found = _FIGURES.fullmatch(text)
    try:
        if found is not None:
            return _day(*map(int, found.groups()), order=order)
        for form in _LETTERS:
            try:
                return datetime.strptime(text, form).date()  # noqa: DTZ007 - a day has no zone
            except ValueError:
                continue
        raise ValueError(text)
    except ValueError:
        raise CoachError(
            tr("'{text}' is no day.", text=text),
            mend=tr("Choose in which order days are written, or write 2026-11-24."),
        ) from None


def _day(first: int, second: int, third: int, *, order: DayOrder) -> date:
    match order:
        case DayOrder.YMD:
            year, month, day = first, second, third
        case DayOrder.DMY:
            day, month, year = first, second, third
        case DayOrder.MDY:
            month, day, year = first, second, third
    if order is DayOrder.YMD and year < 1000:
        raise ValueError(year)
    return date(year + 2000 if year < 100 else year, month, day)


# ---------------------------------------------------------------------------- its rows


def read_rows(sheet: Sheet, reading: Reading) -> tuple[tuple[Entry, ...], tuple[RowFault, ...]]:
    """The rows that can be read, and those that cannot, in order.

    An empty day or name is that of the row above; a row without repetitions and load says that
    the exercise was left out. Raises CoachError where a column that is needed was not chosen.
    """
    if reading.lacks:
        raise CoachError(
            tr("Not every column that is needed has been chosen."),
            mend=tr("Choose those of the day, the exercise and the repetitions."),
        )
    entries: list[Entry] = []
    faults: list[RowFault] = []
    day: Cell = None
    name = ""
    for number, row in enumerate(sheet.rows[reading.head + 1 :], start=reading.head + 2):
        cells = {part: row[at] for part, at in reading.columns.items() if at < len(row)}
        if all(cell is None for cell in cells.values()):
            continue
        day = cells.get(Part.DATE) or day
        name = _text(cells.get(Part.EXERCISE)) or name
        try:
            entries.append(_entry(number, day, name, cells, reading))
        except CoachError as error:
            faults.append(RowFault(number, error))
    return tuple(entries), tuple(faults)


def _entry(line: int, day: Cell, name: str, cells: Mapping[Part, Cell], reading: Reading) -> Entry:
    if not name:
        raise CoachError(tr("No exercise is named."), mend=tr("Name one in the table."))
    on = read_day(day, reading.order)
    note = _text(cells.get(Part.NOTE))
    reps, load = _text(cells.get(Part.REPS)), _text(cells.get(Part.LOAD))
    if not reps and not load:
        return Entry(line, on, name, (), note)
    if not reps:
        raise CoachError(tr("The repetitions are missing."), mend=tr("Add them to the table."))
    rir = _text(cells.get(Part.RIR))
    done = SetDone(
        read_load(load, reading.unit) if load else 0.0,
        read_whole(reps),
        read_number(rir) if rir else None,
    )
    count = _text(cells.get(Part.SETS))
    times = read_whole(count) if count else 1
    if not 1 <= times <= MAX_SETS:
        raise CoachError(
            tr("{count} sets are not 1 to {most}.", count=count, most=MAX_SETS),
            mend=tr("Choose another column for the number of sets."),
        )
    return Entry(line, on, name, (done,) * times, note)


def _text(cell: Cell) -> str:
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return "" if cell is None else str(cell).strip()


# ---------------------------------------------------------------------------- where they belong


@dataclass(frozen=True, slots=True)
class Placed:
    """Results in their slots, and the entries that no slot of their week is for."""

    results: tuple[SlotResult, ...]
    homeless: tuple[Entry, ...]


def place(entries: Sequence[Entry], names: Mapping[str, ExerciseKey], program: Program) -> Placed:
    """The entries as results of the program.

    names: what each name stands for; entries of others are left aside. An entry belongs to the
    slot of its exercise in the week that its day lies in, of several to the one planned nearest.
    """
    groups: dict[tuple[date, ExerciseKey], list[Entry]] = {}
    for entry in entries:
        if entry.name in names:
            groups.setdefault((entry.day, names[entry.name]), []).append(entry)
    results: list[SlotResult] = []
    homeless: list[Entry] = []
    taken: set[tuple[date, SlotId]] = set()
    for (day, key), group in groups.items():
        slot = _slot_for(program, day, key, taken)
        if slot is None:
            homeless.extend(group)
            continue
        taken.add((day, slot))
        sets = tuple(done for entry in group for done in entry.sets)
        notes = dict.fromkeys(entry.note for entry in group if entry.note)
        results.append(SlotResult(program.id, slot, key, day, sets, " ".join(notes)))
    return Placed(tuple(sorted(results, key=lambda one: one.key)), tuple(homeless))


def _slot_for(
    program: Program, day: date, key: ExerciseKey, taken: set[tuple[date, SlotId]]
) -> SlotId | None:
    week = (day - program.start).days // 7
    if not 0 <= week < len(program.weeks):
        return None
    found = [
        (abs(weekday - day.weekday()), slot.id)
        for weekday, session in program.weeks[week].sessions()
        for slot in session.slots
        if slot.exercise == key and (day, slot.id) not in taken
    ]
    return min(found)[1] if found else None


def with_part(reading: Reading, part: Part, column: int | None) -> Reading:
    """The reading with another column for a part, or none."""
    columns = {other: at for other, at in reading.columns.items() if other is not part}
    if column is not None:
        columns = {other: at for other, at in columns.items() if at != column}
        columns[part] = column
    return replace(reading, columns=columns)
