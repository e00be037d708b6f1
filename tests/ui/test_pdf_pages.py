"""Pages of a PDF as pictures: their size in points, their dots, their tones."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest
from PySide6.QtGui import QColor, QImage
from reportlab.pdfgen.canvas import Canvas

from app.ui.pdf_pages import Pages

A4 = (595.2756, 841.8898)
LETTER = (612.0, 792.0)


def document() -> bytes:
    """A page of A4 with a red square low at the left, and a bare page of US Letter."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4)
    canvas.setFillColorRGB(1, 0, 0)
    canvas.rect(0, 0, 72, 72, stroke=0, fill=1)
    canvas.showPage()
    canvas.setPageSize(LETTER)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


@pytest.fixture
def pages() -> Iterator[Pages]:
    made = Pages(document())
    yield made
    made.close()


def test_pages_are_counted_and_measured(pages: Pages) -> None:
    assert len(pages) == 2
    for number, (width, height) in enumerate((A4, LETTER)):
        size = pages.size_pt(number)
        assert (size.width(), size.height()) == pytest.approx((width, height), abs=0.01)


@pytest.mark.parametrize("dots", [36.0, 96.0, 300.0])
def test_a_picture_has_the_dots_it_is_asked_for(pages: Pages, dots: float) -> None:
    picture = pages.picture(1, dots)
    assert abs(picture.width() - LETTER[0] / 72 * dots) <= 1
    assert abs(picture.height() - LETTER[1] / 72 * dots) <= 1


def _low_left(picture: QImage) -> QColor:
    return picture.pixelColor(10, picture.height() - 10)


def test_colours_are_the_pages_own(pages: Pages) -> None:
    picture = pages.picture(0, 72)
    assert _low_left(picture) == QColor(255, 0, 0)
    assert picture.pixelColor(picture.width() - 5, 5) == QColor(255, 255, 255)


def test_grey_is_grey(pages: Pages) -> None:
    picture = pages.picture(0, 72, grey=True)
    red = _low_left(picture)
    assert picture.isGrayscale()
    assert 0 < red.red() < 255


def test_a_picture_outlives_its_document() -> None:
    pages = Pages(document())
    picture = pages.picture(0, 72)
    pages.close()
    del pages
    assert _low_left(picture) == QColor(255, 0, 0)
