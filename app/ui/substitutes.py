"""Substitutes for a card: ranked, each with its reasons and what the swap does to the week."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.domain import substitute
from app.domain.edits.parts import find_slot, locate
from app.domain.edits.place import replace_exercise
from app.domain.errors import CoachError
from app.domain.findings import Edit, edit
from app.domain.program import DAYS, SlotId
from app.domain.substitute import Substitute
from app.ui import figure_paint, signs
from app.ui.bench import Bench
from app.ui.change_list import ChangeList
from app.ui.forms import Sheet, plain
from app.ui.theme import current, font

ROW = Qt.ItemDataRole.UserRole
SHOWN = 40
FIGURE = (56, 48)


class SubstituteDialog(Sheet):
    """Choose one; the effect on the findings is shown before it is taken."""

    def __init__(self, bench: Bench, slot_id: SlotId, parent: QWidget | None) -> None:
        desk = bench.desk
        self.slot = find_slot(desk.program, slot_id)
        self.old = desk.catalogue[self.slot.exercise]
        at = locate(desk.program, slot_id)
        super().__init__(
            parent,
            f"In place of {self.old.name}",
            verb="Substitute",
            about=f"{DAYS[at.day]}, week {at.week + 1}; reaches {bench.span.value}. Best first; "
            "what does not fit comes last and says why.",
        )
        self.bench = bench
        self.list = QListWidget()
        self.list.setAccessibleName("Substitutes")
        self.list.setItemDelegate(SubstituteDelegate(bench, self.list))
        ranked = substitute.rank(self.slot, desk.program, desk.client, desk.catalogue)
        for one in ranked[:SHOWN]:
            item = QListWidgetItem(spoken(one))
            item.setData(ROW, one)
            self.list.addItem(item)
        if not ranked:
            self.body.addWidget(plain("Nothing in the library trains the same muscles."))
        self.changes = ChangeList(bench)
        self.changes.setMaximumHeight(150)
        self.body.addWidget(self.list, 1)
        self.body.addWidget(self.changes)
        self.list.currentRowChanged.connect(lambda _row: self.refresh())
        self.list.itemDoubleClicked.connect(lambda _item: self.try_keep())
        self.finished.connect(lambda _result: self.bench.clear_preview())
        self.resize(580, 660)
        self.list.setCurrentRow(0)
        self.list.setFocus()
        self.refresh()

    def chosen(self) -> Substitute | None:
        """The substitute that is marked."""
        row = self.list.currentRow()
        if row < 0:
            return None
        one: Substitute = self.list.item(row).data(ROW)
        return one

    def edit(self, one: Substitute) -> Edit:
        """The swap as an edit."""
        return edit(
            f"Substitute {one.exercise.name} for {self.old.name}",
            replace_exercise,
            slot_id=self.slot.id,
            exercise=one.exercise,
            old=self.old,
            span=self.bench.span,
        )

    def refresh(self) -> None:
        """Show what the marked substitute would do."""
        one = self.chosen()
        self.keep_button.setEnabled(one is not None)
        if one is None:
            return
        self.show_error("")
        preview = self.bench.try_edit(self.edit(one))
        if isinstance(preview, CoachError):
            self.show_error(preview.sentence)
            return
        self.changes.show_change(preview.gained, preview.lost)

    def keep(self) -> None:
        """Swap."""
        one = self.chosen()
        if one is not None:
            self.bench.desk.keep(self.edit(one))


def spoken(one: Substitute) -> str:
    """The row in words."""
    parts = [one.exercise.name, one.demand.value, *one.reasons]
    if one.blocked:
        parts.append(f"held back: {one.blocked}")
    return ", ".join(parts)


class SubstituteDelegate(QStyledItemDelegate):
    """Figure, name, reasons in two lines; blocked ones in pale ink with the sign."""

    def __init__(self, bench: Bench, parent: QWidget) -> None:
        super().__init__(parent)
        self.bench = bench
        dark = current().dark
        self.icons = figure_paint.FigureIcons(figure_paint.DARK if dark else figure_paint.LIGHT)

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        line, small = QFontMetricsF(font("body")).height(), QFontMetricsF(font("small")).height()
        return QSize(300, max(FIGURE[1] + 8, round(line + 2 * small + 12)))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        one: Substitute = index.data(ROW)
        colours, rect = current(), QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, colours.wash)
            painter.setPen(QPen(colours.accent, 1.5))
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -2), 4, 4)
        pair = self.bench.shelf.poses.get(one.exercise.figure)
        if pair is not None:
            ratio = painter.device().devicePixelRatioF()
            wide, tall = FIGURE
            picture = self.icons.pixmap(pair, width_px=wide, height_px=tall, ratio=ratio)
            painter.drawPixmap(round(rect.left() + 6), round(rect.top() + 4), picture)
        self._paint_words(painter, rect.adjusted(FIGURE[0] + 16, 5, -10, -4), one)
        painter.restore()

    def _paint_words(self, painter: QPainter, rect: QRectF, one: Substitute) -> None:
        colours = current()
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        bold = font("body")
        bold.setWeight(QFont.Weight.DemiBold)
        painter.setFont(bold)
        painter.setPen(colours.ink3 if one.blocked else colours.ink)
        painter.drawText(rect, left, one.exercise.name)
        used = painter.fontMetrics().horizontalAdvance(one.exercise.name) + 10
        painter.setFont(font("small"))
        painter.setPen(colours.ink3)
        painter.drawText(rect.adjusted(used, 2, 0, 0), left, one.demand.value)
        y = QFontMetricsF(bold).height()
        if one.blocked:
            sign = QRectF(rect.left(), rect.top() + y + 1, 13, 13)
            signs.paint_conflict(painter, sign, colour=colours.conflict)
            painter.setPen(colours.conflict)
            painter.drawText(rect.adjusted(18, y, 0, 0), left, f"Held back: {one.blocked}")
            return
        painter.setPen(colours.ink2)
        text = "; ".join(one.reasons)
        flags = left | int(Qt.TextFlag.TextWordWrap)
        painter.drawText(rect.adjusted(0, y, 0, 0), flags, text)
