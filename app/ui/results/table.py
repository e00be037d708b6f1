"""The table of a session by keyboard: as quick as a spreadsheet, with its keys.

Typing replaces, F2 edits, Enter goes down, Tab goes on, arrows leave a cell that was typed into,
Delete clears, Ctrl+C and Ctrl+V copy and paste cells parted by tabs, Ctrl+D fills down.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QModelIndex, QObject, QPersistentModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QPainter, QPen, QPolygon
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)
from shiboken6 import isValid

from app.domain.wording import tr
from app.ui import theme
from app.ui.results.table_model import TYPED, WRONG, Column, ResultsModel

Index = QModelIndex | QPersistentModelIndex
ROW = 28
DOWN = {Qt.Key.Key_Return: 1, Qt.Key.Key_Enter: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
NARROW = {Column.SET: 38, Column.LOAD: 80, Column.REPS: 54, Column.RIR: 78}


class _Cells(QStyledItemDelegate):
    """Edits a cell in a plain line, and marks one that cannot be read."""

    def __init__(self, table: ResultsTable) -> None:
        super().__init__(table)
        self.table = table
        self._open: QLineEdit | None = None

    def commit(self) -> None:
        """Take what stands in the line that is typed into, and close it."""
        if self._open is not None and isValid(self._open):
            self._leave(self._open)
        self._open = None

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        edit = QLineEdit(parent)
        edit.setFrame(False)
        edit.setAlignment(Qt.AlignmentFlag(int(index.data(Qt.ItemDataRole.TextAlignmentRole))))
        edit.setStyleSheet("QLineEdit { border-radius: 0; padding: 0 4px; min-height: 20px; }")
        edit.setAccessibleName(str(index.data(Qt.ItemDataRole.AccessibleTextRole)))
        self._open = edit
        return edit

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            key = Qt.Key(event.key())
            plain = event.modifiers() in (
                Qt.KeyboardModifier.NoModifier,
                Qt.KeyboardModifier.KeypadModifier,
            )
            if key in DOWN and plain:
                self._leave(editor)
                self.table.step(DOWN[key])
                return True
            control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
            if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and control:
                self._leave(editor)
                self.table.planned.emit(bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
                return True
            if key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
                self._leave(editor)
                self.table.go_on(back=key == Qt.Key.Key_Backtab)
                return True
        return super().eventFilter(editor, event)

    def _leave(self, editor: QObject) -> None:
        assert isinstance(editor, QWidget)
        self._open = None
        self.commitData.emit(editor)
        self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        if not index.data(WRONG):
            return
        colour = theme.current().conflict
        box = option.rect.adjusted(1, 1, -2, -2)
        painter.save()
        painter.setPen(QPen(colour, 2))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        at = box.topLeft()
        painter.drawPolygon(QPolygon([at, at + QPoint(9, 0), at + QPoint(0, 9)]))
        painter.restore()


class ResultsTable(QTableView):
    """The cells of a session.

    planned(bool): all as planned is wanted, of the whole session if true, else of one slot.
    """

    planned = Signal(bool)

    def __init__(self, model: ResultsModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = model
        self.setModel(model)
        self._cells = _Cells(self)
        self.setItemDelegate(self._cells)
        self.setAccessibleName(tr("Results of the session"))
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.AnyKeyPressed
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.DoubleClicked
        )
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(True)
        self.setFont(theme.font("body"))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW)
        self.verticalHeader().setMinimumSectionSize(24)
        head = self.horizontalHeader()
        head.setHighlightSections(False)
        head.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        head.setSectionResizeMode(Column.REMARK, QHeaderView.ResizeMode.Stretch)
        metrics = self.fontMetrics().averageCharWidth() / 7
        for column, width in NARROW.items():
            self.setColumnWidth(column, round(width * max(1.0, metrics)))
        self.setColumnWidth(Column.EXERCISE, round(165 * max(1.0, metrics)))
        self.setColumnWidth(Column.MEANT, round(135 * max(1.0, metrics)))
        model.modelReset.connect(self._span)
        self._span()

    def _span(self) -> None:
        """Let the cells of a slot reach over all of its rows."""
        self.clearSpans()
        draft = self.rows.draft
        for slot in range(0 if draft is None else len(draft.slots)):
            rows = self.rows.rows_of(slot)
            if len(rows) > 1:
                for column in (Column.EXERCISE, Column.MEANT, Column.REMARK):
                    self.setSpan(rows.start, column, len(rows), 1)

    def commit(self) -> None:
        """Take what is being typed, as if the cell had been left."""
        self._cells.commit()

    # -- where the cursor is ---------------------------------------------------------------

    def go_to(self, row: int, column: int = Column.LOAD) -> None:
        """Put the cursor into a cell."""
        self.setCurrentIndex(self.rows.index(row, column))

    def step(self, by: int) -> None:
        """One row down or up, in the same column."""
        here = self.currentIndex()
        row = here.row() + by
        if 0 <= row < self.rows.rowCount():
            self.go_to(row, here.column())

    def go_on(self, *, back: bool = False) -> bool:
        """On to the next cell to be typed into, or back; False at either end."""
        here = self.currentIndex()
        cells = [(r, c) for r in range(self.rows.rowCount()) for c in TYPED]
        at = (here.row(), here.column())
        later = [cell for cell in cells if cell > at] if not back else []
        earlier = [cell for cell in cells if cell < at] if back else []
        found = later[:1] or earlier[-1:]
        if found:
            self.go_to(*found[0])
        return bool(found)

    @property
    def slot(self) -> int | None:
        """The slot that the cursor is in."""
        here = self.currentIndex()
        return self.rows.slot_number(here.row()) if here.isValid() else None

    # -- keys ------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if control:
                self.planned.emit(shift)
            else:
                self.step(-1 if shift else 1)
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and not control:
            self.clear_cells()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.matches(QKeySequence.StandardKey.Cut):
            self.copy()
            self.clear_cells()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif control and key == Qt.Key.Key_D:
            self.fill_down()
        elif control or event.modifiers() & Qt.KeyboardModifier.AltModifier:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, next: bool) -> bool:  # noqa: A002 - Qt's own name
        """Tab goes through the cells first, and on from the last of them."""
        return self.go_on(back=not next) or super().focusNextPrevChild(next)

    # -- many cells ------------------------------------------------------------------------

    def _chosen(self) -> list[Index]:
        found = [
            i for i in self.selectedIndexes() if i.column() in TYPED or i.column() == Column.REMARK
        ]
        return sorted(found, key=lambda index: (index.row(), index.column()))

    def clear_cells(self) -> None:
        """Empty the chosen cells."""
        self.rows.put_many({(i.row(), i.column()): "" for i in self._chosen()})

    def copy(self) -> None:
        """Put the chosen cells on the clipboard, parted by tabs and lines."""
        chosen = self._chosen()
        rows = sorted({index.row() for index in chosen})
        lines = ["\t".join(str(i.data() or "") for i in chosen if i.row() == row) for row in rows]
        QGuiApplication.clipboard().setText("\n".join(lines))

    def paste(self) -> None:
        """Type what the clipboard holds into the cells from the cursor on.

        One value goes into every chosen cell. Lines past the last row are left out.
        """
        text = QGuiApplication.clipboard().text().rstrip("\r\n")
        here = self.currentIndex()
        if not text or not here.isValid():
            return
        lines = [line.split("\t") for line in text.splitlines()]
        chosen = self._chosen()
        if len(lines) == 1 and len(lines[0]) == 1 and len(chosen) > 1:
            self.rows.put_many({(i.row(), i.column()): text for i in chosen})
            return
        first = min((i.row() for i in chosen), default=here.row())
        left = min((i.column() for i in chosen), default=here.column())
        self.rows.put_many(
            {
                (first + down, left + right): cell
                for down, line in enumerate(lines)
                for right, cell in enumerate(line)
            }
        )

    def fill_down(self) -> None:
        """Copy the top of each chosen column down; with one cell, over the rest of its slot."""
        chosen = self._chosen()
        if not chosen:
            return
        rows = sorted({index.row() for index in chosen})
        if len(rows) == 1:
            rows = [r for r in self.rows.rows_of(self.rows.slot_number(rows[0])) if r >= rows[0]]
        top = {i.column(): str(i.data() or "") for i in chosen if i.row() == rows[0]}
        self.rows.put_many({(row, c): text for row in rows[1:] for c, text in top.items()})
