"""The progression as a small chart, read like the season: reps as a staircase, sets as bars.

Each week has two bars: hollow for now, filled for after. What would change is in the accent.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QHelpEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.domain.wording import tr
from app.ui import signs
from app.ui.parts import tell_as_picture
from app.ui.progression_weeks import ChartWeek
from app.ui.season_paint import week_number
from app.ui.theme import Theme, current, font
from app.ui.words import tip

_BARS = 40.0
_RIR = "RIR "
_LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
_CENTRE = int(Qt.AlignmentFlag.AlignCenter)


class ProgressionChart(QWidget):
    """All weeks of the program, those outside the scheme as they are."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.weeks: tuple[ChartWeek, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("The scheme as a chart"))
        tell_as_picture(self)
        line = QFontMetricsF(font("small")).height()
        self.setFixedHeight(round(line * 2.6 + 4 + _BARS + 3 * (line + 1) + 8))

    def show_weeks(self, weeks: tuple[ChartWeek, ...]) -> None:
        """Show these weeks."""
        self.weeks = weeks
        self.setAccessibleDescription("; ".join(week.told for week in weeks))
        self.update()

    @property
    def in_reserve(self) -> bool:
        """True if every effort is told as repetitions in reserve: their number is enough then."""
        efforts = (e for w in self.weeks for c in (w.now, w.after) for e in (c.core, c.assistance))
        return all(effort.startswith(_RIR) for effort in efforts if effort)

    def _effort_words(self) -> tuple[str, str]:
        return (
            (tr("core RIR"), tr("assistance RIR"))
            if self.in_reserve
            else (tr("core effort"), tr("assistance"))
        )

    # -- geometry --------------------------------------------------------------------------

    def _line(self) -> float:
        return QFontMetricsF(font("small")).height()

    def _left(self) -> float:
        words = (*self._effort_words(), tr("reps"), tr("sets"), tr("week"))
        return max(map(QFontMetricsF(font("small")).horizontalAdvance, words)) + 18

    def _wide(self) -> float:
        return (self.width() - self._left() - 8) / max(1, len(self.weeks))

    def column(self, index: int) -> QRectF:
        """The ground of a week's bars."""
        top = self._line() * 2.6 + 4
        return QRectF(self._left() + index * self._wide(), top, self._wide(), _BARS)

    def _row(self, number: int) -> QRectF:
        """The line of a row under the bars: 0 core effort, 1 assistance, 2 week."""
        line = self._line() + 1
        top = self.column(0).bottom() + 3 + number * line
        return QRectF(self._left(), top, self.width() - self._left() - 8, line)

    def _step_y(self, reps: str) -> float:
        """Higher targets stand higher, as in the season."""
        first = int(reps.split("\N{EN DASH}", maxsplit=1)[0])
        share = min(1.0, max(0.0, (15 - first) / 14))
        return self._line() / 2 + 2 + share * self._line() * 1.6

    # -- painting --------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, theme = QPainter(self), current()
        painter.fillRect(self.rect(), theme.sheet)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not self.weeks:
            return
        self._paint_labels(painter, theme)
        most = max(max(w.now.sets, w.after.sets) for w in self.weeks) or 1
        for week in self.weeks:
            self._paint_ground(painter, week, theme)
            self._paint_bars(painter, week, most=most, theme=theme)
        self._paint_stairs(painter, theme)
        self._paint_efforts(painter, theme)
        self._paint_numbers(painter, theme)

    def _paint_labels(self, painter: QPainter, theme: Theme) -> None:
        painter.setFont(font("small"))
        painter.setPen(theme.ink3)
        stave = self.column(0)
        middles = (
            stave.top() / 2,
            stave.center().y(),
            *(self._row(number).center().y() for number in range(3)),
        )
        core, assistance = self._effort_words()
        words = (tr("reps"), tr("sets"), core, assistance, tr("week"))
        for word, middle in zip(words, middles, strict=True):
            painter.drawText(QRectF(8, middle - 9, self._left() - 12, 18), _LEFT, word)

    def _paint_ground(self, painter: QPainter, week: ChartWeek, theme: Theme) -> None:
        rect = self.column(week.index)
        if week.after.light:
            signs.paint_hatch(painter, rect, colour=theme.hair)
        painter.setPen(QPen(theme.hair, 1))
        painter.drawLine(QLineF(rect.right(), rect.top(), rect.right(), rect.bottom()))
        painter.setPen(QPen(theme.rule, 1))
        painter.drawLine(QLineF(rect.left(), rect.bottom(), rect.right(), rect.bottom()))

    def _paint_bars(self, painter: QPainter, week: ChartWeek, *, most: int, theme: Theme) -> None:
        rect = self.column(week.index)
        wide = min(11.0, (rect.width() - 4) / 2)
        tall = rect.height() - 4

        def bar(sets: int, left: float) -> QRectF:
            height = tall * sets / most
            return QRectF(left, rect.bottom() - height, wide - 1, height)

        before, after = week.now.sets, week.after.sets
        middle = rect.center().x()
        painter.setPen(QPen(theme.bar, 1.2))
        painter.setBrush(theme.sheet)
        if before:
            painter.drawRect(bar(before, middle - wide).adjusted(0.6, 0.6, -0.6, 0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.fillRect(bar(after, middle), theme.bar if before == after else theme.accent)

    def _paint_stairs(self, painter: QPainter, theme: Theme) -> None:
        last = ""
        for week in self.weeks:
            rect = self.column(week.index)
            if week.now.reps and week.now.reps != week.after.reps:
                painter.setPen(QPen(theme.ink3, 1, Qt.PenStyle.DashLine))
                y = self._step_y(week.now.reps)
                painter.drawLine(QLineF(rect.left(), y, rect.right(), y))
            if week.after.reps:
                changed = week.now.reps != week.after.reps
                colour = theme.accent if changed else theme.ink
                new = week.after.reps != last
                self._paint_step(painter, rect, week.after.reps, new=new, colour=colour)
            last = week.after.reps

    def _paint_step(
        self, painter: QPainter, rect: QRectF, reps: str, *, new: bool, colour: QColor
    ) -> None:
        y, left = self._step_y(reps), rect.left()
        bold = font("small")
        bold.setWeight(QFont.Weight.DemiBold)
        painter.setFont(bold)
        painter.setPen(colour)
        wide = QFontMetricsF(bold).horizontalAdvance(reps) + 5
        if new and wide < rect.width() + 6:
            ground = QRectF(left + 1, y - 7, wide, 14)
            painter.fillRect(ground, current().sheet)
            painter.drawText(QRectF(left + 1, y - 9, wide, 18), _CENTRE, reps)
            left += wide + 1
        if left < rect.right():
            painter.setPen(QPen(colour, 1.4))
            painter.drawLine(QLineF(left, y, rect.right(), y))

    def _paint_efforts(self, painter: QPainter, theme: Theme) -> None:
        """Each effort where it begins; a line goes on while it stays."""
        painter.setFont(font("small"))
        short = self.in_reserve
        for number in (0, 1):
            row, last, written_to = self._row(number), "", 0.0
            for week in self.weeks:
                now = week.now.assistance if number else week.now.core
                after = week.after.assistance if number else week.after.core
                rect = self.column(week.index)
                text = after.removeprefix(_RIR) if short else after
                wide = painter.fontMetrics().horizontalAdvance(text) + 4
                changed = after != now
                painter.setPen(theme.accent if changed else theme.ink2)
                if after and after != last and rect.left() >= written_to:
                    box = QRectF(rect.left() + 2, row.top(), wide, row.height())
                    painter.drawText(box, _LEFT, text)
                    written_to = box.right()
                elif after and rect.right() > written_to:
                    painter.setPen(QPen(painter.pen().color(), 1))
                    left, y = max(rect.left(), written_to), row.center().y()
                    painter.drawLine(QLineF(left, y, rect.right(), y))
                last = after

    def _paint_numbers(self, painter: QPainter, theme: Theme) -> None:
        painter.setFont(font("small"))
        row = self._row(2)
        for week in self.weeks:
            rect = self.column(week.index)
            if rect.width() < 15 and week.index % 5 != 4 and week.index != 0:
                continue
            text = week_number(week.index, light=week.after.light, width=rect.width())
            painter.setPen(theme.ink2)
            box = QRectF(rect.left(), row.top(), rect.width(), row.height())
            painter.drawText(box, _CENTRE, text)

    # -- pointing --------------------------------------------------------------------------

    def week_at(self, where: QPointF) -> ChartWeek | None:
        """The week under a point."""
        at = int((where.x() - self._left()) // self._wide())
        return self.weeks[at] if 0 <= at < len(self.weeks) else None

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            week = self.week_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), tip(week.told) if week else "", self)
            return True
        return super().event(event)
