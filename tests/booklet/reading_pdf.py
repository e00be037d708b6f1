"""What tests read from a printed booklet: text, letters with their places and sizes, shapes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2 as pdfium
from pypdfium2 import raw

MM = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Letter:
    """One letter, mm from the upper left corner of its page, with its size in points."""

    text: str
    left: float
    right: float
    top: float
    bottom: float
    size: float


class Printed:
    """A booklet as PDF, open for reading."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.pdf = pdfium.PdfDocument(data)
        self._texts: dict[int, str] = {}

    def __len__(self) -> int:
        return len(self.pdf)

    def size_mm(self, page: int) -> tuple[float, float]:
        """Width and height of a page (from 1)."""
        width, height = self.pdf[page - 1].get_size()
        return width * MM, height * MM

    def text(self, page: int) -> str:
        """The text of a page (from 1), each white space as one space."""
        if page not in self._texts:
            words = self.pdf[page - 1].get_textpage().get_text_range()
            self._texts[page] = re.sub(r"\s+", " ", words.replace("\ufffe", ""))
        return self._texts[page]

    @property
    def whole(self) -> str:
        """The text of all pages."""
        return " ".join(self.text(page) for page in range(1, len(self) + 1))

    def pages_with(self, text: str) -> tuple[int, ...]:
        """The pages on which a text stands."""
        return tuple(page for page in range(1, len(self) + 1) if text in self.text(page))

    def letters(self, page: int) -> Iterator[Letter]:
        """Every visible letter of a page (from 1)."""
        height = self.size_mm(page)[1]
        textpage = self.pdf[page - 1].get_textpage()
        for index in range(textpage.count_chars()):
            text = textpage.get_text_range(index, 1)
            if not text.strip():
                continue
            left, bottom, right, top = textpage.get_charbox(index)
            yield Letter(
                text,
                left * MM,
                right * MM,
                height - top * MM,
                height - bottom * MM,
                raw.FPDFText_GetFontSize(textpage.raw, index),
            )
