"""One row of the library: figure, name, muscles, equipment, and where it stands in the week."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QApplication, QListView, QStyle, QStyledItemDelegate
from PySide6.QtWidgets import QStyleOptionViewItem as Option

from app.domain.exercise import Exercise
from app.ui.bench import Bench
from app.ui.library.at_hand import paint_star
from app.ui.library.figures import LazyFigures
from app.ui.library.model import AT_HAND, EXERCISE, LINES, USED
from app.ui.theme import Theme, current, font

FIGURE = (44, 44)
STAR = 11
LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)

Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True, slots=True)
class Type:
    """Fonts of a row with their measures, made once for a system font."""

    name: QFont
    small: QFont
    of_name: QFontMetricsF
    of_small: QFontMetricsF

    @classmethod
    def now(cls) -> Type:
        """The type of the platform's font as it is."""
        name, small = font("medium"), font("small")
        return cls(name, small, QFontMetricsF(name), QFontMetricsF(small))

    @property
    def line(self) -> float:
        """Height of the name's line, px."""
        return self.of_name.height()

    @property
    def small_line(self) -> float:
        """Height of the lines below it, px."""
        return self.of_small.height()


class RowDelegate(QStyledItemDelegate):
    """Paints three lines beside the figure, two when compact."""

    def __init__(self, bench: Bench, view: QListView) -> None:
        super().__init__(view)
        self.compact = False
        self.figures = LazyFigures(bench.shelf.poses, FIGURE, self)
        # a method of Qt's own would have its signature worked out here: ten milliseconds
        self.figures.ready.connect(lambda: view.viewport().update())
        self._type = Type.now()
        self._font = QApplication.font().key()

    @property
    def type(self) -> Type:
        """The fonts and their measures, made anew when the platform's font has changed."""
        if (key := QApplication.font().key()) != self._font:
            self._type, self._font = Type.now(), key
        return self._type

    def sizeHint(self, option: Option, index: Index) -> QSize:
        lines = 1 if self.compact else 2
        tall = self.type.line + lines * self.type.small_line + 9
        return QSize(160, max(FIGURE[1] + 4, round(tall)))

    def paint(self, painter: QPainter, option: Option, index: Index) -> None:
        exercise: Exercise = index.data(EXERCISE)
        colours, rect = current(), QRectF(option.rect)
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
        self._paint_words(painter, text, index, colours=colours)
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 3, 3)
        painter.restore()

    def _paint_figure(self, painter: QPainter, rect: QRectF, exercise: Exercise) -> None:
        picture = self.figures.picture(exercise.figure, painter.device().devicePixelRatioF())
        if picture is not None:
            top = rect.center().y() - FIGURE[1] / 2
            painter.drawPixmap(round(rect.left() + 2), round(top), picture)

    def _paint_words(
        self, painter: QPainter, rect: QRectF, index: Index, *, colours: Theme
    ) -> None:
        kind = self.type
        first = QRectF(rect.left(), rect.top(), rect.width(), kind.line)
        right = self._paint_marks(painter, first, index, colours=colours)
        painter.setFont(kind.name)
        painter.setPen(colours.ink)
        name = str(index.data(Qt.ItemDataRole.DisplayRole))
        painter.drawText(first, LEFT, _cut(kind.of_name, name, right - rect.left()))
        painter.setFont(kind.small)
        y = rect.top() + kind.line
        muscles, last = index.data(LINES)
        shown = ((muscles, colours.ink2), (last, colours.ink2))[: 1 if self.compact else 2]
        for text, colour in shown:
            painter.setPen(colour)
            line = QRectF(rect.left(), y, rect.width(), kind.small_line)
            painter.drawText(line, LEFT, _cut(kind.of_small, text, rect.width()))
            y += kind.small_line

    def _paint_marks(
        self, painter: QPainter, line: QRectF, index: Index, *, colours: Theme
    ) -> float:
        """The star and the days at the right of the name's line; returns where they begin."""
        right = line.right()
        if used := index.data(USED):
            painter.setFont(self.type.small)
            painter.setPen(colours.ink2)
            painter.drawText(line, RIGHT, used)
            right -= self.type.of_small.horizontalAdvance(used) + 6
        if index.data(AT_HAND):
            box = QRectF(right - STAR, line.center().y() - STAR / 2, STAR, STAR)
            paint_star(painter, box, colour=colours.ink2)
            right -= STAR + 5
        return right


def _cut(measures: QFontMetricsF, text: str, width: float) -> str:
    return measures.elidedText(text, Qt.TextElideMode.ElideRight, width)
