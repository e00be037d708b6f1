"""Places on paper, and text as text."""

from __future__ import annotations

from io import BytesIO

import pytest
from reportlab.pdfgen.canvas import Canvas

from app.booklet.fonts import BODY, Face, open_faces
from app.booklet.palette import COLOUR
from app.booklet.pen import PT, Box, Pen, bold
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import FONTS


def printed(draw) -> Printed:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(210 * PT, 297 * PT), initialFontName=Face.SANS.value)  # type: ignore[arg-type]
    pen = Pen(canvas, open_faces(FONTS), COLOUR, 297.0, left_mm=16.0)
    draw(pen)
    pen.end()
    canvas.showPage()
    canvas.save()
    return Printed(out.getvalue())


@pytest.fixture(autouse=True)
def _fonts_are_known():
    open_faces(FONTS)


def test_text_stands_where_it_was_put():
    booklet = printed(lambda pen: pen.text(10, 50, "H", style=BODY))
    (letter,) = booklet.letters(1)
    assert letter.left == pytest.approx(26, abs=0.6)
    assert letter.bottom == pytest.approx(50, abs=0.2)


@pytest.mark.parametrize("align", [0.0, 0.5, 1.0])
def test_text_is_laid_to_the_left_the_middle_or_the_right(align: float):
    widths = []
    booklet = printed(lambda pen: widths.append(pen.text(80, 50, "HHHH", style=BODY, align=align)))
    letters = list(booklet.letters(1))
    assert min(one.left for one in letters) == pytest.approx(96 - align * widths[0], abs=0.6)


def test_letters_that_no_font_has_are_remembered_with_their_text():
    pens = []

    def draw(pen):
        pens.append(pen)
        pen.text(0, 50, "a漢b", style=BODY)

    booklet = printed(draw)
    assert booklet.text(1).strip() == "ab"
    assert pens[0].missing == {"漢": "a漢b"}


def test_lines_follow_each_other_at_their_lead():
    ends = []
    printed(lambda pen: ends.append(pen.paragraph(0, 50, "a b c", width=4, style=BODY)))
    assert ends[0] == pytest.approx(50 + 3 * 15 * 25.4 / 72)


@pytest.mark.parametrize(("words", "size"), [(1, 24), (6, 18), (8, 14)])
def test_a_title_is_as_large_as_its_room_lets_it(words: int, size: int):
    title = " ".join(["Season"] * words)
    booklet = printed(lambda pen: pen.title(50, title, width=150))
    assert booklet.text(1).strip() == title
    assert max(letter.size for letter in booklet.letters(1)) == pytest.approx(size, abs=0.1)


def test_a_title_without_room_shows_that_it_is_cut():
    booklet = printed(lambda pen: pen.title(50, "Season " * 30, width=150))
    assert booklet.text(1).strip().endswith("…")


def test_a_box_knows_its_far_edges():
    box = Box(1, 2, 3, 4)
    assert (box.right, box.bottom) == (4, 6)
    assert bold(BODY).face == "NotoSans-Bold"
