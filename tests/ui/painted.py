"""What painters write: every text that reaches a painter or a chart, and what of it is cut."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

import pytest
from matplotlib.text import Text
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QFontMetricsF, QPainter, QPixmap
from PySide6.QtWidgets import QStyle, QWidget

LEAST_CUT = 1.5
"""Px by which a text may reach over its room: hinting rounds widths."""


@dataclass(slots=True)
class Painted:
    """Whole texts; cut: those shortened or out of their room; short: what was left of them."""

    texts: set[str] = field(default_factory=set)
    cut: set[str] = field(default_factory=set)
    short: set[str] = field(default_factory=set)

    def note(self, painter: QPainter, where: object, flags: int, text: str) -> None:
        """A text is written into a rectangle or at a point."""
        if text in self.short:
            return  # noted whole when it was shortened
        self.texts.add(text)
        device = painter.device()
        if not isinstance(device, QWidget | QPixmap):
            return
        wide = device.width() / (device.devicePixelRatio() if isinstance(device, QPixmap) else 1)
        metrics = QFontMetricsF(painter.font())
        if isinstance(where, QRectF):
            took = metrics.boundingRect(where, flags, text)
            if flags & Qt.TextFlag.TextWordWrap:
                if took.height() > where.height() + LEAST_CUT:
                    self.cut.add(text)
            elif metrics.horizontalAdvance(text) > where.width() + LEAST_CUT:
                self.cut.add(text)
        elif isinstance(where, QPointF):
            took = QRectF(where.x(), where.y(), metrics.horizontalAdvance(text), 1)
        else:
            return
        shown = painter.transform().mapRect(took)
        if shown.right() > wide + LEAST_CUT or shown.left() < -LEAST_CUT:
            self.cut.add(text)


def _parts(args: tuple[Any, ...]) -> tuple[object, int, str]:
    """Where, flags and text of a call of drawText in any of its forms."""
    text = next(one for one in args if isinstance(one, str))
    numbers = [one for one in args[: args.index(text)] if isinstance(one, int | float)]
    first = args[0]
    if hasattr(first, "toRectF") or isinstance(first, QRectF):
        return QRectF(first), int(numbers[-1]) if numbers else 0, text
    if hasattr(first, "toPointF") or isinstance(first, QPointF):
        return QPointF(first), 0, text
    if len(numbers) == 2:
        return QPointF(*numbers), 0, text
    return QRectF(*numbers[:4]), int(numbers[4]), text


@contextmanager
def watched(monkeypatch: pytest.MonkeyPatch) -> Iterator[Painted]:
    """Notes every text that is painted while it lasts."""
    seen = Painted()
    write, item = QPainter.drawText, QStyle.drawItemText

    def draw_text(painter: QPainter, *args: Any) -> Any:
        seen.note(painter, *_parts(args))
        return write(painter, *args)

    def draw_item_text(style: QStyle, *args: Any) -> None:
        seen.texts.add(next(one for one in args if isinstance(one, str)))
        item(style, *args)

    def shortened(real: Any) -> Any:
        def elide(metrics: Any, text: str, *args: Any) -> str:
            shown: str = real(metrics, text, *args)
            if shown != text:
                seen.texts.add(text)
                seen.cut.add(text)
                seen.short.add(shown)
            return shown

        return elide

    drawn = Text.draw

    def draw(one: Text, *args: Any, **named: Any) -> None:
        seen.texts.add(one.get_text())
        drawn(one, *args, **named)

    with monkeypatch.context() as patch:
        patch.setattr(QPainter, "drawText", draw_text)
        patch.setattr(QStyle, "drawItemText", draw_item_text)
        patch.setattr(Text, "draw", draw)
        for kind in (QFontMetrics, QFontMetricsF):
            patch.setattr(kind, "elidedText", shortened(kind.elidedText))
        yield seen
