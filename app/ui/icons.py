"""Our own small icons: a 16 px grid, 1.5 px strokes with round ends, no fill.

Each is a short list of strokes drawn in code, so that it is sharp at every scale and follows the
theme.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QIcon, QPainter, QPainterPath, QPen, QPixmap

from app.ui import theme

Stroke = tuple[tuple[float, float], ...]

_CURVES: dict[str, tuple[tuple[str, tuple[float, ...]], ...]] = {
    # moves, lines and cubic curves in the 16 px grid
    "undo": (
        ("M", (6, 3)),
        ("L", (2.5, 6.5)),
        ("L", (6, 10)),
        ("M", (2.5, 6.5)),
        ("L", (9.5, 6.5)),
        ("C", (14.5, 6.5, 14.5, 13, 9.5, 13)),
        ("L", (7, 13)),
    ),
    "redo": (
        ("M", (10, 3)),
        ("L", (13.5, 6.5)),
        ("L", (10, 10)),
        ("M", (13.5, 6.5)),
        ("L", (6.5, 6.5)),
        ("C", (1.5, 6.5, 1.5, 13, 6.5, 13)),
        ("L", (9, 13)),
    ),
    "search": (
        ("M", (11, 7)),
        ("C", (11, 12.3, 3, 12.3, 3, 7)),
        ("C", (3, 1.7, 11, 1.7, 11, 7)),
        ("M", (10, 10)),
        ("L", (13.5, 13.5)),
    ),
    "fold": (("M", (10, 4)), ("L", (6, 8)), ("L", (10, 12))),
    "open": (("M", (6, 4)), ("L", (10, 8)), ("L", (6, 12))),
    "plus": (("M", (8, 3)), ("L", (8, 13)), ("M", (3, 8)), ("L", (13, 8))),
    "cross": (("M", (4, 4)), ("L", (12, 12)), ("M", (12, 4)), ("L", (4, 12))),
    "more": (
        ("M", (3, 8)),
        ("L", (3.1, 8)),
        ("M", (8, 8)),
        ("L", (8.1, 8)),
        ("M", (13, 8)),
        ("L", (13.1, 8)),
    ),
}


def icon(name: str) -> QIcon:
    """The icon of that name in the theme's ink, with a paler form for disabled controls."""
    colours = theme.current()
    result = QIcon()
    result.addPixmap(_picture(name, colours.ink2.name()), QIcon.Mode.Normal)
    result.addPixmap(_picture(name, colours.hair.name()), QIcon.Mode.Disabled)
    return result


def _picture(name: str, colour: str) -> QPixmap:
    scale, path = 4, _path(name)
    pixmap = QPixmap(16 * scale, 16 * scale)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(scale, scale)
    pen = QPen(colour)
    pen.setWidthF(1.5)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.drawPath(path)
    painter.end()
    return pixmap


def _path(name: str) -> QPainterPath:
    path = QPainterPath()
    for kind, n in _CURVES[name]:
        match kind:
            case "M":
                path.moveTo(QPointF(n[0], n[1]))
            case "L":
                path.lineTo(QPointF(n[0], n[1]))
            case _:
                path.cubicTo(QPointF(n[0], n[1]), QPointF(n[2], n[3]), QPointF(n[4], n[5]))
    return path
