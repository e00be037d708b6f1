"""The energy of each week as a staircase, with the need as a dashed line; drawn as one types."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QHelpEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.domain.energy import EnergyPlan, EnergyWeek
from app.domain.wording import tr
from app.ui.parts import tell_as_picture
from app.ui.theme import current, font
from app.ui.words import number, tip

_MIDDLE = int(Qt.AlignmentFlag.AlignCenter)
_RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)


class RampChart(QWidget):
    """The weeks of a plan; the open one is marked. Empty where there are no numbers."""

    def __init__(self) -> None:
        super().__init__()
        self.energy: EnergyPlan | None = None
        self.open = 1
        self.setMinimumHeight(round(7 * QFontMetricsF(font("small")).height() + 40))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setAccessibleName(tr("Energy week by week"))
        tell_as_picture(self)

    def show_plan(self, energy: EnergyPlan | None, *, open_week: int = 1) -> None:
        """Show a plan with the number of the open week; None shows nothing."""
        self.energy, self.open = energy, open_week
        self.setAccessibleDescription("" if energy is None else ramp_text(energy))
        self.update()

    # -- where things stand ------------------------------------------------------------------

    def _room(self) -> QRectF:
        line = QFontMetricsF(font("small"))
        left = line.horizontalAdvance("88,888") + 10
        right = line.horizontalAdvance("88,888") + 8
        return QRectF(left, 8, self.width() - left - right, self.height() - line.height() - 18)

    def span(self) -> tuple[float, float]:
        """Lowest and highest kcal of the scale; it does not begin at 0, and a line says so."""
        assert self.energy is not None
        values = [week.kcal for week in self.energy.weeks] + [self.energy.need_kcal]
        low, high = min(values), max(values)
        step = 100.0
        low, high = low // step * step, -(-high // step) * step
        return (low, high) if high > low else (low, low + step)

    def y_of(self, kcal: float) -> float:
        """Where so many kcal stand."""
        low, high = self.span()
        room = self._room()
        return room.bottom() - room.height() * (kcal - low) / (high - low)

    def column(self, number: int) -> tuple[float, float]:
        """From where to where week `number` (from 1) reaches."""
        assert self.energy is not None
        room = self._room()
        wide = room.width() / len(self.energy.weeks)
        return room.left() + (number - 1) * wide, room.left() + number * wide

    # -- painting ----------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.energy is None:
            return
        painter.setFont(font("small"))
        self._paint_scale(painter)
        self._paint_need(painter)
        self._paint_steps(painter)
        self._paint_weeks(painter)

    def _paint_scale(self, painter: QPainter) -> None:
        colours, room = current(), self._room()
        high = QFontMetricsF(font("small")).height()
        for kcal in dict.fromkeys(self.span()):
            y = self.y_of(kcal)
            painter.setPen(QPen(colours.hair, 1))
            painter.drawLine(QLineF(room.left(), y, room.right(), y))
            painter.setPen(colours.ink2)
            painter.drawText(
                QRectF(0, y - high / 2, room.left() - 6, high), _RIGHT, number(kcal, places=0)
            )

    def _paint_need(self, painter: QPainter) -> None:
        assert self.energy is not None
        colours, room = current(), self._room()
        y = self.y_of(self.energy.need_kcal)
        painter.setPen(QPen(colours.bar, 1.2, Qt.PenStyle.DashLine))
        painter.drawLine(QLineF(room.left(), y, room.right(), y))

    def _paint_steps(self, painter: QPainter) -> None:
        assert self.energy is not None
        colours, room = current(), self._room()
        left, right = self.column(min(self.open, len(self.energy.weeks)))
        painter.fillRect(QRectF(left, room.top(), right - left, room.height()), colours.wash)
        self._paint_need(painter)
        painter.setPen(QPen(colours.accent, 2))
        before: float | None = None
        for week in self.energy.weeks:
            start, end = self.column(week.number)
            y = self.y_of(week.kcal)
            if before is not None and before != y:
                painter.drawLine(QLineF(start, before, start, y))
            painter.drawLine(QLineF(start, y, end, y))
            before = y
        painter.setPen(colours.ink)
        high = QFontMetricsF(font("small")).height()
        last = self.energy.weeks[-1].kcal
        place = QRectF(room.right() + 5, self.y_of(last) - high / 2, 80, high)
        painter.drawText(place, int(Qt.AlignmentFlag.AlignVCenter), number(last, places=0))

    def _paint_weeks(self, painter: QPainter) -> None:
        assert self.energy is not None
        colours, room = current(), self._room()
        painter.setPen(colours.ink2)
        high = QFontMetricsF(font("small")).height()
        count = len(self.energy.weeks)
        every = 1 if room.width() / count >= 22 else 4
        for week in self.energy.weeks:
            if (week.number - 1) % every == 0:
                start, end = self.column(week.number)
                middle = (start + end) / 2
                place = QRectF(middle - 20, room.bottom() + 4, 40, high)
                painter.drawText(place, _MIDDLE, str(week.number))

    # -- pointing ----------------------------------------------------------------------------

    def week_at(self, where: QPointF) -> EnergyWeek | None:
        """The week under a point."""
        if self.energy is None:
            return None
        for week in self.energy.weeks:
            start, end = self.column(week.number)
            if start <= where.x() < end:
                return week
        return None

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            week = self.week_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), "" if week is None else tip(week_text(week)), self)
            return True
        return super().event(event)


def week_text(week: EnergyWeek) -> str:
    """'Week 3: 2,360 kcal, protein 105 g a day'."""
    return tr(
        "Week {number}: {kcal} kcal, protein {grams} g a day",
        number=week.number,
        kcal=f"{week.kcal:,.0f}",
        grams=f"{week.macros.protein_g:.0f}",
    )


def ramp_text(energy: EnergyPlan) -> str:
    """The staircase as one sentence."""
    first, last = energy.weeks[0], energy.weeks[-1]
    reached = ""
    if energy.reached_in is not None:
        reached = " " + tr("The target is reached in week {number}.", number=energy.reached_in)
    return (
        tr(
            "From {first} kcal a day in week 1 to {last} in week {weeks}; need {need}, dashed. The "
            "scale begins at {low}, so that steps can be seen.",
            first=f"{first.kcal:,.0f}",
            last=f"{last.kcal:,.0f}",
            weeks=last.number,
            need=f"{energy.need_kcal:,.0f}",
            low=f"{min(w.kcal for w in (first, last)) // 100 * 100:,.0f}",
        )
        + reached
    )
