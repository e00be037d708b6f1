"""A pen on a page: text, rules, boxes and hatches in millimetres from the upper left corner.

Draws straight on the canvas. Text is only ever drawn as text, never read as markup.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from reportlab.pdfgen.canvas import Canvas

from app.booklet.fonts import MM_PER_PT, Face, Faces, Style, one_line
from app.booklet.palette import Palette

PT = 1 / MM_PER_PT


@dataclass(frozen=True, slots=True)
class Box:
    """An upright box on the page, mm from the upper left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height


@dataclass(slots=True, eq=False)
class Pen:
    """Draws on the current page of a canvas.

    height_mm: of the page; left_mm: where x is 0, from the left edge of the page;
    missing: letters that no font has, each with a text it stands in.
    """

    canvas: Canvas
    faces: Faces
    palette: Palette
    height_mm: float
    left_mm: float = 0.0
    missing: dict[str, str] = field(default_factory=dict)

    def _x(self, x: float) -> float:
        return (self.left_mm + x) * PT

    def _y(self, y: float) -> float:
        return (self.height_mm - y) * PT

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place in the canvas's own points."""
        return self._x(x), self._y(y)

    # -- text ------------------------------------------------------------------------------

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        style: Style,
        tone: str = "",
        align: float = 0.0,
    ) -> float:
        """Print one line with its baseline at `y`; gives back its width, mm.

        align: the part of the width that lies left of `x`: 0 left, 0.5 centred, 1 right.
        """
        text = one_line(text)
        if not text:
            return 0.0
        for letter in self.faces.missing(text, style.face):
            self.missing.setdefault(letter, text)
        width = self.faces.width_mm(text, style)
        left = x - align * width
        canvas = self.canvas
        line = canvas.beginText(self._x(left), self._y(y))
        line.setFillColor(tone or self.palette.ink)
        for name, piece in self.faces.runs(text, style.face):
            line.setFont(name, style.size)
            line.textOut(piece)
        canvas.drawText(line)
        return width

    def lines(
        self, x: float, y: float, lines: tuple[str, ...], *, style: Style, tone: str = ""
    ) -> float:
        """Print lines below each other, the first with its baseline at `y`.

        Gives back the baseline of the line that would follow.
        """
        for line in lines:
            self.text(x, y, line, style=style, tone=tone)
            y += style.lead_mm
        return y

    def paragraph(
        self, x: float, y: float, text: str, *, width: float, style: Style, tone: str = ""
    ) -> float:
        """Print `text` in lines no wider than `width`; see `lines`."""
        return self.lines(x, y, self.faces.wrap(text, style, width), style=style, tone=tone)

    def width(self, text: str, style: Style) -> float:
        """How wide a line would be, mm."""
        return self.faces.width_mm(one_line(text), style)

    # -- shapes ----------------------------------------------------------------------------

    def rule(
        self,
        x: float,
        y: float,
        to_x: float,
        *,
        weight: float = 0.4,
        tone: str = "",
        to_y: float | None = None,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a line, level unless `to_y` says otherwise; weight in points, dash in mm."""
        canvas = self.canvas
        canvas.setLineWidth(weight)
        canvas.setStrokeColor(tone or self.palette.ink)
        if dash:
            canvas.setDash([d * PT for d in dash])
        canvas.line(self._x(x), self._y(y), self._x(to_x), self._y(y if to_y is None else to_y))
        if dash:
            canvas.setDash()

    def box(self, box: Box, *, fill: str = "", stroke: str = "", weight: float = 0.5) -> None:
        """Draw a box, filled, framed or both."""
        canvas = self.canvas
        if fill:
            canvas.setFillColor(fill)
        if stroke:
            canvas.setStrokeColor(stroke)
            canvas.setLineWidth(weight)
        canvas.rect(
            self._x(box.x),
            self._y(box.bottom),
            box.width * PT,
            box.height * PT,
            stroke=int(bool(stroke)),
            fill=int(bool(fill)),
        )

    def hatch(self, box: Box, *, gap: float = 0.9, weight: float = 0.4, tone: str = "") -> None:
        """Fill a box with slanting lines that rise to the right, `gap` mm apart along its edge."""
        canvas = self.canvas
        canvas.saveState()
        path = canvas.beginPath()
        path.rect(self._x(box.x), self._y(box.bottom), box.width * PT, box.height * PT)
        canvas.clipPath(path, stroke=0, fill=0)
        canvas.setLineWidth(weight)
        canvas.setStrokeColor(tone or self.palette.ink)
        strokes = []
        # lines start on a grid of the page, so that neighbouring boxes join
        x = (box.x - box.height) // gap * gap
        while x < box.right:
            strokes.append(
                (self._x(x), self._y(box.bottom), self._x(x + box.height), self._y(box.y))
            )
            x += gap
        canvas.lines(strokes)
        canvas.restoreState()

    def polygon(
        self,
        points: tuple[tuple[float, float], ...],
        *,
        fill: str = "",
        stroke: str = "",
        weight: float = 0.5,
        closed: bool = True,
    ) -> None:
        """Draw straight lines from point to point, filled, stroked or both."""
        canvas = self.canvas
        path = canvas.beginPath()
        first, *rest = points
        path.moveTo(self._x(first[0]), self._y(first[1]))
        for x, y in rest:
            path.lineTo(self._x(x), self._y(y))
        if closed:
            path.close()
        if fill:
            canvas.setFillColor(fill)
        if stroke:
            canvas.setStrokeColor(stroke)
            canvas.setLineWidth(weight)
        canvas.drawPath(path, stroke=int(bool(stroke)), fill=int(bool(fill)))

    def disc(self, x: float, y: float, radius: float, *, fill: str = "", stroke: str = "") -> None:
        """Draw a disc or a ring around a point."""
        canvas = self.canvas
        if fill:
            canvas.setFillColor(fill)
        if stroke:
            canvas.setStrokeColor(stroke)
            canvas.setLineWidth(0.6)
        canvas.circle(
            self._x(x), self._y(y), radius * PT, stroke=int(bool(stroke)), fill=int(bool(fill))
        )

    # -- places ----------------------------------------------------------------------------

    def link(self, box: Box, to: str) -> None:
        """Make a box lead to the page with the bookmark `to`."""
        self.canvas.linkRect(
            "",
            to,
            (self._x(box.x), self._y(box.bottom), self._x(box.right), self._y(box.y)),
            Border="[0 0 0]",
        )


def bold(style: Style) -> Style:
    """The bold companion of a style."""
    face = {Face.SANS: Face.BOLD, Face.SERIF: Face.SERIF_BOLD}.get(style.face, style.face)
    return Style(face, style.size, style.lead)
