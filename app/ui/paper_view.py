"""A PDF to look at page by page: thumbnails left, the open page right; then print or save it.

Every paper but the booklet is shown through here.
"""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtGui import QIcon, QKeyEvent, QPixmap
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QScrollArea,
    QWidget,
)

from app.domain.wording import tr
from app.ui.pdf_pages import POINTS_PER_INCH, Pages

THUMB = 96
"""The longer side of a thumbnail, px."""

MOST_DOTS = 160.0
"""The finest that a page is drawn, dots per inch of the screen's own scale."""


class PaperView(QWidget):
    """Shows the pages of a PDF; empty until `show_paper`."""

    def __init__(self) -> None:
        super().__init__()
        self.content = b""
        self.pages: Pages | None = None
        self.thumbs = QListWidget()
        self.thumbs.setIconSize(QSize(THUMB, round(THUMB * 1.42)))
        self.thumbs.setFixedWidth(THUMB + 66)
        self.thumbs.setAccessibleName(tr("Pages"))
        self.page = QLabel()
        self.page.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.page.setAccessibleName(tr("The open page"))
        self.page.setTextFormat(Qt.TextFormat.PlainText)
        self.page_scroll = QScrollArea()
        self.page_scroll.setWidget(self.page)
        self.page_scroll.setWidgetResizable(True)
        self.page_scroll.setAccessibleName(tr("The open page, to scroll"))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addWidget(self.thumbs)
        row.addWidget(self.page_scroll, 1)
        self._waiting: list[int] = []
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._next_thumb)
        self.thumbs.currentRowChanged.connect(self.show_page)

    def show_paper(self, content: bytes) -> None:
        """Show another PDF, at the page that was open if it has that many."""
        kept = max(0, self.thumbs.currentRow())
        self.close_paper()
        self.content, self.pages = content, Pages(content)
        for number in range(len(self.pages)):
            self.thumbs.addItem(QListWidgetItem(str(number + 1)))
        self._waiting = list(range(len(self.pages)))
        self._timer.start()
        self.thumbs.setCurrentRow(min(kept, len(self.pages) - 1))

    def close_paper(self) -> None:
        """Let go of the PDF."""
        self._timer.stop()
        self._waiting = []
        self.thumbs.clear()
        self.page.clear()
        if self.pages is not None:
            self.pages.close()
        self.content, self.pages = b"", None

    def _next_thumb(self) -> None:
        if not self._waiting or self.pages is None:
            self._timer.stop()
            return
        number = self._waiting.pop(0)
        size = self.pages.size_pt(number)
        longer = max(size.width(), size.height() / 1.42) / POINTS_PER_INCH
        picture = self.pages.picture(number, THUMB * self.devicePixelRatioF() / longer)
        self.thumbs.item(number).setIcon(QIcon(QPixmap.fromImage(picture)))

    def show_page(self, number: int) -> None:
        """Show page `number`, counted from 0; nothing for a page that is not there."""
        if self.pages is None or not 0 <= number < len(self.pages):
            return
        size = self.pages.size_pt(number)
        room = max(400, self.page_scroll.viewport().width() - 24)
        ratio = self.devicePixelRatioF()
        dots = min(MOST_DOTS, room / size.width() * POINTS_PER_INCH)
        picture = self.pages.picture(number, dots * ratio)
        picture.setDevicePixelRatio(ratio)
        self.page.setPixmap(QPixmap.fromImage(picture))
        told = tr("Page {number} of {count}", number=number + 1, count=len(self.pages))
        self.page.setAccessibleDescription(told)
        self.page_scroll.verticalScrollBar().setValue(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.turn_by(event):
            super().keyPressEvent(event)

    def turn_by(self, event: QKeyEvent) -> bool:
        """Turn a page if the key asks for it; False for any other key."""
        step = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}.get(Qt.Key(event.key()))
        if step is None:
            return False
        row = self.thumbs.currentRow() + step
        self.thumbs.setCurrentRow(max(0, min(row, self.thumbs.count() - 1)))
        return True
