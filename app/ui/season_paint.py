"""Painting the season: the frame with its blocks, the columns, and what lies over them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from app.domain.exercise import Muscle
from app.domain.program import Program
from app.domain.wording import mark, tr
from app.ui import signs
from app.ui.season_columns import Bar, Column
from app.ui.theme import Step, Theme, font

LABELS = (mark("reps"), mark("sets"), mark("findings"), mark("week"))
"""What stands left of the rows, from the top down."""
TOP_SETS = 22.0
"""Sets at the top of the stave."""


def season_height(*, compact: bool) -> int:
    """The height of the strip, px, from the size of its type."""
    small = QFontMetricsF(font("small")).height()
    rows = 3 * small + (0 if compact else small + 10)
    return round(rows + _reps_height(small) + (38 if compact else 46) + 10)


def _reps_height(small: float) -> float:
    return small * 1.45


class Frame:
    """Where things stand in the strip, px."""

    def __init__(self, rect: QRectF, count: int, *, program: Program | None, compact: bool) -> None:
        small = QFontMetricsF(font("small"))
        line = small.height()
        self.program, self.count, self.compact = program, count, compact
        self.line = line
        widest = max(small.horizontalAdvance(tr(word)) for word in LABELS)
        self.left = rect.left() + 14 + widest + 10
        self.right = rect.right() - 30
        self.width = (self.right - self.left) / max(count, 1)
        self.title = rect.top() + 6
        top = rect.top() + (4 if compact else line + 12)
        self.blocks = QRectF(self.left, top, self.right - self.left, line)
        self.reps = QRectF(self.left, self.blocks.bottom(), self.blocks.width(), _reps_height(line))
        bars = 38 if compact else 46
        self.stave = QRectF(self.left, self.reps.bottom(), self.blocks.width(), bars)
        self.findings = QRectF(self.left, self.stave.bottom() + 1, self.blocks.width(), line)
        self.numbers = QRectF(self.left, self.findings.bottom(), self.blocks.width(), line)

    def column(self, index: int) -> QRectF:
        """The ground of one column, from the rep target to the week number."""
        x = self.left + index * self.width
        return QRectF(x, self.reps.top(), self.width, self.numbers.bottom() - self.reps.top() + 2)

    def column_at(self, where: QPointF) -> int | None:
        """The column under a point; None outside the columns."""
        if not self.count or not self.left <= where.x() < self.right:
            return None
        return min(self.count - 1, int((where.x() - self.left) / self.width))

    def y(self, sets: float) -> float:
        """The height of a number of sets on the stave."""
        return self.stave.bottom() - self.stave.height() * min(sets, TOP_SETS) / TOP_SETS


def _text(
    painter: QPainter,
    rect: QRectF,
    text: str,
    *,
    colour: QColor,
    step: Step = "small",
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignHCenter,
) -> None:
    painter.setFont(font(step))
    painter.setPen(colour)
    painter.drawText(rect, int(align | Qt.AlignmentFlag.AlignVCenter), text)


def paint_frame(
    painter: QPainter, frame: Frame, names: Mapping[Muscle, str], *, theme: Theme, empty: bool
) -> None:
    """Title, row labels, blocks, and the beds that the bars stand on."""
    left = Qt.AlignmentFlag.AlignLeft
    if not frame.compact:
        line = QRectF(14, frame.title, frame.right, frame.line + 4)
        _text(painter, line, tr("Season"), colour=theme.ink, step="head", align=left)
        used = QFontMetricsF(font("head")).horizontalAdvance(tr("Season")) + 12
        room = line.adjusted(used, 0, -used, 0)
        room.setRight(min(room.right(), frame.right + 24))
        whole = legend(frame.program, names)
        metrics = QFontMetricsF(font("small"))
        shown = metrics.elidedText(whole, Qt.TextElideMode.ElideRight, room.width())
        _text(painter, room, shown, colour=theme.ink3, align=left)
    if empty or frame.program is None:
        return
    label = QRectF(14, 0, frame.left - 20, frame.line)
    rows = (frame.reps, frame.stave, frame.findings, frame.numbers)
    for word, row in zip(LABELS, rows, strict=True):
        at = QRectF(label.left(), row.center().y() - frame.line / 2, label.width(), frame.line)
        _text(painter, at, tr(word), colour=theme.ink3, align=left)
    paint_blocks(painter, frame, theme=theme)


def legend(program: Program | None, names: Mapping[Muscle, str]) -> str:
    """What the columns show; cut in the title where it is narrow, whole in the tooltip."""
    if program is None:
        return ""
    muscles = [names[m].lower() for m in program.emphasis[:3]]
    if not muscles:
        return tr("a column a week · no emphasis chosen")
    return tr(
        "a column a week · bars: weekly sets for {muscles} · shaded: their range",
        muscles=", ".join(muscles),
    )


def paint_blocks(painter: QPainter, frame: Frame, *, theme: Theme) -> None:
    """A bracket over the weeks of each block, with its name."""
    program = frame.program
    assert program is not None
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    for number, block in enumerate(program.blocks):
        reach = program.block_range(number)
        x0 = round(frame.left + reach.start * frame.width) + 2
        x1 = round(frame.left + reach.stop * frame.width) - 3
        y = round(frame.blocks.center().y())
        painter.setPen(QPen(theme.rule, 1))
        for line in (
            QLineF(x0, y + 5, x0, y),
            QLineF(x0, y, x0 + 5, y),
            QLineF(x1, y, x1, y + 5),
        ):
            painter.drawLine(line)
        room = max(0.0, x1 - x0 - 14.0)
        metrics = QFontMetricsF(painter.font())
        name = metrics.elidedText(block.name, Qt.TextElideMode.ElideRight, room)
        rect = QRectF(x0 + 9, frame.blocks.top(), room, frame.blocks.height())
        _text(painter, rect, name, colour=theme.ink2, align=Qt.AlignmentFlag.AlignLeft)
        used = QFontMetricsF(painter.font()).horizontalAdvance(name) + 14
        painter.setPen(QPen(theme.rule, 1))
        if x0 + used < x1:
            painter.drawLine(QLineF(x0 + used, y, x1, y))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def paint_columns(
    painter: QPainter, frame: Frame, columns: Iterable[Column], *, theme: Theme
) -> None:
    """Every column as it is kept."""
    told: tuple[float | None, float | None] = (None, None)
    last_reps = ""
    for column in columns:
        rect = frame.column(column.index)
        painter.setPen(QPen(theme.hair, 1))
        painter.drawLine(QLineF(rect.right(), rect.top() + 6, rect.right(), rect.bottom()))
        _paint_bed(painter, frame, column, theme=theme)
        for bar, place in zip(column.bars, _places(frame, column), strict=True):
            _paint_bar(painter, frame, bar, place, light=column.light, theme=theme)
        _paint_reps(painter, frame, column, new=column.reps != last_reps, theme=theme)
        _paint_foot(painter, frame, column, theme=theme)
        last_reps = column.reps
        told = _paint_edges(painter, frame, column, told, theme=theme)


def _places(frame: Frame, column: Column) -> list[QRectF]:
    count = max(1, len(column.bars))
    wide = min(8.0, (frame.width - 8) / count)
    start = frame.left + column.index * frame.width + (frame.width - wide * count) / 2
    return [QRectF(start + k * wide, 0, wide - 1, 0) for k in range(len(column.bars))]


def _paint_bed(painter: QPainter, frame: Frame, column: Column, *, theme: Theme) -> None:
    rect = frame.column(column.index)
    stave = QRectF(rect.left(), frame.stave.top(), rect.width(), frame.stave.height())
    band = next((bar.range for bar in column.bars if bar.range is not None), None)
    if column.light:
        signs.paint_hatch(painter, stave, colour=theme.hair)
    elif band is not None:
        top = frame.y(band.high if band.high is not None else TOP_SETS)
        low = frame.y(band.low or 0)
        painter.fillRect(QRectF(rect.left(), top, rect.width(), low - top), theme.band)
        painter.setPen(QPen(theme.rule, 1))
        for y in (top, low):
            painter.drawLine(QLineF(rect.left(), y, rect.right(), y))
    painter.setPen(QPen(theme.rule, 1))
    painter.drawLine(QLineF(rect.left(), stave.bottom(), rect.right(), stave.bottom()))
    if column.empty:
        painter.setPen(QPen(theme.rule, 1, Qt.PenStyle.DashLine))
        painter.drawRect(stave.adjusted(4, 4, -4, -2))


def _paint_bar(
    painter: QPainter, frame: Frame, bar: Bar, place: QRectF, *, light: bool, theme: Theme
) -> None:
    if bar.sets <= 0:
        return
    body = QRectF(place.left(), frame.y(bar.sets), place.width(), 0)
    body.setBottom(frame.stave.bottom())
    if light:
        painter.setPen(QPen(theme.bar, 1.2))
        painter.setBrush(theme.sheet)
        painter.drawRect(body.adjusted(0.6, 0.6, -0.6, 0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        return
    if bar.over and bar.range is not None and bar.range.high is not None:
        edge = frame.y(bar.range.high)
        painter.fillRect(QRectF(body.left(), edge, body.width(), body.bottom() - edge), theme.bar)
        painter.setPen(QPen(theme.outside, 1.4))
        painter.setBrush(theme.sheet)
        painter.drawRect(
            QRectF(body.left() + 0.7, body.top(), body.width() - 1.4, edge - body.top())
        )
        painter.setBrush(Qt.BrushStyle.NoBrush)
    elif bar.short and bar.range is not None and bar.range.low is not None:
        painter.fillRect(body, theme.outside)
        edge = frame.y(bar.range.low)
        painter.setPen(QPen(theme.outside, 2))
        painter.drawLine(QLineF(body.left(), edge, body.right(), edge))
    else:
        painter.fillRect(body, theme.bar)


def _paint_reps(
    painter: QPainter, frame: Frame, column: Column, *, new: bool, theme: Theme
) -> None:
    if not column.reps:
        return
    rect = frame.column(column.index)
    y = _reps_y(frame, column)
    left = rect.left()
    if new:
        metrics = QFontMetricsF(_number_font(painter))
        wide = metrics.horizontalAdvance(column.reps) + 4
        painter.setPen(theme.ink)
        box = QRectF(left + 3, y - frame.line / 2, wide, frame.line)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), column.reps)
        left += wide + 4
    painter.setPen(QPen(theme.ink3, 1.2))
    if left < rect.right():
        painter.drawLine(QLineF(left, y, rect.right(), y))


def _number_font(painter: QPainter) -> QFont:
    bold = font("small")
    bold.setWeight(QFont.Weight.DemiBold)
    painter.setFont(bold)
    return bold


def _reps_y(frame: Frame, column: Column) -> float:
    """Higher targets stand higher: a staircase that descends with the repetitions."""
    first = int(column.reps.split("\N{EN DASH}", maxsplit=1)[0])
    share = min(1.0, max(0.0, (15 - first) / 14))
    room = frame.reps.height() - frame.line
    return frame.reps.top() + frame.line / 2 + share * room


def week_number(index: int, *, light: bool, width: float) -> str:
    """'4', or '4 light' for a light week where the column has room for the word."""
    plain = str(index + 1)
    if not light:
        return plain
    whole = tr("{week} light", week=plain)
    return whole if QFontMetricsF(font("small")).horizontalAdvance(whole) <= width - 4 else plain


def _paint_foot(painter: QPainter, frame: Frame, column: Column, *, theme: Theme) -> None:
    rect = frame.column(column.index)
    side = min(11.0, frame.findings.height() - 2)
    room = max(1, int(rect.width() // (side + 2)))
    shown = column.weights[:room]
    x = rect.center().x() - len(shown) * (side + 2) / 2
    for weight, below in shown:
        at = QRectF(x + 1, frame.findings.center().y() - side / 2, side, side)
        signs.paint_weight(painter, at, weight=weight, theme=theme, below=below)
        x += side + 2
    number = week_number(column.index, light=column.light, width=frame.width)
    box = QRectF(rect.left(), frame.numbers.top(), rect.width(), frame.numbers.height())
    if frame.width >= 15 or column.index % 5 == 4 or column.index == 0:
        _text(painter, box, number, colour=theme.ink2)


def _paint_edges(
    painter: QPainter,
    frame: Frame,
    column: Column,
    told: tuple[float | None, float | None],
    *,
    theme: Theme,
) -> tuple[float | None, float | None]:
    """The range's ends, left of the first column and right of the last."""
    band = next((bar.range for bar in column.bars if bar.range is not None), None)
    if band is None:
        return told
    first, last = column.index == 0, column.index == frame.count - 1
    for at_left in (True, False):
        if not (first if at_left else last):
            continue
        for edge in (band.low, band.high):
            if edge is None:
                continue
            x = frame.left - 22 if at_left else frame.right + 4
            box = QRectF(x, frame.y(edge) - frame.line / 2, 18, frame.line)
            side = Qt.AlignmentFlag.AlignRight if at_left else Qt.AlignmentFlag.AlignLeft
            _text(painter, box, f"{edge:g}", colour=theme.ink2, align=side)
    return (band.low, band.high)


