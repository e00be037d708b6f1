"""The lines of a session as a table: one row a set, the slot's own cells over all of its rows."""

from __future__ import annotations

from dataclasses import replace
from enum import IntEnum
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal

from app.domain import effort as efforts
from app.domain.errors import CoachError
from app.domain.log_sheet import Asked, Typed, split_line, wrong_field
from app.domain.units import mass_text
from app.domain.wording import mark, tr
from app.ui import theme
from app.ui.results.draft import SessionDraft, SlotDraft
from app.ui.words import DASH, DOT, TIMES, tip

Index = QModelIndex | QPersistentModelIndex


class Column(IntEnum):
    """What stands where."""

    EXERCISE = 0
    MEANT = 1
    SET = 2
    LOAD = 3
    REPS = 4
    RIR = 5
    REMARK = 6


TITLES = {
    Column.EXERCISE: mark("Exercise"),
    Column.MEANT: mark("Meant"),
    Column.SET: mark("Set"),
    Column.LOAD: mark("Load"),
    Column.REPS: mark("Reps"),
    Column.RIR: mark("In reserve"),
    Column.REMARK: mark("Remark"),
}
TYPED = {Column.LOAD: "load", Column.REPS: "reps", Column.RIR: "rir"}
"""Cells of a line, with the field of it that they show."""

WRONG = Qt.ItemDataRole.UserRole
"""True for a cell that cannot be read."""


class ResultsModel(QAbstractTableModel):
    """Rows of a session draft.

    edited(): something was typed.
    """

    edited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.draft: SessionDraft | None = None
        self._rows: list[tuple[int, int]] = []
        self._wrong: dict[tuple[int, int], CoachError] = {}

    def show(self, draft: SessionDraft | None) -> None:
        """Show another session, or the same after its lines became more or fewer."""
        self.beginResetModel()
        self.draft = draft
        slots = () if draft is None else draft.slots
        self._rows = [(s, n) for s, slot in enumerate(slots) for n in range(len(slot.lines))]
        self._check()
        self.endResetModel()

    def _check(self) -> None:
        faults = () if self.draft is None else self.draft.faults()
        self._wrong = {(slot, line): error for slot, line, error in faults}

    def refresh(self) -> None:
        """Show again what the lines hold, their number being the same."""
        self._check()
        if self._rows:
            last = self.index(len(self._rows) - 1, len(Column) - 1)
            self.dataChanged.emit(self.index(0, 0), last)

    # -- where things are ------------------------------------------------------------------

    def at(self, row: int) -> tuple[SlotDraft, int]:
        """The slot and the line of a row."""
        assert self.draft is not None
        slot, line = self._rows[row]
        return self.draft.slots[slot], line

    def slot_number(self, row: int) -> int:
        """The number of the slot in a row."""
        return self._rows[row][0]

    def rows_of(self, slot: int) -> range:
        """The rows of a slot."""
        rows = [row for row, (number, _) in enumerate(self._rows) if number == slot]
        return range(rows[0], rows[-1] + 1) if rows else range(0)

    def fault(self, row: int) -> CoachError | None:
        """Why a row cannot be read, if it cannot."""
        return self._wrong.get(self._rows[row])

    def _is_wrong(self, row: int, column: Column) -> bool:
        if self.fault(row) is None:
            return False
        slot, line = self.at(row)
        return TYPED.get(column) == wrong_field(slot.lines[line])

    def told_fault(self, row: int) -> str:
        """What cannot be read of the row, else of the first one like it; empty if all can be."""
        error = self.fault(row) if 0 <= row < len(self._rows) else None
        if error is None:
            found = self.first_fault()
            if found is None:
                return ""
            row, error = found
        slot, line = self.at(row)
        return tr(
            "{exercise}, set {n}, is not kept yet. {sentence}",
            exercise=slot.done.name,
            n=line + 1,
            sentence=error.sentence,
        )

    def first_fault(self) -> tuple[int, CoachError] | None:
        """The first row that cannot be read."""
        for row in range(len(self._rows)):
            error = self.fault(row)
            if error is not None:
                return row, error
        return None

    # -- what Qt asks ----------------------------------------------------------------------

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(Column)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or role != Qt.ItemDataRole.DisplayRole:
            return None
        title = tr(TITLES[Column(section)])
        if section == Column.LOAD and self.draft is not None and self.draft.slots:
            return f"{title}, {self.draft.slots[0].meant.unit}"
        return title

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        flags = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        if index.column() in TYPED or index.column() == Column.REMARK:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid() or self.draft is None:
            return None
        slot, line = self.at(index.row())
        column = Column(index.column())
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(slot, line, column)
        if role == WRONG:
            return self._is_wrong(index.row(), column)
        if role == Qt.ItemDataRole.ToolTipRole:
            error = self.fault(index.row()) if column in TYPED else None
            return tip(error.sentence) if error else tip(self._text(slot, line, column))
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(column)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self._spoken(slot, line, column)
        return self._colour(index.row(), column, role)

    def _colour(self, row: int, column: Column, role: int) -> Any:
        colours = theme.current()
        if role == Qt.ItemDataRole.BackgroundRole:
            return colours.card if self.slot_number(row) % 2 else colours.sheet
        if role == Qt.ItemDataRole.ForegroundRole and column in (Column.MEANT, Column.SET):
            return colours.ink3
        return None

    def _text(self, slot: SlotDraft, line: int, column: Column) -> str:
        match column:
            case Column.EXERCISE:
                return exercise_text(slot)
            case Column.MEANT:
                return meant_text(slot.meant)
            case Column.SET:
                return str(line + 1)
            case Column.REMARK:
                return slot.note
            case _:
                return str(getattr(slot.lines[line], TYPED[column]))

    def _spoken(self, slot: SlotDraft, line: int, column: Column) -> str:
        text = self._text(slot, line, column) or tr("empty")
        return tr(
            "{exercise}, set {set}, {column}: {text}",
            exercise=slot.done.name,
            set=line + 1,
            column=tr(TITLES[column]),
            text=text,
        )

    # -- typing ----------------------------------------------------------------------------

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        if self._put(index.row(), Column(index.column()), str(value)):
            self.refresh()
            self.edited.emit()
        return True

    def put_many(self, cells: dict[tuple[int, int], str]) -> None:
        """Type into many cells at once; keys are row and column."""
        changed = False
        for (row, column), text in cells.items():
            if 0 <= row < len(self._rows) and (column in TYPED or column == Column.REMARK):
                changed |= self._put(row, Column(column), text)
        if changed:
            self.refresh()
            self.edited.emit()

    def _put(self, row: int, column: Column, text: str) -> bool:
        slot, line = self.at(row)
        text = text.strip()
        if column is Column.REMARK:
            changed, slot.note = slot.note != text, text
            return changed
        before = slot.lines[line]
        after = split_line(text) if column is Column.LOAD else None
        if after is None:
            after = replace(before, **{TYPED[column]: text})
        if before.is_skipped and not after.is_skipped:
            after = _without_dashes(after)
        slot.lines[line] = after
        return after != before

    def add_line(self, slot: int) -> None:
        """One more set for a slot."""
        assert self.draft is not None
        self.draft.slots[slot].lines.append(Typed())
        self.show(self.draft)


