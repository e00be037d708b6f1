"""Two small pictures of the client pane: minutes by weekday, and a 1RM with its interval."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from app.domain.client import FreeTime
from app.domain.program import DAYS, day_name
from app.domain.wording import tr
from app.ui import signs
from app.ui.parts import tell_as_picture
from app.ui.theme import current, font
from app.ui.words import DASH, tip


class DayBars(QWidget):
    """A bar a weekday, its minutes under it; days with a session are dark."""

    def __init__(self) -> None:
        super().__init__()
        self.free: tuple[FreeTime, ...] = ()
        self.used: frozenset[int] = frozenset()
        self.setFixedHeight(round(2 * QFontMetricsF(font("small")).height() + 38))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Minutes a day"))
        tell_as_picture(self)

    def show_days(self, free: tuple[FreeTime, ...], used: frozenset[int]) -> None:
        """Show the minutes of each weekday and which days hold a session."""
        self.free, self.used = free, used
        told = (
            tr("{day_name} {minutes} minutes", day_name=day_name(d), minutes=t.minutes)
            if t.minutes
            else tr("{day_name} not free", day_name=day_name(d))
            for d, t in enumerate(free)
        )
        self.setAccessibleDescription(", ".join(told))
        lines = [f"{day_name(d)}: {t.note}" for d, t in enumerate(free) if t.note]
        self.setToolTip(tip(*lines))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = current()
        line = QFontMetricsF(font("small")).height()
        wide = self.width() / 7
        room = self.height() - 2 * line - 6
        most = max(60, *(time.minutes for time in self.free)) if self.free else 60
        painter.setFont(font("small"))
        middle = int(Qt.AlignmentFlag.AlignCenter)
        for day, time in enumerate(self.free):
            cell = QRectF(day * wide, 0, wide, line)
            painter.setPen(colours.ink2)
            painter.drawText(cell, middle, tr(DAYS[day])[:3])
            base = line + 3 + room
            painter.setPen(QPen(colours.rule, 1))
            painter.drawLine(QLineF(cell.left() + 6, base, cell.right() - 6, base))
            tall = room * time.minutes / most
            bar = QRectF(cell.center().x() - 9, base - tall, 18, tall)
            if time.minutes:
                painter.fillRect(bar, colours.bar if day in self.used else colours.band)
                if day not in self.used:
                    painter.setPen(QPen(colours.rule, 1))
                    painter.drawRect(bar)
            painter.setPen(colours.ink2)
            text = str(time.minutes) if time.minutes else DASH
            painter.drawText(QRectF(cell.left(), base + 1, wide, line), middle, text)


class Interval(QWidget):
    """A whisker from low to high with a square at the median, on a scale of its own width."""

    def __init__(self, low: float, median: float, high: float) -> None:
        super().__init__()
        self.low, self.median, self.high = low, median, high
        self.setFixedSize(QSize(34, 16))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = current()
        # the middle is the median and the half width a twentieth of it, so that spreads compare
        reach = 0.05 * self.median or 1.0
        half = self.width() / 2 - 2

        def x(value: float) -> float:
            return self.width() / 2 + half * max(-1.0, min(1.0, (value - self.median) / reach))

        y = self.height() / 2
        painter.setPen(QPen(colours.bar, 1.5))
        painter.drawLine(QLineF(x(self.low), y, x(self.high), y))
        for edge in (self.low, self.high):
            painter.drawLine(QLineF(x(edge), y - 3, x(edge), y + 3))
        painter.fillRect(QRectF(x(self.median) - 2.5, y - 2.5, 5, 5), colours.bar)


class Rail(QAbstractButton):
    """The folded pane: words set upright, a press anywhere opens it."""

    def __init__(self) -> None:
        super().__init__()
        self.words: tuple[str, ...] = ()
        self.setFixedWidth(34)
        self.setAccessibleName(tr("Client pane, folded"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_words(self, words: tuple[str, ...]) -> None:
        """Show these words from the top down; the first is the client."""
        self.words = words
        self.setToolTip(tr("Open the client pane"))
        self.setAccessibleDescription(", ".join(words))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = current()
        painter.fillRect(self.rect(), colours.paper)
        painter.setPen(QPen(colours.hair, 1))
        painter.drawLine(QLineF(0.5, 0, 0.5, self.height()))
        if self.hasFocus():
            signs.paint_ring(
                painter, QRectF(self.rect()).adjusted(3, 2, -2, -2), colour=colours.accent
            )
        painter.translate(self.width() / 2, 12)
        painter.rotate(90)
        x = 0.0
        for number, word in enumerate(self.words):
            bold = font("body")
            bold.setWeight(QFont.Weight.DemiBold if number == 0 else QFont.Weight.Normal)
            painter.setFont(bold)
            painter.setPen(colours.ink if number == 0 else colours.ink2)
            wide = painter.fontMetrics().horizontalAdvance(word)
            painter.drawText(QRectF(x, -12, wide + 4, 24), int(Qt.AlignmentFlag.AlignVCenter), word)
            x += wide + 26
