"""Exercise figures in print: the domain's primitives as vectors on a reportlab canvas."""

import math
from collections.abc import Iterable, Iterator, Mapping
from functools import cache, lru_cache

from reportlab.pdfgen.canvas import Canvas

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
def _rgb(tone: str) -> str:
    """'#rrggbb' as three parts of one, in the file's own words."""
    return " ".join(f"{int(tone[at : at + 2], 16) / 255:.4f}" for at in (1, 3, 5))


def _path_code(item: Path, place: tuple[float, float, float]) -> str:
    """The outline in the file's own words: the library formats numbers at ten times the cost."""
    x0, y0, factor = place
    spots = [f"{x0 + x * factor:.2f} {y0 + y * factor:.2f}" for x, y in item.points]
    code = [f"{spots[0]} m"]
    if item.curved:
        code += (f"{' '.join(spots[at : at + 3])} c" for at in range(1, len(spots), 3))
    else:
        code += (f"{spot} l" for spot in spots[1:])
    return " ".join((*code, "h")) if item.closed else " ".join(code)


def _circle_code(item: Circle, place: tuple[float, float, float]) -> str:
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
    curves = (" ".join(f"{value:.2f}" for value in arc) + " c" for arc in arcs)
    return " ".join((f"{x + r:.2f} {y:.2f} m", *curves, "h"))


def _paint_code(item: Primitive, tones: Tones, contour_pt: float) -> Iterator[str]:
    """Tones, weight and dashes of one item."""
    if item.fill is not None:
        yield f"{_rgb(tones[item.fill])} rg"
    if item.stroke is not None:
        width = item.weight * contour_pt
        yield f"{_rgb(tones[item.stroke])} RG {width:.3f} w"
        dotted = isinstance(item, Path) and item.dotted
        yield f"[0.01 {width * 2.7:.2f}] 0 d" if dotted else "[] 0 d"


_END = {(True, True): "B", (True, False): "f", (False, True): "S", (False, False): "n"}


def figure_code(
    drawing: Iterable[Primitive],
    origin_pt: tuple[float, float],
    *,
    stature_pt: float,
    detail: Detail,
    tones: Tones = COLOUR,
) -> str:
    """A drawing in the words of a PDF page, with a graphics state of its own."""
    place = (*origin_pt, stature_pt)
    lines = ["q 1 j 1 J"]
    # most items repeat the paint of the one before
    before: dict[str, str] = {}
    for item in drawing:
        for paint in _paint_code(item, tones, detail.contour):
            operator = paint[-2:]
            if before.get(operator) != paint:
                before[operator] = paint
                lines.append(paint)
        outline = _circle_code(item, place) if isinstance(item, Circle) else _path_code(item, place)
        lines.append(f"{outline} {_END[item.fill is not None, item.stroke is not None]}")
    return "\n".join((*lines, "Q"))


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
    canvas.addLiteral(
        figure_code(drawing, origin_pt, stature_pt=stature_pt, detail=detail, tones=tones)
    )


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


@lru_cache(maxsize=512)
def _kept_code(pair: PosePair, phase: Phase, detail: Detail, stature: float, grey: bool) -> str:
    """The code of a figure at the origin, kept for the next booklet."""
    return figure_code(
        draw(pair, phase, detail=detail),
        (0.0, 0.0),
        stature_pt=stature,
        detail=detail,
        tones=GREY if grey else COLOUR,
    )


@lru_cache(maxsize=1024)
def _kept_bounds(pair: PosePair, phase: Phase, detail: Detail) -> Bounds:
    """The box around a figure, kept for the next page."""
    return bounds(draw(pair, phase, detail=detail))


class FigureForms:
    """Puts figures on the pages of one document, storing each one once.

    A booklet shows the same exercise week after week; the first time a figure of one size is
    printed it becomes a form of the document, and later pages only refer to it.
    """

    def __init__(self, canvas: Canvas, *, grey: bool = False) -> None:
        self._canvas = canvas
        self._grey = grey
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
        box = _kept_bounds(pair, phase, detail)
        left, bottom, width, height = frame_pt
        stature = stature_pt or fitting_stature(box, width, height)
        name = self._form(pair, phase, detail, stature=stature)
        across = left + width / 2 - (box.left + box.right) / 2 * stature
        self._canvas.addLiteral(f"q 1 0 0 1 {across:.2f} {bottom - box.bottom * stature:.2f} cm")
        self._canvas.doForm(name)
        self._canvas.addLiteral("Q")

    def shared_stature(
        self, pair: PosePair, width_pt: float, height_pt: float, *, detail: Detail
    ) -> float:
        """Points per stature at which start and end both fit, so that they can be compared."""
        return min(
            fitting_stature(_kept_bounds(pair, phase, detail), width_pt, height_pt)
            for phase in Phase
        )

    def _form(self, pair: PosePair, phase: Phase, detail: Detail, *, stature: float) -> str:
        key = (pair.key, phase, detail, round(stature, 2))
        if key not in self._names:
            self._names[key] = f"figure{len(self._names)}"
            self._store(self._names[key], pair, phase, detail, stature=round(stature, 2))
        return self._names[key]

    def _store(
        self, name: str, pair: PosePair, phase: Phase, detail: Detail, *, stature: float
    ) -> None:
        """Make a drawing a form of the document; its frame leaves room for the contour."""
        box = _kept_bounds(pair, phase, detail)
        beyond = 3 * detail.contour
        self._canvas.beginForm(
            name,
            math.floor(box.left * stature - beyond),
            math.floor(box.bottom * stature - beyond),
            math.ceil(box.right * stature + beyond),
            math.ceil(box.top * stature + beyond),
        )
        self._canvas.addLiteral(_kept_code(pair, phase, detail, stature, self._grey))
        self._canvas.endForm()