def _without_dashes(typed: Typed) -> Typed:
    """A line that is typed over: what said that it was left out goes."""
    kept = {
        name: "" if Typed(reps=getattr(typed, name)).is_skipped else getattr(typed, name)
        for name in TYPED.values()
    }
    return Typed(**kept)


def _alignment(column: Column) -> Qt.AlignmentFlag:
    if column in TYPED:
        return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
    if column is Column.SET:
        return Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter
    return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


def exercise_text(slot: SlotDraft) -> str:
    """What was done, and what it stands for if that is another exercise."""
    if not slot.is_swapped:
        return slot.done.name
    return tr("{done}, instead of {meant}", done=slot.done.name, meant=slot.meant.exercise.name)


NO_BREAK = "\N{NO-BREAK SPACE}"


def meant_text(asked: Asked) -> str:
    """'3 × 8–10 · RIR 2 · 62.5 kg'; a line may end after a dot, never before a unit."""
    slot = asked.slot
    low, high = slot.reps.low, slot.reps.high
    reps = f"{low}" if low == high else f"{low}{DASH}{high}"
    parts = [f"{slot.sets} {TIMES} {reps}{' s' if asked.exercise.timed else ''}"]
    parts.append(efforts.text(slot.effort, high))
    if asked.load_kg is not None and asked.weighed:
        parts.append(mass_text(asked.load_kg, asked.unit))
    return f" {DOT} ".join(part.replace(" ", NO_BREAK) for part in parts)
