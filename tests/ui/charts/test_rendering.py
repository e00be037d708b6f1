from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QImage
from scipy.stats import theilslopes

from app.ui.charts.data import chart_of
from app.ui.charts.kinds import Choice, Kind
from app.ui.charts.look import look_of
from app.ui.charts.rendering import FORMATS, copy_picture, file_bytes, picture
from app.ui.theme import DARK, LIGHT
from tests.ui.charts.sample import ASKED


def chart(kind=Kind.MASS):
    return chart_of(ASKED, Choice(kind), theilslopes)


@pytest.mark.parametrize("theme", [LIGHT, DARK])
@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
def test_a_picture_has_every_dot_of_the_screen(qapp, theme, ratio):
    image = picture(chart(), look_of(theme), QSize(600, 360), ratio)
    assert image.devicePixelRatio() == ratio
    assert abs(image.width() - 600 * ratio) <= 1
    assert abs(image.height() - 360 * ratio) <= 1
    assert QColor(image.pixel(1, 1)) == theme.card


@pytest.mark.parametrize("kind", Kind)
def test_every_chart_is_drawn_for_every_file(qapp, kind):
    for form in FORMATS:
        assert len(file_bytes(chart(kind), form)) > 2000


def test_a_pdf_embeds_its_letters_and_says_no_more_than_its_title(qapp):
    data = file_bytes(chart(), "pdf", title="Body mass $")
    with pikepdf.open(BytesIO(data)) as pdf:
        fonts = [
            o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/FontDescriptor" in o
        ]
        assert fonts
        for font in fonts:
            assert "/FontFile2" in font["/FontDescriptor"]
        assert pdf.docinfo["/Title"] == "Body mass $"
        assert "/Author" not in pdf.docinfo
    assert data == file_bytes(chart(), "pdf", title="Body mass $")


def test_an_svg_is_whole_and_needs_no_font(qapp):
    data = file_bytes(chart(), "svg")
    assert data.rstrip().endswith(b"</svg>")
    assert b"<text" not in data
    assert b"font-family" not in data


def test_a_copy_is_white_whatever_the_window(qapp):
    image = copy_picture(replace(chart(), title="$3 a day"))
    assert isinstance(image, QImage)
    assert QColor(image.pixel(1, 1)) == QColor("#ffffff")


def test_another_kind_of_file_is_a_mistake_of_ours(qapp):
    with pytest.raises(ValueError, match="bmp"):
        file_bytes(chart(), "bmp")
