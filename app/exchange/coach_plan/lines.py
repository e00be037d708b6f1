"""The lines of a coach's table: which exercise, where in the plan, and what is asked of it.

Weeks may be a column, a heading, a sheet, or stand side by side; a row may be an exercise or one
set of it. What is not understood is a remark with its place, never an error.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

from app.domain.program import MAX_SETS, MAX_WEEKS
from app.domain.wording import tr
from app.exchange.coach_plan.asked import Asked, plain
from app.exchange.coach_plan.columns import PLACES, Column, Mapping, Part
from app.exchange.coach_plan.heading import Heading, day_in, heading_of, weeks_in
from app.exchange.coach_plan.row import asked_in, named
from app.exchange.coach_plan.words import Words
from app.exchange.sheets.sheet import Cell, Sheet, SheetError

MOST_LINES = 20_000
LONGEST_NAME = 200

IsExercise = Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class Line:
    """One exercise of one session. weeks: counted from 1; day: 0 for Monday, else nth counts
    training days; where: its place in the table.
    """

    weeks: tuple[int, ...]
    day: int | None
    nth: int | None
    session: str
    exercise: str
    asked: Asked
    light: bool
    where: str


@dataclass(frozen=True, slots=True)
class Remark:
    """Something about the table that the coach has to know. where: its place."""

    where: str
    text: str

    @property
    def sentence(self) -> str:
        """Both as one line."""
        return f"{self.where}: {self.text}" if self.where else self.text


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read of a table."""

    lines: tuple[Line, ...]
    remarks: tuple[Remark, ...]


def read_lines(
    sheets: Sequence[Sheet], mapping: Mapping, words: Words, *, is_exercise: IsExercise
) -> Reading:
    """The lines of the sheets, in their order. Raises SheetError without a column of exercises."""
    if not mapping.holds(Part.EXERCISE):
        raise SheetError(
            tr("No column is said to hold the exercises."), mend=tr("Choose it above the table.")
        )
    reader = _Reader(mapping, words, is_exercise, several=len(sheets) > 1)
    for number, sheet in enumerate(sheets, 1):
        reader.read(sheet, number)
    lines = reader.lines
    if mapping.set_rows:
        lines = list(_joined(lines, reader.remarks))
    return Reading(tuple(lines), tuple(reader.remarks))


@dataclass(slots=True)
class _At:
    """Where the reading stands: what later rows inherit."""

    weeks: tuple[int, ...] = (1,)
    day: int | None = None
    nth: int | None = None
    session: str = ""
    light: bool = False
    exercise: Cell = None


