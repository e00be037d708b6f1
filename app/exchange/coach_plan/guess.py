"""A guess how a coach's table is to be read: by its headings, and by what stands in its cells."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence

from app.exchange.coach_plan.asked import plain
from app.exchange.coach_plan.columns import Column, Mapping, Part
from app.exchange.coach_plan.heading import day_in, heading_of
from app.exchange.coach_plan.words import Words, head_form
from app.exchange.sheets.sheet import Cell, Sheet

SEARCHED_ROWS = 40
SAMPLE = 200
LIKE_A_WORD = 86.0
"""How like (0 to 100) a heading must be to a known word. Common practice."""
SHARE = 0.5
_SCHEME = re.compile(r"\d{1,2}\s*x\s*\d{1,3}")
_REPEATED = frozenset(
    {Part.SCHEME, Part.SETS, Part.REPS, Part.LOAD, Part.RIR, Part.RATING, Part.PERCENT, Part.EFFORT}
)

IsExercise = Callable[[str], bool]


def guess(
    sheets: Sequence[Sheet], words: Words, *, is_exercise: IsExercise, unit: str = "kg"
) -> Mapping:
    """How the sheets are most likely to be read; columns that tell nothing are left out.

    unit: of loads where neither heading nor cell says it.
    """
    sheet = max(sheets, key=lambda one: len(one.rows))
    width = max(one.width for one in sheets)
    head = _head_of(sheet, words)
    columns = [Column() for _ in range(width)]
    if head >= 0:
        for number, cell in enumerate(sheet.rows[head]):
            columns[number] = _headed(cell, words)
        columns = _side_by_side(columns, sheet, head, words)
    body = sheet.rows[head + 1 :][:SAMPLE]
    columns = _by_content(columns, body, words, is_exercise)
    parts = {column.part for column in columns}
    units = {column.unit for column in columns if column.unit in ("kg", "lb")}
    return Mapping(
        tuple(columns),
        head=head,
        set_rows=not parts & {Part.SETS, Part.SCHEME} and Part.REPS in parts | _reps(parts),
        sheet_weeks=len(sheets) > 1 and not parts & {Part.WEEK, Part.DATE},
        unit=units.pop() if len(units) == 1 else unit,
    )


def _reps(parts: set[Part]) -> set[Part]:
    return {Part.REPS} if parts & {Part.REPS_FROM, Part.REPS_TO} else set()


def part_of(text: str, words: Words) -> Part:
    """The part that a heading names, slips forgiven; IGNORED where it names none."""
    form = head_form(text)
    if not form:
        return Part.IGNORED
    if form in words.columns:
        return words.columns[form]
    for shorter in (re.sub(r"\s*\([^)]*\)", "", text), re.sub(r"[#*:]+", "", text)):
        if head_form(shorter) in words.columns:
            return words.columns[head_form(shorter)]
    if len(form) < 4:
        return Part.IGNORED
    from rapidfuzz import fuzz, process

    found = process.extractOne(
        form, list(words.columns), scorer=fuzz.ratio, score_cutoff=LIKE_A_WORD
    )
    return words.columns[found[0]] if found else Part.IGNORED


def _headed(cell: Cell, words: Words) -> Column:
    """What a heading says of its column, the week in it included."""
    if not isinstance(cell, str):
        return Column()
    part = part_of(cell, words)
    unit = _unit(cell)
    if part is not Part.IGNORED:
        return Column(part, unit=unit)
    heading = heading_of(cell, words)
    if len(heading.weeks) == 1:
        part = part_of(heading.title, words) if heading.title else Part.SCHEME
        return Column(part, week=heading.weeks[0], unit=unit)
    return Column()


def _unit(head: str) -> str:
    found = set(head_form(head).split())
    for unit, words in (("lb", {"lb", "lbs"}), ("kg", {"kg", "kgs"}), ("min", {"min", "minutes"})):
        if found & words:
            return unit
    return ""


def _head_of(sheet: Sheet, words: Words) -> int:
    """The row of the headings: the first with the most different known ones; -1 for none."""
    best, place = 1, -1
    for number, row in enumerate(sheet.rows[:SEARCHED_ROWS]):
        texts = {cell for cell in row if isinstance(cell, str) and len(cell) < 60}
        known = {_headed(text, words) for text in texts} - {Column()}
        parts = {column.part for column in known}
        score = len(parts) + 2 * (Part.EXERCISE in parts) + sum(c.week > 0 for c in known)
        if len(known) > 1 and score > best:
            best, place = score, number
    return place


def _side_by_side(columns: list[Column], sheet: Sheet, head: int, words: Words) -> list[Column]:
    """The columns with their weeks, where weeks stand side by side."""
    if any(column.week for column in columns):
        return columns
    above = _weeks_above(sheet, head, words, len(columns))
    if len(set(above) - {0}) > 1:
        return [
            Column(c.part, week, c.unit) if c.part is not Part.IGNORED else c
            for c, week in zip(columns, above, strict=True)
        ]
    counts = Counter(c.part for c in columns if c.part in _REPEATED)
    if not counts or max(counts.values()) < 2:
        return columns
    seen: Counter[Part] = Counter()
    made = []
    for column in columns:
        week = 0
        if counts[column.part] > 1:
            seen[column.part] += 1
            week = seen[column.part]
        made.append(Column(column.part, week, column.unit))
    return made


def _weeks_above(sheet: Sheet, head: int, words: Words, width: int) -> list[int]:
    """The week that a heading above the headings gives each column; 0 where none does."""
    for row in reversed(sheet.rows[max(0, head - 3) : head]):
        weeks, week, last = [0] * width, 0, None
        for number in range(width):
            cell = row[number] if number < len(row) else None
            if cell is not None and cell != last:
                found = heading_of(cell, words).weeks if isinstance(cell, str) else ()
                week = found[0] if len(found) == 1 else 0
                last = cell
            weeks[number] = week
        if len(set(weeks) - {0}) > 1:
            return weeks
    return [0] * width


# -- by what stands in the cells -----------------------------------------------------------------


def _by_content(
    columns: list[Column],
    body: Sequence[Sequence[Cell]],
    words: Words,
    is_exercise: IsExercise,
) -> list[Column]:
    """The columns with those told by their cells that no heading told."""
    made = list(columns)
    filled = {n: _cells(body, n) for n in range(len(made))}
    open_ones = [n for n, column in enumerate(made) if column.part is Part.IGNORED and filled[n]]
    parts = {column.part for column in made}
    if Part.EXERCISE not in parts:
        shares = {n: _share(filled[n], lambda c: _is_name(c, is_exercise)) for n in open_ones}
        best = max(shares, key=lambda n: shares[n], default=None)
        if best is not None and shares[best] > 0.2:
            made[best] = Column(Part.EXERCISE)
            open_ones.remove(best)
    if not parts & {Part.SCHEME, Part.SETS, Part.REPS, Part.REPS_FROM}:
        for n in open_ones:
            if _share(filled[n], lambda c: bool(_SCHEME.search(plain(c)))) > SHARE:
                made[n] = Column(Part.SCHEME)
        if not any(column.part is Part.SCHEME for column in made):
            made = _numbers(made, open_ones, filled)
    if not parts & {Part.DAY, Part.DATE}:
        for n in open_ones:
            if made[n].part is Part.IGNORED and _share(filled[n], _is_day(words)) > SHARE:
                made[n] = Column(Part.DAY)
                break
    return made


def _cells(body: Sequence[Sequence[Cell]], number: int) -> list[Cell]:
    return [row[number] for row in body if number < len(row) and row[number] is not None]


def _share(cells: list[Cell], holds: Callable[[Cell], bool]) -> float:
    return sum(holds(cell) for cell in cells) / len(cells) if cells else 0.0


def _is_name(cell: Cell, is_exercise: IsExercise) -> bool:
    return isinstance(cell, str) and len(cell) < 80 and is_exercise(cell)


def _is_day(words: Words) -> Callable[[Cell], bool]:
    return lambda cell: isinstance(cell, str) and day_in(cell, words).day is not None


def _numbers(
    columns: list[Column], open_ones: list[int], filled: dict[int, list[Cell]]
) -> list[Column]:
    """Sets and repetitions where two columns behind the exercise hold small numbers."""
    at = next((n for n, c in enumerate(columns) if c.part is Part.EXERCISE), None)
    if at is None:
        return columns
    small = [
        n
        for n in open_ones
        if n > at and _share(filled[n], lambda c: bool(re.match(r"\d{1,2}\b", plain(c)))) > SHARE
    ]
    made = list(columns)
    for n, part in zip(small, (Part.SETS, Part.REPS), strict=False):
        made[n] = Column(part)
    return made
