"""Painting the season as a heat strip: one hue from light to dark, numbers where they fit.

The range is told by form alone: a dot low in the cell is below it, high in the cell above it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from app.domain.program import Program
from app.domain.wording import tr
from app.ui import signs
from app.ui.heat_rows import BOUNDS, HeatRow, step_of
from app.ui.season_paint import Frame, paint_blocks, week_number
from app.ui.tally_rows import TallyRow
from app.ui.theme import Theme, font
from app.ui.words import DOT, number

_SHARES = (0.12, 0.25, 0.38, 0.78, 1.0)
"""How much of the bar's colour each step has; no step lies where neither ink can be read."""
_DOT = 2.0


def _row_height(*, compact: bool) -> float:
    small = QFontMetricsF(font("small")).height()
    return small - 3 if compact else small + 1


def heat_height(rows: int, *, compact: bool) -> int:
    """The height of the strip, px, for a number of rows."""
    small = QFontMetricsF(font("small")).height()
    head = 4 if compact else small + 12
    return round(head + 2 * small + rows * _row_height(compact=compact) + 8)


class HeatFrame(Frame):
    """Where things stand in the heat strip; columns and numbers as in the score."""

    def __init__(
        self,
        rect: QRectF,
        count: int,
        *,
        program: Program | None,
        compact: bool,
        names: Sequence[str],
    ) -> None:
        super().__init__(rect, count, program=program, compact=compact)
        bold = font("small")
        bold.setWeight(QFont.Weight.DemiBold)
        widest = max(map(QFontMetricsF(bold).horizontalAdvance, (*names, tr("week"))))
        self.left = rect.left() + 14 + widest + 10
        self.width = (self.right - self.left) / max(count, 1)
        self.tall = _row_height(compact=compact)
        wide = self.right - self.left
        self.blocks = QRectF(self.left, self.blocks.top(), wide, self.line)
        top = self.blocks.bottom() + 2
        self.reps = QRectF(self.left, top, wide, len(names) * self.tall)
        self.numbers = QRectF(self.left, self.reps.bottom() + 1, wide, self.line)
        self.rows = len(names)

    def cell(self, row: int, week: int) -> QRectF:
        """The cell of a row in a week, with a gap of one px to its neighbours."""
        x = self.left + week * self.width
        y = self.reps.top() + row * self.tall
        return QRectF(x + 0.5, y + 0.5, self.width - 1, self.tall - 1)

    def row_at(self, where: QPointF) -> int | None:
        """The row under a point; None outside the rows."""
        at = int((where.y() - self.reps.top()) // self.tall)
        return at if 0 <= at < self.rows else None


def ramp(theme: Theme) -> tuple[QColor, ...]:
    """The steps of the ramp, from few sets to many: the sheet's colour growing into the bar's."""
    return tuple(_mixed(theme.sheet, theme.bar, share) for share in _SHARES)


def _mixed(ground: QColor, colour: QColor, share: float) -> QColor:
    def part(one: int, other: int) -> int:
        return round(one + (other - one) * share)

    return QColor(
        part(ground.red(), colour.red()),
        part(ground.green(), colour.green()),
        part(ground.blue(), colour.blue()),
    )


def ink_on(step: int, theme: Theme) -> QColor:
    """The colour of numbers on a step of the ramp."""
    return theme.ink if step < 3 else theme.sheet


def paint_heat(
    painter: QPainter,
    frame: HeatFrame,
    rows: Sequence[HeatRow],
    *,
    light: Sequence[bool],
    theme: Theme,
) -> None:
    """Title, names, cells and week numbers."""
    if not frame.compact:
        _paint_title(painter, frame, theme=theme)
    if frame.program is not None:
        paint_blocks(painter, frame, theme=theme)
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    steps = ramp(theme)
    for at, row in enumerate(rows):
        name = font("small")
        if row.emphasised:
            name.setWeight(QFont.Weight.DemiBold)
        painter.setFont(name)
        painter.setPen(theme.ink if row.emphasised else theme.ink2)
        line = QRectF(14, frame.reps.top() + at * frame.tall, frame.left - 18, frame.tall)
        painter.drawText(line, left, row.name)
        for week, cell in enumerate(row.cells):
            rect = frame.cell(at, week)
            _paint_cell(painter, rect, cell, steps, light=light[week], theme=theme)
    _paint_numbers(painter, frame, light=light, theme=theme)


def marks_legend() -> str:
    """What the marks in cells say; cut in the title where it is narrow, whole in the tooltip."""
    return tr(
        "{dot} dot low or high in a cell: below or above its range {dot} hatched: not trained",
        dot=DOT,
    )


def _paint_title(painter: QPainter, frame: HeatFrame, *, theme: Theme) -> None:
    line = QRectF(14, frame.title, frame.right, frame.line + 4)
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    painter.setFont(font("head"))
    painter.setPen(theme.ink)
    painter.drawText(line, left, tr("Season"))
    x = line.left() + painter.fontMetrics().horizontalAdvance(tr("Season")) + 12
    painter.setFont(font("small"))
    painter.setPen(theme.ink3)
    text = tr("weekly sets by muscle")
    painter.drawText(line.adjusted(x - line.left(), 0, 0, 0), left, text)
    x += painter.fontMetrics().horizontalAdvance(text) + 14
    edges = (0.0, *BOUNDS)
    for step, colour in enumerate(ramp(theme)):
        box = QRectF(x, line.center().y() - 5, 14, 10)
        painter.fillRect(box, colour)
        low = tr("over {edges:g}", edges=edges[step])
        words = tr("to {step:g}", step=BOUNDS[step]) if step < len(BOUNDS) else low
        painter.drawText(line.adjusted(x + 18 - line.left(), 0, 0, 0), left, words)
        x += 18 + painter.fontMetrics().horizontalAdvance(words) + 10
    room = line.adjusted(x - line.left(), 0, 0, 0)
    room.setRight(frame.right + 24)
    shown = painter.fontMetrics().elidedText(
        marks_legend(), Qt.TextElideMode.ElideRight, max(0, int(room.width()))
    )
    painter.drawText(room, left, shown)


def _paint_cell(
    painter: QPainter,
    rect: QRectF,
    cell: TallyRow | None,
    steps: Sequence[QColor],
    *,
    light: bool,
    theme: Theme,
) -> None:
    if cell is None or cell.sets <= 0:
        signs.paint_hatch(painter, rect, colour=theme.hair, gap=5.0)
    else:
        step = step_of(cell.sets)
        painter.fillRect(rect, steps[step])
        if light:
            painter.setPen(QPen(theme.sheet, 1))
            painter.drawRect(rect.adjusted(1.5, 1.5, -1.5, -1.5))
        _paint_value(painter, rect, cell.sets, colour=ink_on(step, theme))
    if cell is not None and not light and (cell.below or cell.above):
        y = rect.bottom() - _DOT - 1.5 if cell.below else rect.top() + _DOT + 1.5
        painter.setPen(QPen(theme.sheet, 1))
        painter.setBrush(theme.outside)
        painter.drawEllipse(QPointF(rect.left() + _DOT + 2.5, y), _DOT + 0.5, _DOT + 0.5)
        painter.setBrush(Qt.BrushStyle.NoBrush)


def _paint_value(painter: QPainter, rect: QRectF, sets: float, *, colour: QColor) -> None:
    """The number in the middle of the cell, where it fits beside the dot."""
    small = font("small")
    text, metrics = number(sets), QFontMetricsF(small)
    if (
        metrics.horizontalAdvance(text) + 10 > rect.width()
        or metrics.capHeight() + 2 > rect.height()
    ):
        return
    painter.setFont(small)
    painter.setPen(colour)
    painter.drawText(rect.adjusted(0, -4, 0, 4), int(Qt.AlignmentFlag.AlignCenter), text)


def _paint_numbers(
    painter: QPainter, frame: HeatFrame, *, light: Sequence[bool], theme: Theme
) -> None:
    painter.setFont(font("small"))
    painter.setPen(theme.ink3)
    left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
    line = QRectF(14, frame.numbers.top(), frame.left, frame.numbers.height())
    painter.drawText(line, left, tr("week"))
    painter.setPen(theme.ink2)
    for week in range(frame.count):
        if frame.width < 15 and week % 5 != 4 and week != 0:
            continue
        text = week_number(week, light=light[week], width=frame.width)
        x = frame.left + week * frame.width
        box = QRectF(x, frame.numbers.top(), frame.width, frame.numbers.height())
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)


def paint_heat_changes(
    painter: QPainter,
    frame: HeatFrame,
    rows: Sequence[HeatRow],
    would: Mapping[int, Mapping[str, float]],
    *,
    theme: Theme,
) -> None:
    """Cells that a tried edit would change: an accent frame and the new amount."""
    for week, sets in would.items():
        for at, row in enumerate(rows):
            cell = row.cells[week]
            new = sets.get(row.about, 0.0)
            if new == (0.0 if cell is None else cell.sets):
                continue
            rect = frame.cell(at, week)
            painter.fillRect(rect, theme.wash)
            painter.setPen(QPen(theme.accent, 1.5))
            painter.drawRect(rect.adjusted(0.75, 0.75, -0.75, -0.75))
            _paint_value(painter, rect, new, colour=theme.accent)
