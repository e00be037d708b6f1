"""Painting a finding's row: sign, sentence, place and source, its measure, and its button."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QHelpEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolTip,
)

from app.domain.bullet import bullet_of
from app.domain.findings import Finding, Weight
from app.domain.wording import mark, tr
from app.ui import bullet, signs
from app.ui.bench import Bench
from app.ui.finding_rows import APPEARS, GOES, Row, measured_text, source_text
from app.ui.theme import Theme, current, font
from app.ui.words import DOT, tip

ROW = Qt.ItemDataRole.UserRole
FIRST_OF_GROUP = Qt.ItemDataRole.UserRole + 1
_SOURCE_ROOM = 130.0
"""The line with word, place and source keeps this much, px, before a measure is drawn in it."""


MOST_PICTURES = 200
"""Painted rows that are kept: a drag shows the same ones again and again."""

_STATES = (
    QStyle.StateFlag.State_Selected,
    QStyle.StateFlag.State_HasFocus,
    QStyle.StateFlag.State_MouseOver,
)


@dataclass(frozen=True, slots=True)
class RowActs:
    """What a row's button says and does, and where a click beside it leads."""

    button_text: Callable[[Row], str]
    press_button: Callable[[Row], None]
    go_to: Callable[[Finding], None]


class FindingDelegate(QStyledItemDelegate):
    """Paints a row and takes clicks on its button."""

    def __init__(self, bench: Bench, acts: RowActs, parent: QObject) -> None:
        super().__init__(parent)
        self.bench = bench
        self.acts = acts
        self._pictures: dict[tuple[object, ...], tuple[QPixmap, Finding]] = {}

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        tall = QFontMetricsF(font("body")).height() + QFontMetricsF(font("small")).height()
        return QSize(200, max(38, round(tall + 9)))

    def button_of(self, rect: QRectF, row: Row) -> QRectF:
        """Where the button of a row at `rect` is; nowhere for a row without one."""
        text = self.acts.button_text(row)
        if not text:
            return QRectF()
        metrics = QFontMetricsF(font("body"))
        wide = min(metrics.horizontalAdvance(text) + 24, rect.width() * 0.42)
        return QRectF(rect.right() - wide - 4, rect.center().y() - 14, wide, 28)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        row: Row = index.data(ROW)
        first = bool(index.data(FIRST_OF_GROUP)) and index.row() > 0
        states = tuple(bool(option.state & state) for state in _STATES)
        size, ratio = option.rect.size(), painter.device().devicePixelRatioF()
        look = (row.state, row.reason, self.acts.button_text(row), first, states)
        ground = (size.width(), size.height(), ratio, current().dark, font("body").pointSizeF())
        key = (id(row.finding), *look, *ground)
        known = self._pictures.get(key)
        if known is None:
            if len(self._pictures) >= MOST_PICTURES:
                self._pictures.clear()
            picture = QPixmap(size * ratio)
            picture.setDevicePixelRatio(ratio)
            picture.fill(current().sheet)
            inner = QPainter(picture)
            self._paint_row(inner, QRectF(QPointF(), size.toSizeF()), row, first=first, at=states)
            inner.end()
            # beside the finding, so that its id is nobody else's
            known = self._pictures[key] = (picture, row.finding)
        painter.drawPixmap(option.rect.topLeft(), known[0])

    def _paint_row(
        self, painter: QPainter, rect: QRectF, row: Row, *, first: bool, at: tuple[bool, ...]
    ) -> None:
        selected, focused, hovered = at
        colours = current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if row.state == APPEARS or selected:
            painter.fillRect(rect, colours.wash)
        elif hovered:
            painter.fillRect(rect, colours.hover)
        painter.setPen(QPen(colours.hair, 1))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if first:
            painter.fillRect(QRectF(rect.left(), rect.top() - 1, rect.width(), 2), colours.rule)
        if focused:
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 3, 3)
        sign = QRectF(rect.left() + 4, rect.top() + 5, 14, 14)
        signs.paint_weight(
            painter,
            sign,
            weight=row.finding.weight,
            theme=colours,
            below=row.finding.below,
            accepted=bool(row.reason),
        )
        right = self._paint_right(painter, rect, row)
        self._paint_text(
            painter,
            QRectF(rect.left() + 26, rect.top() + 3, right - rect.left() - 34, rect.height() - 6),
            row,
        )

    def _paint_right(self, painter: QPainter, rect: QRectF, row: Row) -> float:
        colours = current()
        if row.state:
            bold = font("body")
            bold.setWeight(QFont.Weight.DemiBold)
            painter.setFont(bold)
            painter.setPen(colours.accent)
            wide = painter.fontMetrics().horizontalAdvance(tr(row.state)) + 8
            box = QRectF(rect.right() - wide - 4, rect.top(), wide, rect.height())
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), tr(row.state))
            return box.left()
        box = self.button_of(rect, row)
        painter.setPen(QPen(colours.rule, 1))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(box, 4, 4)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setFont(font("body"))
        painter.setPen(colours.ink)
        text = painter.fontMetrics().elidedText(
            self.acts.button_text(row), Qt.TextElideMode.ElideRight, int(box.width() - 12)
        )
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)
        return box.left()

    def _paint_measure(self, painter: QPainter, line: QRectF, row: Row) -> QRectF:
        """The small picture at the right end of a row's second line; what is left of the line.

        It never takes room from the sentence.
        """
        picture = bullet_of(row.finding, bullet.SCALE)
        if picture is None or line.width() < _SOURCE_ROOM + bullet.WIDE:
            return line
        at = QRectF(0, 0, bullet.WIDE, bullet.TALL)
        at.moveCenter(line.center())
        at.moveRight(line.right() - 4)
        colours = current()
        quiet = bool(row.reason) or row.state == GOES
        colour = colours.ink3 if quiet else weight_colour(row.finding.weight, colours)
        bullet.paint_bullet(painter, at, picture, colour=colour, theme=colours)
        return line.adjusted(0, 0, -bullet.WIDE - 10, 0)

    def _paint_text(self, painter: QPainter, rect: QRectF, row: Row) -> None:
        colours, finding = current(), row.finding
        line = QFontMetricsF(font("body")).height()
        body = font("medium")
        body.setStrikeOut(row.state == GOES)
        painter.setFont(body)
        quiet = bool(row.reason) or row.state == GOES
        painter.setPen(colours.ink3 if quiet else colours.ink)
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        text = painter.fontMetrics().elidedText(
            finding.text, Qt.TextElideMode.ElideRight, int(rect.width())
        )
        painter.drawText(QRectF(rect.left(), rect.top(), rect.width(), line), left, text)
        second = QRectF(rect.left(), rect.top() + line, rect.width(), rect.height() - line)
        second = self._paint_measure(painter, second, row)
        small = font("small")
        small.setWeight(QFont.Weight.DemiBold)
        painter.setFont(small)
        painter.setPen(colours.ink3 if quiet else weight_colour(finding.weight, colours))
        painter.drawText(second, left, finding.weight.word)
        used = painter.fontMetrics().horizontalAdvance(finding.weight.word) + 6
        painter.setFont(font("small"))
        painter.setPen(colours.ink3)
        if row.reason:
            parts = [tr("accepted: {reason}", reason=row.reason)]
        else:
            parts = [p for p in (finding.place_text, source_text(self.bench, finding)) if p]
        rest = "".join(f"{DOT} {part} " for part in parts)
        rest = painter.fontMetrics().elidedText(
            rest, Qt.TextElideMode.ElideRight, int(second.width() - used)
        )
        painter.drawText(second.adjusted(used, 0, 0, 0), left, rest)

    def editorEvent(
        self,
        event: QEvent,
        model: QAbstractItemModel,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> bool:
        if (
            isinstance(event, QMouseEvent)
            and event.type() == QMouseEvent.Type.MouseButtonRelease
            and event.button() is Qt.MouseButton.LeftButton
        ):
            row: Row = index.data(ROW)
            if self.button_of(QRectF(option.rect), row).contains(event.position()):
                self.acts.press_button(row)
            else:
                self.acts.go_to(row.finding)
            return True
        return bool(super().editorEvent(event, model, option, index))

    def helpEvent(
        self,
        event: QHelpEvent,
        view: QAbstractItemView,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> bool:
        if not index.isValid():
            return False
        row: Row = index.data(ROW)
        QToolTip.showText(event.globalPos(), tip(*self.told(row)), view)
        return True

    def told(self, row: Row) -> tuple[str, ...]:
        """The lines of a row's tooltip."""
        finding, keys = row.finding, ""
        if not row.state:
            keys = tr(_KEYS_ACCEPTED) if row.reason else tr(_KEYS)
        return (
            finding.text,
            finding.place_text,
            measured_text(finding),
            finding.reason,
            source_text(self.bench, finding),
            row.reason and tr("Accepted: {reason}", reason=row.reason),
            keys,
        )


_KEYS_ACCEPTED = mark("Enter goes there, A takes it back, F3 tells how it came about.")
_KEYS = mark(
    "Enter goes there, Space shows what mending would do, M mends, A accepts with a reason, "
    "F3 tells how it came about."
)


def weight_colour(weight: Weight, theme: Theme) -> QColor:
    """The colour of a weight's word and mark."""
    match weight:
        case Weight.CONFLICT:
            return theme.conflict
        case Weight.OUTSIDE:
            return theme.outside
        case Weight.REMARK:
            return theme.remark
