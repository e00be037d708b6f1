"""Bringing in results from a table: columns, names and a preview before anything is kept."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QFormLayout,
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.results import SlotResult
from app.domain.units import mass_text
from app.domain.wording import date_text, mark, tr, trn
from app.exchange.coach_plan.columns import LABELS, Part
from app.exchange.coach_plan.names import Named
from app.exchange.files import read_whole
from app.exchange.result_table import DAY_ORDERS, WANTED, DayOrder, Reading, with_part
from app.exchange.sheets.reading import MOST_BYTES, read_book
from app.exchange.sheets.sheet import Book
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain, tell
from app.ui.lines_table import add_line, lines_table
from app.ui.results.incoming import Incoming
from app.ui.words import TIMES

FILTER = mark("Tables (*.csv *.tsv *.txt *.xlsx);;All files (*)")
MOST_SHOWN = 300
MOST_FAULTS = 3
AT_ONCE = 1000
"""A table of more rows is read beside the window."""


def import_results(bench: Bench, window: QWidget, *, today: date) -> None:
    """Ask for a table and show what it comes to."""
    chosen, _ = QFileDialog.getOpenFileName(window, tr("Results from a table"), "", tr(FILTER))
    if not chosen:
        return
    path = Path(chosen)
    try:
        book = read_book(read_whole(path, most=MOST_BYTES), source=path.name)
    except CoachError as error:
        tell(window, tr("The table was not read"), error.sentence)
        return
    ResultTableDialog(bench, book, path.name, window, today=today).exec()


class ResultTableDialog(Sheet):
    """How the table is read at the top, doubtful names, and what becomes of every result."""

    def __init__(
        self, bench: Bench, book: Book, name: str, parent: QWidget | None, *, today: date
    ) -> None:
        super().__init__(
            parent,
            tr("Results from {name}", name=name),
            verb=tr("Bring in"),
            about=tr("Nothing is kept before you say so, and one undo takes it all back."),
        )
        self.bench, self.remarks = bench, book.remarks
        sheet = max(book.sheets, key=lambda one: len(one.rows))
        self.incoming = Incoming(bench.desk, sheet, today)
        self.incoming.prepare()
        self._job: worker.Job[Incoming] | None = None
        self._names_anew = True
        self.columns: dict[Part, QComboBox] = {}
        self.order, self.unit = QComboBox(), QComboBox()
        self.names_holder = QScrollArea()
        self.name_boxes: dict[str, QComboBox] = {}
        self.rows = lines_table(
            tr("What becomes of it"),
            (tr("Day"), tr("Exercise"), tr("Sets"), tr("What becomes of it")),
            wide=2,
        )
        self.faults = Wrapped(role="wrong", step="small")
        self.slip = QWidget()
        self.there = QCheckBox()
        self.there.setMinimumHeight(24)
        self._lay_out()
        self._work_out()
        self.resize(960, 720)

    # -- how it looks ----------------------------------------------------------------------

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        for number, part in enumerate(WANTED):
            box = self._column_box(part)
            label = plain(tr(LABELS[part]))
            label.setBuddy(box)
            grid.addWidget(label, 2 * (number // 4), number % 4)
            grid.addWidget(box, 2 * (number // 4) + 1, number % 4)
        self._fill(self.order, [(tr(text), order) for order, text in DAY_ORDERS.items()])
        self._fill(self.unit, [("kg", "kg"), ("lb", "lb")])
        self.order.setAccessibleName(tr("Order of day, month and year"))
        self.unit.setAccessibleName(tr("Unit of loads"))
        with QSignalBlocker(self.order), QSignalBlocker(self.unit):
            self.order.setCurrentIndex(list(DayOrder).index(self.incoming.reading.order))
            self.unit.setCurrentText(self.incoming.reading.unit)
        options = QHBoxLayout()
        options.addWidget(plain(tr("Days are written")))
        options.addWidget(self.order)
        options.addSpacing(12)
        options.addWidget(plain(tr("Loads are in")))
        options.addWidget(self.unit)
        options.addStretch(1)
        self.order.currentIndexChanged.connect(lambda _: self._read_again())
        self.unit.currentIndexChanged.connect(lambda _: self._read_again())
        self.there.toggled.connect(self._replace)
        self.names_head = plain(tr("Which exercises are these?"), step="head")
        self.names_holder.setWidgetResizable(True)
        self.names_holder.setMaximumHeight(170)
        self.names_holder.setAccessibleName(tr("Names that are not known for sure"))
        row = QHBoxLayout(self.slip)
        row.setContentsMargins(0, 0, 0, 0)
        self.slip_text = Wrapped(role="wrong", step="small")
        row.addWidget(self.slip_text, 1)
        row.addWidget(button(tr("They are in the other unit"), self._other_unit))
        self.body.addLayout(grid)
        self.body.addLayout(options)
        self.body.addWidget(self.names_head)
        self.body.addWidget(self.names_holder)
        self.body.addWidget(self.rows, 1)
        for widget in (self.faults, self.slip, self.there):
            self.body.addWidget(widget)

    def _column_box(self, part: Part) -> QComboBox:
        box = QComboBox()
        box.setMinimumHeight(32)
        box.setAccessibleName(tr("Column of {part}", part=tr(LABELS[part])))
        sheet, reading = self.incoming.sheet, self.incoming.reading
        head = sheet.rows[reading.head] if reading.head >= 0 else ()
        box.addItem(tr("none"), None)
        for at in range(sheet.width):
            text = head[at] if at < len(head) and head[at] is not None else None
            box.addItem(str(text) if text else tr("column {number}", number=at + 1), at)
        box.setCurrentIndex(reading.columns.get(part, -1) + 1)
        box.currentIndexChanged.connect(lambda _, part=part: self._choose_column(part))
        self.columns[part] = box
        return box

    @staticmethod
    def _fill(box: QComboBox, entries: list[tuple[str, object]]) -> None:
        box.setMinimumHeight(32)
        for text, value in entries:
            box.addItem(text, value)

    # -- what is chosen --------------------------------------------------------------------

    def _choose_column(self, part: Part) -> None:
        at = self.columns[part].currentData()
        self.incoming.reading = with_part(self.incoming.reading, part, at)
        for other, box in self.columns.items():
            with QSignalBlocker(box):
                box.setCurrentIndex(self.incoming.reading.columns.get(other, -1) + 1)
        self._read_again()

    def _read_again(self) -> None:
        reading = self.incoming.reading
        self.incoming.reading = Reading(
            reading.head,
            reading.columns,
            list(DayOrder)[self.order.currentIndex()],
            self.unit.currentText(),
        )
        self._work_out()

    def _work_out(self, *, names: bool = True) -> None:
        """Read the table as it is now said to be read: a long one beside the window.

        names: the list of doubtful names is shown anew.
        """
        self._stop()
        self._names_anew = names
        rows = len(self.incoming.sheet.rows)
        if rows <= AT_ONCE:
            self.incoming.read()
            self._worked_out(self.incoming)
            return
        self.keep_button.setEnabled(False)
        for widget in (self.slip, *((self.names_head, self.names_holder) if names else ())):
            widget.hide()
        self.faults.setText(trn("Reading {n} row…", "Reading {n} rows…", rows))
        self.faults.show()
        self._job = worker.start(self.incoming.read_apart, self._worked_out, self._failed)

    def done(self, result: int) -> None:
        self._stop()
        super().done(result)

    def _stop(self) -> None:
        """Let go of a reading that is under way."""
        if self._job is not None:
            self._job.cancel()
            self._job = None

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self.show_error(error.sentence)

    def _worked_out(self, read: Incoming) -> None:
        self._job = None
        read.replace = self.incoming.replace
        self.incoming = read
        if self._names_anew:
            self._show_names()
        self._refresh()

    def _other_unit(self) -> None:
        self.unit.setCurrentText("kg" if self.unit.currentText() == "lb" else "lb")

    def _replace(self, on: bool) -> None:
        self.incoming.replace = on
        if self._job is None:  # else it is shown once all is read
            self._refresh()

    def _show_names(self) -> None:
        """A line for every name that has to be asked about."""
        doubtful = self.incoming.doubtful
        holder = QWidget()
        form = QFormLayout(holder)
        form.setContentsMargins(0, 0, 0, 0)
        self.name_boxes = {one.text: self._name_box(one) for one in doubtful}
        for text, box in self.name_boxes.items():
            count = self.incoming.counts.get(text, 0)
            told = trn("{name}, {n} row", "{name}, {n} rows", count, name=text)
            label = plain(told)
            label.setBuddy(box)
            form.addRow(label, box)
        self.names_holder.setWidget(holder)
        for widget in (self.names_head, self.names_holder):
            widget.setVisible(bool(doubtful))

    def _name_box(self, named: Named) -> QComboBox:
        box = QComboBox()
        box.setMinimumHeight(28)
        box.setAccessibleName(tr("What {name} stands for", name=named.text))
        box.addItem(tr("leave it out"), None)
        catalogue = self.bench.desk.catalogue
        others = sorted((e for e in catalogue if e.key not in named.offered), key=lambda e: e.name)
        for exercise in (*(catalogue[key] for key in named.offered), *others):
            box.addItem(exercise.name, exercise.key)
        chosen = self.incoming.chosen.get(named.text)
        box.setCurrentIndex(max(0, box.findData(chosen)) if chosen is not None else 0)
        box.currentIndexChanged.connect(lambda _, name=named.text: self._name(name))
        return box

    def _name(self, name: str) -> None:
        key = self.name_boxes[name].currentData()
        self.incoming.chosen[name] = None if key is None else ExerciseKey(key)
        self._work_out(names=False)

    # -- what becomes of it ----------------------------------------------------------------

    def _refresh(self) -> None:
        """Show what every result becomes, and count on the button what would be kept."""
        incoming = self.incoming
        self.show_error("")
        new = {result.key for result in incoming.new}
        there = {result.key for result in incoming.there}
        slips = incoming.slips
        self.rows.clear()
        for result in incoming.placed.results[:MOST_SHOWN]:
            if result.key in new:
                fate = tr("replaces what is there") if result.key in there else tr("new")
            else:
                fate = tr("there already, stays") if result.key in there else tr("there already")
            known = slips.get(result.key)
            if known is not None:
                load = mass_text(known, self.bench.desk.client.units)
                fate = tr("{fate}; {load} is known", fate=fate, load=load)
            elif incoming.lacks_load(result):
                fate = tr("{fate}; without a load", fate=fate)
            self._line(result, fate)
        for entry in incoming.placed.homeless[: MOST_SHOWN // 3]:
            cells = (
                date_text(entry.day),
                entry.name,
                "",
                tr("line {line}: no place in that week", line=entry.line),
            )
            add_line(self.rows, cells, None)
        self._show_faults(len(slips))
        count = len(there)
        self.there.setVisible(bool(count))
        self.there.setText(
            trn(
                "Replace {n} result that is there already and differs",
                "Replace {n} results that are there already and differ",
                count,
            )
        )
        self.keep_button.setEnabled(bool(new))
        self.keep_button.setText(trn("Bring in {n} result", "Bring in {n} results", len(new)))

    def _line(self, result: SlotResult, fate: str) -> None:
        unit = self.bench.desk.client.units
        sets = ", ".join(
            f"{mass_text(done.load_kg, unit)} {TIMES} {done.reps}" for done in result.sets
        )
        name = self.bench.desk.catalogue[result.exercise].name
        cells = (date_text(result.on), name, sets or tr("left out"), fate)
        add_line(self.rows, cells, result.key)

    def _show_faults(self, slips: int) -> None:
        faults = self.incoming.faults
        lines = [
            *self.remarks,
            *(
                tr("Line {line}: {why}", line=one.line, why=one.error.sentence)
                for one in faults[:MOST_FAULTS]
            ),
        ]
        if len(faults) > MOST_FAULTS:
            more = len(faults) - MOST_FAULTS
            lines.append(trn("and {n} more line", "and {n} more lines", more))
        if self.incoming.reading.lacks:
            parts = ", ".join(tr(LABELS[part]) for part in self.incoming.reading.lacks)
            lines.insert(0, tr("Choose the column of: {parts}.", parts=parts))
        left_out = self.incoming.left_out
        if left_out:
            text = trn(
                "{n} row is left out until its exercise is named.",
                "{n} rows are left out until their exercise is named.",
                left_out,
            )
            lines.append(text)
        self.faults.setText("\n".join(lines))
        self.faults.setVisible(bool(lines))
        self.slip.setVisible(bool(slips))
        self.slip_text.setText(
            trn(
                "{n} result is about 2.2 times from the load that is known. Is the unit right?",
                "{n} results are about 2.2 times from the loads that are known. Is the unit right?",
                slips,
            )
        )

    # -- keeping ---------------------------------------------------------------------------

    def keep(self) -> None:
        """Keep the new results as one step. Raises CoachError if they cannot be kept."""
        incoming = self.incoming
        count = len(incoming.new)
        if not count:
            raise CoachError(
                tr("There is nothing new in the table."), mend=tr("Choose other columns.")
            )
        label = trn("Bring in {n} result", "Bring in {n} results", count)
        self.bench.desk.keep_diary(label, incoming.applied())
        incoming.remember()
        self.bench.said.emit(trn("{n} result brought in", "{n} results brought in", count))
