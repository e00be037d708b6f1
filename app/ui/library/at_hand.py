"""What the coach keeps at hand: exercises marked with a star, remembered in the coach's file."""

from __future__ import annotations

import json
from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF

from app.desk import Keeper
from app.domain.exercise import ExerciseKey
from app.ui.theme import current

SETTING = "at_hand"

_POINTS = (
    (8.0, 1.6),
    (9.9, 6.0),
    (14.6, 6.3),
    (11.0, 9.4),
    (12.2, 14.0),
    (8.0, 11.4),
    (3.8, 14.0),
    (5.0, 9.4),
    (1.4, 6.3),
    (6.1, 6.0),
)
"""A five-armed star in the grid of 16 that all signs are drawn on."""


def kept_at_hand(store: Keeper) -> frozenset[ExerciseKey]:
    """The keys that are kept at hand; empty if what the file says cannot be read."""
    try:
        found = json.loads(store.setting(SETTING) or "[]")
    except ValueError:
        return frozenset()
    if not isinstance(found, list):
        return frozenset()
    return frozenset(ExerciseKey(key) for key in found if isinstance(key, str))


def keep_at_hand(store: Keeper, keys: Iterable[ExerciseKey]) -> None:
    """Remember these keys in the coach's file. Raises StoreError where that fails."""
    store.set_setting(SETTING, json.dumps(sorted(keys)))


def paint_star(painter: QPainter, rect: QRectF, *, colour: QColor, filled: bool = True) -> None:
    """A star in the middle of `rect`: filled for what is kept, an outline for what is not."""
    side = min(rect.width(), rect.height())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(rect.center().x() - side / 2, rect.center().y() - side / 2)
    painter.scale(side / 16, side / 16)
    painter.setPen(QPen(colour, 1.2))
    if filled:
        painter.setBrush(colour)
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in _POINTS]))
    painter.restore()


def star_icon() -> QIcon:
    """The star for a button: an outline, filled while the button is down."""
    icon = QIcon()
    for state, filled in ((QIcon.State.Off, False), (QIcon.State.On, True)):
        pixmap = QPixmap(48, 48)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        colour = current().accent if filled else current().ink2
        paint_star(painter, QRectF(0, 0, 48, 48), colour=colour, filled=filled)
        painter.end()
        icon.addPixmap(pixmap, QIcon.Mode.Normal, state)
    return icon
