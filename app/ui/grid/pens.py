"""Fonts with their metrics and the theme's colours, gathered once for all that is painted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter

from app.ui import theme
from app.ui.grid.geometry import Heights
from app.ui.theme import Step, Theme

STEPS: tuple[Step, ...] = ("small", "body", "medium", "number", "head")

MOST_WIDTHS = 5000


@dataclass(frozen=True, slots=True, eq=False)
class Pens:
    """What painters draw with: one theme, one font and its metrics for each step."""

    theme: Theme
    fonts: dict[Step, QFont]
    metrics: dict[Step, QFontMetricsF]
    _widths: dict[tuple[str, Step], float] = field(default_factory=dict)

    def width(self, text: str, step: Step) -> float:
        """How wide the text is, px; remembered, since a drag asks for the same texts again."""
        known = self._widths.get((text, step))
        if known is None:
            if len(self._widths) > MOST_WIDTHS:
                self._widths.clear()
            known = self._widths[text, step] = self.metrics[step].horizontalAdvance(text)
        return known

    def height(self, step: Step) -> float:
        """How high a line is, px."""
        return self.metrics[step].height()

    def heights(self) -> Heights:
        """The line heights that a layout rests on."""
        return Heights(*(self.height(step) for step in STEPS))

    def cut(self, text: str, step: Step, width: float) -> str:
        """The text, cut at the right with an ellipsis where it is wider than `width`."""
        if self.width(text, step) <= width:
            return text
        return self.metrics[step].elidedText(text, Qt.TextElideMode.ElideRight, max(0.0, width))

    def write(
        self, painter: QPainter, at: QPointF, text: str, *, step: Step, colour: QColor
    ) -> float:
        """Write the text with its baseline at the point; returns the x where it ends."""
        painter.setFont(self.fonts[step])
        painter.setPen(colour)
        painter.drawText(at, text)
        return at.x() + self.width(text, step)

    def write_right(
        self, painter: QPainter, at: QPointF, text: str, *, step: Step, colour: QColor
    ) -> float:
        """Write the text so that it ends at the point; returns the x where it begins."""
        left = at.x() - self.width(text, step)
        self.write(painter, QPointF(left, at.y()), text, step=step, colour=colour)
        return left

    def wrapped(self, text: str, step: Step, width: float) -> tuple[str, ...]:
        """The text in lines of at most `width`, broken at spaces and in words that are too long."""
        lines: list[str] = []
        parts = (self._parts(word, step, width) for word in text.split())
        for word in chain.from_iterable(parts):
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer, step) <= width:
                lines[-1] = longer
            else:
                lines.append(self.cut(word, step, width))
        return tuple(lines)

    def _parts(self, word: str, step: Step, width: float) -> Iterator[str]:
        """The word in parts that fit; whole where not even one letter does."""
        while self.width(word, step) > width:
            fits = next(
                (n for n in range(len(word) - 1, 0, -1) if self.width(word[:n], step) <= width), 0
            )
            if not fits:
                break
            yield word[:fits]
            word = word[fits:]
        yield word

    def baseline(self, top: float, step: Step) -> float:
        """The baseline of a line whose top is there."""
        return top + self.metrics[step].ascent()


def make_pens(which: Theme | None = None) -> Pens:
    """Pens for the current theme and the system's font."""
    fonts = {step: theme.font(step) for step in STEPS}
    return Pens(which or theme.current(), fonts, {s: QFontMetricsF(f) for s, f in fonts.items()})


def sharp(rect: QRectF) -> QRectF:
    """The rectangle moved so that a 1 px outline falls on whole pixels."""
    return QRectF(rect).adjusted(0.5, 0.5, -0.5, -0.5)