class _Reader:
    """Goes through the rows with what was said above them in mind."""

    def __init__(
        self, mapping: Mapping, words: Words, is_exercise: IsExercise, *, several: bool
    ) -> None:
        self.mapping, self.words, self.is_exercise = mapping, words, is_exercise
        self.several = several
        self.lines: list[Line] = []
        self.remarks: list[Remark] = []
        self.at = _At()
        self.first_day: date | None = None
        self.groups = sorted({c.week for c in mapping.columns if c.week}) or [0]
        self.sheet = ""

    def read(self, sheet: Sheet, number: int) -> None:
        """Read the rows of one sheet."""
        self.at, self.sheet = _At(), sheet.name
        if self.mapping.sheet_weeks:
            self.at.weeks = heading_of(sheet.name, self.words).weeks or (min(number, MAX_WEEKS),)
        head = self.mapping.head
        heads = [plain(cell) for cell in sheet.rows[head]] if 0 <= head < len(sheet.rows) else None
        for place, row in enumerate(sheet.rows):
            if place == head or (heads and [plain(cell) for cell in row] == heads):
                continue
            if any(cell is not None for cell in row):
                self._row(row, place, above=place < head)
            if len(self.lines) > MOST_LINES:
                raise SheetError(
                    tr(
                        "The table has more than {most_lines:,} lines of exercises.",
                        most_lines=MOST_LINES,
                    ),
                    mend=tr("Choose fewer sheets."),
                )

    def _row(self, row: tuple[Cell, ...], place: int, *, above: bool) -> None:
        where = tr("row {n}", n=place + 1)
        if self.several:
            where = tr("{sheet}, row {n}", sheet=self.sheet, n=place + 1)
        cells = list(zip(self.mapping.columns, row, strict=False))
        if self._is_heading(row, cells, above=above):
            return
        if above:
            return
        self._move(cells, where)
        name = next((c for column, c in cells if column.part is Part.EXERCISE and c), None)
        if name is None and self.mapping.set_rows and self._asks(cells):
            name = self.at.exercise
        for week in self.groups:
            self._line(name, cells, week, where)

    def _asks(self, cells: list[tuple[Column, Cell]]) -> bool:
        return any(
            cell is not None and c.part not in PLACES | {Part.IGNORED, Part.NOTE}
            for c, cell in cells
        )

    def _is_heading(
        self, row: tuple[Cell, ...], cells: list[tuple[Column, Cell]], *, above: bool
    ) -> bool:
        """True for a row that only says where the rows below it stand."""
        said = {plain(cell): cell for cell in row if cell is not None}
        if len(said) != 1:
            return False
        (cell,) = said.values()
        heading = heading_of(cell, self.words)
        if heading.places:
            if not (above and self.groups != [0]):
                self._enter(heading)
            return True
        if above or not isinstance(cell, str):
            return above
        column = next((one for one, c in cells if c is not None), Column())
        if column.part in PLACES - {Part.EXERCISE}:
            return False
        if column.part is Part.EXERCISE and self._is_exercise(named(cell)[0]):
            return False
        self.at.session = " ".join(cell.split())[:LONGEST_NAME]
        return True

    def _is_exercise(self, text: str) -> bool:
        return self.is_exercise(text) or not self._parted(text, Asked())[1].is_empty

    def _enter(self, heading: Heading) -> None:
        """Go on where the heading says."""
        if heading.weeks:
            self.at = _At(weeks=heading.weeks, light=heading.light)
        if heading.day is not None or heading.nth is not None:
            self.at.day, self.at.nth = heading.day, heading.nth
            self.at.session = heading.title[:LONGEST_NAME]
        elif heading.title:
            self.at.session = heading.title[:LONGEST_NAME]

    def _move(self, cells: list[tuple[Column, Cell]], where: str) -> None:
        """Follow the columns that say week, day and session; empty cells leave them as they are."""
        for column, cell in cells:
            if cell is None:
                continue
            match column.part:
                case Part.WEEK:
                    self._to_week(cell, where)
                case Part.DATE:
                    self._to_date(cell, where)
                case Part.DAY:
                    self._to_day(day_in(cell, self.words))
        for column, cell in cells:
            if column.part is Part.SESSION and cell is not None:
                self.at.session = " ".join(str(cell).split())[:LONGEST_NAME]
            if column.part is Part.LIGHT and cell is not None:
                self.at.light = plain(cell) not in self.words.no

    def _to_week(self, cell: Cell, where: str) -> None:
        weeks = weeks_in(cell, self.words)
        if not weeks:
            self.remarks.append(Remark(where, tr("'{text}' is no week.", text=plain(cell)[:40])))
        elif weeks != self.at.weeks:
            self.at = _At(weeks=weeks)

    def _to_day(self, heading: Heading) -> None:
        title = heading.title[:LONGEST_NAME]
        if heading.day is None and heading.nth is None:
            if title:
                self.at.session = title
            return
        if (heading.day, heading.nth) != (self.at.day, self.at.nth):
            self.at.day, self.at.nth, self.at.session = heading.day, heading.nth, title
        if heading.weeks:
            self.at.weeks = heading.weeks

    def _to_date(self, cell: Cell, where: str) -> None:
        on = cell if isinstance(cell, date) else _date_in(plain(cell))
        if on is None:
            self.remarks.append(Remark(where, tr("'{text}' is no date.", text=plain(cell)[:40])))
            return
        self.first_day = self.first_day or on
        monday = self.first_day - timedelta(days=self.first_day.weekday())
        week = (on - monday).days // 7 + 1
        if not 1 <= week <= MAX_WEEKS:
            text = tr("{date} lies outside the plan's weeks.", date=on.isoformat())
            self.remarks.append(Remark(where, text))
            return
        if not self.mapping.holds(Part.WEEK) and (week,) != self.at.weeks:
            self.at = _At(weeks=(week,))
        if (on.weekday(), None) != (self.at.day, self.at.nth):
            self.at.day, self.at.nth, self.at.session = on.weekday(), None, ""

    def _line(self, name: Cell, cells: list[tuple[Column, Cell]], week: int, where: str) -> None:
        mine = [(c, cell) for c, cell in cells if c.week in (0, week)]
        own = next((x for c, x in mine if c.part is Part.EXERCISE and c.week == week and x), name)
        asked = asked_in(mine, self.words, unit=self.mapping.unit)
        if week and not any(cell is not None for c, cell in cells if c.week == week):
            return
        if own is None:
            if not asked.is_empty:
                self.remarks.append(Remark(where, tr("There is no exercise beside it.")))
            return
        text, letter = named(own)
        if asked.is_empty:
            text, asked = self._parted(text, asked)
        self.at.exercise = own
        for unread in asked.unread:
            said = tr("'{text}' is not understood.", text=unread[:40])
            self.remarks.append(Remark(where, said))
        at = self.at
        self.lines.append(
            Line(
                (week,) if week else at.weeks,
                at.day,
                at.nth,
                at.session,
                text[:LONGEST_NAME],
                replace(asked, pair=asked.pair or letter),
                at.light,
                where,
            )
        )

    def _parted(self, text: str, asked: Asked) -> tuple[str, Asked]:
        """A name with its prescription behind it, as 'Back squat 3x5', taken apart."""
        words = text.split()
        for cut in range(1, len(words)):
            column = Column(Part.SCHEME)
            tail = asked_in([(column, " ".join(words[cut:]))], self.words, unit=self.mapping.unit)
            if tail.sets is not None and tail.low is not None and not tail.unread:
                return " ".join(words[:cut]).rstrip(" :,-"), replace(tail, note=asked.note)
        return text, asked


