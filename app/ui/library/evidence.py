"""Reported activation as a chart: one row a study, on an axis of % MVIC with the usual bands.

Rows of different studies stand apart and are never joined, averaged or compared: electrodes,
loads and what counts as maximal differ between them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.domain.activation import band_of_amplitude
from app.domain.exercise import Activation, Exercise, Muscle
from app.domain.wording import mark, tr
from app.resources import Reference
from app.ui.library.rows import range_text, study_text
from app.ui.parts import tell_as_picture
from app.ui.theme import Theme, current, font

BANDS = (
    (0, 20, mark("low")),
    (20, 40, mark("moderate")),
    (40, 60, mark("high")),
    (60, None, mark("very high")),
)
BANDS_FROM = "digiovine1992"
"""The usual bands of amplitude, % MVIC, and who drew them."""

CAUTION = mark(
    "Amplitudes compare only within one study, and a large signal is not growth "
    "(Vigotsky 2018, Vigotsky 2022; in one trial the exercise with the larger "
    "signal built no more muscle, Plotkin 2023)."
)
NOTHING = mark("No figure at hand.")

LEAST_END = 100
ROW = 9
NAMES_WIDTH = 190
VALUES_WIDTH = 112


@dataclass(frozen=True, slots=True)
class Row:
    """What one study reported of one muscle; several figures stay several."""

    muscle: Muscle
    study: str
    figures: tuple[Activation, ...]

    @property
    def details(self) -> str:
        """What the study says of its figures, each once."""
        return "; ".join(dict.fromkeys(one.detail for one in self.figures if one.detail))


def study_rows(exercise: Exercise) -> tuple[Row, ...]:
    """One row for each muscle and study, muscles by their part in the work."""
    order = [work.muscle for work in exercise.work]
    groups: dict[tuple[Muscle, str], list[Activation]] = {}
    for one in exercise.activation:
        groups.setdefault((one.muscle, one.study), []).append(one)
    ranked = sorted(groups, key=lambda key: order.index(key[0]) if key[0] in order else len(order))
    return tuple(Row(muscle, study, tuple(groups[muscle, study])) for muscle, study in ranked)


def end_of_axis(rows: tuple[Row, ...]) -> int:
    """The end of the axis, % MVIC: 100, or the next 20 above the largest figure."""
    largest = max((one.high for row in rows for one in row.figures), default=0.0)
    return max(LEAST_END, 20 * -(-int(largest + 0.999) // 20))


class EvidenceChart(QWidget):
    """The chart of one exercise."""

    def __init__(
        self, exercise: Exercise, names: Mapping[Muscle, str], references: Mapping[str, Reference]
    ) -> None:
        super().__init__()
        self.rows = study_rows(exercise)
        self.names, self.references = names, references
        self.end = end_of_axis(self.rows)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Reported activation: {spoken}", spoken="; ".join(self.spoken())))
        tell_as_picture(self)

    def spoken(self) -> tuple[str, ...]:
        """Every row in words, with the band of each figure."""
        return tuple(
            f"{self.names[row.muscle]}, {study_text(row.study, self.references)}: "
            + ", ".join(
                f"{range_text(one.low, one.high)} %, {_band_text(one)}" for one in row.figures
            )
            for row in self.rows
        )

    def _row_height(self) -> float:
        return QFontMetricsF(font("body")).height() + QFontMetricsF(font("small")).height() + ROW

    def _head_height(self) -> float:
        return QFontMetricsF(font("small")).height() + 6

    def sizeHint(self) -> QSize:
        small = QFontMetricsF(font("small")).height()
        tall = self._head_height() + len(self.rows) * self._row_height() + small + 8
        return QSize(560, round(tall))

    def minimumSizeHint(self) -> QSize:
        return QSize(420, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = current()
        top = self._head_height()
        tall = len(self.rows) * self._row_height()
        field = QRectF(NAMES_WIDTH, top, self.width() - NAMES_WIDTH - VALUES_WIDTH, tall)
        self._paint_bands(painter, field, colours)
        for number_, row in enumerate(self.rows):
            y = top + number_ * self._row_height()
            self._paint_row(painter, row, field=field, y=y, colours=colours)
        self._paint_axis(painter, field, colours)
        painter.end()

    def _x(self, field: QRectF, percent: float) -> float:
        return field.left() + field.width() * percent / self.end

    def _paint_bands(self, painter: QPainter, field: QRectF, colours: Theme) -> None:
        painter.setFont(font("small"))
        for number_, (low, high, name) in enumerate(BANDS):
            left, right = self._x(field, low), self._x(field, high or self.end)
            bed = QRectF(left, field.top(), right - left, field.height())
            painter.fillRect(bed, colours.band if number_ % 2 else colours.card)
            painter.setPen(colours.ink2)
            room = QRectF(left + 2, 0, right - left - 2, field.top() - 2)
            shown = painter.fontMetrics().elidedText(
                tr(name), Qt.TextElideMode.ElideRight, int(room.width())
            )
            painter.drawText(room, int(Qt.AlignmentFlag.AlignLeft), shown)

    def _paint_axis(self, painter: QPainter, field: QRectF, colours: Theme) -> None:
        painter.setPen(QPen(colours.rule, 1))
        painter.drawLine(QLineF(field.left(), field.bottom(), field.right(), field.bottom()))
        painter.setFont(font("small"))
        step = 20 if self.end <= 120 else 40
        for percent in range(0, self.end + 1, step):
            x = self._x(field, percent)
            painter.setPen(QPen(colours.rule, 1))
            painter.drawLine(QLineF(x, field.bottom(), x, field.bottom() + 3))
            painter.setPen(colours.ink2)
            box = QRectF(x - 24, field.bottom() + 3, 48, 30)
            flags = int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
            painter.drawText(box, flags, str(percent))
        painter.setPen(colours.ink3)
        box = QRectF(field.right() + 16, field.bottom() + 3, VALUES_WIDTH - 16, 30)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignRight), "% MVIC")

    def _paint_row(
        self, painter: QPainter, row: Row, *, field: QRectF, y: float, colours: Theme
    ) -> None:
        line = QFontMetricsF(font("body")).height()
        small = QFontMetricsF(font("small")).height()
        painter.setPen(QPen(colours.hair, 1))
        painter.drawLine(QLineF(0, y, self.width(), y))
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.setFont(font("body"))
        painter.setPen(colours.ink)
        painter.drawText(QRectF(0, y + 3, NAMES_WIDTH - 12, line), left, self.names[row.muscle])
        painter.setFont(font("small"))
        painter.setPen(colours.ink2)
        study = study_text(row.study, self.references)
        painter.drawText(QRectF(0, y + 3 + line, NAMES_WIDTH - 12, small), left, study)
        middle = y + self._row_height() / 2
        for one in row.figures:
            self._paint_figure(painter, one, field=field, middle=middle, colours=colours)
        values = "; ".join(range_text(one.low, one.high) for one in row.figures)
        painter.setFont(font("number"))
        painter.setPen(colours.ink)
        box = QRectF(field.right() + 8, y, VALUES_WIDTH - 8, self._row_height())
        right = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(box, right, f"{values} %")

    def _paint_figure(
        self,
        painter: QPainter,
        one: Activation,
        *,
        field: QRectF,
        middle: float,
        colours: Theme,
    ) -> None:
        """A lozenge for one value; a stretch between two strokes for a range."""
        low, high = self._x(field, one.low), self._x(field, one.high)
        painter.setPen(QPen(colours.bar, 1.5))
        painter.setBrush(colours.bar)
        if one.low == one.high:
            points = ((0, -6), (6, 0), (0, 6), (-6, 0))
            painter.drawPolygon(QPolygonF([QPointF(low + x, middle + y) for x, y in points]))
            return
        painter.fillRect(QRectF(low, middle - 4, high - low, 8), colours.bar)
        for x in (low, high):
            painter.drawLine(QLineF(x, middle - 8, x, middle + 8))


def _band_text(one: Activation) -> str:
    low, high = band_of_amplitude(one.low), band_of_amplitude(one.high)
    return low if low == high else tr("{low} to {high}", low=low, high=high)
