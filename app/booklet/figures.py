"""Exercise figures in print: the domain's primitives as vectors on a reportlab canvas."""

import math
from collections.abc import Iterable, Mapping
from functools import cache

from reportlab.lib.colors import Color, HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from app.domain.figure import (
    Bounds,
    Circle,
    Detail,
    Path,
    Phase,
    PosePair,
    Primitive,
    Role,
    bounds,
    draw,
)

Tones = Mapping[Role, str]

COLOUR: Tones = {
    Role.BODY: "#F2E9DA",
    Role.FAR: "#D1C4AE",
    Role.SHORTS: "#DCE0D7",
    Role.FAR_SHORTS: "#BBBFB4",
    Role.INK: "#1B2026",
    Role.HAIR: "#342C2A",
    Role.IMPLEMENT: "#39424C",
    Role.RING: "#7F8992",
    Role.STEEL: "#68747E",
    Role.WOOD: "#DBD1BF",
    Role.BAND: "#1F6F5C",
    Role.MUSCLE_OUTER: "#C689AC",
    Role.MUSCLE_INNER: "#8E2B66",
    Role.FLOOR: "#7E8487",
}
GREY: Tones = {
    Role.BODY: "#F4F4F4",
    Role.FAR: "#BCBCBC",
    Role.SHORTS: "#E4E4E4",
    Role.FAR_SHORTS: "#A9A9A9",
    Role.INK: "#1E1E1E",
    Role.HAIR: "#2E2E2E",
    Role.IMPLEMENT: "#414141",
    Role.RING: "#878787",
    Role.STEEL: "#727272",
    Role.WOOD: "#D2D2D2",
    Role.BAND: "#606060",
    Role.MUSCLE_OUTER: "#9C9C9C",
    Role.MUSCLE_INNER: "#454545",
    Role.FLOOR: "#808080",
}
ROUND = 0.5523  # handle of a cubic curve that draws a quarter of a circle of radius 1
STANDING = 1.0  # a figure is never printed larger than a standing person would be in its box


@cache
def _colour(tone: str) -> Color:
    return HexColor(tone)


def _trace_path(canvas: Canvas, item: Path, place: tuple[float, float, float]) -> None:
    x0, y0, factor = place
    points = [(x0 + x * factor, y0 + y * factor) for x, y in item.points]
    # written out here: the library formats each number at ten times the cost
    spots = [f"{x:.2f} {y:.2f}" for x, y in points]
    code = ["n", f"{spots[0]} m"]
    if item.curved:
        code += (f"{' '.join(spots[at : at + 3])} c" for at in range(1, len(spots), 3))
    else:
        code += (f"{spot} l" for spot in spots[1:])
    if item.closed:
        code.append("h")
    _paint_path(canvas, code, item)


def _trace_circle(canvas: Canvas, item: Circle, place: tuple[float, float, float]) -> None:
    """Four arcs as cubic curves."""
    x0, y0, factor = place
    x, y = x0 + item.center[0] * factor, y0 + item.center[1] * factor
    r = item.radius * factor
    k = ROUND * r
    arcs = (
        (x + r, y + k, x + k, y + r, x, y + r),
        (x - k, y + r, x - r, y + k, x - r, y),
        (x - r, y - k, x - k, y - r, x, y - r),
        (x + k, y - r, x + r, y - k, x + r, y),
    )
    code = ["n", f"{x + r:.2f} {y:.2f} m"]
    code += (" ".join(f"{value:.2f}" for value in arc) + " c" for arc in arcs)
    _paint_path(canvas, [*code, "h"], item)


def _paint_path(canvas: Canvas, code: list[str], item: Primitive) -> None:
    canvas.drawPath(
        PDFPathObject(code=code),
        stroke=int(item.stroke is not None),
        fill=int(item.fill is not None),
    )


def _set_paint(canvas: Canvas, item: Primitive, tones: Tones, contour_pt: float) -> None:
    if item.fill is not None:
        canvas.setFillColor(_colour(tones[item.fill]))
    if item.stroke is not None:
        canvas.setStrokeColor(_colour(tones[item.stroke]))
        width = item.weight * contour_pt
        canvas.setLineWidth(width)
        dotted = isinstance(item, Path) and item.dotted
        canvas.setDash([0.01, width * 2.7] if dotted else [])


