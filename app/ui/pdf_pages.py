"""Pages of a PDF as pictures, for looking and for printing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSizeF
from PySide6.QtGui import QImage

if TYPE_CHECKING:
    import pypdfium2

POINTS_PER_INCH = 72.0


class Pages:
    """An open PDF. Not for several threads at once: the library behind it is not."""

    def __init__(self, content: bytes) -> None:
        import pypdfium2

        self._document: pypdfium2.PdfDocument = pypdfium2.PdfDocument(content)

    def __len__(self) -> int:
        return len(self._document)

    def size_pt(self, number: int) -> QSizeF:
        """Width and height of page `number` (from 0), points."""
        return QSizeF(*self._document[number].get_size())

    def picture(self, number: int, dots_per_inch: float, *, grey: bool = False) -> QImage:
        """Page `number` (from 0) as a picture."""
        page = self._document[number]
        bitmap = page.render(scale=dots_per_inch / POINTS_PER_INCH, grayscale=grey)
        form = {
            "L": QImage.Format.Format_Grayscale8,
            "BGR": QImage.Format.Format_BGR888,
            "BGRx": QImage.Format.Format_RGB32,
            "BGRA": QImage.Format.Format_ARGB32,
        }[bitmap.mode]
        view = QImage(bitmap.buffer, bitmap.width, bitmap.height, bitmap.stride, form)
        return view.copy()  # the bitmap's memory goes with it

    def close(self) -> None:
        """Let go of the document."""
        self._document.close()
