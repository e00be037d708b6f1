"""Figures in print: vectors, in a frame, told apart on a grey printer."""

from __future__ import annotations

import io

import pypdfium2
import pytest
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from app.booklet.figures import COLOUR, GREY, FigureForms, draw_figure_in, fitting_stature
from app.domain.figure import Bounds, Detail, Phase, Role, bounds, draw
from tests.domain.figure.shipped import poses

FRAME = (100.0, 200.0, 150.0, 170.0)
TOUCHING = [
    (Role.BODY, Role.MUSCLE_OUTER),
    (Role.SHORTS, Role.MUSCLE_OUTER),
    (Role.MUSCLE_OUTER, Role.MUSCLE_INNER),
    (Role.BODY, Role.INK),
    (Role.FAR, Role.INK),
    (Role.WOOD, Role.INK),
    (Role.BODY, Role.HAIR),
]


def printed(key: str, *, detail: Detail = Detail.FULL, phase: Phase = Phase.END) -> bytes:
    """A page with one figure in FRAME."""
    sheet = io.BytesIO()
    canvas = Canvas(sheet, pagesize=(400, 500), invariant=1)
    draw_figure_in(canvas, draw(poses()[key], phase, detail=detail), FRAME, detail=detail)
    canvas.save()
    return sheet.getvalue()


def ink_box(page: bytes) -> tuple[int, int, int, int]:
    """Left, bottom, right, top of everything printed, in points."""
    document = pypdfium2.PdfDocument(page)
    picture = document[0].render(scale=1).to_numpy()
    rows, columns = (picture.min(axis=2) < 250).nonzero()
    height = picture.shape[0]
    document.close()
    return columns.min(), height - rows.max(), columns.max(), height - rows.min()


@pytest.mark.parametrize("key", ["back_squat", "pull_up", "side_lying_abduction", "plank"])
def test_a_figure_stays_in_its_frame_and_stands_on_its_foot(key: str) -> None:
    left, bottom, right, top = ink_box(printed(key))
    x, y, width, height = FRAME
    assert x - 2 <= left
    assert right <= x + width + 2
    assert y - 3 <= bottom <= y + 3
    assert top <= y + height + 2


@pytest.mark.parametrize("key", poses())
def test_every_figure_prints_as_vectors(key: str) -> None:
    document = pypdfium2.PdfDocument(printed(key))
    kinds = {item.type for item in document[0].get_objects()}
    document.close()
    assert kinds == {pypdfium2.raw.FPDF_PAGEOBJ_PATH}


def test_the_same_figure_prints_the_same_bytes() -> None:
    assert printed("deadlift") == printed("deadlift")


def test_a_lying_person_is_printed_no_larger_than_a_standing_one() -> None:
    assert fitting_stature(Bounds(0, 0, 1.0, 0.2), 500, 100) == 100
    assert fitting_stature(Bounds(0, 0, 1.0, 0.2), 60, 100) == 60
    assert fitting_stature(Bounds(0, 0, 0.5, 1.25), 500, 100) == 80


def test_figures_can_share_one_scale() -> None:
    sheet = io.BytesIO()
    canvas = Canvas(sheet, pagesize=(400, 500), invariant=1)
    drawing = draw(poses()["lunge"], Phase.START)
    draw_figure_in(canvas, drawing, FRAME, detail=Detail.FULL, stature_pt=80)
    canvas.save()
    _, bottom, _, top = ink_box(sheet.getvalue())
    assert top - bottom == pytest.approx(80 * bounds(drawing).height, abs=4)


def repeated(pages: int) -> bytes:
    """A document with the same figure on every page."""
    sheet = io.BytesIO()
    canvas = Canvas(sheet, pagesize=(400, 500), invariant=1, pageCompression=0)
    figures = FigureForms(canvas)
    for _ in range(pages):
        figures.put(poses()["lunge"], Phase.END, FRAME, detail=Detail.ROW17)
        canvas.showPage()
    canvas.save()
    return sheet.getvalue()


def test_a_figure_that_comes_again_is_stored_once() -> None:
    assert len(repeated(20)) < 2 * len(repeated(1))


def test_a_stored_figure_lies_where_a_drawn_one_does() -> None:
    drawn = ink_box(printed("lunge", detail=Detail.ROW17))
    assert ink_box(repeated(1)) == pytest.approx(drawn, abs=1)


def lightness(colour: str) -> float:
    """L* of a colour, 0 to 100 (CIE 1976, sRGB)."""
    shade = HexColor(colour)
    parts = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (shade.red, shade.green, shade.blue)
    ]
    luminance = 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]
    return 116 * luminance ** (1 / 3) - 16


@pytest.mark.parametrize("tones", [COLOUR, GREY], ids=["colour", "grey"])
@pytest.mark.parametrize(("a", "b"), TOUCHING)
def test_tones_that_touch_differ_on_a_grey_printer(
    tones: dict[Role, str], a: Role, b: Role
) -> None:
    assert abs(lightness(tones[a]) - lightness(tones[b])) >= 20


@pytest.mark.parametrize("tones", [COLOUR, GREY], ids=["colour", "grey"])
def test_every_role_has_a_tone(tones: dict[Role, str]) -> None:
    assert set(tones) == set(Role)


def test_the_grey_set_has_no_colour_in_it() -> None:
    for colour in GREY.values():
        shade = HexColor(colour)
        assert shade.red == shade.green == shade.blue
