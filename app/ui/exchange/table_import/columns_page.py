"""The first page: what stands in the file, and what each column of it is for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.domain.program import MAX_WEEKS
from app.domain.wording import mark, tr
from app.exchange.coach_plan.columns import LABELS, Mapping, Part
from app.exchange.sheets.csv_rows import SEPARATORS
from app.exchange.sheets.decoding import ENCODINGS
from app.exchange.sheets.sheet import Book, Cell, Sheet
from app.table_plans import shown_sheets
from app.ui.forms import NumberField, Wrapped, plain
from app.ui.library.own_parts import DeafBox
from app.ui.refit_lines import RefitLines
from app.ui.words import tip, typed_number

SHOWN_ROWS = 60
HEAD_ROWS = 2
"""Rows of choices above the cells: what a column holds, and for which week."""
LEAST_WIDTH, MOST_WIDTH = 96, 240
"""Of a column, px."""
SEPARATOR_NAMES = {
    ",": mark("Comma"),
    ";": mark("Semicolon"),
    "\t": mark("Tab"),
    "|": mark("Upright line"),
}


class ColumnsPage(QWidget):
    """The sheets to read, the cells, and a choice above each column.

    reopened(encoding, separator): the file is to be read anew; changed: something else was chosen.
    """

    reopened = Signal(str, str)
    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.book = Book(())
        self.mapping = Mapping(())
        self.choices: list[DeafBox] = []
        self._build()
        self._lay_out()
        self.encoding.activated.connect(lambda _k: self._reopen())
        self.separator.activated.connect(lambda _k: self._reopen())
        self.sheets.itemChanged.connect(lambda _item: self.changed.emit())
        for box in (self.set_rows, self.sheet_weeks):
            box.toggled.connect(lambda _on: self.changed.emit())
        self.beside.toggled.connect(self._show_week_row)
        self.head.edit.textEdited.connect(lambda _text: self._head_typed())

    def _build(self) -> None:
        names = ((name, name) for name in ENCODINGS)
        self.encoding = DeafBox(tr("Encoding"), names)
        signs = ((tr(SEPARATOR_NAMES[sign]), sign) for sign in SEPARATORS)
        self.separator = DeafBox(tr("Between cells"), signs)
        self.sheets = QListWidget()
        self.sheets.setAccessibleName(tr("Sheets to read"))
        self.sheets.setMaximumHeight(84)
        self.head = NumberField(
            tr("Headings in row"), low=1, high=100_000, whole=True, optional=True
        )
        self.set_rows = QCheckBox(tr("Each row is one set"))
        self.sheet_weeks = QCheckBox(tr("Each sheet is a week"))
        self.beside = QCheckBox(tr("Weeks stand side by side"))
        for box in (self.set_rows, self.sheet_weeks, self.beside):
            box.setMinimumHeight(28)
        self.table = QTableWidget()
        self.table.setAccessibleName(tr("The table"))
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setMinimumHeight(220)
        self.table.horizontalHeader().hide()
        self.told = Wrapped()
        self.remarks = RefitLines()
        self.remarks.setAccessibleName(tr("What was not understood"))
        self.remarks.setMinimumHeight(72)
        self.remarks.setMaximumHeight(110)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.csv_row = QWidget()
        line = QHBoxLayout(self.csv_row)
        line.setContentsMargins(0, 0, 0, 0)
        for name, box in ((tr("Encoding"), self.encoding), (tr("Between cells"), self.separator)):
            label = plain(name)
            label.setBuddy(box)
            line.addWidget(label)
            line.addWidget(box)
        line.addStretch(1)
        options = QHBoxLayout()
        options.setSpacing(14)
        label = plain(tr("Headings in row (empty: none)"))
        label.setBuddy(self.head)
        options.addWidget(label)
        options.addWidget(self.head)
        options.addWidget(self.set_rows)
        options.addWidget(self.sheet_weeks)
        options.addWidget(self.beside)
        options.addStretch(1)
        column.addWidget(self.csv_row)
        column.addWidget(self.sheets)
        column.addLayout(options)
        column.addWidget(
            Wrapped(tr("Say above each column what it holds, or leave it out."), role="small")
        )
        column.addWidget(self.table, 1)
        column.addWidget(self.told)
        column.addWidget(self.remarks)

    def _reopen(self) -> None:
        self.reopened.emit(str(self.encoding.currentData()), str(self.separator.currentData()))

    # -- what is shown ---------------------------------------------------------------------

    def show_book(self, book: Book, mapping: Mapping) -> None:
        """Show the file's cells and how they are taken."""
        self.book, self.mapping = book, mapping
        self.csv_row.setVisible(bool(book.separator))
        if book.separator:
            if self.encoding.findData(book.encoding) < 0:
                self.encoding.addItem(book.encoding, book.encoding)
            self.encoding.choose(book.encoding)
            self.separator.choose(book.separator)
        self._list_sheets()
        self._show_mapping()

    def _list_sheets(self) -> None:
        self.sheets.blockSignals(True)
        self.sheets.clear()
        wanted = shown_sheets(self.book)
        for sheet in self.book.sheets:
            item = QListWidgetItem(sheet.name)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            state = Qt.CheckState.Checked if sheet in wanted else Qt.CheckState.Unchecked
            item.setCheckState(state)
            self.sheets.addItem(item)
        self.sheets.setVisible(len(self.book.sheets) > 1)
        self.sheet_weeks.setVisible(len(self.book.sheets) > 1)
        self.sheets.blockSignals(False)

    def chosen_sheets(self) -> tuple[Sheet, ...]:
        """The sheets that are ticked."""
        return tuple(
            sheet
            for row, sheet in enumerate(self.book.sheets)
            if self.sheets.item(row).checkState() == Qt.CheckState.Checked
        )

    def _show_mapping(self) -> None:
        for box, on in (
            (self.set_rows, self.mapping.set_rows),
            (self.sheet_weeks, self.mapping.sheet_weeks),
            (self.beside, self.mapping.side_by_side),
        ):
            box.blockSignals(True)
            box.setChecked(on)
            box.blockSignals(False)
        self.head.set_value(self.mapping.head + 1 if self.mapping.head >= 0 else None)
        sheets = self.chosen_sheets() or self.book.sheets
        self._fill(max(sheets, key=lambda one: len(one.rows)))

    def _fill(self, sheet: Sheet) -> None:
        width = len(self.mapping.columns)
        rows = sheet.rows[:SHOWN_ROWS]
        self.table.clear()
        self.table.setColumnCount(width)
        self.table.setRowCount(len(rows) + HEAD_ROWS)
        labels = ["", "", *(str(number + 1) for number in range(len(rows)))]
        self.table.setVerticalHeaderLabels(labels)
        self.choices = [self._choice(number) for number in range(width)]
        for number, box in enumerate(self.choices):
            self.table.setCellWidget(0, number, box)
            self.table.setCellWidget(1, number, self._week_box(number))
        for place, row in enumerate(rows):
            for number in range(width):
                text = cell_text(row[number]) if number < len(row) else ""
                item = QTableWidgetItem(text)
                item.setToolTip(tip(text))
                if place == self.mapping.head:
                    font = item.font()
                    font.setBold(True)
                    item.setFont(font)
                self.table.setItem(place + HEAD_ROWS, number, item)
        for place in range(HEAD_ROWS):
            self.table.setRowHeight(place, 36)
        self.table.setRowHidden(1, not self.beside.isChecked())
        for number, box in enumerate(self.choices):
            self.table.resizeColumnToContents(number)
            wide = max(self.table.columnWidth(number), box.minimumSizeHint().width(), LEAST_WIDTH)
            self.table.setColumnWidth(number, min(wide, MOST_WIDTH))

    def _choice(self, number: int) -> DeafBox:
        column = self.mapping.columns[number]
        box = DeafBox(
            tr("What column {n} holds", n=number + 1),
            ((tr(LABELS[part]), part.value) for part in LABELS),
        )
        box.choose(column.part.value)
        # the text chosen sets the width, not the longest of all that can be
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.setMinimumContentsLength(min(len(box.currentText()), 22))
        box.activated.connect(lambda _k, n=number, b=box: self._chosen(n, Part(b.currentData())))
        return box

    def _week_box(self, number: int) -> DeafBox:
        weeks = ((tr("Week {n}", n=n), n) for n in range(1, MAX_WEEKS + 1))
        box = DeafBox(tr("The week of column {n}", n=number + 1), ((tr("Every week"), 0), *weeks))
        box.choose(self.mapping.columns[number].week)
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.activated.connect(lambda _k, n=number, b=box: self._week_chosen(n, b.currentData()))
        return box

    def _week_chosen(self, number: int, week: int) -> None:
        self.mapping = self.mapping.with_week(number, week)
        self.changed.emit()

    def _show_week_row(self, on: bool) -> None:
        """Show the choice of weeks; without it every column speaks of every week."""
        self.table.setRowHidden(1, not on)
        if not on and self.mapping.side_by_side:
            for number in range(len(self.mapping.columns)):
                self.mapping = self.mapping.with_week(number, 0)
            self._show_mapping()
            self.changed.emit()

    def _chosen(self, number: int, part: Part) -> None:
        self.mapping = self.mapping.with_part(number, part)
        self.changed.emit()

    def _head_typed(self) -> None:
        self.changed.emit()

    def chosen_mapping(self) -> Mapping:
        """How the table is to be read. Raises CoachError for a row that is no number."""
        head = self.head.value()
        return replace(
            self.mapping,
            head=-1 if head is None else int(head) - 1,
            set_rows=self.set_rows.isChecked(),
            sheet_weeks=self.sheet_weeks.isChecked() and len(self.book.sheets) > 1,
        )

    def tell(self, sentence: str, remarks: tuple[str, ...]) -> None:
        """Say what was understood, and list what was not."""
        self.told.setText(sentence)
        self.remarks.say(*remarks)
        self.remarks.setVisible(bool(remarks))


def cell_text(cell: Cell) -> str:
    """A cell as the page shows it."""
    if cell is None:
        return ""
    if isinstance(cell, float):
        return typed_number(cell, places=4)
    return cell.isoformat() if isinstance(cell, date) else str(cell)
