"""The rows of the substitute dialog: figure, name, reasons, and a tick for the client's booklet."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.domain.exercise import ExerciseKey
from app.domain.substitute import Substitute
from app.domain.wording import tr
from app.ui import figure_paint, signs
from app.ui.bench import Bench
from app.ui.theme import current, font
from app.ui.words import tip

ROW = Qt.ItemDataRole.UserRole
FIGURE = (56, 48)
TICK = 16
TICK_COLUMN = 84
"""How wide the column with the tick is, at the right of every row."""


def spoken(one: Substitute, place: int = 0) -> str:
    """The row in words; place: its number among those printed for the client, 0 for none."""
    parts = [one.exercise.name, tr(one.demand.value), *_other_reasons(one)]
    if one.blocked:
        parts.append(tr("held back: {blocked}", blocked=one.blocked))
    if place:
        parts.append(tr("printed for the client as number {place}", place=place))
    return ", ".join(parts)


def _other_reasons(one: Substitute) -> list[str]:
    """The reasons without the demand, which stands beside the name."""
    return [reason for reason in one.reasons if reason != tr(one.demand.value)]


class SubstituteList(QListWidget):
    """Substitutes, best first; Space or a click on the tick asks to tick a row.

    tick_asked(int): the row that is to be ticked, or no longer.
    """

    tick_asked = Signal(int)

    def __init__(self, bench: Bench, place_of: Callable[[ExerciseKey], int]) -> None:
        super().__init__()
        self.setAccessibleName(tr("Substitutes"))
        self.setItemDelegate(SubstituteDelegate(bench, place_of, self))
        self.place_of = place_of

    def fill(self, substitutes: tuple[Substitute, ...]) -> None:
        """Show these."""
        self.clear()
        for one in substitutes:
            item = QListWidgetItem(spoken(one, self.place_of(one.exercise.key)))
            item.setData(ROW, one)
            item.setToolTip(tip(item.text()))
            self.addItem(item)

    def substitute(self, row: int) -> Substitute:
        """The substitute in that row."""
        one: Substitute = self.item(row).data(ROW)
        return one

    def show_ticks(self) -> None:
        """Say and paint the ticks again."""
        for row in range(self.count()):
            one = self.substitute(row)
            self.item(row).setText(spoken(one, self.place_of(one.exercise.key)))
            self.item(row).setToolTip(tip(self.item(row).text()))
        self.viewport().update()

    def tick_rect(self, row: int) -> QRectF:
        """Where the tick of a row can be clicked."""
        rect = QRectF(self.visualItemRect(self.item(row)))
        return rect.adjusted(rect.width() - TICK_COLUMN, 0, 0, 0)

    def _ticked_at(self, where: QPointF) -> int | None:
        """The row whose tick lies there."""
        index = self.indexAt(where.toPoint())
        if not index.isValid() or not self.tick_rect(index.row()).contains(where):
            return None
        return index.row()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self._ticked_at(event.position())
        if row is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
            return
        self.setCurrentRow(row)
        self.tick_asked.emit(row)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        # two quick clicks on a tick are two ticks, never a swap
        if self._ticked_at(event.position()) is None:
            super().mouseDoubleClickEvent(event)
        else:
            self.mousePressEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and self.currentRow() >= 0:
            self.tick_asked.emit(self.currentRow())
            return
        super().keyPressEvent(event)


class SubstituteDelegate(QStyledItemDelegate):
    """Figure, name, reasons in two lines, the tick; blocked ones in pale ink with the sign."""

    def __init__(
        self, bench: Bench, place_of: Callable[[ExerciseKey], int], parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.bench = bench
        self.place_of = place_of
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
        words = rect.adjusted(FIGURE[0] + 16, 5, -TICK_COLUMN - 6, -4)
        _paint_words(painter, words, one)
        tick = rect.adjusted(rect.width() - TICK_COLUMN, 0, -10, 0)
        _paint_tick(painter, tick, place=self.place_of(one.exercise.key), pale=bool(one.blocked))
        painter.restore()


def _paint_words(painter: QPainter, rect: QRectF, one: Substitute) -> None:
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
    painter.drawText(rect.adjusted(used, 2, 0, 0), left, tr(one.demand.value))
    y = QFontMetricsF(bold).height()
    if one.blocked:
        sign = QRectF(rect.left(), rect.top() + y + 1, 13, 13)
        signs.paint_conflict(painter, sign, colour=colours.conflict)
        painter.setPen(colours.conflict)
        painter.drawText(
            rect.adjusted(18, y, 0, 0), left, tr("Held back: {blocked}", blocked=one.blocked)
        )
        return
    painter.setPen(colours.ink2)
    text = "; ".join(_other_reasons(one))
    metrics = QFontMetricsF(font("small"))
    for line in in_two_lines(text, metrics, rect.width()):
        painter.drawText(rect.adjusted(0, y, 0, 0), left, line)
        y += metrics.height()


def in_two_lines(text: str, metrics: QFontMetricsF, width: float) -> tuple[str, ...]:
    """The text in at most two lines of that width, the second ending in an ellipsis if need be."""
    words = text.split()
    first = ""
    while words and metrics.horizontalAdvance(f"{first} {words[0]}".strip()) <= width:
        first = f"{first} {words.pop(0)}".strip()
    rest = metrics.elidedText(" ".join(words), Qt.TextElideMode.ElideRight, width)
    return tuple(line for line in (first, rest) if line)


def _paint_tick(painter: QPainter, rect: QRectF, *, place: int, pale: bool) -> None:
    """The box at the right end, 'print' before it, its number on it once it is ticked."""
    colours = current()
    box = QRectF(rect.right() - TICK, rect.center().y() - TICK / 2, TICK, TICK)
    edge = colours.accent if place else colours.hair if pale else colours.rule
    painter.setPen(QPen(edge, 1.2))
    painter.setBrush(colours.fill if place else colours.card)
    painter.drawRoundedRect(box, 3, 3)
    painter.setFont(font("small"))
    if place:
        painter.setPen(colours.on_fill)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), str(place))
    if place or not pale:
        painter.setPen(colours.ink2 if place else colours.ink3)
        words = QRectF(rect.left(), rect.top(), box.left() - rect.left() - 6, rect.height())
        flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(words, flags, tr("print"))
