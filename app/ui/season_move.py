"""Moving whole weeks in the season: one gesture from press to drop, and its keyboard twin."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from app.domain.edits.weeks import move_weeks
from app.domain.findings import Edit, edit
from app.domain.wording import tr
from app.ui.season_paint import Frame


@dataclass(frozen=True, slots=True)
class WeekMove:
    """A run of weeks on its way to a gap. gap: before which week, 0 to the number of weeks."""

    run: range
    gap: int

    @property
    def goes(self) -> bool:
        """True if letting go would move anything."""
        return not self.run.start <= self.gap <= self.run.stop

    @property
    def first(self) -> int:
        """Where the first of the weeks would stand."""
        if not self.goes:
            return self.run.start
        return self.gap - (len(self.run) if self.gap > self.run.stop else 0)

    @property
    def name(self) -> str:
        """'week 3', or 'weeks 3 to 5'."""
        if len(self.run) == 1:
            return tr("week {start}", start=self.run.start + 1)
        return tr("weeks {start} to {stop}", start=self.run.start + 1, stop=self.run.stop)

    @property
    def told(self) -> str:
        """What letting go does, as a sentence."""
        name = self.name.capitalize()
        if not self.goes:
            return tr("{name} would stay.", name=name)
        where = tr("after week {gap}", gap=self.gap) if self.gap else tr("before week 1")
        return tr(
            "{name} would stand {where}. Esc leaves everything as it is.", name=name, where=where
        )

    def edit(self) -> Edit:
        """The move as one edit."""
        return edit(
            tr("Move {name}", name=self.name), move_weeks, indices=tuple(self.run), to=self.first
        )


def step(run: range, by: int, count: int) -> WeekMove | None:
    """The run one week earlier (-1) or later (+1); None at the end of the program."""
    gap = run.start - 1 if by < 0 else run.stop + 1
    return WeekMove(run, gap) if 0 <= gap <= count else None


def gap_at(frame: Frame, x: float) -> int:
    """The gap between weeks that is nearest to a place."""
    return max(0, min(frame.count, round((x - frame.left) / frame.width)))


def paint_gap(painter: QPainter, frame: Frame, gap: int, *, colour: QColor) -> None:
    """The insertion mark: a 3 px line down the gap, under a wedge."""
    x = frame.left + gap * frame.width
    column = frame.column(0)
    painter.fillRect(QRectF(x - 1.5, column.top(), 3, column.height()), colour)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    top = column.top()
    painter.drawPolygon(
        QPolygonF([QPointF(x - 6, top - 2), QPointF(x + 6, top - 2), QPointF(x, top + 7)])
    )
    painter.setBrush(Qt.BrushStyle.NoBrush)
