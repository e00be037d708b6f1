"""Several weeks of check-ins at once: a table that is filled by keyboard or by a paste."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from PySide6.QtWidgets import QComboBox, QHeaderView, QWidget

from app.domain.doubt import require_day
from app.domain.errors import CoachError
from app.domain.progress.check_in_doubts import doubt_weighing, is_empty, require_one_a_day
from app.domain.progress.series import monday
from app.domain.results import CheckIn, Diary
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.client.cell_table import CellTable
from app.ui.client.check_in_cells import Column, WrongCell, cells, head, read_cells, read_day, tip
from app.ui.client.doubt_line import DoubtLine
from app.ui.forms import Sheet, plain
from app.ui.words import full_date

WEEKS = (4, 8, 12, 26, 52)
SPARE_ROWS = 2


class WeeksSheet(Sheet):
    """A row a check-in, and one to fill for each week without any; keeping is one undo step."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Check-ins of {name}, several weeks", name=client.name),
            verb=tr("Keep the check-ins"),
            about=tr(
                "Enter goes down, Tab to the right; rows from a spreadsheet can be pasted. Rows "
                "with nothing but a day are left out, and a day that is emptied is removed."
            ),
        )
        self.bench, self.today, self.units = bench, today, client.units
        self.right: set[tuple[date, float]] = set()
        self.origins: dict[int, CheckIn] = {}
        self.weeks = QComboBox()
        self.weeks.setMinimumHeight(32)
        for count in WEEKS:
            self.weeks.addItem(trn("the last week", "the last {n} weeks", count), count)
        self.weeks.setCurrentIndex(1)
        self.row(tr("Shown"), self.weeks)
        self.table = CellTable(
            tr("Check-ins"), tuple(head(column, self.units) for column in Column)
        )
        for at, column in enumerate(Column):
            item = self.table.horizontalHeaderItem(at)
            if item is not None:
                item.setToolTip(tip(column))
        header = self.table.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(len(Column) - 1, QHeaderView.ResizeMode.Stretch)
        self.doubt = DoubtLine(self._take_mass, unit=self.units)
        self.doubted = 0
        self.body.addWidget(self.table, 1)
        self.body.addWidget(
            plain(
                tr("Marks: 1 is poor sleep, strong soreness, high stress, low mood; 5 the best."),
                role="small",
            )
        )
        self.body.addWidget(self.doubt)
        self.weeks.currentIndexChanged.connect(lambda _at: self.fill())
        self.resize(860, 620)
        self.fill()

    @property
    def first(self) -> date:
        """The Monday of the first week shown."""
        return monday(self.today) - timedelta(weeks=self.weeks.currentData() - 1)

    def fill(self) -> None:
        """Show what is kept, and a row for each week without any."""
        kept = [c for c in self.bench.desk.diary.check_ins if self.first <= c.on <= self.today]
        rows = sorted((*kept, *self._blanks(kept)), key=lambda c: c.on)
        self.table.setRowCount(len(rows) + SPARE_ROWS)
        for at in range(self.table.rowCount()):
            self.table.set_cells(at, ("",) * len(Column))
        self.origins = dict(enumerate(rows))
        for at, check_in in enumerate(rows):
            texts = cells(check_in, self.units)
            self.table.set_cells(at, tuple(texts[column] for column in Column))
        self.table.setCurrentCell(self._first_gap(), 1)

    def _blanks(self, kept: Sequence[CheckIn]) -> list[CheckIn]:
        """A day for each week without a check-in: the weekday that is usual, else Monday."""
        have = {monday(check_in.on) for check_in in kept}
        weekdays = [check_in.on.weekday() for check_in in kept]
        usual = max(set(weekdays), key=weekdays.count) if weekdays else 0
        made, week = [], self.first
        while week <= self.today:
            day = min(week + timedelta(days=usual), self.today)
            if week not in have:
                made.append(CheckIn(day))
            week += timedelta(weeks=1)
        return made

    def _first_gap(self) -> int:
        """The first row that says nothing yet."""
        for row in range(self.table.rowCount()):
            if not any(self.table.text(row, column) for column in range(1, len(Column))):
                return row
        return 0

    # -- reading -------------------------------------------------------------------------------

    def read(self) -> dict[int, CheckIn]:
        """The check-ins by their row. Raises CoachError that names row and cell."""
        known = {check_in.on: check_in for check_in in self.bench.desk.diary.check_ins}
        read: dict[int, CheckIn] = {}
        for row in range(self.table.rowCount()):
            texts = {column: self.table.text(row, at) for at, column in enumerate(Column)}
            try:
                check_in = read_cells(texts, self.units, self._known(row, texts, known))
                if check_in is not None:
                    read[row] = self._possible(check_in)
            except CoachError as error:
                column = error.column if isinstance(error, WrongCell) else Column.DAY
                self.table.setCurrentCell(row, tuple(Column).index(column))
                raise CoachError(
                    error.what, where=tr("Row {n}", n=row + 1), mend=error.mend
                ) from error
        require_one_a_day([check_in.on for check_in in read.values()])
        return read

    def _known(
        self, row: int, texts: dict[Column, str], known: dict[date, CheckIn]
    ) -> dict[date, CheckIn]:
        """What is known of days; a row whose day was corrected takes girths and pictures along."""
        origin = self.origins.get(row)
        if origin is None or not texts[Column.DAY].strip():
            return known
        day = read_day(texts[Column.DAY])
        return known if day == origin.on or day in known else {day: replace(origin, on=day)}

    def _possible(self, check_in: CheckIn) -> CheckIn:
        born = self.bench.desk.client.born
        require_day(tr("Check-in"), check_in.on, today=self.today, born=born)
        return check_in

    def _ask(self, read: dict[int, CheckIn]) -> None:
        """Put the first question on a mass that jumps. Raises CoachError while it waits."""
        if self.doubt.doubt is not None and self.doubt.right.isChecked():
            self.right.add(self._asked_about(read))
        desk = self.bench.desk
        others = {c.on: c for c in desk.diary.check_ins} | {c.on: c for c in read.values()}
        for row, check_in in read.items():
            before = desk.diary.check_in(check_in.on)
            same = before is not None and before.mass_kg == check_in.mass_kg
            if check_in.mass_kg is None or same:
                continue
            if (check_in.on, check_in.mass_kg) in self.right:
                continue
            doubt = doubt_weighing(check_in.mass_kg, check_in.on, others.values(), desk.client)
            if doubt is not None:
                self.doubted = row
                self.table.setCurrentCell(row, 1)
                self.doubt.put(doubt)
                self.doubt.require_answer()
        self.doubt.put(None)

    def _asked_about(self, read: dict[int, CheckIn]) -> tuple[date, float]:
        check_in = read.get(self.doubted)
        if check_in is None:
            return (date.min, 0.0)
        return (check_in.on, check_in.mass_kg or 0.0)

    def _take_mass(self, value: float) -> None:
        """Change the doubted cell to the mass it was meant to be."""
        self.table.set_text(self.doubted, 1, f"{value:g}")

    def keep(self) -> None:
        """Keep all rows as one step."""
        read = self.read()
        self._ask(read)
        diary = self.bench.desk.diary
        shown = {c.on for c in diary.check_ins if self.first <= c.on <= self.today}
        for day in shown - {check_in.on for check_in in read.values()}:
            diary = diary.without_check_in(day)
        after = _with_all(diary, tuple(read.values()))
        count = len(set(after.check_ins) ^ set(self.bench.desk.diary.check_ins))
        if not count:
            return
        label = tr("Check-ins since {day}", day=full_date(self.first))
        self.bench.desk.keep_diary(label, after)


def _with_all(diary: Diary, check_ins: tuple[CheckIn, ...]) -> Diary:
    """The diary with these, those that say nothing left out."""
    for check_in in check_ins:
        if is_empty(check_in):
            diary = diary.without_check_in(check_in.on)
        else:
            diary = diary.with_check_in(check_in)
    return diary
