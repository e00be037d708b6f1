"""Painting a measured value beside its range: a bed between brackets and a mark."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.domain.bullet import Bullet, Scale
from app.ui import signs
from app.ui.theme import Theme

WIDE, TALL = 56.0, 12.0
_MARK = 3.6
SCALE = Scale(long=WIDE, half_mark=_MARK, gap=4.5)


def paint_bullet(
    painter: QPainter, rect: QRectF, bullet: Bullet, *, colour: QColor, theme: Theme
) -> None:
    """Draw it over `rect`: axis, bed between brackets, and a lozenge in `colour` as the mark."""
    painter.setPen(QPen(theme.rule, 1))
    base = rect.bottom() - 0.5
    painter.drawLine(QLineF(rect.left(), base, rect.right(), base))
    signs.paint_bed(
        painter,
        QRectF(
            rect.left() + bullet.bed_left,
            rect.top() + 0.5,
            max(2.0, bullet.bed_right - bullet.bed_left),
            rect.height() - 1,
        ),
        theme=theme,
        open_end=bullet.open_end,
    )
    x, y = rect.left() + bullet.mark, rect.center().y()
    painter.setPen(QPen(theme.sheet, 1))
    painter.setBrush(colour)
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(x - _MARK, y),
                QPointF(x, y - _MARK - 1),
                QPointF(x + _MARK, y),
                QPointF(x, y + _MARK + 1),
            ]
        )
    )
    painter.setBrush(Qt.BrushStyle.NoBrush)