def draw_figure(
    canvas: Canvas,
    drawing: Iterable[Primitive],
    origin_pt: tuple[float, float],
    *,
    stature_pt: float,
    detail: Detail,
    tones: Tones = COLOUR,
) -> None:
    """Put a drawing on the canvas: its zero at `origin_pt`, a standing person `stature_pt` high."""
    canvas.saveState()
    canvas.setLineJoin(1)
    canvas.setLineCap(1)
    x0, y0 = origin_pt
    for item in drawing:
        _set_paint(canvas, item, tones, detail.contour)
        if isinstance(item, Circle):
            _trace_circle(canvas, item, (x0, y0, stature_pt))
        else:
            _trace_path(canvas, item, (x0, y0, stature_pt))
    canvas.restoreState()


def fitting_stature(box: Bounds, width_pt: float, height_pt: float) -> float:
    """Points per stature that fit the drawing, no larger than a standing person would be."""
    return min(width_pt / box.width, height_pt / max(box.height, STANDING))


def draw_figure_in(
    canvas: Canvas,
    drawing: tuple[Primitive, ...],
    frame_pt: tuple[float, float, float, float],
    *,
    detail: Detail,
    tones: Tones = COLOUR,
    stature_pt: float | None = None,
) -> None:
    """Put a drawing into a frame (left, bottom, width, height), centred, standing on its foot.

    stature_pt: points per stature, to share one scale among figures; without it, as large as fits.
    """
    left, bottom, width, height = frame_pt
    box = bounds(drawing)
    stature = stature_pt or fitting_stature(box, width, height)
    origin = (
        left + width / 2 - (box.left + box.right) / 2 * stature,
        bottom - box.bottom * stature,
    )
    draw_figure(canvas, drawing, origin, stature_pt=stature, detail=detail, tones=tones)


class FigureForms:
    """Puts figures on the pages of one document, storing each one once.

    A booklet shows the same exercise week after week; the first time a figure of one size is
    printed it becomes a form of the document, and later pages only refer to it.
    """

    def __init__(self, canvas: Canvas, tones: Tones = COLOUR) -> None:
        self._canvas = canvas
        self._tones = tones
        self._drawn: dict[tuple[str, Phase, Detail], tuple[tuple[Primitive, ...], Bounds]] = {}
        self._names: dict[tuple[str, Phase, Detail, float], str] = {}

    def put(
        self,
        pair: PosePair,
        phase: Phase,
        frame_pt: tuple[float, float, float, float],
        *,
        detail: Detail,
        stature_pt: float | None = None,
    ) -> None:
        """Put one position into a frame (left, bottom, width, height), as `draw_figure_in` does."""
        box = self._drawing(pair, phase, detail)[1]
        left, bottom, width, height = frame_pt
        stature = stature_pt or fitting_stature(box, width, height)
        name = self._form(pair, phase, detail, stature=stature)
        across = left + width / 2 - (box.left + box.right) / 2 * stature
        self._canvas.saveState()
        self._canvas.translate(across, bottom - box.bottom * stature)
        self._canvas.doForm(name)
        self._canvas.restoreState()

    def _drawing(
        self, pair: PosePair, phase: Phase, detail: Detail
    ) -> tuple[tuple[Primitive, ...], Bounds]:
        key = (pair.key, phase, detail)
        if key not in self._drawn:
            drawing = draw(pair, phase, detail=detail)
            self._drawn[key] = (drawing, bounds(drawing))
        return self._drawn[key]

    def _form(self, pair: PosePair, phase: Phase, detail: Detail, *, stature: float) -> str:
        key = (pair.key, phase, detail, round(stature, 2))
        if key not in self._names:
            self._names[key] = f"figure{len(self._names)}"
            self._store(self._names[key], *self._drawing(pair, phase, detail), detail, stature)
        return self._names[key]

    def _store(
        self,
        name: str,
        drawing: tuple[Primitive, ...],
        box: Bounds,
        detail: Detail,
        stature: float,
    ) -> None:
        """Make a drawing a form of the document; its frame leaves room for the contour."""
        beyond = 3 * detail.contour
        self._canvas.beginForm(
            name,
            math.floor(box.left * stature - beyond),
            math.floor(box.bottom * stature - beyond),
            math.ceil(box.right * stature + beyond),
            math.ceil(box.top * stature + beyond),
        )
        draw_figure(
            self._canvas,
            drawing,
            (0.0, 0.0),
            stature_pt=stature,
            detail=detail,
            tones=self._tones,
        )
        self._canvas.endForm()
