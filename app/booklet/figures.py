"""Exercise figures in print: the domain's primitives as vectors on a reportlab canvas."""

from collections.abc import Iterable, Mapping

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from app.domain.figure import Bounds, Circle, Detail, Path, Primitive, Role, bounds

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
STANDING = 1.0  # a figure is never printed larger than a standing person would be in its box


def _trace_path(canvas: Canvas, item: Path, place: tuple[float, float, float]) -> None:
    x0, y0, factor = place
    points = [(x0 + x * factor, y0 + y * factor) for x, y in item.points]
    path = canvas.beginPath()
    path.moveTo(*points[0])
    if item.curved:
        for index in range(1, len(points), 3):
            (ax, ay), (bx, by), (cx, cy) = points[index : index + 3]
            path.curveTo(ax, ay, bx, by, cx, cy)
    else:
        for point in points[1:]:
            path.lineTo(*point)
    if item.closed:
        path.close()
    canvas.drawPath(path, stroke=int(item.stroke is not None), fill=int(item.fill is not None))


def _set_paint(canvas: Canvas, item: Primitive, tones: Tones, contour_pt: float) -> None:
    if item.fill is not None:
        canvas.setFillColor(HexColor(tones[item.fill]))
    if item.stroke is not None:
        canvas.setStrokeColor(HexColor(tones[item.stroke]))
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
            canvas.circle(
                x0 + item.center[0] * stature_pt,
                y0 + item.center[1] * stature_pt,
                item.radius * stature_pt,
                stroke=int(item.stroke is not None),
                fill=int(item.fill is not None),
            )
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
