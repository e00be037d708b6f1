"""Exercise figures on screen: the domain's primitives painted with QPainter, and small cached ones.

Tones are given per role, so a theme decides them; LIGHT and DARK are the shipped sets.
"""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPainterPath, QPen, QPixmap

from app.domain.figure import Bounds, Circle, Detail, Path, Phase, PosePair, Primitive, Role, draw
from app.domain.figure import bounds as bounds_of

Tones = Mapping[Role, str]

LIGHT: Tones = {
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
    Role.FLOOR: "#8A8577",
}
# On a dark ground the contour is light and the body a middle tone: dark lines would vanish.
DARK: Tones = {
    Role.BODY: "#6C675B",
    Role.FAR: "#4A4840",
    Role.SHORTS: "#747C74",
    Role.FAR_SHORTS: "#5A5F58",
    Role.INK: "#EFE8DA",
    Role.HAIR: "#C2B5A0",
    Role.IMPLEMENT: "#9DAAB6",
    Role.RING: "#5B6670",
    Role.STEEL: "#7F8C98",
    Role.WOOD: "#857B66",
    Role.BAND: "#58C3A6",
    Role.MUSCLE_OUTER: "#DDA6C6",
    Role.MUSCLE_INNER: "#8E2B66",
    Role.FLOOR: "#868880",
}
ICON_MARGIN_PX = 1.5
STANDING = 1.0  # a figure is never drawn larger than a standing person would be in its box


def _pen(item: Path | Circle, tones: Tones, contour: float) -> QPen:
    if item.stroke is None:
        return QPen(Qt.PenStyle.NoPen)
    pen = QPen(QColor(tones[item.stroke]), item.weight * contour)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setCosmetic(True)
    if isinstance(item, Path) and item.dotted:
        pen.setDashPattern([0.1, 2.6])
    return pen


def _outline(item: Path) -> QPainterPath:
    points = [QPointF(x, y) for x, y in item.points]
    path = QPainterPath(points[0])
    if item.curved:
        for index in range(1, len(points), 3):
            path.cubicTo(*points[index : index + 3])
    else:
        for point in points[1:]:
            path.lineTo(point)
    if item.closed:
        path.closeSubpath()
    path.setFillRule(Qt.FillRule.WindingFill)
    return path


def paint(
    painter: QPainter, drawing: Iterable[Primitive], *, tones: Tones, contour_px: float
) -> None:
    """Paint primitives in the painter's present coordinates; strokes are `contour_px` wide.

    Set up the painter with y up first (see `paint_in`).
    """
    for item in drawing:
        painter.setPen(_pen(item, tones, contour_px))
        painter.setBrush(QColor(tones[item.fill]) if item.fill else Qt.BrushStyle.NoBrush)
        if isinstance(item, Circle):
            painter.drawEllipse(QPointF(*item.center), item.radius, item.radius)
        else:
            painter.drawPath(_outline(item))


def fitting_scale(box: Bounds, width_px: float, height_px: float) -> float:
    """Pixels per stature that fit the drawing, no larger than a standing person would be."""
    return min(width_px / box.width, height_px / max(box.height, STANDING), height_px / box.height)


def paint_in(
    painter: QPainter,
    drawing: tuple[Primitive, ...],
    target: QRectF,
    *,
    tones: Tones,
    contour_px: float,
    scale_px: float | None = None,
) -> None:
    """Paint a drawing centred in `target`, standing on its lower edge.

    scale_px: pixels per stature; without it, as large as fits.
    """
    box = bounds_of(drawing)
    factor = scale_px or fitting_scale(box, target.width(), target.height())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    left = target.center().x() - (box.left + box.right) / 2 * factor
    painter.translate(left, target.bottom() + box.bottom * factor)
    painter.scale(factor, -factor)
    paint(painter, drawing, tones=tones, contour_px=contour_px)
    painter.restore()


class FigureIcons:
    """Small figures for lists, painted once per exercise, size and tone set."""

    def __init__(self, tones: Tones = LIGHT) -> None:
        self._tones = tones
        self._kept: dict[tuple[str, Phase, int, int, float], QPixmap] = {}

    def set_tones(self, tones: Tones) -> None:
        """Use other tones from now on, as when the theme changes."""
        self._tones = tones
        self._kept.clear()

    def pixmap(
        self,
        pair: PosePair,
        phase: Phase = Phase.END,
        *,
        width_px: int = 64,
        height_px: int = 48,
        ratio: float = 1.0,
    ) -> QPixmap:
        """The figure at list size; `ratio` is the screen's device pixel ratio."""
        key = (pair.key, phase, width_px, height_px, ratio)
        if key not in self._kept:
            self._kept[key] = self._painted(pair, phase, width_px, height_px, ratio)
        return self._kept[key]

    def icon(self, pair: PosePair, phase: Phase = Phase.END, *, ratio: float = 1.0) -> QIcon:
        """The figure as an icon, 64 by 48 pixels."""
        return QIcon(self.pixmap(pair, phase, ratio=ratio))

    def _painted(
        self, pair: PosePair, phase: Phase, width: int, height: int, ratio: float
    ) -> QPixmap:
        pixmap = QPixmap(round(width * ratio), round(height * ratio))
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        margin = ICON_MARGIN_PX
        target = QRectF(margin, margin, width - 2 * margin, height - 2 * margin)
        painter = QPainter(pixmap)
        drawing = draw(pair, phase, detail=Detail.ICON48)
        contour = Detail.ICON48.contour
        paint_in(painter, drawing, target, tones=self._tones, contour_px=contour)
        painter.end()
        return pixmap
