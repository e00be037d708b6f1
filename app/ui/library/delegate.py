"""One row of the library: figure, name, muscles, equipment, and where it stands in the week."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QLineF, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from app.domain.exercise import Exercise, Muscle
from app.ui import figure_paint
from app.ui.bench import Bench
from app.ui.library import rows
from app.ui.theme import current, font

EXERCISE = Qt.ItemDataRole.UserRole
USED = Qt.ItemDataRole.UserRole + 1
FIGURE = (44, 44)


class RowDelegate(QStyledItemDelegate):
    """Paints three lines beside the figure, two when compact."""

    def __init__(self, bench: Bench, names: Mapping[Muscle, str], view: QListView) -> None:
        super().__init__(view)
        self.bench, self.names = bench, names
        self.compact = False
        self.icons = figure_paint.FigureIcons()
        self._dark: bool | None = None

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        small = QFontMetricsF(font("small")).height()
        lines = 1 if self.compact else 2
        tall = QFontMetricsF(font("body")).height() + lines * small + 9
        return QSize(160, max(FIGURE[1] + 4, round(tall)))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        exercise: Exercise = index.data(EXERCISE)
        colours = current()
        rect = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        state = option.state
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, colours.wash)
        elif state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(rect, colours.hover)
        self._paint_figure(painter, rect, exercise)
        text = rect.adjusted(FIGURE[0] + 8, 3, -6, -3)
        painter.setPen(QPen(colours.hair, 1))
        painter.drawLine(QLineF(text.left(), rect.bottom(), text.right(), rect.bottom()))
        self._paint_words(painter, text, exercise, index.data(USED) or "")
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 3, 3)
        painter.restore()

    def _paint_figure(self, painter: QPainter, rect: QRectF, exercise: Exercise) -> None:
        dark = current().dark
        if dark is not self._dark:
            self._dark = dark
            self.icons.set_tones(figure_paint.DARK if dark else figure_paint.LIGHT)
        pair = self.bench.shelf.poses.get(exercise.figure)
        if pair is None:
            return
        ratio = painter.device().devicePixelRatioF()
        wide, tall = FIGURE
        pixmap = self.icons.pixmap(pair, width_px=wide, height_px=tall, ratio=ratio)
        top = rect.center().y() - tall / 2
        painter.drawPixmap(round(rect.left() + 2), round(top), pixmap)

    def _paint_words(self, painter: QPainter, rect: QRectF, exercise: Exercise, used: str) -> None:
        colours = current()
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        line = QFontMetricsF(font("body")).height()
        small = QFontMetricsF(font("small")).height()
        first = QRectF(rect.left(), rect.top(), rect.width(), line)
        room = rect.width()
        if used:
            painter.setFont(font("small"))
            painter.setPen(colours.ink3)
            painter.drawText(first, right, used)
            room -= painter.fontMetrics().horizontalAdvance(used) + 8
        painter.setFont(font("medium"))
        painter.setPen(colours.ink)
        name = painter.fontMetrics().elidedText(
            exercise.name, Qt.TextElideMode.ElideRight, int(room)
        )
        painter.drawText(first, left, name)
        painter.setFont(font("small"))
        painter.setPen(colours.ink2)
        lines = [rows.muscles_text(exercise, self.names)]
        if not self.compact:
            lines.append(rows.equipment_text(exercise))
        y = rect.top() + line
        for text in lines:
            shown = painter.fontMetrics().elidedText(
                text, Qt.TextElideMode.ElideRight, int(rect.width())
            )
            painter.drawText(QRectF(rect.left(), y, rect.width(), small), left, shown)
            y += small
            painter.setPen(colours.ink3)
