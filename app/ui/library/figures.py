"""Small figures that are painted when the window has a moment, never while the list scrolls.

Drawing a figure takes longer than a frame. What is asked for and not there yet is noted, painted
one at a time between events, newest wish first, and kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtGui import QPixmap

from app.ui import theme

if TYPE_CHECKING:
    from app.domain.figure import PosePair

MOST_WISHES = 48
"""Figures of about three screenfuls: what scrolled by before that is not painted."""

Wish = tuple[str, float]


class LazyFigures(QObject):
    """The figures of one list; `ready` says that another one can be shown."""

    ready = Signal()

    def __init__(
        self, poses: Mapping[str, PosePair], size: tuple[int, int], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._poses, self._size = poses, size
        self._theme = theme.current()
        self._kept: dict[Wish, QPixmap | None] = {}
        self._wishes: dict[Wish, None] = {}
        self._later = QTimer(self)
        self._later.setInterval(0)
        self._later.timeout.connect(self._paint_one)

    def picture(self, key: str, ratio: float) -> QPixmap | None:
        """The figure of that pose; None if there is none, or not yet."""
        if theme.current() is not self._theme:
            self._theme = theme.current()
            self._kept.clear()
        wish = (key, ratio)
        found = self._kept.get(wish)
        # whether there is such a pose is asked later too: the poses are first read for it
        if found is None and key and wish not in self._kept:
            self._wishes.pop(wish, None)
            self._wishes[wish] = None
            if not self._later.isActive():
                self._later.start()
        return found

    def finish(self) -> None:
        """Paint everything that was asked for now, as for a picture of the window."""
        while self._wishes:
            self._paint_one()

    def _paint_one(self) -> None:
        while len(self._wishes) > MOST_WISHES:
            del self._wishes[next(iter(self._wishes))]
        if not self._wishes:
            self._later.stop()
            return
        from app.ui import figure_paint

        key, ratio = wish = self._wishes.popitem()[0]
        if key not in self._poses:
            self._kept[wish] = None
            return
        tones = figure_paint.DARK if self._theme.dark else figure_paint.LIGHT
        wide, tall = self._size
        self._kept[wish] = figure_paint.FigureIcons(tones).pixmap(
            self._poses[key], width_px=wide, height_px=tall, ratio=ratio
        )
        self.ready.emit()