DATE_FORMS = ("%Y-%m-%d", "%d.%m.%Y", "%d.%m.%y", "%d/%m/%Y", "%m/%d/%Y", "%d-%m-%Y", "%Y/%m/%d")
"""How people write days; where day and month could be either, the day is taken to stand first."""


def _date_in(text: str) -> date | None:
    for form in DATE_FORMS:
        with suppress(ValueError):
            return (
                datetime.strptime(text.split(" ", maxsplit=1)[0], form).replace(tzinfo=UTC).date()
            )
    return None


def _joined(lines: Sequence[Line], remarks: list[Remark]) -> Iterator[Line]:
    """Rows that are one set each, as lines of so many sets."""
    run: list[Line] = []
    for line in lines:
        if run and _place(run[-1]) != _place(line):
            yield _one_of(run, remarks)
            run = []
        run.append(line)
    if run:
        yield _one_of(run, remarks)


def _place(line: Line) -> tuple[object, ...]:
    return (line.weeks, line.day, line.nth, line.session, line.exercise.casefold())


def _one_of(run: list[Line], remarks: list[Remark]) -> Line:
    first = run[0]
    asked = [line.asked for line in run]
    sets = min(sum(one.sets or 1 for one in asked), MAX_SETS)
    lows = [one.low for one in asked if one.low is not None]
    highs = [one.high for one in asked if one.high is not None]
    if len({one.effort for one in asked} | {None}) > 2:
        remarks.append(Remark(first.where, tr("The sets differ in effort; the first is taken.")))
    if len({one.load_kg for one in asked} | {None}) > 2:
        remarks.append(Remark(first.where, tr("The sets differ in load; the first is taken.")))
    made = replace(
        asked[0],
        sets=sets,
        low=min(lows, default=None),
        high=max(highs, default=None),
        note=next((one.note for one in asked if one.note), ""),
    )
    return replace(first, asked=made)
