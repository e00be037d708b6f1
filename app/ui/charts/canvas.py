"""Where a chart is shown: a picture drawn elsewhere, or a sentence in its place."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.ui.parts import tell_as_picture
from app.ui.theme import current, font


class Canvas(QWidget):
    """One picture at the size of the widget; a sentence while there is none.

    resized(): a picture of another size is wanted.
    """

    resized = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.image: QImage | None = None
        self.sentence = ""
        self.setMinimumSize(320, 220)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        tell_as_picture(self)

    def show_image(self, image: QImage, *, name: str, text: str) -> None:
        """Show a picture; name and text are what assistive technology reads of it."""
        self.image, self.sentence = image, ""
        self.setAccessibleName(name)
        self.setAccessibleDescription(text)
        self.update()

    def say(self, sentence: str, *, name: str) -> None:
        """Show a sentence in the place of a picture."""
        self.image, self.sentence = None, sentence
        self.setAccessibleName(name)
        self.setAccessibleDescription(sentence)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = current()
        painter.fillRect(self.rect(), colours.card)
        if self.image is not None:
            painter.drawImage(0, 0, self.image)
        else:
            painter.setPen(colours.ink2)
            painter.setFont(font("body"))
            room = QRectF(self.rect()).adjusted(40, 20, -40, -20)
            middle = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
            painter.drawText(room, middle, self.sentence)
        if self.hasFocus():
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
