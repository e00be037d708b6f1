"""A measured value beside its range as a small picture: a bed between brackets and a mark."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.domain.findings import Finding
from app.domain.ranges import Range
from app.ui import signs
from app.ui.theme import Theme

WIDE, TALL = 56.0, 12.0
_CLEAR = 4.5
"""A value that lies outside is drawn at least this far from the bed, px: near misses show."""
_MARK = 3.6


@dataclass(frozen=True, slots=True)
class Bullet:
    """Where bed and mark stand, px from the left end of the scale; the scale begins at nought."""

    bed_left: float
    bed_right: float
    open_end: bool
    mark: float


def bullet_of(finding: Finding, *, wide: float = WIDE) -> Bullet | None:
    """The picture of a finding; None where nothing was measured or there is no range."""
    value, band = finding.measured, finding.range
    if value is None or band is None or (band.low is None and band.high is None):
        return None
    return place(value, band, wide=wide)


def place(value: float, band: Range, *, wide: float) -> Bullet:
    """Bed and mark of a value beside a range on a scale `wide` px long."""
    edges = [edge for edge in (band.low, band.high) if edge is not None]
    open_top = 1.5 if band.high is None else 1.15
    top = max(max(edges) * open_top, value * 1.08, 1e-9)

    def x(amount: float) -> float:
        return wide * min(max(amount, 0.0), top) / top

    left = 0.0 if band.low is None else x(band.low)
    right = wide if band.high is None else x(band.high)
    mark = min(max(x(value), _MARK), wide - _MARK)
    if band.short_by(value) > 0:
        left = max(left, _MARK + _CLEAR)
        mark = min(mark, left - _CLEAR)
    elif band.over_by(value) > 0:
        right = min(right, wide - _MARK - _CLEAR)
        mark = max(mark, right + _CLEAR)
    return Bullet(left, right, band.high is None, mark)


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