@dataclass(frozen=True, slots=True)
class Over:
    """What lies over the columns: the open week, a chosen run, the reach of an edit, focus."""

    week: int
    chosen: range
    reach: range
    focused: bool


def paint_over(
    painter: QPainter,
    frame: Frame,
    columns: Mapping[int, Column],
    *,
    would: Mapping[int, Column],
    over: Over,
    theme: Theme,
) -> None:
    """The open week, the chosen run, the reach of an edit, and what a tried edit would change."""
    week, chosen, reach = over.week, over.chosen, over.reach
    for index, column in would.items():
        for old, new, place in zip(
            columns[index].bars, column.bars, _places(frame, column), strict=True
        ):
            _paint_change(painter, frame, old, new, place=place, theme=theme)
        _mark_new_signs(painter, frame, columns[index], column, theme=theme)
    if chosen:
        _paint_run(painter, frame, chosen, colour=theme.accent)
    if len(reach) > 1:
        y = frame.numbers.bottom() + 2.5
        painter.setPen(QPen(theme.accent, 2))
        x0 = frame.left + reach.start * frame.width + 2
        x1 = frame.left + reach.stop * frame.width - 2
        painter.drawLine(QLineF(x0, y, x1, y))
    rect = frame.column(week).adjusted(0.5, -1, -0.5, 1)
    wash = QColor(theme.accent)
    wash.setAlpha(26)
    painter.setBrush(wash)
    painter.setPen(QPen(theme.accent, 3 if over.focused else 2))
    painter.drawRoundedRect(rect, 3, 3)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _paint_change(
    painter: QPainter, frame: Frame, old: Bar, new: Bar, *, place: QRectF, theme: Theme
) -> None:
    if new.sets == old.sets:
        return
    before, after = frame.y(old.sets), frame.y(new.sets)
    if after < before:
        block = QRectF(place.left() - 1, after, place.width() + 2, max(2.0, before - after - 1))
        painter.fillRect(block, theme.accent)
    else:
        painter.setPen(QPen(theme.accent, 1.4))
        painter.setBrush(theme.sheet)
        painter.drawRect(QRectF(place.left(), before, place.width(), after - before))
        painter.setBrush(Qt.BrushStyle.NoBrush)


