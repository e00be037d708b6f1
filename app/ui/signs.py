"""The drawn devices of the window: signs of the three weights, pin, note, hatch, brackets, wedge.

Pure painters: each draws into a rectangle it is told, in colours of the theme it is told, and
leaves the painter as it found it. Form carries the meaning, so every sign reads in grey.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QPainter,
    QPainterPath,
    QPen,
    QPixmap,
    QPolygonF,
    QTransform,
)

from app.domain.findings import Weight
from app.ui.theme import Theme

CARD_SIGN = 13
"""Side of a sign on a card, px at scale 1."""

_GRID = 16.0  # signs are drawn on a grid of 16 and scaled


@contextmanager
def _kept(painter: QPainter) -> Iterator[QPainter]:
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    try:
        yield painter
    finally:
        painter.restore()


@contextmanager
def _on_grid(painter: QPainter, rect: QRectF) -> Iterator[QPainter]:
    """The painter with a 16 x 16 grid laid over the largest square in the middle of `rect`."""
    side = min(rect.width(), rect.height())
    with _kept(painter):
        painter.translate(rect.center().x() - side / 2, rect.center().y() - side / 2)
        painter.scale(side / _GRID, side / _GRID)
        yield painter


def _pen(colour: QColor, width: float, *, flat: bool = False) -> QPen:
    cap = Qt.PenCapStyle.FlatCap if flat else Qt.PenCapStyle.RoundCap
    join = Qt.PenJoinStyle.MiterJoin if flat else Qt.PenJoinStyle.RoundJoin
    return QPen(colour, width, Qt.PenStyle.SolidLine, cap, join)


def _line(painter: QPainter, start: tuple[float, float], end: tuple[float, float]) -> None:
    painter.drawLine(QLineF(*start, *end))


# -- the three weights -------------------------------------------------------------------------


def paint_weight(
    painter: QPainter,
    rect: QRectF,
    *,
    weight: Weight,
    theme: Theme,
    below: bool | None = None,
    accepted: bool = False,
) -> None:
    """The sign of a finding's weight in the middle of `rect`.

    below: for `outside`, the lozenge left of the brackets (True or unknown) or right (False);
    accepted: the same sign in the colour of labels.
    """
    match weight:
        case Weight.CONFLICT:
            paint_conflict(painter, rect, colour=theme.ink3 if accepted else theme.conflict)
        case Weight.OUTSIDE:
            colour = theme.ink3 if accepted else theme.outside
            paint_outside(painter, rect, colour=colour, below=below is not False)
        case Weight.REMARK:
            paint_remark(painter, rect, colour=theme.ink3 if accepted else theme.remark)


def paint_conflict(painter: QPainter, rect: QRectF, *, colour: QColor) -> None:
    """A filled square, crossed out: the cross is cut out, so any ground shows through."""
    with _on_grid(painter, rect):
        square = QPainterPath()
        square.addRoundedRect(QRectF(1, 1, 14, 14), 2, 2)
        cross = QPainterPath()
        for turn in (45, -45):
            cross = cross.united(_bar(turn))
        painter.fillPath(square.subtracted(cross), colour)


def _bar(turn: float) -> QPainterPath:
    """A bar through the middle of the grid, turned by `turn` degrees."""
    path = QPainterPath()
    path.addRoundedRect(QRectF(-5.2, -1.1, 10.4, 2.2), 1.1, 1.1)
    return QTransform().translate(8, 8).rotate(turn).map(path)


def paint_outside(painter: QPainter, rect: QRectF, *, colour: QColor, below: bool = True) -> None:
    """Two brackets with a lozenge beyond them: left for below the range, right for above."""
    with _on_grid(painter, rect):
        if not below:
            painter.translate(_GRID, 0)
            painter.scale(-1, 1)
        painter.setPen(_pen(colour, 1.9, flat=True))
        left = QPolygonF([QPointF(9.4, 2), QPointF(7.4, 2), QPointF(7.4, 14), QPointF(9.4, 14)])
        right = QPolygonF([QPointF(12, 2), QPointF(14.4, 2), QPointF(14.4, 14), QPointF(12, 14)])
        painter.drawPolyline(left)
        painter.drawPolyline(right)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(
            QPolygonF([QPointF(0, 8), QPointF(3, 4.6), QPointF(6, 8), QPointF(3, 11.4)])
        )


def paint_remark(painter: QPainter, rect: QRectF, *, colour: QColor) -> None:
    """A six-armed asterisk."""
    with _on_grid(painter, rect):
        painter.setPen(_pen(colour, 1.8))
        painter.translate(8, 8)
        for _ in range(3):
            _line(painter, (0, -6.2), (0, 6.2))
            painter.rotate(60)


def weight_pixmap(
    weight: Weight,
    theme: Theme,
    *,
    side: int = CARD_SIGN,
    ratio: float = 1.0,
    below: bool | None = None,
    accepted: bool = False,
) -> QPixmap:
    """The sign as a picture of `side` px, for labels and tables; `ratio` device pixels a px."""
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    paint_weight(
        painter,
        QRectF(0, 0, side, side),
        weight=weight,
        theme=theme,
        below=below,
        accepted=accepted,
    )
    painter.end()
    return pixmap


# -- signs of the card -------------------------------------------------------------------------


def paint_pin(painter: QPainter, rect: QRectF, *, colour: QColor) -> None:
    """A pin with a filled head: set by hand."""
    with _on_grid(painter, rect):
        head = QPolygonF(
            [
                QPointF(4.6, 1),
                QPointF(11.4, 1),
                QPointF(10.6, 3),
                QPointF(10.6, 6.6),
                QPointF(12.4, 9.6),
                QPointF(3.6, 9.6),
                QPointF(5.4, 6.6),
                QPointF(5.4, 3),
            ]
        )
        painter.setPen(_pen(colour, 0.8))
        painter.setBrush(colour)
        painter.drawPolygon(head)
        painter.setPen(_pen(colour, 1.6))
        _line(painter, (8, 10), (8, 15))


def paint_note(painter: QPainter, rect: QRectF, *, colour: QColor) -> None:
    """A sheet with a folded corner and two lines: there is a note."""
    with _on_grid(painter, rect):
        painter.setPen(_pen(colour, 1.5))
        outline = QPolygonF(
            [QPointF(2, 2), QPointF(14, 2), QPointF(14, 9.5), QPointF(9.5, 14), QPointF(2, 14)]
        )
        painter.drawPolygon(outline)
        painter.drawPolyline(QPolygonF([QPointF(14, 9.5), QPointF(9.5, 9.5), QPointF(9.5, 14)]))
        _line(painter, (5, 5.4), (11, 5.4))
        _line(painter, (5, 8.4), (7.6, 8.4))


def paint_link(
    painter: QPainter,
    *,
    x: float,
    top: float,
    bottom: float,
    letter: str,
    theme: Theme,
    font: QFont,
) -> None:
    """A bracket down a rail that joins paired cards, its letter in a gap half-way.

    x: of the upright, which opens to the right; top and bottom: where it begins and ends.
    """
    with _kept(painter):
        painter.setFont(font)
        tall = painter.fontMetrics().height()
        middle = (top + bottom) / 2
        painter.setPen(_pen(theme.ink2, 1.5, flat=True))
        tick = 5.0
        painter.drawPolyline(
            QPolygonF([QPointF(x + tick, top), QPointF(x, top), QPointF(x, middle - tall / 2)])
        )
        painter.drawPolyline(
            QPolygonF(
                [QPointF(x, middle + tall / 2), QPointF(x, bottom), QPointF(x + tick, bottom)]
            )
        )
        painter.setPen(theme.ink)
        box = QRectF(x - 12, middle - tall / 2, 24, tall)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), letter)


# -- ranges, light weeks, what is missing ------------------------------------------------------


def paint_hatch(
    painter: QPainter, rect: QRectF, *, colour: QColor, gap: float = 4.0, width: float = 1.0
) -> None:
    """Slanting lines over `rect`, `gap` px apart: a light week."""
    with _kept(painter):
        painter.setClipRect(rect, Qt.ClipOperation.IntersectClip)
        painter.setPen(_pen(colour, width, flat=True))
        x = rect.left() - rect.height()
        while x < rect.right():
            _line(painter, (x, rect.bottom()), (x + rect.height(), rect.top()))
            x += gap


def paint_bed(painter: QPainter, rect: QRectF, *, theme: Theme, open_end: bool = False) -> None:
    """The bed of a range: `rect` in band between two brackets.

    open_end: a range without an upper end has no far bracket and ends in three gaps.
    """
    with _kept(painter):
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.fillRect(rect, theme.band)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tick = min(3.0, rect.width() / 2)
        painter.setPen(_pen(theme.ink3, 1.5, flat=True))
        edges = ((rect.left(), 1),) if open_end else ((rect.left(), 1), (rect.right(), -1))
        for x, inward in edges:
            painter.drawPolyline(
                QPolygonF(
                    [
                        QPointF(x + inward * tick, rect.top()),
                        QPointF(x, rect.top()),
                        QPointF(x, rect.bottom()),
                        QPointF(x + inward * tick, rect.bottom()),
                    ]
                )
            )
        if open_end:
            for number in range(3):
                x = rect.right() - 2 - 4 * number
                painter.fillRect(QRectF(x, rect.top(), 1.5, rect.height()), theme.sheet)


def paint_dots(
    painter: QPainter, *, left: float, right: float, y: float, colour: QColor, size: float = 2.0
) -> None:
    """Square dots of `size` px from left to right: the length of what is missing."""
    with _kept(painter):
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        x = left
        while x + size <= right + 0.01:
            painter.fillRect(QRectF(x, y - size / 2, size, size), colour)
            x += 2 * size


# -- what the coach is doing now ---------------------------------------------------------------


def paint_wedge(painter: QPainter, tip: QPointF, *, colour: QColor, side: float = 9.0) -> None:
    """A wedge that points right at `tip`."""
    with _kept(painter):
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(tip.x() - side, tip.y() - side * 0.7),
                    tip,
                    QPointF(tip.x() - side, tip.y() + side * 0.7),
                ]
            )
        )


def paint_insertion(
    painter: QPainter, *, left: float, right: float, y: float, colour: QColor
) -> None:
    """The insertion mark: a 3 px line from a wedge on the rail to the cards' right edge."""
    with _kept(painter):
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.fillRect(QRectF(left, y - 1.5, right - left, 3), colour)
    paint_wedge(painter, QPointF(left + 1, y), colour=colour)


def paint_ring(painter: QPainter, rect: QRectF, *, colour: QColor) -> None:
    """A 2 px ring, 2 px outside `rect`, with a radius of 5: focus, or the card to be replaced."""
    with _kept(painter):
        painter.setPen(_pen(colour, 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(rect.adjusted(-2, -2, 2, 2), 5, 5)
