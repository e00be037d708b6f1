"""Signs and range pictures on paper: each weight has a form of its own, in black."""

from __future__ import annotations

import io

import pypdfium2 as pdfium
import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from app.booklet.fonts import open_faces
from app.booklet.palette import COLOUR
from app.booklet.pen import PT, Pen
from app.booklet.report_marks import PICTURE_MM, SCALE, draw_bullet, draw_weight
from app.domain.bullet import place
from app.domain.findings import Weight
from app.domain.ranges import Range
from tests.booklet.sample import FONTS

SIDE_MM = 30.0


def drawn(draw) -> Image.Image:
    """What a function draws on a small page, in grey at 10 dots per mm."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(SIDE_MM * PT, SIDE_MM * PT), invariant=1)
    pen = Pen(canvas, open_faces(FONTS), COLOUR, SIDE_MM)
    pen.begin(0)
    draw(pen)
    pen.end()
    canvas.showPage()
    canvas.save()
    page = pdfium.PdfDocument(out.getvalue())[0]
    return page.render(scale=25.4 / 72 * 10).to_pil().convert("L")


def is_dark(image: Image.Image, x: int, y: int) -> bool:
    shade = image.getpixel((x, y))
    return isinstance(shade, int) and shade < 60


def dark_columns(image: Image.Image) -> list[int]:
    tall = range(image.height)
    return [x for x in range(image.width) if any(is_dark(image, x, y) for y in tall)]


def test_each_weight_has_its_own_form() -> None:
    pictures = [
        drawn(lambda pen, w=w, b=b: draw_weight(pen, 15, 15, w, below=b))
        for w, b in (
            (Weight.CONFLICT, None),
            (Weight.OUTSIDE, True),
            (Weight.OUTSIDE, False),
            (Weight.REMARK, None),
        )
    ]
    assert len({picture.tobytes() for picture in pictures}) == 4


def test_the_lozenge_stands_left_for_below_and_right_for_above() -> None:
    columns = [
        dark_columns(drawn(lambda pen, b=b: draw_weight(pen, 15, 15, Weight.OUTSIDE, below=b)))
        for b in (True, False)
    ]
    middle = 150
    assert middle - min(columns[0]) > max(columns[0]) - middle
    assert max(columns[1]) - middle > middle - min(columns[1])


@pytest.mark.parametrize("value", [2.0, 15.0, 40.0])
def test_the_mark_is_drawn_where_the_geometry_says(value: float) -> None:
    picture = place(value, Range("weekly_sets", 12, 20, "sets/week", "common practice"), SCALE)
    image = drawn(lambda pen: draw_bullet(pen, 3, 10, picture))
    x = round((3 + picture.mark) * 10)
    assert is_dark(image, x, round((10 + 2.1) * 10))
    assert 0 <= picture.mark <= PICTURE_MM