def _mark_new_signs(
    painter: QPainter, frame: Frame, old: Column, new: Column, *, theme: Theme
) -> None:
    appeared = [w for w in new.weights if w[0] not in {weight for weight, _ in old.weights}]
    if not appeared:
        return
    rect = frame.column(new.index)
    painter.fillRect(
        QRectF(
            rect.left() + 1,
            frame.findings.top(),
            rect.width() - 2,
            frame.numbers.bottom() - frame.findings.top(),
        ),
        theme.sheet,
    )
    _paint_foot(painter, frame, new, theme=theme)
    y = frame.findings.bottom() - 0.5
    painter.setPen(QPen(theme.accent, 1.5))
    painter.drawLine(QLineF(rect.center().x() - 8, y, rect.center().x() + 8, y))


def _paint_run(painter: QPainter, frame: Frame, run: range, *, colour: QColor) -> None:
    first, last = frame.column(run.start), frame.column(run.stop - 1)
    rect = QRectF(first.topLeft(), last.bottomRight())
    wash = QColor(colour)
    wash.setAlpha(22)
    painter.fillRect(rect, wash)
    painter.setPen(QPen(colour, 2))
    painter.drawLine(QLineF(rect.left(), rect.top(), rect.right(), rect.top()))
    painter.drawLine(QLineF(rect.left(), rect.bottom(), rect.right(), rect.bottom()))
