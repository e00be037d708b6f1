"""A sign with the number of findings of its weight; pressed, the list shows that weight alone."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QEnterEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from app.domain.findings import Weight
from app.domain.wording import mark, tr
from app.ui import signs
from app.ui.theme import current, font
from app.ui.words import tip

WORDS = (mark("conflicts"), mark("outside"), mark("remarks"))
TALL = 26
_SIGN = 14


class WeightButton(QAbstractButton):
    """Stays in sight while it is pressed, even at none, so that it can be let go again."""

    def __init__(self, weight: Weight) -> None:
        super().__init__()
        self.weight = weight
        self.count = 0
        self.wordy = True
        self._under_pointer = False
        self.setCheckable(True)
        self.setFont(font("small"))
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.toggled.connect(lambda _on: self.show_count(self.count))

    def show_count(self, count: int) -> None:
        """Show a number with its word."""
        many = tr(WORDS[self.weight])
        counted = self.weight.counted(count)
        what = (
            tr("Show {many} alone", many=many)
            if not self.isChecked()
            else tr("Show the other weights again")
        )
        self.setText(counted if self.wordy else str(count))
        self.setToolTip(tip(f"{counted}.", what))
        self.setAccessibleName(counted)
        self.setAccessibleDescription(what)
        self.count = count
        self.setVisible(count > 0 or self.isChecked())
        self.updateGeometry()

    def say_words(self, wordy: bool) -> None:
        """Show the word beside the number, or the number alone."""
        if wordy is not self.wordy:
            self.wordy = wordy
            self.show_count(self.count)

    def sizeHint(self) -> QSize:
        wide = self.fontMetrics().horizontalAdvance(self.text())
        return QSize(max(TALL, _SIGN + wide + 15), max(TALL, self.fontMetrics().height() + 8))

    def enterEvent(self, event: QEnterEvent) -> None:
        self._under_pointer = True
        super().enterEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        self._under_pointer = False
        super().leaveEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, colours = QPainter(self), current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        if self.isChecked():
            painter.setBrush(colours.wash)
        elif self._under_pointer:
            painter.setBrush(colours.hover)
        edge = colours.accent if self.isChecked() or self.hasFocus() else colours.hair
        painter.setPen(QPen(edge, 2 if self.hasFocus() else 1))
        painter.drawRoundedRect(box, 4, 4)
        at = QRectF(box.left() + 4, box.center().y() - _SIGN / 2, _SIGN, _SIGN)
        signs.paint_weight(painter, at, weight=self.weight, theme=colours)
        painter.setFont(self.font())
        painter.setPen(colours.accent if self.isChecked() else colours.ink)
        rest = QRectF(at.right() + 4, box.top(), box.right() - at.right() - 4, box.height())
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(rest, left, self.text())
